//! Folders and files.

use std::collections::BTreeSet;

use crate::support::repository;

#[test]
fn the_top_level_holds_what_it_should() {
    let files = repository::files();
    let top: BTreeSet<&str> = files.iter().filter_map(|file| file.split('/').next()).collect();
    let known = [
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "README.md",
        "engine",
        "reports",
        "tests",
        "variants",
    ];
    let expected =
        |name: &&str| known.contains(name) || name.starts_with("LICENSE") || name.starts_with('.');
    let strangers: Vec<&&str> = top.iter().filter(|name| !expected(name)).collect();
    assert!(strangers.is_empty(), "{strangers:?}");
    let missing: Vec<&str> = known.into_iter().filter(|name| !top.contains(name)).collect();
    assert!(missing.is_empty(), "{missing:?}");
    assert!(top.iter().any(|name| name.starts_with("LICENSE")));
}

#[test]
fn every_crate_lies_where_the_plan_puts_it() {
    let files = repository::files();
    let crates: BTreeSet<&str> =
        files.iter().filter_map(|file| file.strip_suffix("/Cargo.toml")).collect();
    let expected = [
        "engine/batch",
        "engine/cli",
        "engine/game",
        "engine/hooks",
        "engine/players",
        "engine/record",
        "engine/scenarios",
        "reports",
        "tests",
    ];
    assert_eq!(crates, BTreeSet::from(expected));
}

#[test]
fn every_variant_folder_is_shipped_and_every_shipped_one_has_a_folder() {
    let files = repository::files();
    let name = |file: &String| {
        file.strip_prefix("variants/")
            .and_then(|f| f.strip_suffix("/rules.rhai"))
            .map(str::to_owned)
    };
    let folders: BTreeSet<String> = files.iter().filter_map(name).collect();
    let shipped = ruleshift_hooks::SHIPPED.iter().map(|variant| variant.name.to_owned()).collect();
    assert_eq!(folders, shipped);
}

#[test]
fn every_scenario_and_doctrine_file_is_shipped() {
    let stems = |folder: &str| -> BTreeSet<String> {
        let files = repository::files();
        let of = files.iter().filter_map(|file| file.strip_prefix(folder)?.strip_suffix(".ron"));
        of.map(str::to_owned).collect()
    };
    let scenarios =
        ruleshift_scenarios::SHIPPED.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(stems("engine/scenarios/files/"), scenarios);
    let doctrines = ruleshift_players::shipped().into_iter().filter(|d| d.weights.is_some());
    assert_eq!(stems("engine/players/doctrines/"), doctrines.map(|d| d.name).collect());
}
