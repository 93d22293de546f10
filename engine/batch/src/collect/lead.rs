//! Who leads on points, and until when.

use ruleshift_game::limits::MAX_TURNS;
use ruleshift_game::{Event, Side, State};
use ruleshift_record::Metric;

use super::sheet::{End, Sheet};

/// The lead on points, turn end by turn end, and at the very end the winner's.
///
/// - Lead changes: times that the side ahead is another than the last one ahead; a count, from 0 to
///   turns played. Browne (thesis, 2008) divides it by the moves less one; here it is left as a
///   count, since house rules also change how many turns there are.
/// - Turn of no return: the turn at whose end the winner was for the last time not ahead, over turns
///   played; a share, 0 to 1, and 1 in draws. Decisiveness is the part of a game played before its
///   decision: Browne (thesis, 2008).
/// - Leader at half time wins: whether the side ahead at the end of turn T / 2, rounded down, at
///   least the first, won; 1 or 0.
///
/// Sources: C. Browne, Automatic Generation and Evaluation of Recombination Games, thesis, Queensland
/// University of Technology, 2008; C. Browne and F. Maire, Evolutionary Game Design, IEEE TCIAIG 2
/// (2010), 1-16. Both from memory.
#[derive(Clone)]
pub(super) struct Lead {
    /// The attacker's points less the defender's after each turn.
    margins: [i16; MAX_TURNS as usize + 1],
    /// Turns played, once the game has ended.
    turns: usize,
}

impl Lead {
    pub(super) const NONE: Lead = Lead { margins: [0; MAX_TURNS as usize + 1], turns: 0 };

    pub(super) fn event(&mut self, event: &Event, state: &State) {
        if let Event::Scored { attacker, defender } = *event {
            self.note(state.turn(), attacker - defender);
        }
    }

    fn note(&mut self, turn: u16, ahead: i16) {
        self.margins[turn as usize] = ahead;
    }

    /// The attacker's points less the defender's at the end of each turn played, the last one with
    /// all that counts at the end, once the game has ended.
    pub(super) fn margins(&self) -> &[i16] {
        &self.margins[1..=self.turns]
    }

    pub(super) fn report(&mut self, end: &End, to: &mut Sheet) {
        self.turns = end.turns.into();
        let signs = self.margins.map(i16::signum);
        let half = signs[(end.turns / 2).max(1) as usize];
        let signs = &signs[1..=self.turns];
        let winner = match end.winner {
            Some(Side::Attacker) => 1,
            Some(Side::Defender) => -1,
            None => 0,
        };
        let mut changes = 0;
        let mut last = 0;
        for &sign in signs.iter().chain([&winner]).filter(|&&sign| sign != 0) {
            changes += u32::from(last != 0 && sign != last);
            last = sign;
        }
        let not_ahead = signs.iter().rposition(|&sign| winner == 0 || sign != winner);
        let no_return = not_ahead.map_or(0, |turn| turn as u32 + 1);
        to.count(Metric::LeadChanges, changes);
        to.ratio(Metric::NoReturn, no_return, end.turns.into());
        to.flag(Metric::HalfLeaderWins, winner != 0 && half == winner);
        self.margins[self.turns] = end.margin;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::collect::sheet::end;

    fn noted(leads: &[i16]) -> Lead {
        let mut lead = Lead::NONE;
        (1..).zip(leads).for_each(|(turn, &ahead)| lead.note(turn, ahead));
        lead
    }

    /// Lead changes, turn of no return, and whether the leader at half time won.
    fn of(leads: &[i16], winner: Option<Side>) -> [f64; 3] {
        let (mut lead, mut to) = (noted(leads), Sheet::EMPTY);
        lead.report(&end(winner, leads.len() as u16), &mut to);
        [Metric::LeadChanges, Metric::NoReturn, Metric::HalfLeaderWins].map(|m| to.0[m as usize])
    }

    #[test]
    fn a_lead_changes_when_another_side_is_ahead_than_the_last_one() {
        let [attacker, defender] = [Some(Side::Attacker), Some(Side::Defender)];
        assert_eq!(of(&[1, 2, 3, 4], attacker), [0.0, 0.0, 1.0]);
        assert_eq!(of(&[-1, 0, 2, -3, 5], attacker), [3.0, 0.8, 0.0]);
        // Level turns change nothing, and the winner is ahead at the very end.
        assert_eq!(of(&[0, 1, 0, 1], defender), [1.0, 1.0, 0.0]);
        assert_eq!(of(&[-1, -1, 0, 0], defender), [0.0, 1.0, 1.0]);
        assert_eq!(of(&[1, -1], None), [1.0, 1.0, 0.0]);
        assert_eq!(of(&[-4], defender), [0.0, 0.0, 1.0]);
    }

    #[test]
    fn the_last_margin_is_that_of_the_whole_game() {
        let mut lead = noted(&[0, -2, -2]);
        assert!(lead.margins().is_empty(), "not before the game has ended");
        let mut to = Sheet::EMPTY;
        lead.report(&End { margin: 7, ..end(Some(Side::Attacker), 3) }, &mut to);
        assert_eq!(lead.margins(), [0, -2, 7]);
    }
}
