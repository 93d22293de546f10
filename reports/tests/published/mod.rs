//! Published examples with known answers, one test per source.
//!
//! Values are those of the source where it prints enough digits, else recomputed from its data to
//! ten digits with the tool named. "From memory" marks a citation or printed value that was
//! remembered rather than read when the example was collected.

mod basics;
mod bootstrap;
mod curves;
mod effects;
mod games;
mod lengths;
mod looks;
mod luck;
mod rates;
mod reduction;

/// Ten printed digits are good to half a unit of the last: a few parts in ten thousand million.
const DIGITS: f64 = 1e-9;

#[track_caller]
fn close(found: f64, expected: f64) {
    within(DIGITS, found, expected);
}

#[track_caller]
fn within(tolerance: f64, found: f64, expected: f64) {
    let error = (found - expected).abs();
    assert!(error <= tolerance * expected.abs().max(1e-3), "{found} is not {expected}");
}

/// At most so far away, whatever the size.
#[track_caller]
fn near(distance: f64, found: f64, expected: f64) {
    assert!((found - expected).abs() <= distance, "{found} is not {expected}");
}

/// The value as printed, to that many decimals.
#[track_caller]
fn printed(decimals: i32, found: f64, expected: f64) {
    let half = 0.500_001 * 10.0_f64.powi(-decimals);
    assert!((found - expected).abs() <= half, "{found} is not printed as {expected}");
}
