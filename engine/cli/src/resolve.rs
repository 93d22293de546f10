//! From what was typed to what it names: rule stacks, scenarios, doctrines.

use std::fmt;
use std::path::Path;

use ruleshift_hooks::{
    Diagnostics, SHIPPED as VARIANTS, Source, Stack, StackSpec, Variant, VariantSpec,
};
use ruleshift_players::{Doctrine, PLANNER, PlayerSpec, Strategy};
use ruleshift_record::{METRICS, Metric};
use ruleshift_scenarios::{SHIPPED as SCENARIOS, Scenario, Support, parted};
use serde::Serialize;

use crate::exit::{Failure, keep, together};
use crate::nearest::{nearest, unknown};
use crate::screen;
use crate::text::read;
use crate::wire::Seated;

/// What is wrong with a rule stack that was typed.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub(crate) enum Wrong {
    /// What was typed: a name, an option.
    Typed {
        /// What is wrong, and what to type instead.
        message: String,
    },
    /// A script, with all its faults.
    Script(Diagnostics),
    /// A game that the rules stopped.
    Stopped {
        /// What happened, and where in the script.
        message: String,
        /// The ticket of the game.
        ticket: String,
    },
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::Typed { message } => f.write_str(message),
            Wrong::Script(faults) => f.write_str(&faults.render(screen::complaint_colour())),
            Wrong::Stopped { message, ticket } => {
                write!(f, "a trial game stopped: {message}\n  Its ticket: {ticket}")
            }
        }
    }
}

/// The rule stack that was typed, with all that is wrong with it.
///
/// # Errors
/// A script that cannot be read.
pub(crate) fn parts(typed: &str) -> Result<Result<Stack, Vec<Wrong>>, Failure> {
    let spec: StackSpec = match typed.parse() {
        Ok(spec) => spec,
        Err(error) => return Ok(Err(vec![Wrong::Typed { message: format!("{error}") }])),
    };
    let mut variants = Vec::new();
    let mut wrong: Vec<Wrong> = lying_here(&spec).into_iter().collect();
    for part in spec.variants.iter().filter(|part| !lies_here(&part.name)) {
        match variant(part)? {
            Ok(variant) => variants.push(variant),
            Err(fault) => wrong.push(fault),
        }
    }
    Ok(if wrong.is_empty() { Ok(Stack::new(variants)) } else { Err(wrong) })
}

/// The rule stack that was typed.
///
/// # Errors
/// What is wrong with the text, with a name in it, or with a script: all scripts' faults at once.
pub(crate) fn stack(typed: &str) -> Result<Stack, Failure> {
    parts(typed)?.map_err(|wrong| {
        let told: Vec<String> = wrong.iter().map(ToString::to_string).collect();
        Failure::Input(told.join("\n"))
    })
}

/// Whether a name is no variant's, but that of a script in this folder without its ending.
fn lies_here(name: &str) -> bool {
    let path = format!("{name}.rhai");
    let named = is_path(name, ".rhai") || ruleshift_hooks::shipped(name).is_some();
    !named && Path::new(&path).is_file()
}

/// What to type for the scripts of this folder that lack their ending.
fn lying_here(typed: &StackSpec) -> Option<Wrong> {
    let mut meant = typed.clone();
    let lacking = meant.variants.iter_mut().filter(|part| lies_here(&part.name));
    let files: Vec<String> = lacking
        .map(|part| {
            part.name += ".rhai";
            part.name.clone()
        })
        .collect();
    let lie = if files.len() == 1 { "lies" } else { "lie" };
    let message = format!("{} {lie} here: write `{meant}`", files.join(", "));
    (!files.is_empty()).then_some(Wrong::Typed { message })
}

/// One variant of a stack.
fn variant(spec: &VariantSpec) -> Result<Result<Variant, Wrong>, Failure> {
    let source = match source(&spec.name) {
        Ok(source) => source,
        Err(failure @ Failure::File(_)) => return Err(failure),
        Err(failure) => return Ok(Err(Wrong::Typed { message: failure.to_string() })),
    };
    Ok(Variant::load(&source, &spec.overrides).map_err(Wrong::Script))
}

/// The script of a shipped name or a path.
pub(crate) fn source(name: &str) -> Result<Source, Failure> {
    if is_path(name, ".rhai") {
        let text = read(Path::new(name))?;
        return Ok(Source { path: Some(name.into()), ..Source::new(name, text) });
    }
    let shipped = ruleshift_hooks::shipped(name).ok_or_else(|| {
        let names: Vec<&str> = VARIANTS.iter().map(|v| v.name).collect();
        Failure::Input(unknown(
            "variant",
            name,
            &names,
            ".rhai; `ruleshift list variants` shows all that come with the program",
        ))
    })?;
    Ok(Source::new(shipped.name, shipped.text))
}

/// The scenarios that were typed; `all` stands for the shipped ones, `generated:20` for drawn ones.
///
/// # Errors
/// What is wrong with a name or with a file, with everything that is wrong with it.
pub(crate) fn scenarios(typed: &[String]) -> Result<Vec<Scenario>, Failure> {
    let mut names = vec![];
    for name in typed {
        names.extend(scenario_names(name)?);
    }
    if let Some((_, twice)) = names.iter().enumerate().find(|(n, name)| names[..*n].contains(name))
    {
        return Err(Failure::Input(format!("scenario `{twice}` is named twice: name it once")));
    }
    let mut faults = vec![];
    let found: Vec<Scenario> =
        names.iter().filter_map(|name| keep(scenario(name), &mut faults)).collect();
    if faults.is_empty() { Ok(found) } else { Err(together(faults)) }
}

/// The names that one word stands for, each with the support that the word adds.
fn scenario_names(typed: &str) -> Result<Vec<String>, Failure> {
    let (name, added) = parted(typed);
    let names = names_without(name)?;
    let with = |name: String| added.map_or(name.clone(), |added| format!("{name}+{added}"));
    Ok(names.into_iter().map(with).collect())
}

fn names_without(typed: &str) -> Result<Vec<String>, Failure> {
    if typed == "all" {
        return Ok(SCENARIOS.iter().map(|(name, _)| (*name).to_owned()).collect());
    }
    if is_path(typed, ".ron") {
        return Ok(vec![typed.to_owned()]);
    }
    let several = ruleshift_scenarios::several(typed).transpose().map_err(Failure::Input)?;
    Ok(several.unwrap_or_else(|| vec![typed.to_owned()]))
}

/// The scenario of a shipped name, a path or the name of a drawn one, with the support that the name
/// adds.
///
/// # Errors
/// Everything that is wrong with the name, the support and the file.
pub(crate) fn scenario(typed: &str) -> Result<Scenario, Failure> {
    let (name, added) = parted(typed);
    let Some(added) = added else { return scenario_without(name) };
    match (scenario_text(name), Support::several(added)) {
        (Ok(text), Ok(support)) => Scenario::supported(typed, &text, &support)
            .map_err(|error| Failure::Input(error.to_string())),
        (Err(failure), Ok(_)) => Err(failure),
        (text, Err(faults)) => {
            let wrong = text.err().map(|failure| failure.to_string());
            let wrong: Vec<String> = wrong.into_iter().chain(faults).collect();
            Err(Failure::Input(format!(
                "scenario {typed} cannot be played:\n  {}",
                wrong.join("\n  ")
            )))
        }
    }
}

/// The scenario and its choices for a side, from the force lists of a nation or of that side's own.
///
/// # Errors
/// What is wrong with the name, the file or the nation.
pub(crate) fn choices(
    typed: &str,
    side: &str,
    nation: Option<&str>,
) -> Result<Vec<Scenario>, Failure> {
    let (name, added) = parted(typed);
    if added.is_some() {
        scenario(typed)?;
    }
    ruleshift_scenarios::choices(typed, &scenario_text(name)?, side, nation).map_err(Failure::Input)
}

/// The file of a scenario without support.
fn scenario_text(name: &str) -> Result<String, Failure> {
    if is_path(name, ".ron") {
        return read(Path::new(name));
    }
    if let Some(drawn) = ruleshift_scenarios::named(name) {
        return drawn.map(|drawn| drawn.text).map_err(Failure::Input);
    }
    let shipped = SCENARIOS.iter().find(|(shipped, _)| *shipped == name);
    shipped.map(|(_, text)| (*text).to_owned()).ok_or_else(|| unknown_scenario(name))
}

fn scenario_without(name: &str) -> Result<Scenario, Failure> {
    if is_path(name, ".ron") {
        let text = read(Path::new(name))?;
        return Scenario::from_ron(name, &text).map_err(|e| Failure::Input(e.to_string()));
    }
    if let Some(drawn) = ruleshift_scenarios::named(name) {
        return drawn.map(|drawn| drawn.scenario).map_err(Failure::Input);
    }
    ruleshift_scenarios::shipped(name).ok_or_else(|| unknown_scenario(name))
}

fn unknown_scenario(name: &str) -> Failure {
    let names: Vec<&str> = SCENARIOS.iter().map(|(name, _)| *name).collect();
    Failure::Input(unknown(
        "scenario",
        name,
        &names,
        ".ron; `all` stands for all shipped ones, `generated:20` for 20 drawn ones",
    ))
}

/// The doctrine of a shipped name or a path; `others` might have been meant as well.
///
/// # Errors
/// What is wrong with the name or with the file.
pub(crate) fn doctrine(name: &str, others: &[&str]) -> Result<Doctrine, Failure> {
    if is_path(name, ".ron") {
        let text = read(Path::new(name))?;
        return Doctrine::from_ron(&text)
            .map_err(|e| Failure::Input(format!("doctrine {name}: {e}")));
    }
    let shipped = ruleshift_players::shipped();
    let names = shipped.iter().map(|d| d.name.as_str());
    let names: Vec<&str> = names.chain(others.iter().copied()).collect();
    let unknown = || Failure::Input(unknown("player", name, &names, ".ron"));
    shipped.iter().find(|d| d.name == name).cloned().ok_or_else(unknown)
}

/// The player that was typed: a doctrine or a planner, with its options.
///
/// # Errors
/// What is wrong with the name, an option or the file.
pub(crate) fn player(typed: &str) -> Result<Seated, Failure> {
    let spec: PlayerSpec = typed.parse::<PlayerSpec>()?;
    let others: &[&str] = if spec.name == PLANNER { &[] } else { &[PLANNER] };
    Ok(Seated { strategy: Strategy::new(&spec, &mut |name| doctrine(name, others))?, spec })
}

/// The metric of that name.
///
/// # Errors
/// When there is none.
pub(crate) fn metric(name: &str) -> Result<Metric, Failure> {
    let names: Vec<&str> = METRICS.iter().map(|m| m.name).collect();
    let help = || match nearest(name, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "`ruleshift list metrics` shows them all".to_owned(),
    };
    Metric::by_name(name)
        .ok_or_else(|| Failure::Input(format!("there is no metric called `{name}`: {}", help())))
}

fn is_path(name: &str, ending: &str) -> bool {
    name.ends_with(ending) || name.contains(['/', '\\'])
}
