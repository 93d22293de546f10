//! The run behind the measured tables: every shipped variant against the base rules.

use std::sync::OnceLock;

use ruleshift_hooks::SHIPPED;
use ruleshift_record::{GameRow, Metric, MetricShift};

use crate::support::Run;

/// Games in each arm, and the seed.
pub(super) const GAMES: u32 = 640;
pub(super) const SEED: u64 = 1944;

/// What is kept of the run.
pub(super) struct Measured {
    pub(super) shifts: Vec<MetricShift>,
    pub(super) games: Vec<GameRow>,
}

/// Names of the shipped variants, without the template: those of the arms after the first.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    SHIPPED.iter().map(|script| script.name).filter(|&name| name != "base")
}

/// Compares these variants with the base rules through the program.
pub(super) fn compared(names: &[&str]) -> Measured {
    let run = Run::fine(&format!("{} --games {GAMES} --seed {SEED}", names.join(" ")));
    Measured { shifts: run.summary().metrics, games: run.games() }
}

/// All of them in one run, which plays the games under the base rules only once.
pub(super) fn measured() -> &'static Measured {
    static MEASURED: OnceLock<Measured> = OnceLock::new();
    MEASURED.get_or_init(|| compared(&names().collect::<Vec<_>>()))
}

impl Measured {
    /// The shift of a metric under a variant.
    pub(super) fn shift(&self, variant: &str, metric: Metric) -> &MetricShift {
        let wanted =
            |shift: &&MetricShift| shift.arm == variant && shift.metric == metric.spec().name;
        self.shifts.iter().find(wanted).unwrap_or_else(|| panic!("{variant} was not played"))
    }

    /// Digests of the games of an arm, the first being that of the base rules.
    pub(super) fn digests(&self, arm: usize) -> Vec<u64> {
        self.games.iter().filter(|game| game.arm == arm).map(|game| game.digest).collect()
    }
}
