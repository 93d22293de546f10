//! How surely do so many games show a shift, and how many show it surely enough?
//!
//! For planning, before there are games. The answer for a mean is that of Student's t with its true
//! power, an integral over how the spread may turn out (Johnson & Welch 1940, Biometrika
//! 31:362-389); for rates of separate games that of Fleiss (1981), Statistical Methods for Rates
//! and Proportions, 2nd edition, chapter 3. What pairs take by normal rules is in `further.rs`.

use statrs::function::gamma::ln_gamma;

use super::quadrature::points;
use super::{
    Estimate, LEVEL, Sides, normal_quantile, normal_tail, pairs_for_equivalence, pairs_for_shift,
};

/// The chance that a test of Student's t with `df` degrees of freedom at `level` shows a mean that
/// is `shift` standard errors above zero (Johnson & Welch 1940).
pub fn t_power(shift: f64, df: f64, level: f64, sides: Sides) -> f64 {
    let inside = 1.0 - if sides == Sides::Two { level } else { 2.0 * level };
    let limit = Estimate { value: 0.0, se: 1.0, df, count: 2 }.interval(inside).high;
    // The spread over the true one: near 1, with this deviation.
    let spread = (0.5 / df).sqrt();
    let (low, high) = ((1.0 - 12.0 * spread).max(0.0), 1.0 + 12.0 * spread);
    let scale = 2.0_f64.ln() + df / 2.0 * (df / 2.0).ln() - ln_gamma(df / 2.0);
    let density = |s: f64| (scale + (df - 1.0) * s.ln() - df * s * s / 2.0).exp();
    let beyond = |s: f64| {
        let far = if sides == Sides::Two { normal_tail(limit * s + shift) } else { 0.0 };
        normal_tail(limit * s - shift) + far
    };
    let points = points(low, high, 3.0 * spread.min(1.0 / limit)).into_iter();
    points.map(|(s, weight)| weight * density(s) * beyond(s)).sum()
}

/// Pairs whose mean shift, `effect` standard deviations of a difference, the two-sided t test at
/// `level` shows with chance `power`: between whole pairs the degrees of freedom go on evenly.
/// `None` for no effect.
pub fn pairs_for_t(effect: f64, level: f64, power: f64) -> Option<f64> {
    let effect = effect.abs();
    let normal = pairs_for_shift(effect, 1.0, level, power)?;
    let short = |pairs: f64| t_power(effect * pairs.sqrt(), pairs - 1.0, level, Sides::Two) < power;
    // The spread must be found out too, which costs some pairs more, never 40 or twice as many.
    let (mut low, mut high) = (1.5, 2.0 * normal + 40.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if short(middle) { low = middle } else { high = middle }
    }
    Some(high)
}

/// The chance that `games` in each of two arms that share no luck show rates `first` and `second`
/// to differ, two-sided at `level` (Fleiss 1981, section 3.2): without the far tail.
pub fn rates_power(games: f64, first: f64, second: f64, level: f64) -> f64 {
    let (null, real) = spreads(first, second);
    let limit = normal_quantile(1.0 - level / 2.0) * null;
    normal_tail((limit - (first - second).abs() * games.sqrt()) / real)
}

/// Games in each of two arms that share no luck, for a chance of `power` (Fleiss 1981, section
/// 3.2); `None` for equal rates. For pairs, which take fewer, see
/// [`pairs_for_rate_shift`](super::pairs_for_rate_shift).
pub fn games_for_rates(first: f64, second: f64, level: f64, power: f64) -> Option<f64> {
    let (null, real) = spreads(first, second);
    let reach = normal_quantile(1.0 - level / 2.0) * null + normal_quantile(power) * real;
    (first != second).then(|| (reach / (first - second)).powi(2))
}

/// The same games when the test is corrected for continuity, as an exact test is in effect (Fleiss,
/// Tytun & Ury 1980, Biometrics 36:343-346).
pub fn with_continuity(games: f64, difference: f64) -> f64 {
    games / 4.0 * (1.0 + (1.0 + 4.0 / (games * difference.abs())).sqrt()).powi(2)
}

/// Deviation of a difference of two rates, times the root of the games: with their mean for both,
/// and with their own.
fn spreads(first: f64, second: f64) -> (f64, f64) {
    let mean = f64::midpoint(first, second);
    let own = first * (1.0 - first) + second * (1.0 - second);
    ((2.0 * mean * (1.0 - mean)).sqrt(), own.sqrt())
}

/// Pairs that settle a metric with chance `power` at either end of what matters: when its shift is
/// just worth noticing, they show it against the whole `family` (Holm's first step), and when there
/// is none, they show that there is none worth noticing. Normal rules, as in `further.rs`; with
/// looks, times [`Monitor::inflation`](super::Monitor::inflation).
pub fn pairs_to_settle(sd: f64, notice: f64, family: usize, power: f64) -> Option<f64> {
    let shift = pairs_for_shift(notice, sd, LEVEL / family.max(1) as f64, power)?;
    let none = pairs_for_equivalence(0.0, sd, notice, LEVEL, power)?;
    Some(shift.max(none))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_shift_the_power_is_the_level() {
        for df in [1.0, 2.0, 9.0, 400.0, 1e5] {
            for sides in [Sides::One, Sides::Two] {
                let power = t_power(0.0, df, 0.05, sides);
                assert!((power - 0.05).abs() < 1e-9, "{df} {sides:?} {power}");
            }
        }
    }

    #[test]
    fn many_pairs_are_the_normal_rule() {
        let (normal, t) =
            (pairs_for_shift(0.02, 1.0, 0.05, 0.8).unwrap(), pairs_for_t(0.02, 0.05, 0.8).unwrap());
        // About half the square of the normal limit more; the digits from Simpson's rule.
        assert!((t - normal - 1.872_75).abs() < 1e-4, "{t} {normal}");
        assert_eq!(pairs_for_t(0.0, 0.05, 0.8), None);
        assert_eq!(pairs_for_t(-0.5, 0.05, 0.8), pairs_for_t(0.5, 0.05, 0.8));
    }

    #[test]
    fn games_and_power_of_rates_are_two_ways_round() {
        let games = games_for_rates(0.45, 0.5, 0.05, 0.9).unwrap();
        assert!((rates_power(games, 0.45, 0.5, 0.05) - 0.9).abs() < 1e-10);
        assert_eq!(games_for_rates(0.4, 0.4, 0.05, 0.9), None);
    }

    #[test]
    fn what_settles_a_metric_grows_with_the_family() {
        let one = pairs_to_settle(1.0, 0.1, 1, 0.8).unwrap();
        // One metric: equivalence takes the more, (1.6449 + 1.2816)^2 against (1.96 + 0.8416)^2.
        assert!((one - 856.4).abs() < 0.1, "{one}");
        let eight = pairs_to_settle(1.0, 0.1, 8, 0.8).unwrap();
        assert_eq!(Some(eight), pairs_for_shift(0.1, 1.0, 0.05 / 8.0, 0.8));
        assert_eq!(pairs_to_settle(1.0, 0.0, 8, 0.8), None);
    }
}
