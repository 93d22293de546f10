//! Drama and late uncertainty, by the estimated chance to win.

use ruleshift_game::limits::MAX_TURNS;
use ruleshift_game::{Side, State, Table};
use ruleshift_record::Metric;

use super::chance::{CERTAIN, attacker_chance};
use super::sheet::{End, Sheet};

/// How a game feels by the chances at the end of each turn but the last, when all is over.
///
/// - Drama: the mean, over turn ends at which the eventual winner's chance is the smaller, of the root
///   of the leader's chance less the winner's; a share, 0 to 1: 0 when the winner was never behind,
///   and in draws.
/// - Late uncertainty: the mean of 1 less the difference of the two chances, each turn end weighed by
///   its number; a share, 0 to 1: 1 while all is open, 0 when one side is certain, and in games of
///   one turn. The weights are our choice; Browne measures late uncertainty in another form.
///
/// Sources: C. Browne, Automatic Generation and Evaluation of Recombination Games, thesis, Queensland
/// University of Technology, 2008; C. Browne and F. Maire, Evolutionary Game Design, IEEE TCIAIG 2
/// (2010), 1-16. Both from memory. The chances are those of [`attacker_chance`], where Browne has the
/// estimates of a computer player.
#[derive(Clone)]
pub(super) struct Suspense {
    /// The attacker's chance after each turn, in parts of [`CERTAIN`].
    chances: [u16; MAX_TURNS as usize + 1],
}

impl Suspense {
    pub(super) const NONE: Suspense = Suspense { chances: [0; MAX_TURNS as usize + 1] };

    pub(super) fn turn_end(&mut self, state: &State, table: &Table<'_>) {
        self.chances[state.turn() as usize] = attacker_chance(state, table) as u16;
    }

    pub(super) fn report(&self, end: &End, to: &mut Sheet) {
        let before_last = self.chances.get(1..end.turns as usize).unwrap_or_default();
        to.value(Metric::Drama, drama(before_last, end.winner));
        to.value(Metric::LateUncertainty, late_uncertainty(before_last));
    }
}

/// By how much one chance is the larger, in parts of [`CERTAIN`]: the attacker's if above 0.
fn ahead(chance: u16) -> i32 {
    2 * i32::from(chance) - CERTAIN as i32
}

fn drama(chances: &[u16], winner: Option<Side>) -> f64 {
    let sign = match winner {
        Some(Side::Attacker) => 1,
        Some(Side::Defender) => -1,
        None => return 0.0,
    };
    let behind = chances.iter().map(|&chance| -sign * ahead(chance)).filter(|&by| by > 0);
    let (count, sum) = behind.fold((0, 0.0), |(count, sum), by| {
        (count + 1, sum + (f64::from(by) / f64::from(CERTAIN)).sqrt())
    });
    if count == 0 { 0.0 } else { sum / f64::from(count) }
}

fn late_uncertainty(chances: &[u16]) -> f64 {
    let (mut weights, mut open) = (0, 0);
    for (turn, &chance) in (1..).zip(chances) {
        weights += turn;
        open += turn * (CERTAIN - ahead(chance).unsigned_abs());
    }
    if weights == 0 { 0.0 } else { f64::from(open) / f64::from(weights * CERTAIN) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::collect::sheet::end;

    /// Drama and late uncertainty of a game with these chances after its turns.
    fn of(chances: &[u16], winner: Option<Side>) -> (f64, f64) {
        let (mut suspense, mut to) = (Suspense::NONE, Sheet::EMPTY);
        suspense.chances[1..=chances.len()].copy_from_slice(chances);
        suspense.report(&end(winner, chances.len() as u16), &mut to);
        (to.0[Metric::Drama as usize], to.0[Metric::LateUncertainty as usize])
    }

    #[test]
    fn drama_is_how_far_behind_the_winner_was() {
        let chances = [3_200, 6_000, 4_550, 9_900];
        // Behind by 0.36 and by 0.09: roots 0.6 and 0.3.
        assert_eq!(of(&chances, Some(Side::Attacker)).0, 0.45);
        // Behind by 0.2, once; the last turn end does not count.
        assert_eq!(of(&chances, Some(Side::Defender)).0, 0.447_214);
        assert_eq!(of(&chances, None).0, 0.0);
        assert_eq!(of(&[5_000, 5_000, 0], Some(Side::Attacker)).0, 0.0);
        assert_eq!(of(&[0, 0, 0], Some(Side::Attacker)).0, 1.0);
    }

    #[test]
    fn uncertainty_weighs_later_turns_more() {
        let of = |chances: &[u16]| of(chances, Some(Side::Attacker)).1;
        // 0.6 once and 0.8 twice, over 3.
        assert_eq!(of(&[3_000, 6_000, 10_000]), 0.733_333);
        assert_eq!((of(&[5_000; 6]), of(&[10_000; 6]), of(&[5_000])), (1.0, 0.0, 0.0));
        assert!(of(&[9_000, 5_000, 0]) > of(&[5_000, 9_000, 0]));
    }
}
