//! How does a rate go with a number, if its log odds go by a straight line?
//!
//! Logistic regression of grouped counts (Berkson 1944, Journal of the American Statistical
//! Association 39:357-365; McCullagh & Nelder 1989, Generalized Linear Models, 2nd edition, section
//! 4.4, from memory) by Newton's method, which is iteratively reweighted least squares here
//! (Fisher 1935 in the appendix to Bliss, Annals of Applied Biology 22:164-165, from memory). There
//! is no top of the likelihood when some value of the number parts all no from all yes (Albert &
//! Anderson 1984, Biometrika 71:1-10).

/// A fitted curve: its log odds are the intercept plus the slope times the number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Logistic {
    /// Log odds where the number is 0.
    pub intercept: f64,
    /// Change of the log odds with each unit of the number.
    pub slope: f64,
    /// Variances and covariance of both if every trial is independent: rows of the matrix.
    pub covariance: [[f64; 2]; 2],
    /// Twice the log likelihood that a free share per group has more.
    pub deviance: f64,
    /// Groups less two.
    pub df: usize,
}

/// Most steps of Newton's method; it takes about six.
const STEPS: usize = 60;

impl Logistic {
    /// The rate at `x`.
    pub fn rate(&self, x: f64) -> f64 {
        rate(self.intercept + self.slope * x)
    }
}

/// The rate of those log odds.
pub fn rate(log_odds: f64) -> f64 {
    1.0 / (1.0 + (-log_odds).exp())
}

/// The log odds of a rate inside (0, 1).
pub fn log_odds(rate: f64) -> f64 {
    (rate / (1.0 - rate)).ln()
}

/// Fits groups of a number, trials and successes; counts need not be whole. `None` when there is no
/// finite answer: fewer than two numbers, or one that parts all no from all yes.
pub fn logistic(groups: &[(f64, f64, f64)]) -> Option<Logistic> {
    let groups: Vec<(f64, f64, f64)> = groups.iter().copied().filter(|g| g.1 > 0.0).collect();
    let count: f64 = groups.iter().map(|g| g.1).sum();
    let centre = groups.iter().map(|g| g.0 * g.1).sum::<f64>() / count;
    let width = groups.iter().map(|g| (g.0 - centre).abs()).fold(0.0, f64::max);
    if !(width > 0.0 && width.is_finite()) || parted(&groups) {
        return None;
    }
    let scaled: Vec<_> = groups.iter().map(|&(x, n, y)| ((x - centre) / width, n, y)).collect();
    let (a, b) = climb(&scaled)?;
    let [[aa, ab], [_, bb]] = inverse(information(&scaled, a, b))?;
    // Back from the scaled number: slope b / width, intercept a - centre * slope.
    let k = centre / width;
    let covariance = [
        [aa - 2.0 * k * ab + k * k * bb, (ab - k * bb) / width],
        [(ab - k * bb) / width, bb / (width * width)],
    ];
    let deviance = 2.0 * scaled.iter().map(|&(x, n, y)| lack(n, y, rate(a + b * x))).sum::<f64>();
    Some(Logistic {
        intercept: a - k * b,
        slope: b / width,
        covariance,
        deviance,
        df: groups.len().saturating_sub(2),
    })
}

/// Whether a number, itself free, parts groups without any success from groups of nothing else.
fn parted(groups: &[(f64, f64, f64)]) -> bool {
    let none = |g: &(f64, f64, f64)| g.2 <= 0.0;
    let all = |g: &(f64, f64, f64)| g.2 >= g.1;
    groups.iter().any(|at| {
        let below = || groups.iter().filter(|g| g.0 < at.0);
        let above = || groups.iter().filter(|g| g.0 > at.0);
        (below().all(none) && above().all(all)) || (below().all(all) && above().all(none))
    })
}

/// The top of the likelihood, with steps halved while they go down.
fn climb(groups: &[(f64, f64, f64)]) -> Option<(f64, f64)> {
    let (mut a, mut b) = (0.0, 0.0);
    let distance = |a: f64, b: f64| -> f64 {
        groups.iter().map(|&(x, n, y)| lack(n, y, rate(a + b * x))).sum()
    };
    for _ in 0..STEPS {
        let [[aa, ab], [_, bb]] = inverse(information(groups, a, b))?;
        let (mut u, mut v) = (0.0, 0.0);
        for &(x, n, y) in groups {
            let left = y - n * rate(a + b * x);
            u += left;
            v += left * x;
        }
        let (mut da, mut db) = (aa * u + ab * v, ab * u + bb * v);
        let here = distance(a, b);
        while distance(a + da, b + db) > here + 1e-12 * here.abs() && da.hypot(db) > 1e-12 {
            (da, db) = (da / 2.0, db / 2.0);
        }
        (a, b) = (a + da, b + db);
        if da.hypot(db) < 1e-11 * (1.0 + a.hypot(b)) {
            return Some((a, b));
        }
    }
    None
}

/// Half the deviance of one group.
fn lack(n: f64, y: f64, p: f64) -> f64 {
    let part = |seen: f64, expected: f64| {
        if seen > 0.0 { seen * (seen / expected).ln() } else { 0.0 }
    };
    part(y, n * p) + part(n - y, n * (1.0 - p))
}

fn information(groups: &[(f64, f64, f64)], a: f64, b: f64) -> [[f64; 2]; 2] {
    let mut sum = [[0.0; 2]; 2];
    for &(x, n, _) in groups {
        let p = rate(a + b * x);
        let weight = n * p * (1.0 - p);
        let row = [1.0, x];
        for i in 0..2 {
            for j in 0..2 {
                sum[i][j] += weight * row[i] * row[j];
            }
        }
    }
    sum
}

/// The inverse of a symmetric matrix; `None` when it has none.
pub(super) fn inverse([[a, b], [c, d]]: [[f64; 2]; 2]) -> Option<[[f64; 2]; 2]> {
    let determinant = a * d - b * c;
    let sound = determinant > 1e-14 * a * d && determinant.is_finite();
    sound.then(|| [[d / determinant, -b / determinant], [-c / determinant, a / determinant]])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_groups_are_met_exactly() {
        let fit = logistic(&[(3.0, 40.0, 10.0), (5.0, 40.0, 30.0)]).unwrap();
        assert!((fit.rate(3.0) - 0.25).abs() < 1e-12 && (fit.rate(5.0) - 0.75).abs() < 1e-12);
        assert!((fit.slope - 3.0_f64.ln()).abs() < 1e-12);
        assert!(fit.deviance.abs() < 1e-10 && fit.df == 0);
        // The variance of the log odds of each group is 1 / 10 + 1 / 30.
        assert!((fit.covariance[1][1] - 2.0 * (0.1 + 1.0 / 30.0) / 4.0).abs() < 1e-12);
    }

    #[test]
    fn rates_that_a_number_parts_have_no_curve() {
        let none = |groups: &[(f64, f64, f64)]| assert_eq!(logistic(groups), None, "{groups:?}");
        none(&[]);
        none(&[(1.0, 9.0, 4.0)]);
        none(&[(1.0, 9.0, 4.0), (1.0, 9.0, 5.0)]);
        none(&[(1.0, 9.0, 0.0), (2.0, 9.0, 0.0)]);
        none(&[(1.0, 9.0, 0.0), (2.0, 9.0, 4.0), (3.0, 9.0, 9.0)]);
        none(&[(1.0, 9.0, 9.0), (2.0, 9.0, 0.0), (3.0, 9.0, 0.0)]);
        assert!(logistic(&[(1.0, 9.0, 0.0), (2.0, 9.0, 4.0), (3.0, 9.0, 8.0)]).is_some());
        assert!(logistic(&[(1.0, 9.0, 1.0), (2.0, 9.0, 9.0), (3.0, 9.0, 8.0)]).is_some());
    }

    #[test]
    fn far_numbers_cost_no_digits() {
        let near = logistic(&[(0.0, 50.0, 10.0), (1.0, 50.0, 20.0), (2.0, 50.0, 28.0)]).unwrap();
        let far = logistic(&[(1e6, 50.0, 10.0), (1e6 + 1.0, 50.0, 20.0), (1e6 + 2.0, 50.0, 28.0)]);
        assert!((near.slope - far.unwrap().slope).abs() < 1e-9);
    }
}
