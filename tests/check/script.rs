//! Scripts to start from.

use std::path::Path;

use crate::support::{Done, ruleshift_in};

fn new(folder: &Path, args: &str) -> Done {
    ruleshift_in(folder, ["new", "script"].into_iter().chain(args.split_whitespace()))
}

#[test]
fn a_new_script_passes_the_check_and_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let args = "my-rule --hook pins_recovered,turn_ends --hook on_turn_end --out my-rule.rhai";
    let said = new(folder.path(), args).fine().out;
    assert!(said.contains("`ruleshift check my-rule.rhai`"), "{said}");
    let out = ruleshift_in(folder.path(), ["check", "my-rule.rhai"]).fine().out;
    assert!(out.contains("My rule") && out.contains("It changes nothing."), "{out}");
    assert!(!out.contains("warning"), "{out}");
    new(folder.path(), args).fails(2, &["my-rule.rhai is there already"]);
}

#[test]
fn a_new_script_goes_to_the_screen_without_a_file() {
    let folder = tempfile::tempdir().unwrap();
    insta::assert_snapshot!(new(folder.path(), "calm --hook recovery_under_fire").fine().out, @r#"
    // Ask here the question this rule is to answer. As it stands it changes nothing: each hook hands
    // on what the rules say already, `now`, or does nothing.

    fn about() {
        #{
            title: "Calm",
            summary: "Changes nothing yet.",
        }
    }

    // Whether a unit that was fired at this turn recovers pins. Answer: true or false.
    // - quality: quality of the unit; GREEN, REGULAR or VETERAN
    // - led: whether a leader is near; true or false
    // Base rule (RULES 9.6): Only with a leader near.
    // For example: if led { !now } else { now }
    fn recovery_under_fire(now, quality, led) { now }
    "#);
}

#[test]
fn all_that_is_wrong_is_told_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let args = "my/rule --hook marker_action weather --out my-rule.txt";
    let parts = [
        "the name is `my/rule`",
        "ends in .rhai",
        "`marker_action`: did you mean `marker_actions`?",
        "`weather`: `ruleshift list hooks` shows them all",
    ];
    new(folder.path(), args).fails(2, &parts);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0, "nothing is written");
    let parts = ["`ruleshift list hooks`", "`ruleshift new script my-rule --hook marker_actions`"];
    new(folder.path(), "my-rule").fails(2, &parts);
    let help = new(folder.path(), "--help").fine().out;
    assert!(help.contains("Usage: ruleshift new script <NAME> --hook <HOOK>..."), "{help}");
}
