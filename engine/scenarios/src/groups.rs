//! The units of a group: those of its list, less what it goes without, and its own.

use ruleshift_game::{Kind, Quality, UnitSetup};

use crate::build::Build;
use crate::form::{GroupForm, UnitForm};
use crate::nearest::unknown;
use crate::units::unit;

/// A unit whose name may still need a number.
#[derive(Clone)]
struct Draft {
    unit: UnitSetup,
    /// What it is called: `section`.
    label: String,
    /// Its number among those of its label, if there are several.
    number: Option<usize>,
    /// Whether the scenario gave it its name; other names begin with that of the group.
    named: bool,
    /// Whether it is from a list.
    listed: bool,
}

/// All units of a group; `place` names it in faults.
pub(crate) fn units(place: &str, form: &GroupForm, build: &mut Build) -> Vec<UnitSetup> {
    let told = build.faults.len();
    let mut drafts = vec![];
    for line in listed(place, form, build) {
        drafts.extend(line_of_list(place, form, line, build));
    }
    for line in &form.units {
        drafts.extend(own_line(place, form, line, build));
    }
    number(&mut drafts);
    leave_out(place, form, &mut drafts, build);
    let mut units: Vec<UnitSetup> = drafts.into_iter().map(|d| d.named_for(&form.name)).collect();
    if units.is_empty() && build.faults.len() > told {
        // The fault has been told: an empty group would only tell it again in other words.
        units.push(stand_in());
    }
    units
}

/// The lines of the list that the group names.
fn listed<'a>(place: &str, form: &GroupForm, build: &mut Build<'a>) -> &'a [UnitForm] {
    let library = build.library;
    let Some(name) = &form.list else { return &[] };
    let Some(list) = build.found(place, library.list(name)) else { return &[] };
    if !list.parts.is_empty() {
        let parts: Vec<&str> = list.parts.iter().map(|part| part.list.as_str()).collect();
        let parts = parts.join(", ");
        build
            .fault(place, format_args!("`{name}` is several groups; make one of each of: {parts}"));
    }
    &list.units
}

fn line_of_list(place: &str, group: &GroupForm, line: &UnitForm, build: &mut Build) -> Vec<Draft> {
    let Some(unit) = unit(place, group.quality, line, build) else { return vec![] };
    let label = if line.name.is_empty() { unit.name.clone() } else { line.name.clone() };
    let draft = Draft { unit, label, number: None, named: false, listed: true };
    (0..line.count).map(|_| draft.clone()).collect()
}

/// One line of the scenario: `count` units alike. Those with a name are numbered here, line by
/// line, the others later over the whole group.
fn own_line(place: &str, group: &GroupForm, line: &UnitForm, build: &mut Build) -> Vec<Draft> {
    let unit = unit(place, group.quality, line, build);
    if !(1..=12).contains(&line.count) {
        build.fault(place, format_args!("count {}, expected 1 to 12", line.count));
        return vec![];
    }
    let Some(unit) = unit else { return vec![] };
    let named = !line.name.is_empty();
    let label = if named { line.name.clone() } else { unit.name.clone() };
    let draft = Draft { unit, label, number: None, named, listed: false };
    let count = line.count as usize;
    let number = |n| (named && count > 1).then_some(n);
    (1..=count).map(|n| Draft { number: number(n), ..draft.clone() }).collect()
}

/// Numbers units of the same label, if there are several.
fn number(drafts: &mut [Draft]) {
    let labels: Vec<String> =
        drafts.iter().filter(|draft| !draft.named).map(|draft| draft.label.clone()).collect();
    for (n, draft) in drafts.iter_mut().filter(|draft| !draft.named).enumerate() {
        let alike = |labels: &[String]| labels.iter().filter(|l| **l == draft.label).count();
        draft.number = (alike(&labels) > 1).then_some(alike(&labels[..=n]));
    }
}

/// Takes out the units of the list that the group goes without: `section` takes all of them,
/// `section 2` one.
fn leave_out(place: &str, form: &GroupForm, drafts: &mut Vec<Draft>, build: &mut Build) {
    let Some(list) = &form.list else {
        if !form.without.is_empty() {
            build.fault(place, "`without` takes units out of a `list`, but there is no list");
        }
        return;
    };
    for gone in &form.without {
        let names: Vec<String> = drafts.iter().filter(|d| d.listed).map(Draft::name).collect();
        let before = drafts.len();
        drafts.retain(|d| !d.listed || (d.label != *gone && d.name() != *gone));
        if drafts.len() == before && !names.is_empty() {
            let what = format!("unit of {list}");
            build.fault(place, unknown(&what, gone, names.iter().map(String::as_str)));
        }
    }
}

impl Draft {
    /// Its label and number.
    fn name(&self) -> String {
        self.number.map_or(self.label.clone(), |n| format!("{} {n}", self.label))
    }

    fn named_for(self, group: &str) -> UnitSetup {
        let name = if self.named { self.name() } else { format!("{group} {}", self.name()) };
        UnitSetup { name, ..self.unit }
    }
}

fn stand_in() -> UnitSetup {
    UnitSetup {
        name: String::new(),
        kind: Kind::Section,
        quality: Quality::Regular,
        men: 1,
        grade: 0,
        armour: [0; 3],
        gun: None,
    }
}
