//! From the events of one game to its metrics.

use ruleshift_game::limits::{MAX_TURNS, MAX_UNITS};
use ruleshift_game::{Card, EndCause, Event, Observer, RevealCause, Side, State};
use ruleshift_record::{Metric, Timing, Values};

/// Collects the metrics of one game; made anew for each.
#[derive(Clone)]
pub struct Collector<'a> {
    timing: &'a Timing,
    values: Values,
    cards: u32,
    unit_turns: u32,
    idle: u32,
    suppressed: u32,
    pins: u32,
    waits: [u8; MAX_UNITS],
    card_runs: [u32; 2],
    revealed: [u32; 4],
    /// Sign of the attacker's lead after each turn.
    leads: [i8; MAX_TURNS as usize + 1],
    first_shot: Option<u16>,
    /// Judges suppression as the rules of the game do.
    rules: &'a ruleshift_game::Rules,
}

impl<'a> Collector<'a> {
    /// A collector for a game under `rules`.
    pub fn new(timing: &'a Timing, rules: &'a ruleshift_game::Rules) -> Collector<'a> {
        Collector {
            timing,
            rules,
            values: [0.0; Metric::ALL.len()],
            cards: 0,
            unit_turns: 0,
            idle: 0,
            suppressed: 0,
            pins: 0,
            waits: [0; MAX_UNITS],
            card_runs: [0; 2],
            revealed: [0; 4],
            leads: [0; MAX_TURNS as usize + 1],
            first_shot: None,
        }
    }

    /// The metrics, once the game has ended.
    pub fn values(&self) -> &Values {
        &self.values
    }

    fn set(&mut self, metric: Metric, value: f64) {
        self.values[metric as usize] = value;
    }

    fn add(&mut self, metric: Metric, value: u32) {
        self.values[metric as usize] += f64::from(value);
    }

    fn card(&mut self, card: Card, state: &State) {
        let owner = match card {
            Card::TurnEnd(_) | Card::Shortage(..) => return,
            Card::Marker(side, _) => side,
            Card::Battery(id, _) => state.batteries()[id as usize].side,
            Card::Group(group, _) => state.groups()[group as usize].side,
            Card::Leader(unit, _) => state.units()[unit as usize].side,
        };
        self.cards += 1;
        self.card_runs[owner as usize] = 0;
        let run = &mut self.card_runs[owner.other() as usize];
        *run += 1;
        let longest = self.values[Metric::PlayerWait as usize].max(f64::from(*run));
        self.set(Metric::PlayerWait, longest);
    }

    fn turn_end(&mut self, state: &State) {
        for (id, unit) in state.on_table() {
            let idle = !unit.activated && state.groups()[unit.group as usize].used == 0;
            self.unit_turns += 1;
            self.idle += u32::from(idle);
            self.pins += u32::from(unit.pins);
            self.suppressed += u32::from(unit.suppressed(self.rules));
            let wait = &mut self.waits[id as usize];
            *wait = if idle { *wait + 1 } else { 0 };
            let longest = self.values[Metric::LongestWait as usize].max(f64::from(*wait));
            self.set(Metric::LongestWait, longest);
        }
    }

    fn game_end(&mut self, winner: Option<Side>, cause: EndCause, state: &State) {
        let turns = state.turn();
        self.set(Metric::Turns, turns.into());
        self.set(Metric::AttackerWins, flag(winner == Some(Side::Attacker)));
        self.set(Metric::Drawn, flag(winner.is_none()));
        self.set(Metric::EndedByBreak, flag(cause == EndCause::SideBroke));
        self.set(Metric::FirstContact, self.first_shot.unwrap_or(turns + 1).into());
        self.losses(winner, state);
        self.lead(winner, turns);
        self.rates(turns);
        self.time(turns);
    }

    fn losses(&mut self, winner: Option<Side>, state: &State) {
        let share = |side| {
            let (lost, first) = state.losses(side);
            ratio(lost, first)
        };
        let (attacker, defender) = (share(Side::Attacker), share(Side::Defender));
        self.set(Metric::AttackerLosses, attacker);
        self.set(Metric::DefenderLosses, defender);
        let (won, lost) = match winner {
            Some(Side::Attacker) => (attacker, defender),
            Some(Side::Defender) => (defender, attacker),
            None => ((attacker + defender) / 2.0, (attacker + defender) / 2.0),
        };
        self.set(Metric::WinnerLosses, won);
        self.set(Metric::LoserLosses, lost);
    }

    /// Who led when: changes, half time, the turn of no return.
    fn lead(&mut self, winner: Option<Side>, turns: u16) {
        let leads = &self.leads[1..=turns as usize];
        let mut changes = 0;
        let mut last = 0;
        for &lead in leads.iter().filter(|&&lead| lead != 0) {
            changes += u32::from(last != 0 && lead != last);
            last = lead;
        }
        let sign = winner.map_or(0, |side| if side == Side::Attacker { 1 } else { -1 });
        let not_winner = leads.iter().rposition(|&lead| sign == 0 || lead != sign);
        let no_return = not_winner.map_or(0.0, |turn| ratio(turn as u32 + 1, turns.into()));
        let half = self.leads[(turns / 2).max(1) as usize];
        self.set(Metric::LeadChanges, changes.into());
        self.set(Metric::NoReturn, no_return);
        self.set(Metric::HalfLeaderWins, flag(sign != 0 && half == sign));
    }

    fn rates(&mut self, turns: u16) {
        let revealed = self.revealed.iter().sum();
        let spotted = self.revealed[RevealCause::Spotted as usize]
            + self.revealed[RevealCause::PlainSight as usize];
        self.set(Metric::IdleUnits, ratio(self.idle, self.unit_turns));
        self.set(Metric::MeanPins, ratio(self.pins, self.unit_turns));
        self.set(Metric::SuppressedUnits, ratio(self.suppressed, self.unit_turns));
        self.set(Metric::CardsPerTurn, ratio(self.cards, turns.into()));
        self.set(Metric::RevealedBySpotting, ratio(spotted, revealed));
        self.set(
            Metric::RevealedByContact,
            ratio(self.revealed[RevealCause::Contact as usize], revealed),
        );
        self.set(
            Metric::RevealedByFire,
            ratio(self.revealed[RevealCause::OpenedFire as usize], revealed),
        );
    }

    fn time(&mut self, turns: u16) {
        let seconds = f64::from(turns) * self.timing.turn
            + f64::from(self.cards) * self.timing.card
            + self.values[Metric::Actions as usize] * self.timing.action
            + self.values[Metric::Minutes as usize] * self.timing.throw
            + self.values[Metric::Decisions as usize] * self.timing.decision;
        self.set(Metric::Minutes, millionths(seconds / 60.0));
    }
}

impl Observer for Collector<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::CardDrawn { card } => self.card(card, state),
            Event::MarkerRevealed { cause, .. } => self.revealed[cause as usize] += 1,
            Event::MarkerMoved { .. } | Event::UnitMoved { .. } | Event::SpotTried { .. } => {
                self.add(Metric::Actions, 1);
            }
            Event::Fired { late, blast, .. } => {
                self.first_shot.get_or_insert(state.turn());
                if !blast {
                    self.add(if late { Metric::LateShots } else { Metric::ShotsTaken }, 1);
                    self.add(Metric::Actions, u32::from(!late));
                }
            }
            Event::MenLost { men, .. } => self.add(Metric::MenLost, men.into()),
            Event::PinsAdded { pins, .. } => self.add(Metric::PinsGiven, pins.into()),
            Event::UnitBroke { .. } => self.add(Metric::UnitsBroken, 1),
            Event::Rallied { leader, .. } => {
                self.add(Metric::Rallies, 1);
                self.add(Metric::Actions, u32::from(leader.is_none()));
            }
            Event::Scored { attacker, defender } => {
                self.leads[state.turn() as usize] = (attacker - defender).signum() as i8;
            }
            Event::TurnEnded { .. } => self.turn_end(state),
            Event::GameEnded { winner, margin, cause, dice, throws, decisions } => {
                self.set(Metric::Margin, margin.into());
                self.set(Metric::Dice, dice.into());
                self.set(Metric::Decisions, decisions.into());
                // Throws are only needed for the time, which takes their place.
                self.set(Metric::Minutes, throws.into());
                self.game_end(winner, cause, state);
            }
            _ => {}
        }
    }
}

fn flag(value: bool) -> f64 {
    f64::from(u8::from(value))
}

fn ratio(part: u32, whole: u32) -> f64 {
    if whole == 0 { 0.0 } else { millionths(f64::from(part) / f64::from(whole)) }
}

/// Rounded to millionths: finer than any reader needs, and half as long in a file.
fn millionths(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
