//! What the pages say is so.

use ruleshift_game::{HOOKS, RULES_VERSION};
use ruleshift_record::METRICS;

use super::none;
use crate::support::repository;

/// Paths in backquotes of a page: words with a slash that begin with a folder of the top level,
/// and names of files there.
fn paths(page: &str) -> Vec<String> {
    let text = repository::text(page);
    let tops = ["engine/", "reports/", "variants/", "tests/", ".ci/"];
    let quoted = text.split('`').skip(1).step_by(2).map(str::to_owned);
    quoted
        .filter(|word| tops.iter().any(|top| word.starts_with(top)) && !word.contains(' '))
        .collect()
}

#[test]
fn every_path_named_in_the_guide_exists() {
    for page in ["DEVELOPERS.md", "README.md"] {
        let missing = |path: &String| !repository::root().join(path).exists();
        let missing: Vec<String> = paths(page).into_iter().filter(missing).collect();
        none(&missing);
    }
    assert!(paths("DEVELOPERS.md").len() > 12, "the code map names the folders");
}

#[test]
fn every_crate_is_in_the_code_map() {
    let guide = repository::text("DEVELOPERS.md");
    let map = guide.split("## Code map").nth(1).and_then(|rest| rest.split("\n## ").next());
    let map = map.expect("the guide has a code map");
    let files = repository::files();
    let crates = files.iter().filter_map(|file| file.strip_suffix("/Cargo.toml"));
    none(
        &crates.filter(|c| !map.contains(&format!("`{c}`"))).map(str::to_owned).collect::<Vec<_>>(),
    );
}

#[test]
fn every_library_is_explained_in_the_guide() {
    let guide = repository::text("DEVELOPERS.md");
    let table = guide.split("## Libraries").nth(1).expect("the guide lists libraries");
    let manifest = repository::text("Cargo.toml");
    let lines = manifest.lines().skip_while(|line| *line != "[workspace.dependencies]").skip(1);
    let lines = lines.take_while(|line| !line.starts_with('['));
    let names = lines.filter_map(|line| line.split([' ', '.']).next());
    let unsaid =
        |name: &&str| !name.is_empty() && !name.starts_with("ruleshift") && !table.contains(name);
    none(&names.filter(unsaid).map(str::to_owned).collect::<Vec<_>>());
}

#[test]
fn every_metric_is_defined() {
    for metric in &METRICS {
        assert!(
            metric.about.ends_with('.') && metric.about.contains(' '),
            "{}: about",
            metric.name
        );
        assert!(!metric.from.is_empty() && !metric.unit.is_empty(), "{}: from, unit", metric.name);
        assert!(!metric.label.is_empty() && metric.notice > 0.0, "{}: label, notice", metric.name);
    }
    let twice = |n: usize| METRICS[..n].iter().any(|m| m.name == METRICS[n].name);
    assert!(!(0..METRICS.len()).any(twice), "names are unique");
}

#[test]
fn the_changelog_tells_the_version_of_the_rules() {
    let changelog = repository::text("engine/CHANGELOG.md");
    let told = [format!("Rules version {RULES_VERSION}"), format!("rules version {RULES_VERSION}")];
    assert!(told.iter().any(|line| changelog.contains(line)), "rules version {RULES_VERSION}");
}

/// Paragraphs that hooks refer to are in the text of the rules.
#[test]
fn every_hook_has_its_paragraph_in_the_rules() {
    let rules = repository::text("engine/game/RULES.md");
    let missing = HOOKS.iter().filter(|hook| {
        let number = hook.paragraph;
        !rules.lines().any(|line| {
            let line = line.trim_start_matches(['*', '#', ' ', '-']);
            line.strip_prefix(number)
                .is_some_and(|rest| !rest.starts_with(|c: char| c.is_ascii_digit()))
        })
    });
    none(&missing.map(|hook| format!("{} of {}", hook.paragraph, hook.name)).collect::<Vec<_>>());
}
