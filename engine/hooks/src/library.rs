//! The functions every script may call, besides operators: few, small and without side effects.

use std::iter::StepBy;
use std::ops::{Range, RangeInclusive};

use rhai::packages::{ArithmeticPackage, LogicPackage, Package};
use rhai::{Array, Engine, EvalAltResult, ImmutableString, Module, Position};

/// One function scripts may call.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Function {
    /// Name.
    pub(crate) name: &'static str,
    /// Names of the arguments.
    pub(crate) args: &'static [&'static str],
    /// What it gives.
    pub(crate) about: &'static str,
}

const fn function(
    name: &'static str,
    args: &'static [&'static str],
    about: &'static str,
) -> Function {
    Function { name, args, about }
}

/// All of them.
pub(crate) const LIBRARY: &[Function] = &[
    function("abs", &["number"], "The number without its sign."),
    function("sign", &["number"], "-1, 0 or 1."),
    function("min", &["a", "b"], "The smaller of two numbers."),
    function("max", &["a", "b"], "The larger of two numbers."),
    function(
        "clamp",
        &["number", "low", "high"],
        "The number, or the bound it lies beyond; an error when low is above high.",
    ),
    function("is_odd", &["number"], "Whether a number is odd."),
    function("is_even", &["number"], "Whether a number is even."),
    function("is_zero", &["number"], "Whether a number is zero."),
    function("len", &["list"], "How many elements a list has, or characters a text."),
    function(
        "contains",
        &["list", "number"],
        "Whether a list or range holds a number; also `number in list`.",
    ),
    function("push", &["list", "value"], "Adds a value to the end of a list."),
    function(
        "range",
        &["first", "end", "step"],
        "The numbers from the first on, by steps, before the end; `for` takes it.",
    ),
];

/// Properties of values besides those of the game.
pub(crate) const PROPERTIES: &[&str] = &["len"];

/// Gives an engine the library.
pub(crate) fn register(engine: &mut Engine) {
    let mut module = Module::new();
    ArithmeticPackage::init(&mut module);
    LogicPackage::init(&mut module);
    module.set_iterator::<Range<i64>>();
    module.set_iterator::<RangeInclusive<i64>>();
    module.set_iterator::<StepBy<Range<i64>>>();
    module.set_iterable::<Array>();
    engine.register_global_module(module.into());
    engine.register_fn("clamp", clamp);
    engine.register_fn("range", range);
    engine.register_fn("len", |list: &mut Array| list.len() as i64);
    engine.register_get("len", |list: &mut Array| list.len() as i64);
    engine.register_fn("len", |text: ImmutableString| text.chars().count() as i64);
    engine.register_get("len", |text: &mut ImmutableString| text.chars().count() as i64);
    engine.register_fn("contains", |list: &mut Array, number: i64| {
        list.iter().any(|element| element.as_int() == Ok(number))
    });
    engine.register_fn("contains", |range: Range<i64>, number: i64| range.contains(&number));
    engine
        .register_fn("contains", |range: RangeInclusive<i64>, number: i64| range.contains(&number));
    // The engine checks the size of the list when the call has returned.
    engine.register_fn("push", |list: &mut Array, value: rhai::Dynamic| list.push(value));
}

type Answer<T> = Result<T, Box<EvalAltResult>>;

fn fault<T>(text: &str) -> Answer<T> {
    Err(EvalAltResult::ErrorArithmetic(text.to_owned(), Position::NONE).into())
}

fn clamp(number: i64, low: i64, high: i64) -> Answer<i64> {
    if low > high {
        return fault(&format!("clamp: low {low} is above high {high}"));
    }
    Ok(number.clamp(low, high))
}

fn range(first: i64, end: i64, step: i64) -> Answer<StepBy<Range<i64>>> {
    match usize::try_from(step) {
        Ok(step @ 1..) => Ok((first..end).step_by(step)),
        _ => fault(&format!("range: the step must be 1 or more, not {step}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Variant};

    #[test]
    fn every_listed_function_can_be_called() {
        for function in LIBRARY {
            let args: Vec<&str> =
                function.args.iter().map(|&arg| if arg == "list" { "[1]" } else { "1" }).collect();
            let call = format!("{}({})", function.name, args.join(", "));
            let text = format!(
                "fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }} fn marker_actions(now) {{ {call}; now }}"
            );
            let loaded = Variant::load(&Source::new(function.name, text), &Overrides::none());
            assert!(loaded.is_ok(), "{}", loaded.unwrap_err());
        }
    }
}
