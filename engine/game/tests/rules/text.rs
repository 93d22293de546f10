//! The text and the code say the same.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use ruleshift_game::{EVENT_HOOKS, HOOKS};

/// The paragraphs of the text by number, each on one line.
pub(super) fn paragraphs() -> BTreeMap<String, String> {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("RULES.md"));
    let mut paragraphs = BTreeMap::new();
    let mut last = None;
    for line in text.expect("the rules are there").lines() {
        let numbered = line.strip_prefix("**").and_then(|rest| rest.split_once("** "));
        if let Some((number, rest)) = numbered {
            assert!(paragraphs.insert(number.to_owned(), rest.to_owned()).is_none(), "{number}");
            last = Some(number.to_owned());
        } else if line.starts_with('#') {
            last = None;
        } else if let Some(text) = last.as_ref().and_then(|last| paragraphs.get_mut(last)) {
            text.push(' ');
            text.push_str(line.trim());
        }
    }
    paragraphs
}

#[test]
fn paragraphs_are_numbered_without_gaps() {
    let mut counts = BTreeMap::new();
    for number in paragraphs().keys() {
        let (section, place) = number.split_once('.').expect("section and place");
        let (section, place): (u32, u32) = (section.parse().unwrap(), place.parse().unwrap());
        let (count, most) = counts.entry(section).or_insert((0, 0));
        (*count, *most) = (*count + 1, place.max(*most));
    }
    assert_eq!(counts.keys().copied().collect::<Vec<_>>(), (1..=18).collect::<Vec<_>>());
    for (section, (count, most)) in counts {
        assert_eq!(count, most, "section {section}");
    }
}

#[test]
fn the_base_rule_of_every_hook_is_in_its_paragraph() {
    let paragraphs = paragraphs();
    for hook in &HOOKS {
        let sentence = format!(" {} (hook: `{}`)", hook.base_rule, hook.name);
        let text = paragraphs.get(hook.paragraph).unwrap_or_else(|| panic!("{}", hook.name));
        assert!(text.contains(&sentence), "{} lacks:{sentence}", hook.paragraph);
    }
}

#[test]
fn the_text_names_every_hook_and_event_and_no_others() {
    let text = paragraphs();
    let named = |mark: &str| {
        let names = |(number, text): (&String, &String)| {
            let named = text.split(mark).skip(1).filter_map(|rest| rest.split('`').next());
            named.map(|name| (name.to_owned(), number.clone())).collect::<Vec<_>>()
        };
        let mut all: Vec<_> = text.iter().flat_map(names).collect();
        all.sort();
        all
    };
    let mut hooks: Vec<_> =
        HOOKS.iter().map(|hook| (hook.name.to_owned(), hook.paragraph.to_owned())).collect();
    hooks.sort();
    assert_eq!(named("(hook: `"), hooks);
    let mut events: Vec<_> =
        EVENT_HOOKS.iter().map(|hook| (hook.name.to_owned(), hook.paragraph.to_owned())).collect();
    events.sort();
    assert_eq!(named("(event: `"), events);
}

/// Every number quoted as `RULES 4.5` in code or tests, `4.5-4.8` quoting both ends.
#[test]
fn every_paragraph_that_code_quotes_is_there() {
    let paragraphs = paragraphs();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut quoted = 0;
    let mut folders = vec![root.join("src"), root.join("tests")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            if entry.file_type().unwrap().is_dir() {
                folders.push(entry.path());
                continue;
            }
            let source = fs::read_to_string(entry.path()).unwrap();
            for number in quotes(&source) {
                quoted += 1;
                let there = paragraphs.contains_key(&number)
                    || paragraphs.contains_key(&format!("{number}.1"));
                assert!(there, "{} quotes {number}", entry.path().display());
            }
        }
    }
    assert!(quoted > 60, "{quoted}");
}

fn quotes(source: &str) -> Vec<String> {
    let mut numbers = vec![];
    for rest in source.split("RULES ").skip(1) {
        let list = |c: char| c.is_ascii_digit() || ".,- ".contains(c);
        let run: String = rest.chars().take_while(|&c| list(c)).collect();
        let parts = run.split([',', '-', ' ']).map(|part| part.trim_matches('.'));
        numbers.extend(parts.filter(|part| !part.is_empty()).map(str::to_owned));
    }
    numbers
}
