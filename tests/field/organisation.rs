//! Sizes of the force lists, against published tables of organisation.

use ruleshift_scenarios::{force_list, force_lists};

use super::table::{Row, row};

/// List, published men, and the part by which it may be off: none where two texts agree.
const SIZES: [(&str, u16, f64); 12] = [
    ("us-rifle-squad", 12, 0.0),
    ("us-rifle-platoon", 41, 0.0),
    ("us-rifle-company", 193, 0.0),
    ("british-rifle-section", 10, 0.0),
    ("british-rifle-platoon", 37, 0.0),
    ("british-rifle-company", 127, 0.0),
    ("german-rifle-group", 9, 0.1),
    ("german-rifle-platoon", 33, 0.1),
    ("german-rifle-company", 142, 0.1),
    ("soviet-rifle-squad", 9, 0.1),
    ("soviet-rifle-platoon", 39, 0.1),
    ("soviet-rifle-company", 143, 0.1),
];

/// US T/O&E 7-17, 26 Feb 1944; War Establishments 1943-44; K.St.N. 131n and TM-E 30-451; Soviet
/// table 04/551. The US squad and the British section were read elsewhere too.
const SOURCES: [(&str, &str); 4] = [
    ("us", "T/O&E 7-17, S and M"),
    ("british", "War Establishments, S and M"),
    ("german", "K.St.N. 131n, M"),
    ("soviet", "table 04/551, M"),
];

fn men(name: &str) -> f64 {
    let lists = force_lists();
    let found = lists.iter().find(|list| list.name == name);
    found.unwrap_or_else(|| panic!("no list {name}")).men.into()
}

fn source(name: &str) -> &'static str {
    let found = SOURCES.iter().find(|(nation, _)| name.starts_with(nation));
    found.expect("every nation has a source").1
}

/// Row 55: exact for the United States and Britain, within a tenth for the others.
#[test]
fn forces_have_their_published_sizes() {
    for (name, published, part) in SIZES {
        let off = (men(name) - f64::from(published)).abs();
        assert!(off <= part * f64::from(published), "{name}: {} for {published}", men(name));
    }
}

pub(super) fn rows() -> Vec<Row> {
    let mut rows = Vec::new();
    for name in ["us-rifle-platoon", "british-rifle-platoon"] {
        let leaders = force_list(name).and_then(|list| list.leaders).map_or(0.0, f64::from);
        let what = format!("leaders of a {}", name.replace('-', " "));
        rows.push(row(54, what, leaders / men(name), (0.21, 0.23), "C of the tables"));
    }
    for (name, published, part) in SIZES {
        let published = f64::from(published);
        let range = (published * (1.0 - part), published * (1.0 + part));
        rows.push(row(55, name.replace('-', " "), men(name), range, source(name)));
    }
    rows
}
