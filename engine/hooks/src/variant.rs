//! One house rule: a script that has been read, checked and tried.

use rhai::Expr;
use ruleshift_game::{Digest, EVENT_HOOKS, Hook, Part, Rules, hook_by_name};

use crate::about::{self, About};
use crate::change::{Change, changes};
use crate::constants::{Constants, constants};
use crate::diagnostic::{Diagnostic, Diagnostics, Id, Severity};
use crate::extras::{CardSpec, CounterSpec};
use crate::limits::MAX_SCRIPT;
use crate::nearest::did_you_mean;
use crate::options::{OptionValue, Overrides};
use crate::sandbox::{Compiled, Sandbox};
use crate::source::Source;
use crate::survey::{Survey, only_expression};
use crate::{evaluate, structure, syntax, trial};

/// A house rule, ready to be put into a stack. It holds plain data and may be shared by threads.
#[derive(Clone, Debug)]
pub struct Variant {
    pub(crate) source: Source,
    pub(crate) constants: Constants,
    about: About,
    options: Vec<OptionValue>,
    overridden: Vec<(String, i64)>,
    value_hooks: Vec<Hook>,
    event_hooks: Vec<usize>,
    /// Value hooks that hand on what they are given, as those of the template do.
    idle: Vec<Hook>,
    pub(crate) on_base: Rules,
    warnings: Diagnostics,
}

impl Variant {
    /// Reads, checks and tries a script.
    ///
    /// # Errors
    /// All that is wrong with the script, or with the values given to its options.
    pub fn load(source: &Source, overrides: &Overrides) -> Result<Variant, Diagnostics> {
        let (parsed, mut faults) =
            Parsed::read(source, overrides).map_err(|faults| Diagnostics::new(source, faults))?;
        let mut on_base = Rules::base();
        if !fatal(&faults) {
            let Parsed { constants, value_hooks, event_hooks, .. } = &parsed;
            faults.extend(evaluate::apply(source, constants, value_hooks, &mut on_base));
            faults.extend(trial::run(source, constants, event_hooks, parsed.about.share()));
        }
        let fatal = fatal(&faults);
        let warnings = Diagnostics::new(source, faults);
        if fatal {
            return Err(warnings);
        }
        let Parsed { constants, about, options, value_hooks, event_hooks, idle } = parsed;
        let overridden = overrides.0.iter().map(|(name, value)| (name.clone(), *value)).collect();
        let source = source.clone();
        Ok(Variant {
            source,
            constants,
            about,
            options,
            overridden,
            value_hooks,
            event_hooks,
            idle,
            on_base,
            warnings,
        })
    }

    /// Its name, without options.
    pub fn name(&self) -> &str {
        &self.source.name
    }

    /// Its name with the values given to options, as it is typed: `name:cards=3`.
    pub fn spec(&self) -> String {
        let given = self.overridden.iter().map(|(name, value)| format!("{name}={value}"));
        let given: Vec<String> = given.collect();
        let colon = if given.is_empty() { "" } else { ":" };
        format!("{}{colon}{}", self.name(), given.join(","))
    }

    /// Its script.
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// Its title.
    pub fn title(&self) -> &str {
        &self.about.title
    }

    /// What it changes, in a sentence or two.
    pub fn summary(&self) -> &str {
        &self.about.summary
    }

    /// The question it asks, if it asks one.
    pub fn question(&self) -> Option<&str> {
        self.about.question.as_deref()
    }

    /// What its author expects it to shift, if he says so.
    pub fn expect(&self) -> Option<&str> {
        self.about.expect.as_deref()
    }

    /// The cards of its own that its event hooks may put into the deck.
    pub fn cards(&self) -> &[CardSpec] {
        &self.about.cards
    }

    /// The counters it keeps in the game's state.
    pub fn counters(&self) -> &[CounterSpec] {
        &self.about.counters
    }

    /// How many cards and counters it has, as the first of a stack.
    pub(crate) fn share(&self) -> Part {
        self.about.share()
    }

    /// Its options with their values.
    pub fn options(&self) -> &[OptionValue] {
        &self.options
    }

    /// The value hooks its script defines.
    pub fn value_hooks(&self) -> &[Hook] {
        &self.value_hooks
    }

    /// The event hooks its script defines and does something in, as places in
    /// [`ruleshift_game::EVENT_HOOKS`].
    pub fn event_hooks(&self) -> &[usize] {
        &self.event_hooks
    }

    /// The value hooks whose whole body is the value they are given: hooks that leave a rule alone
    /// on purpose, as the template does.
    pub fn idle_hooks(&self) -> &[Hook] {
        &self.idle
    }

    /// The same variant less one of its hooks, value or event; to see what that hook does.
    pub fn without(&self, hook: &str) -> Variant {
        let mut less = self.clone();
        less.value_hooks.retain(|h| h.spec().name != hook);
        less.event_hooks.retain(|&n| EVENT_HOOKS[n].name != hook);
        if let Some(hook) = hook_by_name(hook) {
            let base = |_: i32, args: &[i32]| Ok::<i64, ()>((hook.spec().base)(args).into());
            let changed = less.on_base.change(hook, base);
            debug_assert_eq!(changed, Ok(Ok(())), "base answers are in range");
        }
        less
    }

    /// What looks wrong with the script without keeping it from being used.
    pub fn warnings(&self) -> &Diagnostics {
        &self.warnings
    }

    /// The base rules with the value hooks of this variant alone.
    pub fn on_base(&self) -> &Rules {
        &self.on_base
    }

    /// What the variant alone changes in the base rules, hook by hook.
    pub fn changes(&self) -> Vec<Change> {
        changes(&Rules::base(), &self.on_base, &self.value_hooks)
    }

    /// 8 hexadecimal digits that stand for what the variant does: the answers of its value hooks
    /// and, if it has event hooks, its text and the values of its options.
    pub fn digest(&self) -> String {
        let mut digest = Digest::new();
        digest.word(self.on_base.digest());
        if !self.event_hooks.is_empty() {
            digest.text(&self.source.text);
            for option in &self.options {
                digest.text(&option.spec.name);
                digest.word(option.value as u64);
            }
        }
        digest.short()
    }
}

fn fatal(faults: &[Diagnostic]) -> bool {
    faults.iter().any(|fault| fault.severity == Severity::Error)
}

/// A script as far as its text says.
struct Parsed {
    constants: Constants,
    about: About,
    options: Vec<OptionValue>,
    value_hooks: Vec<Hook>,
    event_hooks: Vec<usize>,
    idle: Vec<Hook>,
}

impl Parsed {
    /// Reads a script, with the faults of its make-up.
    fn read(
        source: &Source,
        overrides: &Overrides,
    ) -> Result<(Parsed, Vec<Diagnostic>), Vec<Diagnostic>> {
        if source.text.len() > MAX_SCRIPT {
            let length = source.text.len();
            let headline = format!("the script has {length} bytes, expected at most {MAX_SCRIPT}");
            return Err(vec![Diagnostic::new(Id::TooLong, source, rhai::Position::NONE, headline)]);
        }
        let mut sandbox = Sandbox::for_values();
        let mut constants = constants();
        let first = draft(&mut sandbox, source, &constants)?;
        let (about, mut faults) = about::read(source, &first, &Survey::of(&first));
        let options = values(source, &about, overrides, &mut faults);
        constants.extend(options.iter().map(|o| (o.spec.name.to_uppercase(), o.value)));
        constants.extend((0..).zip(&about.cards).map(|(n, c)| (c.name.to_uppercase(), n)));
        constants.extend((0..).zip(&about.counters).map(|(n, c)| (c.name.to_uppercase(), n)));
        let compiled = sandbox
            .draft(&source.text, &constants, false)
            .map_err(|error| vec![syntax::diagnostic(source, &error, &constants)])?;
        let survey = Survey::of(&compiled);
        faults.extend(structure::check(source, &survey, &constants));
        let (value_hooks, event_hooks) = hooks(&survey);
        let idle = value_hooks.iter().copied().filter(|&hook| hands_on(hook, &survey, &compiled));
        let idle = idle.collect();
        Ok((Parsed { constants, about, options, value_hooks, event_hooks, idle }, faults))
    }
}

/// The script before its options are known. Their constants may stand where only a number may,
/// so a script that cannot be read is read again with every name in large letters as a number.
fn draft(
    sandbox: &mut Sandbox,
    source: &Source,
    constants: &Constants,
) -> Result<Compiled, Vec<Diagnostic>> {
    sandbox.draft(&source.text, constants, false).or_else(|error| {
        let lenient = sandbox.draft(&source.text, constants, true);
        lenient.map_err(|_| vec![syntax::diagnostic(source, &error, constants)])
    })
}

/// The options with their values.
fn values(
    source: &Source,
    about: &About,
    overrides: &Overrides,
    faults: &mut Vec<Diagnostic>,
) -> Vec<OptionValue> {
    let none = rhai::Position::NONE;
    for (name, &value) in &overrides.0 {
        let Some(spec) = about.options.iter().find(|spec| spec.name == *name) else {
            let names: Vec<&str> = about.options.iter().map(|spec| spec.name.as_str()).collect();
            let help = did_you_mean(name, names.iter().copied()).unwrap_or_else(|| {
                if names.is_empty() {
                    "it has no options".into()
                } else {
                    format!("it has {}", names.join(", "))
                }
            });
            let headline = format!("`{}` has no option `{name}`", source.name);
            faults.push(Diagnostic::new(Id::UnknownOption, source, none, headline).help(help));
            continue;
        };
        if !spec.allows(value) {
            let headline = format!("option `{name}` is {value}, expected {}", spec.range());
            faults.push(Diagnostic::new(Id::OptionRange, source, none, headline));
        }
    }
    let value = |name: &String, default| overrides.0.get(name).copied().unwrap_or(default);
    let with_value = |spec: &crate::OptionSpec| OptionValue {
        value: value(&spec.name, spec.default),
        spec: spec.clone(),
    };
    about.options.iter().map(with_value).collect()
}

/// Whether the whole body of a hook is its first argument.
fn hands_on(hook: Hook, survey: &Survey, compiled: &Compiled) -> bool {
    let Some(function) = survey.function(hook.spec().name) else { return false };
    match (only_expression(&compiled.ast, function), function.params.first()) {
        (Some(Expr::Variable(name, ..)), Some(now)) => name.1.as_str() == now,
        _ => false,
    }
}

/// The hooks a script defines; an event hook that does nothing does not count.
fn hooks(survey: &Survey) -> (Vec<Hook>, Vec<usize>) {
    let mut values: Vec<Hook> =
        survey.functions.iter().filter_map(|f| hook_by_name(&f.name)).collect();
    values.sort_unstable();
    let acts = |name: &str| survey.function(name).is_some_and(|function| !function.empty);
    let events = (0..EVENT_HOOKS.len()).filter(|&n| acts(EVENT_HOOKS[n].name)).collect();
    (values, events)
}
