//! What is known only when the game is over: outcome, losses, who led when, rates, time.

use ruleshift_game::{EndCause, RevealCause, Side, State};
use ruleshift_record::Metric;

use super::Collector;
use super::weapons::FIRE;

impl Collector<'_> {
    pub(super) fn game_end(&mut self, winner: Option<Side>, cause: EndCause, state: &State) {
        let turns = state.turn();
        self.set(Metric::Turns, turns.into());
        self.set(Metric::AttackerWins, flag(winner == Some(Side::Attacker)));
        self.set(Metric::Drawn, flag(winner.is_none()));
        self.set(Metric::EndedByBreak, flag(cause == EndCause::SideBroke));
        self.set(Metric::EndedByAnnihilation, flag(cause == EndCause::NobodyLeft));
        self.set(Metric::EndedByObjective, flag(cause == EndCause::TurnLimit));
        self.set(Metric::FirstContact, self.first_contact.unwrap_or(turns + 1).into());
        self.losses(winner, state);
        self.lead(winner, turns);
        self.rates(turns);
        self.weapons();
        self.shares();
        self.reserves(turns, state);
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
        let sign = winner.map_or(0, |side| if side == Side::Attacker { 1 } else { -1 });
        let mut changes = 0;
        let mut last = 0;
        for &lead in leads.iter().chain([&sign]).filter(|&&lead| lead != 0) {
            changes += u32::from(last != 0 && lead != last);
            last = lead;
        }
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
        self.set(Metric::DugIn, ratio(self.dug_in, self.unit_turns));
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

    /// Shares of the men lost, by what took them.
    fn weapons(&mut self) {
        let men = |metric| self.get(metric) as u32;
        let fire = FIRE.iter().map(|&metric| men(metric)).sum();
        let small = men(Metric::MenLostToRifles) + men(Metric::MenLostToMachineGuns);
        let shells = men(Metric::MenLostToMortars) + men(Metric::MenLostToBatteries);
        let assault = ratio(men(Metric::MenLostToAssault), men(Metric::MenLost));
        self.set(Metric::SmallArmsShare, ratio(small, fire));
        self.set(Metric::ShellShare, ratio(shells, fire));
        self.set(Metric::AssaultShare, assault);
    }

    /// Counts of what succeeded become shares of what was tried.
    fn shares(&mut self) {
        let assaults = self.get(Metric::Assaults) as u32;
        for (metric, tried) in [
            (Metric::AssaultsWon, assaults),
            (Metric::GunHits, self.shots_at_armour),
            (Metric::ArmourPierced, self.strikes),
        ] {
            self.set(metric, ratio(self.get(metric) as u32, tried));
        }
    }

    fn reserves(&mut self, turns: u16, state: &State) {
        let waiting = state.groups().iter().filter(|group| group.due > 0).count() as u32;
        let sum = self.reserve_turns + waiting * u32::from(turns + 1);
        self.set(Metric::ReservesArrived, ratio(sum, self.reserves + waiting));
    }

    fn time(&mut self, turns: u16) {
        let seconds = f64::from(turns) * self.timing.turn
            + f64::from(self.cards) * self.timing.card
            + self.get(Metric::Actions) * self.timing.action
            + self.get(Metric::Minutes) * self.timing.throw
            + self.get(Metric::Decisions) * self.timing.decision;
        self.set(Metric::Minutes, millionths(seconds / 60.0));
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
