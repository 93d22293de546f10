//! Scripts with a fault of each kind, through `check` and through `compare`.

use super::{CHECK, INPUT, script};
use crate::support::{Run, ruleshift};

/// Kind of fault, a script that has it, and what is said.
const FAULTS: &[(&str, &str, &[&str])] = &[
    ("syntax", "fn marker_actions(now) { now + }", &["error[syntax]", ":2:"]),
    ("unknown", "fn marker_action(now) { now }", &["did you mean `marker_actions(now)`?", ":2:4"]),
    ("arguments", "fn marker_actions(now, then) { now }", &["takes 1 argument, not 2", ":2:4"]),
    ("range", "fn marker_actions(now) { now + 90 }", &["94", "0 to 8", ":2:"]),
    ("type", "fn marker_actions(now) { \"three\" }", &["error[", ":2:"]),
    ("zero", "fn marker_actions(now) { now / (now - now) }", &["error[", ":2:"]),
    ("endless", "fn marker_actions(now) { loop { } }", &["error[", ":2:"]),
    ("deep", "fn marker_actions(now) { marker_actions(now) }", &["error["]),
    ("stranger", "fn marker_actions(now) { weather }", &["weather", ":2:"]),
    ("eval", "fn marker_actions(now) { eval(\"3\") }", &["error[forbidden]", "`eval`"]),
    ("import", "import \"other\" as other; fn marker_actions(now) { now }", &["error["]),
];

#[test]
fn every_kind_of_fault_is_told_by_check_and_by_compare() {
    let folder = tempfile::tempdir().unwrap();
    for (kind, body, parts) in FAULTS {
        let name = format!("{kind}.rhai");
        let path = script(folder.path(), &name, body);
        let named = [*parts, &[name.as_str()]].concat();
        let checked = ruleshift(["check", &path]).fails(CHECK, &named);
        let compared = Run::with([path.as_str(), "--games", "4"]).done.fails(INPUT, &named);
        let (faults, more) = checked.err.rsplit_once("\n\n").unwrap();
        assert_eq!(faults, compared.err.trim_end(), "{kind}: both say the same");
        assert!(more.starts_with("`ruleshift explain "), "{kind}: {more}");
    }
}

#[test]
fn a_script_without_a_heading_is_told_how_to_write_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = super::file(folder.path(), "bare.rhai", "fn marker_actions(now) { 3 }");
    ruleshift(["check", path.to_str().unwrap()]).fails(CHECK, &["about", "title", "summary"]);
}

#[test]
fn all_faults_of_all_scripts_come_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let body = "fn marker_action(now) { now }\nfn turn_limit(now) { now }";
    let (one, two) = (
        script(folder.path(), "one.rhai", body),
        script(folder.path(), "two.rhai", "fn marker_actions(now) { now + }"),
    );
    let parts = ["marker_action", "turn_limit", "one.rhai:2:4", "one.rhai:3:4", "two.rhai:2:"];
    ruleshift(["check", &one, "no-late-fire", &two]).fails(CHECK, &parts);
    Run::with([one.as_str(), &two]).done.fails(INPUT, &parts);
    let stack = format!("{one}+{two}");
    Run::with([stack.as_str()]).done.fails(INPUT, &parts);
}

/// Each variant is sound alone; the answer is out of range only on top of the other.
#[test]
fn variants_that_do_not_fit_together_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = script(folder.path(), "more.rhai", "fn marker_actions(now) { now + 4 }");
    ruleshift(["check", &path]).fine();
    let twice = format!("{path}+{path}");
    ruleshift(["check", &twice]).fails(CHECK, &["more.rhai:2", "12", "0 to 8"]);
    Run::with([twice.as_str(), "--games", "4"]).done.fails(INPUT, &["more.rhai:2", "0 to 8"]);
    ruleshift(["odds", &twice]).fails(INPUT, &["more.rhai:2"]);
}

/// Whether an act is allowed depends on the game: without one the check can only warn.
#[test]
fn an_act_that_a_trial_refuses_is_a_warning() {
    let folder = tempfile::tempdir().unwrap();
    let path =
        script(folder.path(), "act.rhai", "fn on_turn_end(game, turn) { game.add_pins(0, 99); }");
    ruleshift(["check", &path]).fails(CHECK, &["a trial game stopped", "act.rhai:2:"]);
    let out = ruleshift(["check", &path, "--no-games"]).fine().out;
    for part in ["warning[", "0 to 30, not 99", "act.rhai:2:"] {
        assert!(out.contains(part), "{part} is not in:\n{out}");
    }
}

#[test]
fn what_is_sound_is_told_too() {
    let done =
        ruleshift(["check", "two-turn-end-cards:cards=3", "variants/steady-nerves/rules.rhai"]);
    let out = done.fine().out;
    for part in ["Two turn-end cards", "cards = 3", "turn_end_cards", "on_card_drawn", "No faults"]
    {
        assert!(out.contains(part), "{part} is not in:\n{out}");
    }
}
