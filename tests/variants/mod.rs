//! The shipped house rules in play: what each does, and what its author expected of it.
//!
//! `RULESHIFT_BLESS=1 cargo test -p ruleshift-tests variants` writes the measured tables of
//! `variants/README.md`.

mod claims;
mod measured;
mod page;
mod play;

use claims::CLAIMS;
use measured::{compared, measured, names};
use ruleshift_record::{Metric, MetricShift};

#[test]
fn every_variant_has_its_expectation() {
    assert_eq!(
        CLAIMS.iter().map(|(name, _)| *name).collect::<Vec<_>>(),
        names().collect::<Vec<_>>()
    );
    assert!(CLAIMS.iter().all(|(_, claims)| !claims.is_empty()));
}

#[test]
fn every_variant_changes_games() {
    let measured = measured();
    let base = measured.digests(0);
    for (n, name) in names().enumerate() {
        let changed = measured.digests(n + 1);
        assert_eq!(base.len(), changed.len(), "{name}: all games were played");
        assert!(base.iter().zip(&changed).any(|(base, changed)| base != changed), "{name}");
    }
}

/// The page says how to get one row. This one pays otherwise for ground, so its arm shares nothing
/// with the others.
#[test]
fn a_variant_alone_gives_its_row() {
    let name = "heavy-going";
    let (alone, all) = (compared(&[name]), measured());
    let arm = names().position(|n| n == name).unwrap() + 1;
    assert_eq!(alone.digests(1), all.digests(arm));
    for shift in &alone.shifts {
        let same = all.shift(name, Metric::by_name(&shift.metric).unwrap());
        let ends = |s: &MetricShift| [s.shift, s.low, s.high].map(f64::to_bits);
        assert_eq!(ends(shift), ends(same), "{}", shift.metric);
    }
}
