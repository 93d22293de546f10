//! The digest covers what lists and armoury bring, and nothing that does not play.

use super::{attack, changed};
use crate::library::Library;
use crate::load::Scenario;

const GROUPS: &str = "(name: \"P\", list: \"british-rifle-platoon\"),
    (name: \"T\", units: [(vehicle: \"Cromwell\")])";

fn digest(library: &Library) -> String {
    Scenario::with(library, "test", &attack(GROUPS, "")).unwrap().digest
}

#[test]
fn a_list_that_is_used_and_changes_changes_the_digest() {
    let library = changed(
        "(name: \"light mortar\", kind: light_mortar, men: 2)",
        "(name: \"light mortar\", kind: light_mortar, men: 3)",
    );
    assert_ne!(digest(&library), digest(Library::shipped()));
}

#[test]
fn a_vehicle_or_a_gun_that_is_used_and_changes_changes_the_digest() {
    for (from, to) in [("(64, 38, 32)", "(64, 38, 31)"), ("(76, 66, 60)", "(76, 66, 61)")] {
        assert_ne!(digest(&changed(from, to)), digest(Library::shipped()), "{from}");
    }
}

#[test]
fn what_is_not_used_or_not_played_leaves_the_digest() {
    for (from, to) in [
        ("(139, 45, 40)", "(139, 45, 41)"),
        ("men: 12, count: 3", "men: 11, count: 3"),
        ("War Establishments 1943-44; headquarters", "War Establishments of 1944; headquarters"),
    ] {
        assert_eq!(digest(&changed(from, to)), digest(Library::shipped()), "{from}");
    }
}
