//! Sample sizes and power.

use ruleshift_reports::stats::{
    Sides, games_for_rates, pairs_for_rate_shift, pairs_for_shift, pairs_for_t, rates_power,
    t_power, with_continuity,
};

use super::{close, printed, within};

/// The stored output of R's `power.prop.test`: 50 games in each arm, and 90 % power. Its p2 of
/// 0.8026141 is off by 1.6e-5, a loose root; recomputed 0.8026305817.
#[test]
fn two_rates_of_r() {
    let power = rates_power(50.0, 0.5, 0.75, 0.05);
    printed(7, power, 0.7401659);
    close(power, 0.7401659013);
    let games = games_for_rates(0.5, 0.75, 0.05, 0.9).unwrap();
    within(3e-6, games, 76.70693);
    close(games, 76.70692845);
    within(1e-9, rates_power(50.0, 0.5, 0.8026305817, 0.05), 0.9);
    assert!((rates_power(50.0, 0.5, 0.8026141, 0.05) - 0.9).abs() > 1e-5);
}

/// Fleiss (1981), chapter 3, and Fleiss, Tytun & Ury (1980), Biometrics 36:343-346; the printed 827
/// is from memory, the rest recomputed. A public test suite has 432 for the last row, from a
/// formula that does not pool (431.69).
#[test]
fn two_rates_of_fleiss() {
    let rows = [
        ((0.60, 0.70, 0.01, 0.95), 807.0674253, 826.9464985),
        ((0.25, 0.40, 0.05, 0.90), 202.8095095, 215.9370215),
        ((0.65, 0.80, 0.05, 0.80), 137.9147531, 150.953662),
        ((0.05, 0.10, 0.05, 0.80), 434.4320224, 473.5874054),
    ];
    for ((first, second, level, power), plain, corrected) in rows {
        let games = games_for_rates(first, second, level, power).unwrap();
        close(games, plain);
        close(with_continuity(games, first - second), corrected);
    }
    let first = with_continuity(games_for_rates(0.6, 0.7, 0.01, 0.95).unwrap(), 0.1);
    assert_eq!(first.ceil(), 827.0);
}

/// Connor (1987), Biometrics 43:207-211: discordant shares 0.05 and 0.45 take 23 pairs, as public
/// calculators print for both settings; ten digits recomputed.
#[test]
fn pairs_of_connor() {
    let two = pairs_for_rate_shift(0.05, 0.45, 0.05, 0.8).unwrap();
    let one = pairs_for_rate_shift(0.05, 0.45, 0.10, 0.9).unwrap();
    close(two, 22.01132443);
    close(one, 22.80907053);
    assert_eq!((two.ceil(), one.ceil()), (23.0, 23.0));
}

/// The stored output of R's `power.t.test`, two groups, a shift of one deviation: with 20 in each
/// 0.8689528 without the far tail; for 90 % 22.0211, one-sided 17.84713. Both tails and ten digits
/// recomputed (statsmodels 0.15).
#[test]
fn power_of_t_of_r() {
    let two_groups = |n: f64, sides| t_power((n / 2.0).sqrt(), 2.0 * n - 2.0, 0.05, sides);
    let power = two_groups(20.0, Sides::Two);
    within(1e-6, power, 0.8689528);
    close(power, 0.8689530277);
    within(1e-8, two_groups(22.02108844, Sides::Two), 0.9);
    within(1e-8, two_groups(17.84712048, Sides::One), 0.9);
}

/// A t test of pairs is that of one group: its pairs give back the power they were asked for.
#[test]
fn pairs_for_t_have_the_power_of_t() {
    for effect in [0.1, 0.5, 2.0] {
        let pairs = pairs_for_t(effect, 0.05, 0.9).unwrap();
        close(t_power(effect * pairs.sqrt(), pairs - 1.0, 0.05, Sides::Two), 0.9);
    }
}

/// Normal rules, recomputed (SciPy 1.17): games of each of two arms, and the fixed size against
/// which Wald (1947), Sequential Analysis, chapter 3, compares his test, one-sided at 5 % with 95
/// %.
#[test]
fn normal_rules() {
    let arms = |d: f64, power| pairs_for_shift(d, 2.0_f64.sqrt(), 0.05, power).unwrap();
    close(arms(0.5, 0.8), 62.79103787);
    close(arms(0.2, 0.8), 392.4439867);
    close(pairs_for_shift(1.0, 1.0, 0.05, 0.8).unwrap(), 7.848879734);
    close(pairs_for_shift(1.0, 1.0, 0.05, 0.9).unwrap(), 10.50742306);
    close(pairs_for_shift(0.5, 1.0, 0.10, 0.95).unwrap(), 43.28869527);
    // A win rate of 52 % against 50 %: the unpaired rule, and pairs of which a tenth differ.
    close(games_for_rates(0.5, 0.52, 0.05, 0.8).unwrap(), 9805.996209);
    close(pairs_for_rate_shift(0.06, 0.04, 0.05, 0.8).unwrap(), 1959.860407);
}
