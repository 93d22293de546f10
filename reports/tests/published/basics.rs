//! Means, paired rates, equivalence, games needed, shared luck, tables of distributions.

use ruleshift_reports::stats::{
    Estimate, Moments, PairTable, heterogeneity, holm, mcnemar_mid_p, pairs_for_rate_shift,
    pairs_for_shift, stratified_mean, variance_ratio, wilson,
};

use super::{close, within};

#[track_caller]
fn paired(differences: &[f64]) -> Estimate {
    stratified_mean(&[differences.to_vec()]).unwrap()
}

fn less(first: &[f64], second: &[f64]) -> Vec<f64> {
    first.iter().zip(second).map(|(a, b)| a - b).collect()
}

fn table(both: u64, first_only: u64, second_only: u64, neither: u64) -> PairTable {
    PairTable { both, first_only, second_only, neither }
}

#[track_caller]
fn newcombe(table: PairTable, difference: f64, low: f64, high: f64) {
    let interval = table.interval(0.95).unwrap();
    close(table.difference().unwrap(), difference);
    close(interval.low, low);
    close(interval.high, high);
}

/// Newcombe (1998) Statistics in Medicine 17:857-872, table I, method 3; printed values to four
/// decimals as quoted in public test suites, ten digits recomputed (statsmodels 0.15).
#[test]
fn wilson_intervals_of_newcombe() {
    let rows = [
        ((81, 263), 0.2552885199, 0.366209577),
        ((15, 148), 0.06238639953, 0.1604872417),
        ((0, 20), 0.0, 0.1611251581),
        ((1, 29), 0.006113214293, 0.1717552188),
    ];
    for ((x, n), low, high) in rows {
        let interval = wilson(x, n, 0.95).unwrap();
        close(interval.low, low);
        close(interval.high, high);
    }
}

/// Newcombe (1998) Statistics in Medicine 17:873-890, table II, method 10, contrasts 9/10 - 3/10
/// and 6/7 - 2/7; printed to four decimals, ten digits recomputed (statsmodels 0.15). Paired with
/// the correlation drawn to zero, as these tables are, the paired interval is the unpaired one.
#[test]
fn unpaired_intervals_of_newcombe_when_pairing_adds_nothing() {
    newcombe(table(3, 6, 0, 1), 0.6, 0.1705227239, 0.8090179735);
    newcombe(table(2, 4, 0, 1), 4.0 / 7.0, 0.05822792748, 0.8062496375);
}

/// Cavo et al. (2012) in Fagerland, Lydersen & Laake (2017), chapter 8: -0.0621 (-0.1186 to
/// -0.0046), mid-p 0.034690, as printed in the test suite of their software; ten digits recomputed.
#[test]
fn paired_rates_of_cavo() {
    newcombe(table(59, 6, 16, 80), -0.06211180124, -0.1186211956, -0.004625113933);
    close(mcnemar_mid_p(6, 16), 0.03468966484);
}

/// Altman, Machin, Bryant & Gardner (2000) table 6.2 and Bentur et al. (2009): data seen, answers
/// recomputed only.
#[test]
fn paired_rates_of_altman_and_bentur() {
    newcombe(table(14, 5, 0, 22), 0.1219512195, 0.01148324138, 0.2264926844);
    newcombe(table(1, 1, 7, 12), -0.2857142857, -0.5069202267, -0.02555912416);
}

/// Agresti (1990) Categorical Data Analysis p. 350, approval ratings: data seen; mid-p and the
/// square-and-add interval recomputed (scipy 1.17).
#[test]
fn approval_ratings_of_agresti() {
    newcombe(table(794, 150, 86, 570), 0.04, 0.02123042398, 0.0587038729);
    close(mcnemar_mid_p(150, 86), 2.893389518e-5);
}

/// Fagerland, Lydersen & Laake (2013) BMC Medical Research Methodology 13:91, the method; counts
/// and four printed digits from a public test suite, ten digits recomputed (scipy 1.17).
#[test]
fn mid_p_of_small_counts() {
    let rows = [((18, 8), 0.0522389859), ((22, 8), 0.01067384053), ((60, 40), 0.04604406693)];
    for ((b, c), p) in rows {
        close(mcnemar_mid_p(b, c), p);
    }
}

const DRUG_1: [f64; 10] = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
const DRUG_2: [f64; 10] = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

/// Student (1908) Biometrika 6:1-25, hours of sleep: -1.58 (-2.4598858 to -0.7001142), p 0.002833,
/// printed values from memory; ten digits recomputed (scipy 1.17).
#[test]
fn sleep_of_student() {
    let estimate = paired(&less(&DRUG_1, &DRUG_2));
    let interval = estimate.interval(0.95);
    close(estimate.value, -1.58);
    close(estimate.se, 0.3889587239);
    close(estimate.df, 9.0);
    close(estimate.p(), 0.002832890197);
    close(interval.low, -2.459885763);
    close(interval.high, -0.7001142367);
}

/// The same data taken as unpaired: the variance of the mean difference is 4.765 times as large
/// (recomputed), which is what pairing saves.
#[test]
fn sleep_of_student_shows_what_pairing_saves() {
    let pairs: Vec<(f64, f64)> = DRUG_1.into_iter().zip(DRUG_2).collect();
    close(1.0 / variance_ratio(&[pairs]), 4.765423032);
}

/// Darwin (1876) in Fisher (1935) The Design of Experiments, section 17, eighths of an inch: sum
/// 314, t 2.148, from memory; ten digits recomputed (scipy 1.17).
#[test]
fn maize_of_darwin() {
    let estimate = paired(&[
        49.0, -67.0, 8.0, 16.0, 6.0, 23.0, 28.0, 41.0, 14.0, 29.0, 56.0, 24.0, 75.0, 60.0, -48.0,
    ]);
    let interval = estimate.interval(0.95);
    close(estimate.value, 314.0 / 15.0);
    close(estimate.value / estimate.se, 2.147987461);
    close(estimate.p(), 0.04970294402);
    close(interval.low, 0.03119331839);
    close(interval.high, 41.83547335);
}

/// The signs of the same differences, 13 up and 2 down: the exact sign test gives
/// 0.007385253906; mid-p takes half of each tail's last term off, 105 of 2^15 in all.
#[test]
fn signs_of_darwin() {
    close(mcnemar_mid_p(13, 2), 0.007385253906 - 105.0 / 32_768.0);
}

/// Holm's method (1979, Scandinavian Journal of Statistics 6:65-70) on four values; answers as
/// in public test suites.
#[test]
fn holm_on_four_values() {
    for (found, expected) in
        holm(&[0.01, 0.04, 0.03, 0.005]).into_iter().zip([0.03, 0.06, 0.06, 0.02])
    {
        close(found, expected);
    }
}

/// Benjamini & Hochberg (1995) Journal of the Royal Statistical Society B 57:289-300, section 4,
/// fifteen p-values of a thrombolysis trial; Holm's answers recomputed (statsmodels 0.15).
#[test]
fn holm_on_a_thrombolysis_trial() {
    let p = [
        0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262,
        0.5719, 0.6528, 0.759, 1.0,
    ];
    let expected = [
        0.0015, 0.0056, 0.0247, 0.114, 0.2211, 0.278, 0.278, 0.278, 0.3213, 1.0, 1.0, 1.0, 1.0,
        1.0, 1.0,
    ];
    let adjusted = holm(&p);
    assert_eq!(adjusted.iter().filter(|p| **p < 0.05).count(), 3);
    for (found, expected) in adjusted.into_iter().zip(expected) {
        close(found, expected);
    }
}

/// Lakens (2017) Social Psychological and Personality Science 8:355-362, data of Moery &
/// Calin-Jageman: p 0.003875522 of the two tests, printed in the test suite of his software; 90 %
/// interval recomputed (scipy 1.17). The inputs are ten recomputed digits, hence the tolerance.
#[test]
fn equivalence_of_lakens() {
    let estimate = Estimate { value: 0.03, se: 0.131302892, df: 181.1343672, count: 184 };
    let interval = estimate.interval(0.90);
    for (found, expected) in [
        (estimate.equivalence_p(0.383568677), 0.003875521745),
        (interval.low, -0.1870843118),
        (interval.high, 0.2470843118),
    ] {
        within(1e-8, found, expected);
    }
}

/// Schuirmann's two tests (1987) on paired clinic data, margin 0.6: p 0.003166881489 for the first
/// variable, 0.4412034046 for the second, as printed in the test suite of statsmodels.
#[test]
#[allow(clippy::approx_constant, reason = "a measurement of 3.14 is not pi")]
fn equivalence_of_paired_clinic_data() {
    let first = paired(&less(
        &[2.84, 2.51, 2.41, 2.95, 3.14, 3.79, 4.14, 3.85, 3.02, 3.45, 5.37, 3.81, 4.19, 3.16, 3.84],
        &[2.6, 2.82, 2.18, 3.46, 4.01, 3.04, 3.47, 4.06, 2.91, 3.59, 4.51, 3.16, 3.86, 3.31, 3.02],
    ));
    let second = paired(&less(
        &[4.0, 3.26, 4.14, 3.42, 3.25, 4.34, 4.97, 4.31, 3.11, 3.41, 5.02, 4.21, 4.59, 5.3, 4.32],
        &[3.76, 3.66, 3.65, 3.6, 3.48, 2.87, 3.24, 3.92, 3.99, 4.21, 4.21, 3.31, 3.61, 2.97, 2.73],
    ));
    close(first.value, 0.1646666667);
    close(first.se, 0.1357514068);
    close(first.equivalence_p(0.6), 0.003166881489);
    close(first.interval(0.90).low, -0.07443366205);
    close(first.interval(0.90).high, 0.4037669954);
    close(second.equivalence_p(0.6), 0.4412034046);
}

/// The rule of thumb 2 (z + z')^2 / d^2 per group, that is, differences of variance 2; recomputed
/// (scipy 1.17).
#[test]
fn games_needed_by_the_normal_rule() {
    let pairs = |d| pairs_for_shift(d, 2.0_f64.sqrt(), 0.05, 0.8).unwrap();
    close(pairs(0.5), 62.79103787);
    close(pairs(-0.2), 392.4439867);
    close(pairs_for_shift(1.0, 1.0, 0.05, 0.9).unwrap(), 10.50742306);
    // A win rate of 50 against 52 % when 10 % of the pairs differ.
    close(pairs_for_rate_shift(0.06, 0.04, 0.05, 0.8).unwrap(), 1959.860407);
}

/// Connor (1987) Biometrics 43:207-211; 23 pairs on two public calculator pages, digits recomputed.
/// A one-sided test at 5 % is a two-sided one at 10 %.
#[test]
fn games_needed_by_connor() {
    close(pairs_for_rate_shift(0.05, 0.45, 0.05, 0.8).unwrap(), 22.01132443);
    close(pairs_for_rate_shift(0.05, 0.45, 0.10, 0.9).unwrap(), 22.80907053);
    let (gained, lost) = (0.1197301234, 0.01973012342);
    close(pairs_for_rate_shift(gained, lost, 0.05, 0.8).unwrap(), 107.0721165);
}

/// Two win indicators driven by one uniform number (Law, Simulation Modeling and Analysis,
/// chapter 11; Glasserman & Yao 1992): exact ratios of independent to common variance.
#[test]
fn common_luck_between_two_win_rates() {
    for (p1, p2, saving) in [(50, 52, 25.48979592), (50, 55, 10.47368421), (30, 40, 5.0)] {
        let yes = |below: bool| f64::from(u8::from(below));
        let pairs = (0..100).map(|u| (yes(u < p1), yes(u < p2))).collect();
        close(1.0 / variance_ratio(&[pairs]), saving);
    }
}

/// Evenly spaced luck for integrals over (0, 1): the midpoint rule.
fn even(n: u32) -> impl Iterator<Item = f64> {
    (0..n).map(move |k| (f64::from(k) + 0.5) / f64::from(n))
}

/// Two exponential times from one uniform number or from its mirror image: variance of the
/// difference 0.04 or 2.671894507 against 1.64 apart, exact. The midpoint rule meets the
/// logarithm's edge with an error of about (ln n)^2 / n.
#[test]
fn common_luck_between_two_exponential_times() {
    let time = |u: f64, rate: f64| -u.ln() / rate;
    let n = 1_000_000;
    let common = even(n).map(|u| (time(u, 1.0), time(u, 1.25))).collect();
    let mirrored = even(n).map(|u| (time(u, 1.0), time(1.0 - u, 1.25))).collect();
    assert!((variance_ratio(&[common]) - 0.04 / 1.64).abs() < 1e-5);
    assert!((variance_ratio(&[mirrored]) - 2.671894507 / 1.64).abs() < 1e-4);
}

/// Ross, Simulation, chapter 9, e^U with e^(1-U): correlation -0.9676700714 (closed form; printed
/// 96.7 % from memory), so playing the two against each other costs 1.97 times the variance.
#[test]
fn opposite_luck_of_ross() {
    let pairs = even(1_000_000).map(|u| (u.exp(), (1.0 - u).exp())).collect();
    close(variance_ratio(&[pairs]), 1.0 + 0.9676700714);
}

/// Standard tables of Student's t and the normal distribution; recomputed (scipy 1.17). A standard
/// error of 1 turns half the interval into the quantile.
#[test]
fn quantiles_of_standard_tables() {
    let half = |df| Estimate { value: 0.0, se: 1.0, df, count: 2 }.interval(0.95).high;
    for (df, quantile) in [
        (1.0, 12.70620474),
        (9.0, 2.262157163),
        (14.0, 2.144786688),
        (30.0, 2.042272456),
        (100.0, 1.983971519),
    ] {
        close(half(df), quantile);
    }
    // At the degrees of freedom of thousands of games, by the expansion in 1 / df of Abramowitz &
    // Stegun 26.7.5 (from memory), whose next term is below 1e-12 here.
    let z = 1.9599639845400543_f64;
    for df in [1e4, 1e5, 1e6] {
        let first = (z.powi(3) + z) / (4.0 * df);
        let second = (5.0 * z.powi(5) + 16.0 * z.powi(3) + 3.0 * z) / (96.0 * df * df);
        close(half(df), z + first + second);
    }
}

/// Critical values of chi-squared (standard tables, seen in a public test suite): two shifts with
/// standard error 1 lie sqrt(2 Q) apart. The tenth digit of Q moves p by up to 3e-9 of itself.
#[test]
fn tails_of_chi_squared_tables() {
    for (q, p) in [(3.841458821, 0.05), (10.82756617, 0.001)] {
        let far = (2.0_f64 * q).sqrt();
        let found = heterogeneity(&[(0.0, 1.0), (far, 1.0)]).unwrap();
        close(found.q, q);
        within(3e-9, found.p, p);
    }
    // Three shifts at -d, 0, d: Q is 2 d^2, with two degrees of freedom.
    for (q, p) in [(5.991464547, 0.05), (13.81551056, 0.001)] {
        let d = (q / 2.0_f64).sqrt();
        within(3e-9, heterogeneity(&[(-d, 1.0), (0.0, 1.0), (d, 1.0)]).unwrap().p, p);
    }
}

/// The data of Student once more: mean 0.75 and 2.33 (printed by R), variances from the textbook
/// formula on their squares.
#[test]
fn means_of_student() {
    for (drug, mean) in [(DRUG_1, 0.75), (DRUG_2, 2.33)] {
        let moments = Moments::of(&drug).unwrap();
        close(moments.mean, mean);
        let squares: f64 = drug.iter().map(|v| v * v).sum();
        close(moments.variance().unwrap(), (squares - 10.0 * mean * mean) / 9.0);
    }
}
