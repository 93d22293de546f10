//! What might make a scenario fair: all that its name may add to a side.

use crate::form::{ScenarioForm, SideForm};
use crate::library::Library;
use crate::load::Scenario;
use crate::nearest::unknown;
use crate::sketch::mains;
use crate::support::{Support, parted};
use crate::text::read;

/// Percentage points between two break points, and the most that is added.
const STEP: u8 = 5;
const MOST: u8 = 60;

/// The scenario as `name` and `text` have it, then with each choice for a side: higher break points,
/// then every list of one group of a nation, and of lists of several units one unit alone. What
/// cannot be added is left out. Without a nation it is that of the side's own lists; where they tell
/// none, there are only the break points.
///
/// # Errors
/// What is wrong with the scenario or the nation.
pub fn choices(
    name: &str,
    text: &str,
    side: &str,
    nation: Option<&str>,
) -> Result<Vec<Scenario>, String> {
    let form: ScenarioForm = read(text)?;
    let form = if side == "attacker" { &form.attacker } else { &form.defender };
    let added = parted(name).1;
    let support = |more: &str| -> Option<Vec<Support>> {
        let all: Vec<&str> = added.into_iter().chain([more]).filter(|a| !a.is_empty()).collect();
        if all.is_empty() { Some(vec![]) } else { Support::several(&all.join("+")).ok() }
    };
    let plain = Scenario::supported(name, text, &support("").unwrap_or_default());
    let mut found = vec![plain.map_err(|error| error.to_string())?];
    for piece in pieces(form, nation_of(form, nation)?) {
        let piece = format!("{side}:{piece}");
        let scenario = |support: Vec<Support>| {
            Scenario::supported(&format!("{name}+{piece}"), text, &support).ok()
        };
        found.extend(support(&piece).and_then(scenario));
    }
    Ok(found)
}

fn pieces(form: &SideForm, nation: Option<&str>) -> Vec<String> {
    let points =
        (STEP..=MOST).step_by(STEP.into()).map(|more| form.break_point.saturating_add(more));
    let points = points.filter(|point| *point <= 100).map(|point| format!("break-point:{point}"));
    let lists = Library::shipped().lists.iter();
    let lists =
        lists.filter(|list| list.parts.is_empty() && nation == Some(nation_word(&list.name)));
    let pieces = lists.flat_map(|list| {
        let one = (mains(&list.name) > 1).then(|| format!("{}:1", list.name));
        one.into_iter().chain([list.name.clone()])
    });
    points.chain(pieces).collect()
}

/// The first word of a list's name.
fn nation_word(list: &str) -> &str {
    list.split('-').next().unwrap_or(list)
}

fn nation_of<'a>(form: &'a SideForm, typed: Option<&'a str>) -> Result<Option<&'a str>, String> {
    let mut nations: Vec<&str> = vec![];
    for list in &Library::shipped().lists {
        if !nations.contains(&nation_word(&list.name)) {
            nations.push(nation_word(&list.name));
        }
    }
    let own = form.groups.iter().find_map(|group| group.list.as_deref()).map(nation_word);
    match typed.or(own) {
        Some(nation) if !nations.contains(&nation) => Err(unknown("nation", nation, nations)),
        nation => Ok(nation),
    }
}
