//! Timing in turn, round after round.

use std::time::Instant;

/// What was measured: by round, by work.
pub(crate) struct Rounds(Vec<Vec<f64>>);

impl Rounds {
    /// Does each of the works in turn, so many times. A work gives its own figure, a time or a ratio.
    pub(crate) fn of(count: usize, works: &mut [&mut dyn FnMut() -> f64]) -> Rounds {
        let mut round = || works.iter_mut().map(|work| work()).collect();
        Rounds((0..count).map(|_| round()).collect())
    }

    /// The median of a work.
    pub(crate) fn median(&self, work: usize) -> f64 {
        median(self.0.iter().map(|round| round[work]))
    }

    /// The least of a work: what it takes when nothing else disturbs it.
    pub(crate) fn least(&self, work: usize) -> f64 {
        self.0.iter().map(|round| round[work]).fold(f64::INFINITY, f64::min)
    }

    /// The median of one work divided by another of the same round.
    pub(crate) fn ratio(&self, above: usize, below: usize) -> f64 {
        median(self.0.iter().map(|round| round[above] / round[below]))
    }

    /// The median of a figure made of each round.
    pub(crate) fn each(&self, figure: impl Fn(&[f64]) -> f64) -> f64 {
        median(self.0.iter().map(|round| figure(round)))
    }
}

/// The middle one.
pub(crate) fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// Nanoseconds that some work takes.
pub(crate) fn nanos(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_nanos() as f64
}
