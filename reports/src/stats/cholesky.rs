//! The inverse of a small symmetric matrix with positive eigenvalues.
//!
//! By the factor L of A = L L' (Cholesky; Golub & Van Loan, Matrix Computations, section 4.2, from
//! memory). The matrices here have as many rows as a ladder has players, so nothing is saved.

/// Rows of a square matrix.
pub(crate) type Matrix = Vec<Vec<f64>>;

/// The inverse of `a`; `None` when it is not positive definite as far as numbers can tell.
pub(super) fn inverse(a: &Matrix) -> Option<Matrix> {
    let factor = factor(a)?;
    let size = a.len();
    let mut columns = Vec::with_capacity(size);
    for column in 0..size {
        let mut x = vec![0.0; size];
        x[column] = 1.0;
        solve(&factor, &mut x);
        columns.push(x);
    }
    // The inverse is symmetric, so its columns are its rows.
    Some(columns)
}

/// The lower triangle of the factor.
fn factor(a: &Matrix) -> Option<Matrix> {
    let size = a.len();
    let mut l = vec![vec![0.0; size]; size];
    for i in 0..size {
        for j in 0..=i {
            let known: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
            let rest = a[i][j] - known;
            if i > j {
                l[i][j] = rest / l[j][j];
            } else if rest > 1e-12 * a[i][i] && rest.is_finite() {
                l[i][i] = rest.sqrt();
            } else {
                return None;
            }
        }
    }
    Some(l)
}

/// The lower triangle of the factor of a matrix whose eigenvalues may be zero: a row that follows from
/// those before it adds nothing of its own.
pub(super) fn semi_factor(a: &Matrix) -> Matrix {
    let size = a.len();
    let mut l = vec![vec![0.0; size]; size];
    for i in 0..size {
        for j in 0..=i {
            let known: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
            let rest = a[i][j] - known;
            l[i][j] = match i > j {
                true if l[j][j] > 0.0 => rest / l[j][j],
                false if rest > 1e-10 * a[i][i] => rest.sqrt(),
                _ => 0.0,
            };
        }
    }
    l
}

/// Replaces `x` by the solution of `L L' y = x`.
fn solve(l: &Matrix, x: &mut [f64]) {
    let size = x.len();
    for i in 0..size {
        let known: f64 = (0..i).map(|k| l[i][k] * x[k]).sum();
        x[i] = (x[i] - known) / l[i][i];
    }
    for i in (0..size).rev() {
        let known: f64 = (i + 1..size).map(|k| l[k][i] * x[k]).sum();
        x[i] = (x[i] - known) / l[i][i];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_matrix_times_its_inverse_is_one() {
        let a = vec![vec![4.0, 2.0, 0.6], vec![2.0, 5.0, 1.0], vec![0.6, 1.0, 3.0]];
        let inverse = inverse(&a).unwrap();
        for (i, row) in a.iter().enumerate() {
            // Its rows are its columns.
            for (j, column) in inverse.iter().enumerate() {
                let product: f64 = row.iter().zip(column).map(|(a, b)| a * b).sum();
                assert!((product - f64::from(u8::from(i == j))).abs() < 1e-14, "{i} {j} {product}");
            }
        }
    }

    #[test]
    fn a_row_that_follows_from_others_adds_nothing() {
        let a = vec![vec![4.0, 2.0, 6.0], vec![2.0, 5.0, 7.0], vec![6.0, 7.0, 13.0]];
        let l = semi_factor(&a);
        assert_eq!(l, [vec![2.0, 0.0, 0.0], vec![1.0, 2.0, 0.0], vec![3.0, 2.0, 0.0]]);
    }

    #[test]
    fn a_singular_matrix_has_no_inverse() {
        assert_eq!(inverse(&vec![vec![1.0, 1.0], vec![1.0, 1.0]]), None);
        assert_eq!(inverse(&vec![vec![0.0]]), None);
        assert_eq!(inverse(&vec![vec![f64::NAN]]), None);
        assert_eq!(inverse(&vec![]), Some(vec![]));
    }
}
