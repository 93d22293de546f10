//! Which curve that never falls is nearest to the means?
//!
//! Isotonic least squares by pooling adjacent violators (Ayer, Brunk, Ewing, Reid & Silverman 1955,
//! Annals of Mathematical Statistics 26:641-647; Barlow, Bartholomew, Bremner & Brunk 1972,
//! Statistical Inference under Order Restrictions, section 1.2, from memory).

/// The values that never fall and are nearest to `y`, by squares weighted with `weights`, which are
/// above 0. Values without a weight weigh 1.
pub fn isotonic(y: &[f64], weights: &[f64]) -> Vec<f64> {
    // Pools of values that share one level: its sum, weight and number.
    let mut pools: Vec<(f64, f64, usize)> = Vec::with_capacity(y.len());
    for (n, &value) in y.iter().enumerate() {
        let weight = weights.get(n).copied().unwrap_or(1.0);
        let mut pool = (value * weight, weight, 1);
        while let Some(&(sum, weight, count)) = pools.last() {
            if sum / weight <= pool.0 / pool.1 {
                break;
            }
            pool = (pool.0 + sum, pool.1 + weight, pool.2 + count);
            pools.pop();
        }
        pools.push(pool);
    }
    pools.into_iter().flat_map(|(sum, weight, n)| std::iter::repeat_n(sum / weight, n)).collect()
}

/// The same for values that never rise.
pub fn antitonic(y: &[f64], weights: &[f64]) -> Vec<f64> {
    let turned: Vec<f64> = y.iter().map(|v| -v).collect();
    isotonic(&turned, weights).into_iter().map(|v| -v).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn distance(a: &[f64], b: &[f64], w: &[f64]) -> f64 {
        a.iter().zip(b).zip(w).map(|((a, b), w)| w * (a - b) * (a - b)).sum()
    }

    #[test]
    fn weights_move_the_level_of_a_pool() {
        assert_eq!(isotonic(&[3.0, 1.0], &[1.0, 3.0]), [1.5, 1.5]);
        assert_eq!(isotonic(&[], &[]), Vec::<f64>::new());
        assert_eq!(antitonic(&[1.0, 3.0, 0.0], &[]), [2.0, 2.0, 0.0]);
    }

    proptest! {
        #[test]
        fn it_is_the_projection_onto_curves_that_never_fall(
            points in prop::collection::vec((-9.0..9.0_f64, 0.1..5.0_f64, 0.0..3.0_f64), 1..12),
        ) {
            let y: Vec<f64> = points.iter().map(|p| p.0).collect();
            let w: Vec<f64> = points.iter().map(|p| p.1).collect();
            let fit = isotonic(&y, &w);
            prop_assert!(fit.windows(2).all(|pair| pair[0] <= pair[1] + 1e-12));
            // Projected again it stays, and the mean is kept.
            let again = isotonic(&fit, &w);
            prop_assert!(distance(&again, &fit, &w) < 1e-20);
            let sum = |v: &[f64]| v.iter().zip(&w).map(|(v, w)| v * w).sum::<f64>();
            prop_assert!((sum(&fit) - sum(&y)).abs() < 1e-9);
            // No other rising curve is nearer, and the way there is at a right angle or wider.
            let mut level = -10.0;
            let other: Vec<f64> = points.iter().map(|p| { level += p.2; level }).collect();
            prop_assert!(distance(&y, &fit, &w) <= distance(&y, &other, &w) + 1e-9);
            let angle: f64 = (0..y.len()).map(|n| w[n] * (y[n] - fit[n]) * (other[n] - fit[n])).sum();
            prop_assert!(angle <= 1e-9, "{angle}");
        }
    }
}
