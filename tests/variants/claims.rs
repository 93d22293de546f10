//! What the author of each shipped variant expected, as directions of metrics.
//!
//! The words stand in the scripts, under `expect`; here is what can be measured of them.

use ruleshift_record::Metric;

use Metric::{
    Actions, AttackerLosses, AttackerWins, CardsPerTurn, EndedByObjective, FirstContact, IdleUnits,
    MeanPins, MenLost, MenLostToBatteries, Minutes, PinsGiven, Rallies, RevealedByFire,
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
    ("command-radius", &[(AttackerWins, Down)]),
    ("creep-then-fire", &[(RevealedByFire, Up), (AttackerWins, Up)]),
    ("dusk", &[(ShotsTaken, Down), (AttackerWins, Up)]),
    ("early-suppression", &[(SuppressedUnits, Up), (ShotsTaken, Down), (AttackerWins, Down)]),
    ("fire-on-the-move", &[(AttackerWins, Up), (Turns, Down)]),
    ("first-of-two-turn-end-cards", &[(IdleUnits, Up), (Turns, Up), (AttackerWins, Down)]),
    ("forced-march", &[(FirstContact, Down), (AttackerWins, Up)]),
    ("half-late-fire", &[(PinsGiven, Down), (AttackerWins, Up)]),
    ("halved-pins", &[(SuppressedUnits, Down), (UnitsBroken, Down), (Turns, Up)]),
    ("heavy-going", &[(AttackerWins, Down), (Turns, Up)]),
    ("held-fire", &[(AttackerLosses, Up), (AttackerWins, Down)]),
    ("kinder-armour", &[(VehiclesLost, Down), (AttackerWins, Up)]),
    ("kinder-pin-recovery", &[(MeanPins, Down), (Turns, Up)]),
    ("leaders-heard-farther", &[(MeanPins, Down), (AttackerWins, Up)]),
    ("no-dummies", &[(Minutes, Down), (AttackerWins, Up)]),
    ("no-late-fire", &[(MenLost, Down), (Turns, Up), (AttackerWins, Up)]),
    ("pinned-men-do-less", &[(Actions, Down), (ShotsTaken, Down), (AttackerWins, Down)]),
    ("quick-feet", &[(Turns, Down), (AttackerWins, Up)]),
    ("recovery-under-fire", &[(MeanPins, Down), (UnitsBroken, Down), (Turns, Up)]),
    ("rest-in-cover", &[(AttackerWins, Down)]),
    ("safe-leaders", &[(Rallies, Up), (Turns, Up)]),
    ("sharp-eyes", &[(RevealedBySpotting, Up), (AttackerWins, Up)]),
    ("shells-on-target", &[(MenLostToBatteries, Up), (AttackerWins, Up)]),
    ("short-evening", &[(EndedByObjective, Up), (Minutes, Down), (AttackerWins, Down)]),
    ("steady-nerves", &[(MeanPins, Down), (AttackerWins, Up)]),
    ("three-marker-actions", &[(Turns, Up), (AttackerWins, Down)]),
    ("tougher-sides", &[(EndedByObjective, Up), (MenLost, Up), (Minutes, Up), (AttackerWins, Up)]),
    ("two-turn-end-cards", &[(CardsPerTurn, Up), (IdleUnits, Down), (AttackerWins, Up)]),
];
