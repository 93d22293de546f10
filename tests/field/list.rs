//! The list of outside checks: what is compared, how hard, and where; with the reason where a row
//! does not apply to the game.

use Form::{Direction, Exact, Practice, Range};
use Home::{Absent, Elsewhere, Shown, Tested};

/// How hard a row is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// Holds within sampling error, or fails.
    Exact,
    /// Has a sign; fails when its source was read or computed, and is shown otherwise.
    Direction,
    /// Shown with a range.
    Range,
    /// What clubs do: shown.
    Practice,
}

impl Form {
    pub(super) const fn letter(self) -> char {
        match self {
            Exact => 'E',
            Direction => 'D',
            Range => 'R',
            Practice => 'T',
        }
    }
}

/// Where a row is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Home {
    /// In the calibration table only.
    Shown,
    /// In the calibration table, and by a test of this file of `tests`.
    Tested(&'static str),
    /// By a test of this file of `tests`; there is no figure to show.
    Elsewhere(&'static str),
    /// Nowhere, for this reason.
    Absent(&'static str),
}

/// One row: number, how hard, what, where.
pub(super) struct Check(pub(super) u8, pub(super) Form, pub(super) &'static str, pub(super) Home);

pub(super) const CHECKS: [Check; 55] = [
    Check(1, Exact, "one die: mean 3.5, deviation 1.708", Tested("dice.rs")),
    Check(2, Exact, "two dice: mean 7, deviation 2.415", Tested("dice.rs")),
    Check(3, Exact, "chance that a card comes", Tested("deck.rs")),
    Check(4, Exact, "cards that come in a turn are uniform", Tested("deck.rs")),
    Check(5, Exact, "turns without a card", Tested("deck.rs")),
    Check(6, Exact, "idle in so many given turns", Tested("deck.rs")),
    Check(7, Exact, "like sides on like ground win alike", Tested("field/fairness.rs")),
    Check(8, Exact, "the same seed gives the same game", Tested("determinism.rs")),
    Check(9, Exact, "hits are binomial", Tested("dice.rs")),
    Check(10, Exact, "no card comes twice before the shuffle", Tested("deck.rs")),
    Check(11, Exact, "no player reads what is hidden", Elsewhere("players.rs")),
    Check(
        12,
        Exact,
        "scatter by the normal law",
        Absent("scatter is rolled, a way and two dice, and claims no normal law"),
    ),
    Check(13, Direction, "wins rise with the force ratio", Tested("field/forces.rs")),
    Check(14, Range, "attacker's wins at 1 : 1 to 2 : 1", Shown),
    Check(15, Range, "attacker's wins at 3 : 1", Shown),
    Check(16, Direction, "wins at 0.5 : 1 below 2 : 1", Tested("field/forces.rs")),
    Check(17, Direction, "losers lose the larger share", Tested("field/shipped.rs")),
    Check(18, Direction, "the smaller side loses the larger share", Tested("field/forces.rs")),
    Check(19, Direction, "losses fall from open to cover to dug in", Tested("field/fire.rs")),
    Check(20, Range, "losses in cover over the open", Shown),
    Check(21, Range, "losses to shells, dug in over the open", Shown),
    Check(22, Direction, "fire pins more than it kills", Tested("field/fire.rs")),
    Check(23, Direction, "pins come off faster without fire", Tested("field/will.rs")),
    Check(24, Direction, "leaders take pins off", Tested("field/will.rs")),
    Check(25, Direction, "flanks and the suppressed are beaten sooner", Tested("field/flanks.rs")),
    Check(26, Range, "games not ended by annihilation", Tested("field/measured.rs")),
    Check(27, Range, "loser's losses", Shown),
    Check(28, Range, "winner's losses", Shown),
    Check(29, Range, "spread of the loser's losses", Shown),
    Check(30, Direction, "sides break by chance, rising with losses", Tested("field/will.rs")),
    Check(31, Range, "small arms' share of the losses", Shown),
    Check(32, Direction, "it rises without batteries", Tested("field/batteries.rs")),
    Check(33, Direction, "under fire moves are shorter, at dusk sight is", Shown),
    Check(34, Range, "minutes that an action stands for", Shown),
    Check(35, Range, "turns to cross 48 in", Shown),
    Check(36, Range, "vehicles' speed over that of men", Shown),
    Check(37, Direction, "movement is seen", Tested("field/sighting.rs")),
    Check(38, Direction, "cover hides", Tested("field/sighting.rs")),
    Check(39, Direction, "hits fall with range", Shown),
    Check(40, Direction, "hand-held anti-tank range below a rifle's", Tested("field/armour.rs")),
    Check(41, Direction, "flanks easier than fronts, shot loses by range", Shown),
    Check(42, Range, "who goes through whose armour", Shown),
    Check(43, Range, "fires before the first that tells", Shown),
    Check(44, Range, "turns from call to effect", Shown),
    Check(45, Direction, "who weighs things beats chance", Tested("field/skill.rs")),
    Check(46, Range, "strongest doctrine against the weakest", Shown),
    Check(47, Range, "draws", Tested("field/measured.rs")),
    Check(48, Range, "lead changes", Tested("field/measured.rs")),
    Check(49, Range, "share of a game played when it is settled", Shown),
    Check(50, Range, "game refinement, root of options over length", Shown),
    Check(51, Practice, "minutes and turns of an evening", Shown),
    Check(52, Practice, "idle three turns running", Tested("field/crossing.rs")),
    Check(53, Practice, "longest run of the enemy", Shown),
    Check(54, Range, "share of leaders in a platoon", Shown),
    Check(55, Exact, "sizes of sections, platoons, companies", Tested("field/organisation.rs")),
];

/// The check of that number.
pub(super) fn check(number: u8) -> &'static Check {
    &CHECKS[usize::from(number) - 1]
}

/// Rows without a figure, a line each: those that do not apply, those that tests hold elsewhere.
pub(super) fn without_figure() -> [Vec<String>; 2] {
    let line = |check: &Check, why| format!("{:>3} {}: {why}", check.0, check.2);
    let absent = |check: &Check| match check.3 {
        Absent(reason) => Some(line(check, reason)),
        _ => None,
    };
    let elsewhere = |check: &Check| match check.3 {
        Elsewhere(file) => Some(line(check, file)),
        _ => None,
    };
    [CHECKS.iter().filter_map(absent).collect(), CHECKS.iter().filter_map(elsewhere).collect()]
}

#[test]
fn checks_are_numbered_and_their_tests_exist() {
    for (n, check) in CHECKS.iter().enumerate() {
        assert_eq!(usize::from(check.0), n + 1);
        if let Tested(file) | Elsewhere(file) = check.3 {
            let path = crate::support::repository::root().join("tests").join(file);
            assert!(path.is_file(), "row {}: {file}", check.0);
        }
    }
}
