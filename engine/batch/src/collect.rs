//! From the events of one game to its metrics.
//!
//! Each accumulator counts what belongs together, in whole numbers, and says in its own file what it
//! counts, in what unit and range, and whose measure it is. The collector tells them the events they
//! count and has them put down their values when the game is over.

mod actor;
mod acts;
mod armour;
mod arrivals;
mod assaults;
mod batteries;
mod cards;
mod chance;
mod clock;
mod hidden;
mod lead;
mod men;
mod outcome;
mod sheet;
mod suspense;
#[cfg(test)]
mod tests;
mod unit_turns;

use ruleshift_game::{Event, Observer, State, Table};
use ruleshift_record::{Timing, Values};

use acts::Acts;
use armour::Armour;
use arrivals::Arrivals;
use assaults::Assaults;
use batteries::Batteries;
use cards::Cards;
use clock::Clock;
use hidden::Hidden;
use lead::Lead;
use men::Men;
use sheet::{End, Sheet};
use suspense::Suspense;
use unit_turns::UnitTurns;

pub use chance::{CERTAIN, attacker_chance};

/// Collects the metrics of one game; made anew for each.
#[derive(Clone)]
pub struct Collector<'a> {
    table: Table<'a>,
    acts: Acts,
    armour: Armour,
    arrivals: Arrivals,
    assaults: Assaults,
    batteries: Batteries,
    cards: Cards,
    clock: Clock<'a>,
    hidden: Hidden,
    lead: Lead,
    men: Men,
    suspense: Suspense,
    unit_turns: UnitTurns,
    sheet: Sheet,
}

impl<'a> Collector<'a> {
    /// A collector for a game on `table`, with times by `timing`.
    pub fn new(timing: &'a Timing, table: Table<'a>) -> Collector<'a> {
        Collector {
            table,
            acts: Acts::default(),
            armour: Armour::default(),
            arrivals: Arrivals::default(),
            assaults: Assaults::default(),
            batteries: Batteries::default(),
            cards: Cards::default(),
            clock: Clock::new(timing),
            hidden: Hidden::default(),
            lead: Lead::NONE,
            men: Men::default(),
            suspense: Suspense::NONE,
            unit_turns: UnitTurns::NONE,
            sheet: Sheet::EMPTY,
        }
    }

    /// The metrics, once the game has ended.
    pub fn values(&self) -> &Values {
        &self.sheet.0
    }

    /// The attacker's points less the defender's at the end of each turn, once the game has ended.
    pub fn margins(&self) -> &[i16] {
        self.lead.margins()
    }

    /// Tells each event to those that count it: asking all of them each time costs several times as
    /// much.
    fn hear(&mut self, event: &Event, state: &State) {
        match *event {
            Event::CardDrawn { card } => {
                if let Some(side) = actor::acts_on(card, state) {
                    self.cards.drawn(side);
                }
            }
            Event::MarkerMoved { .. }
            | Event::MarkerRevealed { .. }
            | Event::Searched { .. }
            | Event::TurnStarted { .. } => self.hidden.event(event, state),
            Event::Fired { .. } | Event::Shelled { .. } => {
                self.men.event(event, state);
                self.arrivals.event(event, state);
            }
            Event::GunFired { .. } => {
                self.men.event(event, state);
                self.arrivals.event(event, state);
                self.armour.event(event, state);
            }
            Event::AssaultFought { .. } => {
                self.men.event(event, state);
                self.arrivals.event(event, state);
                self.assaults.event(event, state);
            }
            Event::MenLost { .. } | Event::MenChanged { .. } => self.men.event(event, state),
            Event::Captured { .. } => {
                self.men.event(event, state);
                self.assaults.event(event, state);
            }
            Event::MineStruck { .. } => {
                self.men.event(event, state);
                self.armour.event(event, state);
            }
            Event::UnitBroke { .. } => {
                self.armour.event(event, state);
                self.assaults.event(event, state);
                self.unit_turns.event(event, state, self.table.rules);
            }
            _ => self.hear_more(event, state),
        }
    }

    fn hear_more(&mut self, event: &Event, state: &State) {
        match *event {
            Event::PinsAdded { .. } | Event::Rallied { .. } => {
                self.unit_turns.event(event, state, self.table.rules);
            }
            Event::TurnEnded { .. } => {
                self.unit_turns.event(event, state, self.table.rules);
                self.suspense.turn_end(state, &self.table);
            }
            Event::Charged { .. } | Event::UnitLost { .. } | Event::FellBack { .. } => {
                self.assaults.event(event, state);
            }
            Event::ArmourStruck { .. } => {
                self.men.event(event, state);
                self.armour.event(event, state);
            }
            Event::VehicleDamaged { .. } | Event::Bogged { .. } => self.armour.event(event, state),
            Event::BatteryFired { .. } => self.batteries.event(event),
            Event::ReserveTested { .. } | Event::ReserveCalled { .. } | Event::UnitLeft { .. } => {
                self.arrivals.event(event, state);
            }
            Event::Scored { .. } => self.lead.event(event, state),
            _ => {}
        }
    }

    fn report(&mut self, end: &End, state: &State) {
        let to = &mut self.sheet;
        outcome::report(end, to);
        self.acts.report(end, to);
        self.armour.report(to);
        self.arrivals.report(end, state, to);
        self.assaults.report(to);
        self.batteries.report(to);
        self.cards.report(end, to);
        self.clock.report(end, self.cards.count(), self.acts.actions().0.iter().sum(), to);
        self.hidden.report(to);
        self.lead.report(end, to);
        self.men.report(end, state, to);
        self.suspense.report(end, to);
        self.unit_turns.report(to);
    }
}

impl Observer for Collector<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        // The clock first: whose action it is counts on the card that is being played.
        self.clock.event(event, state);
        if let Some(side) = self.acts.event(event, state) {
            self.clock.action(side);
        }
        self.hear(event, state);
        if let Event::GameEnded { winner, margin, cause, dice, throws, decisions } = *event {
            let turns = state.turn();
            let end = End { winner, margin, cause, turns, dice, throws, decisions };
            self.report(&end, state);
        }
    }
}
