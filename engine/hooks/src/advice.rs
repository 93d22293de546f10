//! What looks wrong with the rules a script makes, though nothing is wrong with the script.

use ruleshift_game::{EVENT_HOOKS, Hook, Rules};

use crate::diagnostic::{Diagnostic, Diagnostics, Id};
use crate::effect::without_effect;
use crate::sandbox::{Compiled, Sandbox};
use crate::survey::{Defined, Survey};
use crate::variant::Variant;

/// Warnings about the hooks of a variant that makes `after` out of `before`, put among those that
/// its script has already. A hook whose whole body is `now` leaves a rule alone on purpose; so does
/// an argument that begins with `_`.
pub fn advice(variant: &Variant, before: &Rules, after: &Rules) -> Vec<Diagnostic> {
    let Some(compiled) = compiled(variant) else { return Vec::new() };
    let survey = Survey::of(&compiled);
    if !survey.functions.iter().any(|function| is_hook(&function.name)) {
        return vec![no_hooks(variant)];
    }
    let effect = without_effect(variant, &survey, &compiled);
    let idle = variant.idle_hooks();
    let hooks = variant.value_hooks().iter().filter(|hook| !idle.contains(hook));
    hooks
        .filter_map(|&hook| {
            let function = survey.function(hook.spec().name)?;
            no_change(variant, hook, function, before, after)
                .or_else(|| constant(variant, hook, &survey, before, after))
        })
        .chain(effect)
        .collect()
}

/// The warning about a hook without which all of `games` trial games would have gone the same way.
pub fn never_matters(variant: &Variant, hook: &str, games: usize, scenarios: usize) -> Diagnostic {
    let survey = compiled(variant).map(|compiled| Survey::of(&compiled));
    let function = survey.as_ref().and_then(|survey| survey.function(hook));
    let at = function.map_or(rhai::Position::NONE, |function| function.at);
    let headline = format!("no trial game would have gone otherwise without `{hook}`");
    let why = if EVENT_HOOKS.iter().any(|spec| spec.name == hook) {
        "it did nothing there: what it waits for did not come"
    } else {
        "its case comes up in no shipped scenario, or too seldom for so few games"
    };
    Diagnostic::new(Id::NeverMatters, &variant.source, at, headline)
        .warning()
        .label(format!("not in {games} games over {scenarios} scenarios"))
        .help(why)
        .help("`ruleshift compare` plays more, and scenarios of your own")
}

impl Variant {
    /// Its warnings with others among them, in the order of the text.
    pub fn told(&self, more: Vec<Diagnostic>) -> Diagnostics {
        let all = self.warnings().list().iter().cloned().chain(more);
        Diagnostics::new(&self.source, all.collect())
    }
}

/// The script was compiled when it was loaded, so an error leaves nothing to advise about.
fn compiled(variant: &Variant) -> Option<Compiled> {
    Sandbox::for_values().draft(&variant.source.text, &variant.constants, false).ok()
}

fn is_hook(name: &str) -> bool {
    crate::structure::signatures().iter().any(|signature| signature.name == name)
}

fn no_hooks(variant: &Variant) -> Diagnostic {
    let headline = "the script has no hook, so it changes nothing";
    Diagnostic::new(Id::NoHooks, &variant.source, rhai::Position::NONE, headline)
        .warning()
        .help("`ruleshift list hooks` shows what may be changed")
        .help("`ruleshift new script NAME --hook HOOK` writes a script to start from")
}

fn no_change(
    variant: &Variant,
    hook: Hook,
    function: &Defined,
    before: &Rules,
    after: &Rules,
) -> Option<Diagnostic> {
    if before.table(hook) != after.table(hook) {
        return None;
    }
    let name = hook.spec().name;
    let headline = match hook.spec().cells() {
        1 => format!("`{name}` changes nothing: it answers what it is given"),
        all => format!("`{name}` changes nothing: it answers what it is given in all {all} cases"),
    };
    let told = Diagnostic::new(Id::NoChange, &variant.source, function.at, headline).warning();
    if before.table(hook) != Rules::base().table(hook) {
        return Some(told.help("a variant before it in the stack leaves it nothing to change"));
    }
    Some(
        told.help(format!("the base rule: {}", hook.spec().base_rule))
            .help("to leave it alone for now, make `now` its whole body"),
    )
}

/// An answer made from `now` follows the rules so far, even when an option makes it the same in
/// every case.
fn constant(
    variant: &Variant,
    hook: Hook,
    survey: &Survey,
    before: &Rules,
    after: &Rules,
) -> Option<Diagnostic> {
    let (spec, answers) = (hook.spec(), after.table(hook));
    let function = survey.function(spec.name)?;
    if survey.reads(spec.name, function.params.first()?) {
        return None;
    }
    let first = *answers.first()?;
    let unread: Vec<&str> = (1..function.params.len())
        .map(|n| (n - 1, function.params[n].as_str()))
        .filter(|(arg, param)| !param.starts_with('_') && depends(hook, before, *arg))
        .map(|(_, param)| param)
        .collect();
    if answers.iter().any(|answer| *answer != first) || unread.is_empty() {
        return None;
    }
    let (answer, quoted) = (spec.result.show(first.into()), quoted(&unread, ""));
    let verb = if unread.len() == 1 { "is" } else { "are" };
    let headline = format!("`{}` answers {answer} whatever {quoted} {verb}", spec.name);
    Some(
        Diagnostic::new(Id::ConstantAnswer, &variant.source, function.at, headline)
            .warning()
            .help(format!("the base rule: {}", spec.base_rule))
            .help(format!("if it is meant so, write {}", self::quoted(&unread, "_"))),
    )
}

/// Whether the answers under some rules depend on an argument.
fn depends(hook: Hook, rules: &Rules, arg: usize) -> bool {
    let (spec, table) = (hook.spec(), rules.table(hook));
    let behind: usize = spec.args[arg + 1..].iter().map(|arg| arg.domain.len()).product();
    let len = spec.args[arg].domain.len();
    // A cell and the one with the next value of the argument lie `behind` apart.
    (0..table.len()).any(|n| (n / behind) % len + 1 < len && table[n] != table[n + behind])
}

/// `a`, `b` and `c`, each with `start` before it.
fn quoted(names: &[&str], start: &str) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("`{start}{name}`")).collect();
    crate::telling::listed(&quoted)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Stack};

    fn variant(hooks: &str) -> Variant {
        let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{hooks}");
        Variant::load(&Source::new("house", text), &Overrides::none()).unwrap()
    }

    /// The advice about the last variant of a stack.
    fn told(stack: &[&str]) -> String {
        let stack = Stack::new(stack.iter().map(|hooks| variant(hooks)).collect());
        let (steps, last) = (stack.steps().unwrap(), stack.variants().last().unwrap());
        let [.., before, after] = steps.as_slice() else { panic!("two steps or more") };
        last.told(advice(last, before, after)).render(false)
    }

    #[test]
    fn a_script_without_hooks_is_told_where_to_find_some() {
        insta::assert_snapshot!(told(&["private fn spare(a) { a }"]), @r#"
        warning[no-hooks]: the script has no hook, so it changes nothing
        --> house
         = help: `ruleshift list hooks` shows what may be changed
         = help: `ruleshift new script NAME --hook HOOK` writes a script to start from
        "#);
    }

    #[test]
    fn a_hook_that_changes_nothing_is_told_unless_it_is_meant_so() {
        insta::assert_snapshot!(
            told(&["fn marker_actions(now) { min(now, 8) }\nfn turn_ends(now, drawn, in_deck) { now || drawn > 3 }"]), @r#"
        warning[no-change]: `marker_actions` changes nothing: it answers what it is given
         --> house:2:4
          |
        2 | fn marker_actions(now) { min(now, 8) }
          |    ^^^^^^^^^^^^^^
          |
          = help: the base rule: Four.
          = help: to leave it alone for now, make `now` its whole body

        warning[no-change]: `turn_ends` changes nothing: it answers what it is given in all 36 cases
         --> house:3:4
          |
        3 | fn turn_ends(now, drawn, in_deck) { now || drawn > 3 }
          |    ^^^^^^^^^
          |
          = help: the base rule: The first one ends it.
          = help: to leave it alone for now, make `now` its whole body
        "#);
        assert_eq!(told(&["fn marker_actions(now) { now }\nfn turn_ends(n, a, b) { n }"]), "");
        assert_eq!(told(&["fn on_game_start(game) { }"]), "");
        assert_eq!(told(&[crate::template().split_once("\n}\n").unwrap().1]), "");
    }

    #[test]
    fn a_change_made_already_is_told() {
        let three = "fn marker_actions(now) { 3 }";
        assert_eq!(told(&[three]), "");
        insta::assert_snapshot!(told(&[three, three]), @r#"
        warning[no-change]: `marker_actions` changes nothing: it answers what it is given
         --> house:2:4
          |
        2 | fn marker_actions(now) { 3 }
          |    ^^^^^^^^^^^^^^
          |
          = help: a variant before it in the stack leaves it nothing to change
        "#);
    }

    #[test]
    fn a_constant_is_told_where_the_rules_look_at_an_argument() {
        insta::assert_snapshot!(told(&["fn leader_radius(now, grade) { 6 }"]), @r#"
        warning[constant-answer]: `leader_radius` answers 6 whatever `grade` is
         --> house:2:4
          |
        2 | fn leader_radius(now, grade) { 6 }
          |    ^^^^^^^^^^^^^
          |
          = help: the base rule: 4 in and 1 in for each grade.
          = help: if it is meant so, write `_grade`
        "#);
        assert_eq!(told(&["fn leader_radius(now, _grade) { 6 }"]), "");
        assert_eq!(told(&["fn late_fire_allowed(now, kind, quality) { false }"]), "");
        assert_eq!(told(&["fn leader_radius(now, grade) { now * 0 }"]), "");
        insta::assert_snapshot!(told(&["fn surrenders(now, difference, led) { false }"]), @r#"
        warning[constant-answer]: `surrenders` answers false whatever `difference` and `led` are
         --> house:2:4
          |
        2 | fn surrenders(now, difference, led) { false }
          |    ^^^^^^^^^^
          |
          = help: the base rule: From a difference of 4, or 3 without a leader near.
          = help: if it is meant so, write `_difference` and `_led`
        "#);
    }

    #[test]
    fn dependence_is_found_in_each_place() {
        let base = Rules::base();
        let of = |hook: Hook| -> Vec<bool> {
            (0..hook.spec().args.len()).map(|arg| depends(hook, &base, arg)).collect()
        };
        assert_eq!(of(Hook::PinsRecovered), [false, true, true, true]);
        assert_eq!(of(Hook::FireDice), [true, true, true]);
        assert_eq!(of(Hook::GroupCards), [false]);
    }

    #[test]
    fn a_hook_that_never_mattered_is_shown_where_it_stands() {
        let idle = variant("fn marker_actions(now) { 5 }");
        let told = idle.told(vec![never_matters(&idle, "marker_actions", 64, 8)]);
        insta::assert_snapshot!(told.render(false), @r#"
        warning[never-matters]: no trial game would have gone otherwise without `marker_actions`
         --> house:2:4
          |
        2 | fn marker_actions(now) { 5 }
          |    ^^^^^^^^^^^^^^ not in 64 games over 8 scenarios
          |
          = help: its case comes up in no shipped scenario, or too seldom for so few games
          = help: `ruleshift compare` plays more, and scenarios of your own
        "#);
        let idle = variant("fn on_turn_end(game, turn) { if turn > 39 { game.note(\"x\"); } }");
        let told = idle.told(vec![never_matters(&idle, "on_turn_end", 64, 8)]).render(false);
        assert!(
            told.contains("help: it did nothing there") && !told.contains("its case"),
            "{told}"
        );
    }
}
