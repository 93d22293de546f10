//! What the author of each shipped variant expected, as directions of metrics.
//!
//! The words stand in the scripts, under `expect`; here is what can be measured of them.

use ruleshift_record::Metric;

use Metric::{
    Actions, AttackerLosses, AttackerWins, CardsPerTurn, DefenderLosses, EndedByObjective,
    FirstContact, HalfLeaderWins, IdleUnits, LongestWait, Margin, MeanPins, MenLost,
    MenLostToBatteries, Minutes, PinsGiven, Rallies, ReservesArrived, RevealedByFire,
    RevealedBySpotting, ShotsTaken, SuppressedUnits, Turns, UnitsBroken, VehiclesLost,
};
use Way::{Down, Up};

/// Which way a metric was expected to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    Up,
    Down,
}

/// Metrics and ways of one variant, in the order of its words.
pub(super) type Claims = (&'static str, &'static [(Metric, Way)]);

/// All of them, in the order in which the program lists the variants.
pub(super) const CLAIMS: &[Claims] = &[
    ("ammunition-shortage", &[(Turns, Up), (AttackerWins, Down)]),
    ("attacker-has-the-initiative", &[(AttackerWins, Up), (IdleUnits, Down)]),
    ("command-post", &[(IdleUnits, Down), (Minutes, Up), (AttackerWins, Up)]),
    ("command-radius", &[(AttackerWins, Down)]),
    ("creep-then-fire", &[(RevealedByFire, Up), (AttackerWins, Up)]),
    ("dusk", &[(ShotsTaken, Down), (AttackerWins, Up)]),
    ("early-suppression", &[(SuppressedUnits, Up), (ShotsTaken, Down), (AttackerWins, Down)]),
    ("even-turns", &[(LongestWait, Down)]),
    ("fire-on-the-move", &[(AttackerWins, Up), (Turns, Down)]),
    ("first-of-two-turn-end-cards", &[(IdleUnits, Up), (Turns, Up), (AttackerWins, Down)]),
    ("forced-march", &[(FirstContact, Down), (AttackerWins, Up)]),
    ("fright-spreads", &[(UnitsBroken, Up), (Turns, Down), (HalfLeaderWins, Up)]),
    ("half-late-fire", &[(PinsGiven, Down), (AttackerWins, Up)]),
    ("halved-pins", &[(SuppressedUnits, Down), (UnitsBroken, Down), (Turns, Up)]),
    ("handicap", &[(AttackerWins, Down), (DefenderLosses, Up), (Turns, Up)]),
    ("heavy-going", &[(AttackerWins, Down), (Turns, Up)]),
    ("held-fire", &[(AttackerLosses, Up), (AttackerWins, Down)]),
    ("kinder-armour", &[(VehiclesLost, Down), (AttackerWins, Up)]),
    ("kinder-pin-recovery", &[(MeanPins, Down), (Turns, Up)]),
    ("leaders-heard-farther", &[(MeanPins, Down), (AttackerWins, Up)]),
    ("morning-mist", &[(ShotsTaken, Down), (FirstContact, Up), (AttackerWins, Up)]),
    ("no-dummies", &[(Minutes, Down), (AttackerWins, Up)]),
    ("no-early-turn-end", &[(CardsPerTurn, Up), (IdleUnits, Down), (AttackerWins, Up)]),
    ("no-late-fire", &[(MenLost, Down), (Turns, Up), (AttackerWins, Up)]),
    ("open-turn-end", &[(CardsPerTurn, Up), (IdleUnits, Down), (AttackerWins, Up)]),
    ("orders-gone-astray", &[(IdleUnits, Up), (Turns, Up), (AttackerWins, Down)]),
    ("pinned-men-do-less", &[(Actions, Down), (ShotsTaken, Down), (AttackerWins, Down)]),
    ("points-for-taking", &[(Margin, Up), (AttackerWins, Up)]),
    ("quick-feet", &[(Turns, Down), (AttackerWins, Up)]),
    ("recovery-under-fire", &[(MeanPins, Down), (UnitsBroken, Down), (Turns, Up)]),
    ("relief-by-card", &[(ReservesArrived, Down), (AttackerWins, Down)]),
    ("rest-in-cover", &[(AttackerWins, Down)]),
    ("runner", &[(MeanPins, Down), (Minutes, Up)]),
    ("safe-leaders", &[(Rallies, Up), (Turns, Up)]),
    ("sharp-eyes", &[(RevealedBySpotting, Up), (AttackerWins, Up)]),
    ("shells-on-target", &[(MenLostToBatteries, Up), (AttackerWins, Up)]),
    ("short-evening", &[(EndedByObjective, Up), (Minutes, Down), (AttackerWins, Down)]),
    ("sniper", &[(AttackerLosses, Up), (AttackerWins, Down)]),
    ("steady-nerves", &[(MeanPins, Down), (AttackerWins, Up)]),
    ("surprise", &[(AttackerWins, Up)]),
    ("three-marker-actions", &[(Turns, Up), (AttackerWins, Down)]),
    ("tired-men", &[(Actions, Down), (Turns, Up), (AttackerWins, Down)]),
    ("tougher-sides", &[(EndedByObjective, Up), (MenLost, Up), (Minutes, Up), (AttackerWins, Up)]),
    ("two-turn-end-cards", &[(CardsPerTurn, Up), (IdleUnits, Down), (AttackerWins, Up)]),
    ("walking-wounded", &[(Turns, Up), (AttackerWins, Down)]),
];
