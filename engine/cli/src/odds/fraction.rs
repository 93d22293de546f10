//! Exact fractions: of a long fight even 128 bits would not hold the numerators.

use num_rational::BigRational;
use num_traits::ToPrimitive;

/// A chance or a mean, in lowest terms.
pub(crate) type Fraction = BigRational;

/// `over` / `under`, in lowest terms.
pub(crate) fn fraction(over: u64, under: u64) -> Fraction {
    Fraction::new(over.into(), under.into())
}

/// A whole number.
pub(crate) fn whole(number: i32) -> Fraction {
    Fraction::from_integer(number.into())
}

/// The nearest float, for readers and programs that want decimals.
pub(crate) fn decimal(fraction: &Fraction) -> f64 {
    fraction.to_f64().unwrap_or(f64::NAN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_in_lowest_terms_and_whole_ones_have_no_bar() {
        let text = |over, under| fraction(over, under).to_string();
        assert_eq!([text(6, 36), text(72, 36), text(0, 7)], ["1/6", "2", "0"]);
        assert_eq!(decimal(&fraction(7, 12)), 7.0 / 12.0);
    }
}
