//! Numbers as a reader sees them: by unit, with a true minus sign.
//!
//! Shares print as percent and their shifts as percentage points ("pp"). Other values get one digit
//! more than the smallest shift worth noticing has, so no table shows digits that mean nothing.

use ruleshift_record::MetricShift;

/// How the values of one metric print.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale<'a> {
    unit: &'a str,
    decimals: usize,
}

impl<'a> Scale<'a> {
    /// The scale of a metric, by its unit and its smallest shift worth noticing.
    pub(crate) fn new(unit: &'a str, notice: f64) -> Scale<'a> {
        let decimals = match notice {
            _ if unit == "share" => 1,
            n if n < 1.0 => 2,
            n if n < 10.0 => 1,
            _ => 0,
        };
        Scale { unit, decimals }
    }

    /// The scale of the metric of `shift`.
    pub(crate) fn of(shift: &'a MetricShift) -> Scale<'a> {
        Scale::new(&shift.unit, shift.notice)
    }

    fn is_share(&self) -> bool {
        self.unit == "share"
    }

    fn number(&self, value: f64) -> String {
        fixed(if self.is_share() { 100.0 * value } else { value }, self.decimals)
    }

    /// A value without its unit, but for the percent sign: "48.3 %", "8.41".
    pub(crate) fn value(&self, value: f64) -> String {
        self.number(value) + if self.is_share() { " %" } else { "" }
    }

    /// A shift with its sign: "+2.1 pp", "−0.35".
    pub(crate) fn shift(&self, shift: f64) -> String {
        self.signed(shift) + if self.is_share() { " pp" } else { "" }
    }

    /// The size of a shift without a sign: "2.1 pp", "0.35".
    pub(crate) fn unsigned(&self, shift: f64) -> String {
        self.number(shift.abs()) + if self.is_share() { " pp" } else { "" }
    }

    /// The unit of a shift in words.
    pub(crate) fn unit_of_shift(&self) -> &'a str {
        if self.is_share() { "percentage points" } else { plural(self.unit) }
    }

    /// A shift with its sign and without any unit.
    pub(crate) fn signed(&self, shift: f64) -> String {
        let text = self.number(shift);
        // What rounds to zero has no sign.
        let plus = shift > 0.0 && text.bytes().any(|b| b.is_ascii_digit() && b != b'0');
        if plus { format!("+{text}") } else { text }
    }

    /// The interval of a shift: "+1.1 to +1.3".
    pub(crate) fn interval(&self, low: f64, high: f64) -> String {
        format!("{} to {}", self.signed(low), self.signed(high))
    }

    /// The size of a shift in words: "1.2 turns", "2.1 percentage points".
    pub(crate) fn amount(&self, shift: f64) -> String {
        let number = self.number(shift.abs());
        let unit = if self.is_share() { "percentage points" } else { self.unit };
        let text = if number == "1" { singular(unit) } else { plural(unit) };
        format!("{number} {text}")
    }

    /// The column unit after a label: "length (turns)"; shares need none.
    pub(crate) fn labelled(&self, label: &str) -> String {
        if self.is_share() { label.to_owned() } else { format!("{label} ({})", self.unit) }
    }
}

/// `value` with that many decimals, a true minus sign, and no sign on a zero.
pub(crate) fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    let zero = text.bytes().all(|b| !b.is_ascii_digit() || b == b'0');
    if value < 0.0 && !zero { format!("\u{2212}{text}") } else { text }
}

/// A count with thousands set apart: "10,000".
pub(crate) fn count(n: u64) -> String {
    let digits = n.to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// A count with its noun: "1 game", "10,000 games".
pub(crate) fn counted(n: u64, noun: &str) -> String {
    if n == 1 { format!("1 {noun}") } else { format!("{} {noun}s", count(n)) }
}

/// A rough count rounded up to two digits: 3412 becomes "3,500".
pub(crate) fn about(n: u32) -> String {
    let mut step = 1_u64;
    while u64::from(n) / step >= 100 {
        step *= 10;
    }
    count(u64::from(n).div_ceil(step) * step)
}

/// A p-value: "0.023", "< 0.001".
pub(crate) fn p_value(p: f64) -> String {
    if p < 0.001 { "< 0.001".to_owned() } else { fixed(p, 3) }
}

/// Names joined as a sentence does: "a, b and c".
pub(crate) fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn singular(unit: &str) -> &str {
    match unit {
        "men" => "man",
        "dice" => "die",
        "rallies" => "rally",
        _ => unit.strip_suffix('s').unwrap_or(unit),
    }
}

fn plural(unit: &str) -> &str {
    if unit == "turn" { "turns" } else { unit }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_print_as_percent_and_their_shifts_as_points() {
        let share = Scale::new("share", 0.03);
        assert_eq!(share.value(0.4834), "48.3 %");
        assert_eq!(share.shift(0.0214), "+2.1 pp");
        assert_eq!(share.shift(-0.0214), "−2.1 pp");
        assert_eq!(share.amount(-0.0214), "2.1 percentage points");
        assert_eq!(share.labelled("attacker wins"), "attacker wins");
    }

    #[test]
    fn decimals_follow_the_smallest_shift_worth_noticing() {
        assert_eq!(Scale::new("turns", 0.3).value(8.414), "8.41");
        assert_eq!(Scale::new("minutes", 5.0).shift(1.25001), "+1.3");
        assert_eq!(Scale::new("dice", 20.0).interval(-3.4, 11.6), "−3 to +12");
    }

    #[test]
    fn what_rounds_to_zero_has_no_sign() {
        let dice = Scale::new("dice", 20.0);
        assert_eq!([dice.shift(0.0), dice.shift(-0.2), dice.shift(0.2)], ["0"; 3]);
        assert_eq!(Scale::new("share", 0.03).shift(-0.0), "0.0 pp");
    }

    #[test]
    fn one_of_a_unit_is_singular() {
        assert_eq!(Scale::new("dice", 20.0).amount(1.0), "1 die");
        assert_eq!(Scale::new("choices", 10.0).amount(-1.2), "1 choice");
        assert_eq!(Scale::new("turn", 0.25).amount(0.5), "0.50 turns");
    }

    #[test]
    fn counts_are_set_apart_in_thousands() {
        assert_eq!(
            [count(0), count(999), count(1000), count(1_234_567)],
            ["0", "999", "1,000", "1,234,567"]
        );
        assert_eq!([counted(1, "game"), counted(0, "game")], ["1 game", "0 games"]);
        assert_eq!([about(7), about(3412), about(99), about(100)], ["7", "3,500", "99", "100"]);
        assert_eq!(about(u32::MAX), "4,300,000,000");
    }

    #[test]
    fn names_join_as_in_a_sentence() {
        let names = ["a", "b", "c"].map(String::from);
        assert_eq!([and(&names[..0]), and(&names[..1]), and(&names)], ["", "a", "a, b and c"]);
    }

    #[test]
    fn tiny_p_values_are_not_spelled_out() {
        assert_eq!([p_value(0.0), p_value(0.0231), p_value(1.0)], ["< 0.001", "0.023", "1.000"]);
    }
}
