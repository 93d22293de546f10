//! Published examples of looks and of sample sizes, one test per source.
//!
//! Values are those of the source where it prints enough digits, else recomputed to ten digits (own
//! integration, SciPy 1.17, statsmodels 0.15). "From memory" marks a citation or printed value that
//! was remembered rather than read when the example was collected.

mod games;
mod looks;

/// Whether `found` is `expected` to within `tolerance` of it.
#[track_caller]
fn within(tolerance: f64, found: f64, expected: f64) {
    let error = (found - expected).abs();
    assert!(error <= tolerance * expected.abs().max(1e-6), "{found} is not {expected}");
}

/// Ten digits, as recomputed values have.
#[track_caller]
fn close(found: f64, expected: f64) {
    within(1e-9, found, expected);
}

/// The value as printed, to that many decimals.
#[track_caller]
fn printed(decimals: i32, found: f64, expected: f64) {
    let half = 0.500_001 * 10.0_f64.powi(-decimals);
    assert!((found - expected).abs() <= half, "{found} is not printed as {expected}");
}
