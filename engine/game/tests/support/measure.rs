//! Distances and ways measured anew, not by the engine.

use ruleshift_game::Cell;

/// Eighths of a turn from where somebody in `from` faces to where `to` lies: the angle in float,
/// rounded to the nearest eighth.
pub(crate) fn eighths(from: Cell, facing: u8, to: Cell) -> i32 {
    let apart = (way(from, to) - i32::from(facing)).rem_euclid(8);
    apart.min(8 - apart)
}

/// The eighth of a turn in which `to` lies.
pub(crate) fn way(from: Cell, to: Cell) -> i32 {
    let (dx, dy) = (f64::from(to.x) - f64::from(from.x), f64::from(to.y) - f64::from(from.y));
    (dy.atan2(dx) / std::f64::consts::FRAC_PI_4).round().rem_euclid(8.0) as i32
}

/// Chance that two dice reach `needed`, by counting.
pub(crate) fn two_dice(needed: u8) -> f64 {
    let pairs = (1..=6).flat_map(|a| (1..=6).map(move |b| a + b));
    pairs.filter(|&total| total >= needed).count() as f64 / 36.0
}

/// Counts what happened against what was to be expected, each trial with its own chance.
#[derive(Debug, Default)]
pub(crate) struct Odds {
    happened: f64,
    expected: f64,
    variance: f64,
    pub(crate) trials: u32,
}

impl Odds {
    pub(crate) fn add(&mut self, happened: bool, chance: f64) {
        self.happened += f64::from(u8::from(happened));
        self.expected += chance;
        self.variance += chance * (1.0 - chance);
        self.trials += 1;
    }

    /// So many of so many, each with that chance.
    pub(crate) fn add_many(&mut self, happened: u8, of: u8, chance: f64) {
        assert!(happened <= of, "{happened} of {of}");
        (0..of).for_each(|n| self.add(n < happened, chance));
    }

    /// Standard errors between what happened and what was expected.
    pub(crate) fn off(&self) -> f64 {
        (self.happened - self.expected).abs() / self.variance.sqrt().max(f64::MIN_POSITIVE)
    }

    /// Panics when there were too few trials or they are more than 4 standard errors off, which
    /// an exact engine would be once in 16 000 tests.
    pub(crate) fn hold(&self, trials: u32) {
        assert!(self.trials >= trials && self.off() < 4.0, "{} off: {self:?}", self.off());
    }
}

/// Numbers of the text that no hook changes and the crate keeps to itself. Tests of games hold the
/// engine to these, and a test of the text holds the text to them.
pub(crate) mod fixed {
    /// Inches within which a leader is sheltered by a unit (RULES 10.4) and may be hit (RULES 10.5).
    pub(crate) const SHELTER: u8 = 2;
    /// Inches within which a unit gets into a vehicle (RULES 13.9).
    pub(crate) const ABOARD: u8 = 2;
    /// Inches within which a square counts as laid on before the game (RULES 14.3).
    pub(crate) const LAID: u8 = 3;
    /// Most corrections of a battery's fire (RULES 14.6).
    pub(crate) const CORRECTIONS: u8 = 6;
    /// The area a marker stands for in inches (RULES 4.8).
    pub(crate) const AREA: (u8, u8) = (6, 4);
    /// Dice of tests and looks, added together.
    pub(crate) const TOGETHER: u8 = 2;
}
