//! Groups that take a part of a force list: so many sections, guns or tanks of it.

use ruleshift_game::Kind;

use crate::form::{GroupForm, StartForm, UnitForm};
use crate::library::Library;

/// What a line of a list is for a group that takes only a part of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// What the group is made for: sections of a platoon, guns, vehicles.
    Main,
    /// Those who lead it.
    Leader,
    /// Hand-held weapons against armour of a platoon.
    AntiTank,
    /// Everything else.
    Other,
}

/// A platoon with so many sections of its list, first come first taken, and with its hand-held
/// weapons only where there is armour to fire at.
pub(crate) fn platoon(name: String, list: &str, sections: i32, armour: bool) -> GroupForm {
    let part = |unit: &UnitForm| match kind(unit) {
        Some(Kind::Section | Kind::AssaultSection) => Part::Main,
        Some(Kind::Leader) => Part::Leader,
        Some(Kind::AntiTankTeam) => Part::AntiTank,
        _ => Part::Other,
    };
    let leaders = if sections > 1 { 2 } else { 1 };
    let keep = Keep { main: sections, leaders, anti_tank: armour };
    group(name, list, part, keep)
}

/// So many guns or vehicles of a list; one alone has no leader.
pub(crate) fn support(name: &str, list: &str, count: i32) -> GroupForm {
    let part =
        |unit: &UnitForm| if kind(unit) == Some(Kind::Leader) { Part::Leader } else { Part::Main };
    let leaders = i32::from(count > 1);
    group(name.to_owned(), list, part, Keep { main: count, leaders, anti_tank: false })
}

/// Guns, vehicles or other units of a list, leaders left out.
pub(crate) fn mains(list: &str) -> i32 {
    let leads = |unit: &&UnitForm| kind(unit) == Some(Kind::Leader);
    lines(list).iter().filter(|unit| !leads(unit)).map(|unit| unit.count).sum()
}

/// Sections of a list.
pub(crate) fn sections(list: &str) -> i32 {
    let is_section = |unit: &&UnitForm| kind(unit).is_some_and(Kind::is_section);
    lines(list).iter().filter(is_section).map(|unit| unit.count).sum()
}

/// What a group keeps of its list.
#[derive(Clone, Copy)]
struct Keep {
    main: i32,
    leaders: i32,
    anti_tank: bool,
}

fn group(name: String, list: &str, part: impl Fn(&UnitForm) -> Part, mut keep: Keep) -> GroupForm {
    let mut without = vec![];
    for line in lines(list) {
        let kept = match part(line) {
            Part::Main => take(&mut keep.main, line.count),
            Part::Leader => take(&mut keep.leaders, line.count),
            Part::AntiTank if !keep.anti_tank => 0,
            Part::AntiTank | Part::Other => line.count,
        };
        if kept == 0 {
            without.push(line.name.clone());
        } else {
            without.extend((kept + 1..=line.count).map(|n| format!("{} {n}", line.name)));
        }
    }
    let list = Some(list.to_owned());
    GroupForm { name, list, quality: None, without, units: vec![], start: StartForm::Spot }
}

/// Takes as many of `count` as are still wanted.
fn take(wanted: &mut i32, count: i32) -> i32 {
    let taken = (*wanted).min(count);
    *wanted -= taken;
    taken
}

/// The lines of a shipped list; a test holds that every list named here is shipped.
fn lines(list: &str) -> &'static [UnitForm] {
    Library::shipped().list(list).map_or(&[], |list| &list.units)
}

fn kind(unit: &UnitForm) -> Option<Kind> {
    unit.kind.map(Kind::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_platoon_keeps_its_first_sections() {
        let kept = |list, sections, armour| platoon("P".to_owned(), list, sections, armour).without;
        assert!(kept("british-rifle-platoon", 3, true).is_empty());
        assert_eq!(kept("british-rifle-platoon", 3, false), ["anti-tank team"]);
        let gone = ["section 2", "section 3", "anti-tank team"];
        assert_eq!(kept("british-rifle-platoon", 1, false), gone);
        assert_eq!(kept("german-assault-platoon", 2, true), ["section"]);
        assert_eq!(kept("us-rifle-platoon", 1, true), ["sergeant", "section 2", "section 3"]);
    }

    #[test]
    fn support_of_one_has_no_leader() {
        let kept = |list, count| support("S", list, count).without;
        let gone = ["leader", "7.5 cm gun 2", "7.5 cm gun 3"];
        assert_eq!(kept("german-anti-tank-platoon", 1), gone);
        assert_eq!(kept("soviet-machine-gun-platoon", 2), ["machine gun 3"]);
    }

    #[test]
    fn sections_are_counted() {
        assert_eq!(["german-assault-platoon", "soviet-rifle-platoon"].map(sections), [3, 4]);
    }
}
