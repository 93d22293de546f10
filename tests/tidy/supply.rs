//! What comes into the program from outside: licences, versions side by side, sources, unsafe code.
//!
//! The lists are those of `.ci/deny.toml`, which cargo-deny reads too.

use std::collections::{BTreeMap, BTreeSet};
use std::env;
use std::process::Command;

use super::none;
use crate::support::repository;

const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// The texts in quotes of a list of `.ci/deny.toml`.
fn list(name: &str) -> Vec<String> {
    let text = repository::text(".ci/deny.toml");
    let lines = text.lines().skip_while(|line| *line != format!("{name} = [")).skip(1);
    let lines = lines.take_while(|line| *line != "]").filter_map(|line| line.split('"').nth(1));
    let found: Vec<String> = lines.map(str::to_owned).collect();
    assert!(!found.is_empty(), "{name}");
    found
}

/// Every library that is built here, with its version and licence; as the lock file has them, which
/// must be up to date.
fn libraries() -> BTreeSet<(String, String, String)> {
    let cargo = env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let mut command = Command::new(cargo);
    command.args(["tree", "--workspace", "--locked", "--offline", "--prefix", "none"]);
    command.args(["--edges", "normal,build,dev", "--format", "{p}|{l}"]);
    let output = command.current_dir(repository::root()).output().expect("cargo can be started");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    let text = String::from_utf8(output.stdout).expect("cargo prints UTF-8");
    let row = |line: &str| {
        let (package, licence) = line.trim_end_matches(" (*)").split_once('|')?;
        let mut words = package.split(' ');
        let (name, version) = (words.next()?, words.next()?.strip_prefix('v')?);
        Some((name.to_owned(), version.to_owned(), licence.to_owned()))
    };
    text.lines().filter_map(row).collect()
}

/// The licences one of which is enough, for each of those that are all needed.
fn needed(licence: &str) -> Vec<Vec<&str>> {
    licence
        .split(" AND ")
        .map(|all| {
            let all = all.trim_matches(['(', ')']);
            let any = all.split(" OR ").flat_map(|any| any.split('/'));
            any.map(|any| any.trim_end_matches('+')).collect()
        })
        .collect()
}

/// Each library has a licence of the list, and the list has none that no library needs.
#[test]
fn licences_are_those_that_are_listed() {
    let allowed = list("allow");
    let libraries = libraries();
    assert!(libraries.len() > 100, "{}", libraries.len());
    let mut complaints = Vec::new();
    let mut used = BTreeSet::new();
    for (name, version, licence) in &libraries {
        for any in needed(licence) {
            let mut fine = allowed.iter().filter(|allowed| any.contains(&allowed.as_str()));
            match (fine.next(), fine.next()) {
                (None, _) => complaints.push(format!("{name} {version}: {licence}")),
                (Some(only), None) => drop(used.insert(only.clone())),
                _ => {}
            }
        }
    }
    let idle = allowed.iter().filter(|allowed| !used.contains(*allowed));
    complaints.extend(idle.map(|allowed| format!("{allowed} is listed and not needed")));
    none(&complaints);
}

#[test]
fn a_licence_is_read_with_its_alternatives() {
    assert_eq!(needed("MIT/Apache-2.0"), [["MIT", "Apache-2.0"]]);
    let both = needed("(MIT OR Apache-2.0) AND Unicode-3.0");
    assert_eq!(both, [vec!["MIT", "Apache-2.0"], vec!["Unicode-3.0"]]);
    assert_eq!(needed("MPL-2.0+"), [["MPL-2.0"]]);
}

/// Of a library that is built in two versions the older ones are listed, with the reason.
#[test]
fn older_versions_side_by_side_are_listed() {
    let skipped = list("skip");
    let mut versions: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (name, version, _) in libraries() {
        versions.entry(name).or_default().push(version);
    }
    let known = |name: &str, version: &str| {
        skipped.iter().any(|entry| {
            let (library, old) = entry.split_once('@').expect("a version stands behind an @");
            library == name && format!("{version}.").starts_with(&format!("{old}."))
        })
    };
    let mut complaints = Vec::new();
    for (name, versions) in &versions {
        let listed = versions.iter().filter(|version| known(name, version)).count();
        if listed + 1 < versions.len() {
            complaints.push(format!("{name}: {}", versions.join(", ")));
        }
    }
    // Those of other systems are not built here, but locked.
    let locked = locked();
    let gone = skipped.iter().filter(|entry| {
        !locked
            .iter()
            .any(|(name, version)| format!("{name}@{version}.").starts_with(&format!("{entry}.")))
    });
    complaints.extend(gone.map(|entry| format!("{entry} is listed and not there")));
    none(&complaints);
}

/// Names and versions of the lock file.
fn locked() -> Vec<(String, String)> {
    let text = repository::text("Cargo.lock");
    let value = |line: &str, key: &str| {
        Some(line.strip_prefix(key)?.strip_prefix(" = \"")?.trim_end_matches('"').to_owned())
    };
    let names = text.lines().filter_map(|line| value(line, "name"));
    let versions = text.lines().skip_while(|line| *line != "[[package]]");
    names.zip(versions.filter_map(|line| value(line, "version"))).collect()
}

/// For every system, not only for this one.
#[test]
fn libraries_come_from_the_one_registry() {
    assert!(repository::files().contains(&"Cargo.lock".to_owned()), "versions are committed");
    let text = repository::text("Cargo.lock");
    let sources: Vec<&str> =
        text.lines().filter_map(|line| line.strip_prefix("source = ")).collect();
    assert!(sources.len() > 100);
    let other = sources.iter().filter(|source| source.trim_matches('"') != REGISTRY);
    none(&other.map(|source| (*source).to_owned()).collect::<Vec<_>>());
}

#[test]
fn no_crate_may_have_unsafe_code() {
    let root = repository::text("Cargo.toml");
    assert!(root.contains("[workspace.lints.rust]\nunsafe_code = \"forbid\"\n"));
    let files = repository::files();
    let manifests = files.iter().filter(|file| file.ends_with("/Cargo.toml"));
    let free = |path: &&String| !repository::text(path).contains("[lints]\nworkspace = true\n");
    none(&manifests.filter(free).map(|path| format!("{path}: [lints]")).collect::<Vec<_>>());
}
