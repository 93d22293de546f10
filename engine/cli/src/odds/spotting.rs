//! Chances of finding: markers (RULES 4.5, 6) and hidden troops (RULES 15.4).

use ruleshift_game::{Cover, Hook};

use super::dice::two_reach;
use super::page::{Group, Value};
use super::ranges::stretches;
use super::scene::{Scene, place};
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] =
    &[Hook::SpotBand, Hook::SpottingNumber, Hook::SearchNumber, Hook::SureSpotting];

/// What a table cannot show and is held fixed.
pub(crate) fn held(_: &Scene) -> Vec<String> {
    vec!["Spotting: one try, at a marker or feature that is in sight.".to_owned()]
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let covers = sheet.scene.covers_or(&[Cover::None, Cover::Light], Cover::ALL);
    let mut groups: Vec<Group> = covers.iter().map(|&cover| marker(sheet, cover)).collect();
    if sheet.scene.full {
        groups.extend(covers.iter().map(|&cover| feature(sheet, cover)));
    }
    groups
}

fn marker(sheet: &Sheet<'_>, cover: Cover) -> Group {
    let rules = sheet.rules;
    let mut group = Group::new(format!("A marker {}", place(cover)));
    let sure = Value::Number(rules.sure_spotting(cover));
    group.row("seen without a roll by units within, in", sure);
    for (moved, how) in [(false, "still"), (true, "moved")] {
        for stretch in bands(sheet) {
            let needed = rules.spotting_number(rules.spot_band(stretch.range), cover, moved);
            let value = Value::Needed(needed, two_reach(needed));
            let what = format!("{how}, {}", stretch.label);
            if moved { group.detail(what, value) } else { group.row(what, value) }
        }
    }
    group
}

fn feature(sheet: &Sheet<'_>, cover: Cover) -> Group {
    let rules = sheet.rules;
    let mut group = Group::new(format!("A feature searched for hidden troops, {}", place(cover)));
    for stretch in bands(sheet) {
        let needed = rules.search_number(rules.spot_band(stretch.range), cover);
        group.row(stretch.label, Value::Needed(needed, two_reach(needed)));
    }
    group
}

fn bands(sheet: &Sheet<'_>) -> Vec<super::ranges::Stretch> {
    stretches(sheet.scene.ranges.as_deref(), |range| {
        sheet.all.iter().map(|rules| rules.spot_band(range)).collect()
    })
}
