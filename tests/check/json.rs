//! The findings as data.

use serde_json::Value;

use super::check;

const SCRIPTS: &[(&str, &str)] = &[
    (
        "sound.rhai",
        "fn leader_radius(now, grade) { 6 }\nfn on_turn_end(game, turn) { game.note(\"x\"); }",
    ),
    ("faulty.rhai", "fn marker_action(now) { 3 }\nfn turn_limit(now) { now }"),
    ("wrong.rhai", "fn marker_actions(now) { now + 90 }"),
    ("more.rhai", "fn leader_radius(now, grade) { now + 1 }"),
];

fn document(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|e| panic!("{e}: {text}"))
}

#[test]
fn all_findings_are_in_the_document() {
    let done = check(SCRIPTS, "sound.rhai sound.rhai+more.rhai more.rhai --json").fine();
    let found = document(&done.out);
    assert_eq!((&found["format"], &found["sound"]), (&1.into(), &true.into()));
    let first = &found["stacks"][0];
    assert_eq!(first["typed"], "sound.rhai");
    let variant = &first["variants"][0];
    assert_eq!(variant["event_hooks"][0]["name"], "on_turn_end");
    let change = &variant["changes"][0];
    assert_eq!((&change["hook"], &change["changed"]), (&"leader_radius".into(), &2.into()));
    assert_eq!(change["table"]["rows"][0]["cells"][0]["text"], "5 -> 6");
    let warning = &variant["warnings"]["diagnostics"][0];
    assert_eq!((&warning["id"], &warning["line"]), (&"constant-answer".into(), &2.into()));
    let trials = &first["trials"];
    assert!(trials["otherwise"].as_u64().unwrap() <= trials["games"].as_u64().unwrap());
    let did = &trials["did"];
    assert_eq!((&did["pins_put_on"], &did["answered_option"]), (&0.into(), &Value::Array(vec![])));
    assert!(did["notes"].as_u64().unwrap() >= trials["games"].as_u64().unwrap(), "{did}");
    let overlap = &found["stacks"][1]["overlaps"][0]["value_hooks"][0];
    assert_eq!((&overlap["hook"], &overlap["differ"]), (&"leader_radius".into(), &3.into()));
    assert_eq!(overlap["example"]["as_typed"], "7");
    assert_eq!(found["stacks"][2]["trials"]["did"], Value::Null);
}

#[test]
fn faults_are_in_the_document_too_and_the_exit_code_tells_of_them() {
    let args = "faulty.rhai wrong.rhai+nobody sound.rhai --json --no-games";
    let done = check(SCRIPTS, args).fails(1, &["faults"]);
    let found = document(&done.out);
    assert_eq!(found["sound"], false);
    let ids = |stack: usize, fault: usize| -> Vec<String> {
        let list = found["stacks"][stack]["faults"][fault]["diagnostics"].as_array().unwrap();
        list.iter().map(|told| told["id"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(ids(0, 0), ["unknown-hook", "arguments"]);
    assert_eq!(ids(1, 0), ["out-of-range"]);
    let typed = found["stacks"][1]["faults"][1]["message"].as_str().unwrap();
    assert!(typed.contains("no variant called `nobody`"), "{typed}");
    assert_eq!(found["stacks"][2]["faults"].as_array().unwrap().len(), 0);
}
