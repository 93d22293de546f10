//! An option and its values as they are typed: `two-turn-end-cards:cards=1..4`.

use ruleshift_hooks::{OptionSpec, Stack, StackSpec, VariantSpec};

use crate::exit::Failure;
use crate::nearest::nearest;
use crate::resolve;

/// Values that are tried when none are typed, at most.
const TRIED: usize = 12;
/// Values that may be typed.
const MOST: usize = 100;

/// A variant, the option of it that varies, and its values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Span {
    variant: VariantSpec,
    option: String,
    pub(crate) values: Vec<i64>,
}

impl Span {
    /// Reads `VARIANT:OPTION`, `VARIANT:OPTION=1..4`, `VARIANT:OPTION=10..50/10` or
    /// `VARIANT:OPTION=1,3,9`; other options may stand before it: `VARIANT:OTHER=2,OPTION=1..4`.
    ///
    /// # Errors
    /// What is wrong with the text, the variant, the option or a value.
    pub(crate) fn read(typed: &str) -> Result<Span, Failure> {
        let (head, values) = parted(typed)?;
        let (fixed, option) = match head.rsplit_once([':', ',']) {
            Some((fixed, option)) if !option.is_empty() => (fixed, option),
            _ => return Err(Failure::Input(no_option(typed))),
        };
        let spec: StackSpec = fixed.parse().map_err(|e| Failure::Input(format!("{e}")))?;
        let [variant] = &spec.variants[..] else {
            return Err(Failure::Input(format!(
                "`{typed}`: an option is of one variant; put the other rules into --base"
            )));
        };
        let known = option_of(variant, option)?;
        let values = match values {
            Some(text) => listed(text, typed, &known)?,
            None => all(&known),
        };
        let span = Span { variant: variant.clone(), option: option.to_owned(), values };
        span.check(&known)?;
        Ok(span)
    }

    /// Whether the option allows every value.
    fn check(&self, known: &OptionSpec) -> Result<(), Failure> {
        let wrong: Vec<String> = self
            .values
            .iter()
            .filter(|value| !known.allows(**value))
            .map(ToString::to_string)
            .collect();
        if wrong.is_empty() {
            return Ok(());
        }
        Err(Failure::Input(format!(
            "option `{}` of {} may be {}, not {}",
            self.option,
            self.variant.name,
            known.range(),
            wrong.join(", ")
        )))
    }

    /// The option as typed, without its values.
    pub(crate) fn name(&self) -> String {
        let joint = if self.variant.overrides.0.is_empty() { ':' } else { ',' };
        format!("{}{joint}{}", self.variant, self.option)
    }

    /// The rule stack of one value upon others.
    pub(crate) fn stack(&self, base: &Stack, value: i64) -> Result<Stack, Failure> {
        upon(base, &[self.with(value)])
    }

    /// The rule stack of two options, each with a value; they may be of one variant.
    pub(crate) fn stack_with(
        &self,
        base: &Stack,
        value: i64,
        (other, second): (&Span, i64),
    ) -> Result<Stack, Failure> {
        let mut variant = self.with(value);
        if self.variant == other.variant {
            variant.overrides.0.insert(other.option.clone(), second);
            return upon(base, &[variant]);
        }
        upon(base, &[variant, other.with(second)])
    }

    fn with(&self, value: i64) -> VariantSpec {
        let mut variant = self.variant.clone();
        variant.overrides.0.insert(self.option.clone(), value);
        variant
    }
}

/// A stack with further variants on it.
fn upon(base: &Stack, variants: &[VariantSpec]) -> Result<Stack, Failure> {
    let on: Vec<String> = variants.iter().map(ToString::to_string).collect();
    resolve::stack(&joined(&base.spec(), &on.join("+")))
}

/// Two stacks as one, as typed.
pub(crate) fn joined(base: &str, on: &str) -> String {
    match (base, on) {
        ("base", _) => on.to_owned(),
        (_, "base") => base.to_owned(),
        _ => format!("{base}+{on}"),
    }
}

fn no_option(typed: &str) -> String {
    format!(
        "`{typed}` names no option: write VARIANT:OPTION=VALUES, as in two-turn-end-cards:cards=1..4"
    )
}

/// What stands before the last `=` whose right side is no part of an earlier option, and what behind.
fn parted(typed: &str) -> Result<(&str, Option<&str>), Failure> {
    match typed.rsplit_once('=') {
        // `a:x=1,y` has its last option without values.
        Some((before, after)) if after.split(',').all(is_values) => Ok((before, Some(after))),
        Some((_, after)) if after.contains(',') => Ok((typed, None)),
        Some((_, after)) => Err(Failure::Input(format!(
            "`{after}` are no values: write a range as 1..4, 10..50/10 with steps, or a list as 1,3,9"
        ))),
        None => Ok((typed, None)),
    }
}

fn is_values(part: &str) -> bool {
    range(part).is_some()
}

/// `3`, `1..4` or `10..50/10`: first, last and step.
fn range(part: &str) -> Option<(i64, i64, Option<i64>)> {
    let Some((first, rest)) = part.split_once("..") else {
        let value = part.trim().parse().ok()?;
        return Some((value, value, None));
    };
    let (last, step) = match rest.split_once('/') {
        Some((last, step)) => (last, Some(step.trim().parse().ok().filter(|step| *step > 0)?)),
        None => (rest, None),
    };
    Some((first.trim().parse().ok()?, last.trim().parse().ok()?, step))
}

/// The values of a text, in order and each once. A range without a step takes that of the option.
fn listed(text: &str, typed: &str, known: &OptionSpec) -> Result<Vec<i64>, Failure> {
    let mut values = vec![];
    for (first, last, step) in text.split(',').filter_map(range) {
        let step = usize::try_from(step.unwrap_or(known.step)).unwrap_or(1).max(1);
        values.extend((first..=last).step_by(step).take(MOST + 1));
    }
    values.sort_unstable();
    values.dedup();
    match values.len() {
        0 => Err(Failure::Input(format!("`{typed}` has no value: a range goes from low to high"))),
        n if n > MOST => Err(Failure::Input(format!("`{typed}` has more than {MOST} values"))),
        _ => Ok(values),
    }
}

/// All values of an option, or evenly spread ones when they are many.
fn all(known: &OptionSpec) -> Vec<i64> {
    let values: Vec<i64> = known.values().collect();
    let every = values.len().div_ceil(TRIED);
    values.into_iter().step_by(every.max(1)).collect()
}

/// The option of that name.
fn option_of(spec: &VariantSpec, name: &str) -> Result<OptionSpec, Failure> {
    let stack = resolve::stack(&spec.to_string())?;
    let options: Vec<&OptionSpec> =
        stack.variants().iter().flat_map(|variant| variant.options()).map(|o| &o.spec).collect();
    if let Some(known) = options.iter().find(|known| known.name == name) {
        return Ok((*known).clone());
    }
    let names: Vec<&str> = options.iter().map(|known| known.name.as_str()).collect();
    let help = match nearest(name, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if names.is_empty() => "it has none".to_owned(),
        None => format!("it has: {}", names.join(", ")),
    };
    Err(Failure::Input(format!("{} has no option called `{name}`: {help}", spec.name)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(typed: &str) -> Span {
        Span::read(typed).unwrap()
    }

    fn fault(typed: &str) -> String {
        Span::read(typed).unwrap_err().to_string()
    }

    #[test]
    fn values_are_a_range_a_list_or_all() {
        let values = |typed| read(typed).values;
        assert_eq!(values("two-turn-end-cards:cards=1..3"), [1, 2, 3]);
        assert_eq!(values("two-turn-end-cards:cards=4,1,2..3,2"), [1, 2, 3, 4]);
        assert_eq!(values("two-turn-end-cards:cards"), [1, 2, 3, 4]);
        assert_eq!(values("tougher-sides:more=0..20/10"), [0, 10, 20]);
        assert_eq!(values("tougher-sides:more=0..20"), [0, 5, 10, 15, 20], "steps of the option");
        assert!(values("tougher-sides:more").len() <= TRIED);
    }

    #[test]
    fn the_stack_of_a_value_stands_on_the_base() {
        let span = read("two-turn-end-cards:cards=1..3");
        assert_eq!(span.name(), "two-turn-end-cards:cards");
        let base = resolve::stack("no-late-fire").unwrap();
        let stack = span.stack(&base, 3).unwrap();
        assert_eq!(stack.spec(), "no-late-fire+two-turn-end-cards:cards=3");
        let other = read("tougher-sides:more=5..10");
        let both = span.stack_with(&resolve::stack("base").unwrap(), 1, (&other, 5)).unwrap();
        assert_eq!(both.spec(), "two-turn-end-cards:cards=1+tougher-sides:more=5");
    }

    #[test]
    fn a_span_that_is_none_says_what_to_type() {
        assert!(fault("two-turn-end-cards").contains("VARIANT:OPTION=VALUES"));
        assert!(fault("two-turn-end-cards:card=1..2").contains("did you mean `cards`?"));
        assert!(fault("two-turn-end-card:cards=1..2").contains("`two-turn-end-cards`"));
        assert!(fault("two-turn-end-cards:cards=0..2").contains("may be 1 to 4, not 0"));
        assert!(fault("two-turn-end-cards:cards=3..2").contains("from low to high"));
        assert!(fault("two-turn-end-cards:cards=many").contains("`many` are no values"));
        assert!(fault("tougher-sides:more=1..7/2").contains("in steps of 5, not 1, 3, 7"));
        assert!(fault("no-late-fire:x=1").contains("it has none"));
    }
}
