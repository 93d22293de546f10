//! The word for what two variants make of each other.
//!
//! Our rule, on the verdicts of four shifts, each by its interval and the smallest shift worth
//! noticing: of both alone, of both together, and of the surplus, the joint shift less both alone.

use ruleshift_record::{CrossWord, JudgedShift, Verdict};

/// First whether the two cancel: both shift clearly, one up and one down, and together nobody would
/// notice. Then by the surplus: none worth noticing, and they add up; a clear one makes one or both
/// stronger or weaker; an open one leaves it open.
pub(super) fn word(
    first: &JudgedShift,
    second: &JudgedShift,
    together: &JudgedShift,
    surplus: &JudgedShift,
) -> CrossWord {
    let clear = |shift: &JudgedShift| shift.verdict == Verdict::ClearShift;
    let unnoticed =
        |shift: &JudgedShift| matches!(shift.verdict, Verdict::TooSmall | Verdict::NoDifference);
    let same = |a: &JudgedShift, b: &JudgedShift| (a.value > 0.0) == (b.value > 0.0);
    let alone = (clear(first), clear(second));
    if alone == (true, true) && !same(first, second) && unnoticed(together) {
        return CrossWord::Cancel;
    }
    match (surplus.verdict, alone) {
        (Verdict::Undecided, (false, false)) => CrossWord::Apart,
        (Verdict::Undecided, _) => CrossWord::Undecided,
        (Verdict::TooSmall | Verdict::NoDifference, (true, true)) => CrossWord::AddUp,
        (Verdict::TooSmall | Verdict::NoDifference, _) => CrossWord::Apart,
        (Verdict::ClearShift, (true, true)) if same(first, second) => match same(surplus, first) {
            true => CrossWord::Stronger,
            false => CrossWord::Weaker,
        },
        (Verdict::ClearShift, (true, true)) if same(surplus, first) => CrossWord::FirstStronger,
        (Verdict::ClearShift, (true, true)) => CrossWord::SecondStronger,
        (Verdict::ClearShift, (true, false)) => match same(surplus, first) {
            true => CrossWord::FirstStronger,
            false => CrossWord::FirstWeaker,
        },
        (Verdict::ClearShift, (false, true)) => match same(surplus, second) {
            true => CrossWord::SecondStronger,
            false => CrossWord::SecondWeaker,
        },
        (Verdict::ClearShift, (false, false)) if clear(together) => CrossWord::OnlyTogether,
        (Verdict::ClearShift, (false, false)) => CrossWord::Undecided,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shift(value: f64, verdict: Verdict) -> JudgedShift {
        let (low, high) = (value - 0.1, value + 0.1);
        JudgedShift { value, low, high, p: 0.0, p_adjusted: 0.0, verdict, more_games: 0 }
    }

    /// The word for two shifts alone and their surplus, all as sure as their size says: nothing below
    /// one would be noticed.
    fn told(first: f64, second: f64, surplus: f64) -> CrossWord {
        let sure = |value: f64| match value.abs() >= 1.0 {
            true => shift(value, Verdict::ClearShift),
            false => shift(value, Verdict::NoDifference),
        };
        word(&sure(first), &sure(second), &sure(first + second + surplus), &sure(surplus))
    }

    #[test]
    fn each_word_has_its_shifts() {
        assert_eq!(told(4.0, -4.0, 0.0), CrossWord::Cancel);
        assert_eq!(told(4.0, -7.0, 3.0), CrossWord::Cancel);
        assert_eq!(told(4.0, 3.0, 0.0), CrossWord::AddUp);
        assert_eq!(told(4.0, -2.0, 0.0), CrossWord::AddUp);
        assert_eq!(told(4.0, 3.0, 2.0), CrossWord::Stronger);
        assert_eq!(told(-4.0, -3.0, -2.0), CrossWord::Stronger);
        assert_eq!(told(4.0, 3.0, -2.0), CrossWord::Weaker);
        assert_eq!(told(4.0, -2.0, 1.5), CrossWord::FirstStronger);
        assert_eq!(told(4.0, -2.0, -4.0), CrossWord::SecondStronger);
        assert_eq!(told(4.0, 0.0, 2.0), CrossWord::FirstStronger);
        assert_eq!(told(4.0, 0.0, -2.0), CrossWord::FirstWeaker);
        assert_eq!(told(0.0, -4.0, -2.0), CrossWord::SecondStronger);
        assert_eq!(told(0.0, -4.0, 2.0), CrossWord::SecondWeaker);
        assert_eq!(told(0.5, 0.0, 2.0), CrossWord::OnlyTogether);
        assert_eq!(told(0.5, 0.5, -1.5), CrossWord::Undecided);
        assert_eq!(told(4.0, 0.5, 0.0), CrossWord::Apart);
    }

    #[test]
    fn what_is_open_is_called_open() {
        let clear = shift(4.0, Verdict::ClearShift);
        let open = shift(0.5, Verdict::Undecided);
        assert_eq!(word(&clear, &clear, &clear, &open), CrossWord::Undecided);
        assert_eq!(word(&open, &open, &open, &open), CrossWord::Apart);
    }
}
