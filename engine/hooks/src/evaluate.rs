//! Value hooks: a script is asked for every argument tuple, the answers become a table.

use rhai::{CallFnOptions, Dynamic, FuncArgs, Position, Scope};
use ruleshift_game::{Domain, Hook, HookSpec, Rules};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::fault::{Running, plain_types};
use crate::limits::{LOAD_OPERATIONS, VALUE_OPERATIONS};
use crate::sandbox::{Compiled, Sandbox};
use crate::source::Source;

/// Applies the value hooks of one script to `rules`, with all that is wrong with their answers.
pub(crate) fn apply(
    source: &Source,
    constants: &Constants,
    hooks: &[Hook],
    rules: &mut Rules,
) -> Vec<Diagnostic> {
    if hooks.is_empty() {
        return Vec::new();
    }
    let mut sandbox = Sandbox::for_values();
    let compiled = match sandbox.finish(&source.text, constants) {
        Ok(compiled) => compiled,
        Err(error) => return vec![crate::syntax::diagnostic(source, &error, constants)],
    };
    let mut evaluator =
        Evaluator { source, sandbox, compiled, scope: Scope::new(), left: LOAD_OPERATIONS };
    hooks.iter().filter_map(|&hook| evaluator.hook(hook, rules).err()).map(|fault| *fault).collect()
}

type Faulty<T> = Result<T, Box<Diagnostic>>;

struct Evaluator<'a> {
    source: &'a Source,
    sandbox: Sandbox,
    compiled: Compiled,
    scope: Scope<'static>,
    left: u64,
}

/// Answers that a hook may not give: the first, and how many there are.
struct Wrong {
    id: Id,
    call: String,
    got: String,
    count: usize,
}

impl Evaluator<'_> {
    fn hook(&mut self, hook: Hook, rules: &mut Rules) -> Faulty<()> {
        let spec = hook.spec();
        let mut wrong: Option<Wrong> = None;
        let changed = rules.change(hook, |now, args| {
            let answer = self.call(spec, now, args)?;
            let fault = match number(spec.result, &answer) {
                Some(number) if in_range(spec.result, number) => return Ok(number),
                Some(number) => (Id::OutOfRange, shown(spec.result, number)),
                None => (Id::WrongType, type_name(&answer)),
            };
            let first = wrong.get_or_insert_with(|| Wrong {
                id: fault.0,
                call: call_text(spec, now, args),
                got: fault.1,
                count: 0,
            });
            first.count += 1;
            Faulty::Ok(now.into())
        })?;
        debug_assert_eq!(changed, Ok(()), "answers are checked as they come");
        wrong.map_or(Ok(()), |wrong| Err(self.wrong(spec, &wrong).into()))
    }

    fn call(&mut self, spec: &HookSpec, now: i32, args: &[i32]) -> Faulty<Dynamic> {
        let result = self.sandbox.engine.call_fn_with_options::<Dynamic>(
            CallFnOptions::new().eval_ast(false),
            &mut self.scope,
            &self.compiled.ast,
            spec.name,
            Arguments { spec, now, args },
        );
        let used = self.sandbox.operations_used();
        let answer = result.map_err(|error| self.running(spec, now, args).diagnostic(&error))?;
        self.left = self.left.checked_sub(used).ok_or_else(|| self.exhausted(spec))?;
        Ok(answer)
    }

    fn running(&self, spec: &HookSpec, now: i32, args: &[i32]) -> Running<'_> {
        Running {
            source: self.source,
            call: call_text(spec, now, args),
            at: self.place(spec),
            operations: VALUE_OPERATIONS,
        }
    }

    fn place(&self, spec: &HookSpec) -> Position {
        let name = self.compiled.names.iter().find(|(name, _)| name == spec.name);
        name.map_or(Position::NONE, |(_, at)| *at)
    }

    fn exhausted(&self, spec: &HookSpec) -> Diagnostic {
        let headline = format!(
            "all answers of the script together took more than {LOAD_OPERATIONS} operations, the last ones for `{}`",
            spec.name
        );
        Diagnostic::new(Id::Budget, self.source, self.place(spec), headline)
            .help("each hook is asked once for every combination of its arguments: do less in each")
    }

    fn wrong(&self, spec: &HookSpec, wrong: &Wrong) -> Diagnostic {
        let expected = spec.result.describe();
        let headline = format!("`{}` gave {}, expected {expected}", wrong.call, wrong.got);
        let diagnostic = Diagnostic::new(wrong.id, self.source, self.place(spec), headline);
        let all = spec.cells();
        let diagnostic = match wrong.count {
            1 => diagnostic,
            count => diagnostic.label(format!("{count} of {all} answers are wrong")),
        };
        match (wrong.id, spec.result) {
            (Id::OutOfRange, Domain::Int(low, high)) => {
                diagnostic.help(format!("`clamp(..., {low}, {high})` keeps it in range"))
            }
            (Id::WrongType, _) if wrong.got == "nothing" => {
                diagnostic.help(crate::culprit::nothing(&self.compiled, spec.name))
            }
            (Id::WrongType, Domain::Int(..)) => diagnostic.help("answer with a whole number"),
            (Id::WrongType, Domain::Flag) => {
                diagnostic.help("answer with `true`, `false` or a comparison such as `now > 1`")
            }
            _ => diagnostic.help("answer with one of these constants"),
        }
    }
}

/// The arguments of one call, flags as `true` and `false`.
struct Arguments<'a> {
    spec: &'a HookSpec,
    now: i32,
    args: &'a [i32],
}

impl FuncArgs for Arguments<'_> {
    fn parse<ARGS: Extend<Dynamic>>(self, container: &mut ARGS) {
        let args = self.args.iter().zip(self.spec.args).map(|(&v, arg)| dynamic(arg.domain, v));
        container.extend(std::iter::once(dynamic(self.spec.result, self.now)).chain(args));
    }
}

/// A value as scripts see it.
pub(crate) fn dynamic(domain: Domain, value: i32) -> Dynamic {
    match domain {
        Domain::Flag => Dynamic::from_bool(value != 0),
        Domain::Int(..) | Domain::Named(_) => Dynamic::from_int(value.into()),
    }
}

fn number(domain: Domain, answer: &Dynamic) -> Option<i64> {
    match domain {
        Domain::Flag => answer.as_bool().ok().map(i64::from),
        Domain::Int(..) | Domain::Named(_) => answer.as_int().ok(),
    }
}

fn in_range(domain: Domain, number: i64) -> bool {
    i32::try_from(number).is_ok_and(|number| domain.contains(number))
}

fn shown(domain: Domain, number: i64) -> String {
    i32::try_from(number).map_or_else(|_| number.to_string(), |number| domain.show(number))
}

fn type_name(answer: &Dynamic) -> String {
    match answer.type_name() {
        "i64" => answer.to_string(),
        "bool" => answer.to_string(),
        "()" => "nothing".to_owned(),
        "string" => "a text".to_owned(),
        "array" => "a list".to_owned(),
        "map" => "a map".to_owned(),
        other => plain_types(other),
    }
}

/// A call with its arguments named: `pins_recovered(now = 1, led = true)`.
pub(crate) fn call_text(spec: &HookSpec, now: i32, args: &[i32]) -> String {
    let named = |name: &str, domain: Domain, value| format!("{name} = {}", domain.show(value));
    let mut parts = vec![named("now", spec.result, now)];
    parts.extend(spec.args.iter().zip(args).map(|(arg, &v)| named(arg.name, arg.domain, v)));
    format!("{}({})", spec.name, parts.join(", "))
}
