//! What every experiment writes has the published form.

use std::collections::BTreeMap;

use jsonschema::Validator;
use ruleshift_record::SCHEMAS;
use serde_json::Value;

use crate::support::{Run, repository, ruleshift};

/// The published form of an experiment's answer.
fn form(name: &str) -> Validator {
    let text = repository::text(&format!("engine/record/schema/{name}.json"));
    let form = serde_json::from_str(&text).expect("a form is JSON");
    jsonschema::draft202012::new(&form).expect("a form is a schema")
}

/// Faults of an answer, each with its place.
fn faults(form: &Validator, answer: &Value) -> Vec<String> {
    form.iter_errors(answer).map(|e| format!("{}: {e}", e.instance_path())).collect()
}

/// One command of every experiment at least, and of comparisons those that tell more than others.
const RUNS: [(&str, &str); 12] = [
    ("compare", "two-turn-end-cards no-late-fire --games 80"),
    ("compare", "two-turn-end-cards --games 400 --until clear"),
    ("compare", "two-turn-end-cards --games 160 --players steady bold cautious"),
    ("compare", "two-turn-end-cards --games 80 --restrict attacker=rally --importance"),
    ("sweep", "two-turn-end-cards:cards=1..3 --games 40 --target minutes=150"),
    ("sweep", "two-turn-end-cards:cards=1..3 tougher-sides:more=0..20/10 --games 16"),
    ("cross", "no-late-fire quick-feet kinder-pin-recovery --games 16"),
    ("tune", "tougher-sides:more=-20..40/20 --target attacker_wins=50% --games 40"),
    ("handicap", "prepared-position --side defender --games 2"),
    ("ladder", "--games 8"),
    ("hunt", "two-turn-end-cards --games 8 --budget 4 --judge 8"),
    ("hunt", "no-late-fire --games 8 --budget 4 --judge 8 --side defender"),
];

/// Something done to a document that its form must refuse.
type Damage = fn(&mut Value);

#[test]
fn every_answer_has_its_published_form_and_json_prints_it() {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for (command, args) in RUNS {
        let run = Run::of(command, args.split_whitespace().chain(["--json"]));
        assert_eq!(run.done.code, 0, "{command} {args}: {}", run.done.err);
        let written = run.text("summary.json");
        assert_eq!(run.done.out, written, "{command} {args}: --json prints summary.json");
        let answer: Value = serde_json::from_str(&written).expect("an answer is JSON");
        let found = faults(&form(command), &answer);
        assert!(found.is_empty(), "{command} {args}:\n{}", found.join("\n"));
        *seen.entry(command).or_default() += 1;
    }
    for schema in SCHEMAS {
        assert!(seen.contains_key(schema.name), "no run of {}", schema.name);
    }
}

#[test]
fn a_damaged_answer_is_told_from_a_sound_one() {
    let run = Run::fine("two-turn-end-cards --games 16");
    let sound: Value = serde_json::from_str(&run.text("summary.json")).unwrap();
    let form = form("compare");
    assert_eq!(faults(&form, &sound), Vec::<String>::new());
    let damage: [(&str, Damage); 5] = [
        ("a shift is text", |answer| answer["metrics"][0]["shift"] = "much".into()),
        ("a verdict is made up", |answer| answer["metrics"][0]["verdict"] = "perhaps".into()),
        ("pairs are fewer than none", |answer| answer["metrics"][0]["pairs"] = (-1).into()),
        ("something is added", |answer| answer["arms"][0]["colour"] = "green".into()),
        ("the seed is gone", |answer| {
            answer.as_object_mut().unwrap().remove("seed");
        }),
    ];
    for (what, change) in damage {
        let mut answer = sound.clone();
        change(&mut answer);
        assert_eq!(faults(&form, &answer).len(), 1, "{what}");
    }
    assert!(!faults(&self::form("sweep"), &sound).is_empty(), "of another experiment");
}

#[test]
fn the_program_prints_the_published_forms() {
    let list = ruleshift(["list", "schemas"]).fine().out;
    for schema in SCHEMAS {
        assert!(list.contains(&format!("  {}", schema.name)), "{list}");
        let printed = ruleshift(["list", "schemas", schema.name]).fine().out;
        assert_eq!(
            printed,
            repository::text(&format!("engine/record/schema/{}.json", schema.name))
        );
    }
    ruleshift(["list", "schemas", "compair"]).fails(2, &["compair", "did you mean `compare`?"]);
    ruleshift(["list", "metrics", "compare"]).fails(2, &["compare", "list schemas"]);
}
