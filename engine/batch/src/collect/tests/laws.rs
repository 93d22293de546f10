//! What holds of every game, whoever plays.

use ruleshift_record::{METRICS, Metric, Values};

use super::games::watch;
use super::of;

/// Sides, and the metric that has both together.
const SUMS: [(Metric, [Metric; 2]); 3] = [
    (Metric::Actions, [Metric::AttackerActions, Metric::DefenderActions]),
    (Metric::MenLost, [Metric::AttackerMenLost, Metric::DefenderMenLost]),
    (Metric::VehiclesLost, [Metric::AttackerVehiclesLost, Metric::DefenderVehiclesLost]),
];

fn holds(values: &Values) {
    for (&value, spec) in values.iter().zip(&METRICS) {
        assert!(value.is_finite(), "{}: {value}", spec.name);
        assert!(value >= 0.0 || spec.name == "margin", "{}: {value}", spec.name);
        assert!(value <= 1.0 || spec.unit != "share", "{}: {value}", spec.name);
    }
    let sum = |metrics: &[Metric]| metrics.iter().map(|&metric| of(values, metric)).sum::<f64>();
    for (all, sides) in SUMS {
        assert_eq!(sum(&sides), of(values, all), "{all:?}");
    }
    let time = [Metric::AttackerMinutes, Metric::DefenderMinutes, Metric::SharedMinutes];
    assert!((sum(&time) - of(values, Metric::Minutes)).abs() < 3e-6, "the evening is shared out");
    assert!(of(values, Metric::LongestWatch) <= sum(&time[..2]) + 1e-6);
    let revealed =
        sum(&[Metric::RevealedBySpotting, Metric::RevealedByContact, Metric::RevealedByFire]);
    assert!(revealed == 0.0 || (revealed - 1.0).abs() < 3e-6, "{revealed}");
    let ends = [Metric::EndedByBreak, Metric::EndedByAnnihilation, Metric::EndedByObjective];
    assert_eq!(sum(&ends), 1.0);
    assert!(sum(&[Metric::AttackerWins, Metric::Drawn]) <= 1.0);
    assert!(of(values, Metric::LongestWait) <= of(values, Metric::Turns));
    assert!(of(values, Metric::LeadChanges) <= of(values, Metric::Turns));
}

#[test]
fn shares_are_shares_and_sides_add_up() {
    let mut sums: Values = [0.0; Metric::ALL.len()];
    for name in ["chance", "steady"] {
        watch(name, |values, _| {
            holds(values);
            sums.iter_mut().zip(values).for_each(|(sum, value)| *sum += value);
        });
    }
    // The defender of this small fight has no vehicle.
    let sides = SUMS.iter().flat_map(|(_, sides)| *sides);
    let sides = sides.filter(|metric| *metric != Metric::DefenderVehiclesLost);
    let others = [Metric::LongestWatch, Metric::Drama, Metric::LateUncertainty];
    for metric in sides.chain(others) {
        assert!(sums[metric as usize] > 0.0, "{metric:?} never happened");
    }
}
