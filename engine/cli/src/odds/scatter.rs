//! Chances of where the shells of a battery fall, and what they do (RULES 14.5, 14.6).

use ruleshift_game::{Cell, Cover, Hook, Kind, Rules, STEPS};

use super::chances::Chances;
use super::dice::{die, one_reaches, total};
use super::fire::{Shot, harm};
use super::fraction::Fraction;
use super::page::{Group, Value};
use super::scene::{Scene, place};
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] = &[
    Hook::ScatterInches,
    Hook::BlastRadius,
    Hook::FireDice,
    Hook::HitNumber,
    Hook::HitsKept,
    Hook::HitEffect,
    Hook::SuppressionThreshold,
    Hook::BreakThreshold,
];

/// Inches between the aim point and those who are near it.
const NEAR: [i32; 3] = [4, 8, 12];
/// An aim point with room on all sides: no shells fall off the table within the radius of others.
const AIM: Cell = Cell { x: 36, y: 24 };

/// What a table cannot show and is held fixed.
pub(crate) fn held(scene: &Scene) -> Vec<String> {
    let enemy = scene.enemy.told();
    vec![format!("Shells: one fire, aimed far from the edges of the table; at {enemy}.")]
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let corrections = if sheet.scene.full { 0..=3 } else { 0..=1 };
    let mut groups: Vec<Group> =
        corrections.map(|adjusted| where_they_fall(sheet.rules, adjusted)).collect();
    let covers = sheet.scene.covers_or(&[Cover::None], Cover::ALL);
    groups.extend(covers.iter().map(|&cover| under_them(sheet, cover)));
    groups
}

/// Way in eighths of a turn, if astray, and inches.
fn falls(rules: &Rules, adjusted: i32) -> Chances<(Option<u8>, i32)> {
    die().then(|&way| match way {
        1..=4 => total(2)
            .map(|&rolled| (Some(2 * (way as u8 - 1)), rules.scatter_inches(rolled, adjusted))),
        _ => Chances::certain((None, 0)),
    })
}

fn where_they_fall(rules: &Rules, adjusted: i32) -> Group {
    let times = match adjusted {
        0 => "not corrected".to_owned(),
        1 => "corrected once".to_owned(),
        n => format!("corrected {n} times"),
    };
    let mut group = Group::new(format!("Where the shells fall, {times}"));
    let falls = falls(rules, adjusted);
    let radius = rules.blast_radius(Kind::Battery);
    let under = |away: i32| -> Fraction {
        let Some(unit) = AIM.step(away, 0) else { return Fraction::default() };
        falls.chance(|&(way, inches)| {
            let (dx, dy) = way.map_or((0, 0), |way| STEPS[way as usize]);
            let at = AIM.step(dx * inches, dy * inches);
            at.is_some_and(|at| i32::from(at.range(unit)) <= radius)
        })
    };
    let inches = falls.map(|&(_, inches)| inches);
    group.row("on the square aimed at", Value::Chance(inches.chance(|&n| n == 0)));
    group.row("inches astray, mean", Value::Mean(inches.mean(|&n| n)));
    group.row("a unit aimed at is under them", Value::Chance(under(0)));
    for away in NEAR {
        let (what, chance) =
            (format!("one {away} in to a side of it is"), Value::Chance(under(away)));
        if away == NEAR[1] { group.row(what, chance) } else { group.detail(what, chance) }
    }
    group.spread("inches astray", &inches);
    group
}

fn under_them(sheet: &Sheet<'_>, cover: Cover) -> Group {
    let rules = sheet.rules;
    let dice = rules.fire_dice(Kind::Battery, 1, 0);
    let needed = rules.hit_number(Kind::Battery, 0, false);
    let mut group = Group::new(format!("A unit under the shells, {}", place(cover)));
    group.detail("dice", Value::Number(dice));
    group.detail("a die hits", Value::Needed(needed, one_reaches(needed)));
    harm(&mut group, rules, Shot { kind: Kind::Battery, dice, needed, cover }, &sheet.scene.enemy);
    group
}

#[cfg(test)]
mod tests {
    use super::super::fraction::fraction;
    use super::*;

    /// Two faces of six are on target; the rest stray by two dice, mean 7: 14/3 in over all.
    #[test]
    fn shells_stray_by_two_dice_four_times_in_six() {
        let falls = falls(&Rules::base(), 0);
        assert_eq!(falls.chance(|_| true), fraction(1, 1));
        assert_eq!(falls.chance(|&(_, inches)| inches == 0), fraction(1, 3));
        assert_eq!(falls.mean(|&(_, inches)| inches), fraction(14, 3));
        assert_eq!(falls.chance(|&(way, inches)| way == Some(6) && inches == 7), fraction(1, 36));
    }
}
