//! The forces of a sketch: platoons by the odds of the mission, and what supports them.

use crate::form::{BatteryForm, GroupForm, Point, StartForm, UnitForm};
use crate::names::KindName;

use super::draw::Draw;
use super::mission::Frame;
use super::nations::{Nation, pair};
use super::portion::{platoon, sections, support};
use super::words::Mission;

/// What one side brings. Reserves have no entries yet, and nobody has a place.
#[derive(Clone, Debug, Default)]
pub(crate) struct Force {
    pub(crate) groups: Vec<GroupForm>,
    pub(crate) batteries: Vec<BatteryForm>,
    /// Dummy markers.
    pub(crate) dummies: u8,
    /// Its sections.
    pub(crate) sections: i32,
}

/// Chances in percent of support, by mission.
struct Chances {
    tanks: i32,
    mortars: i32,
    /// A battery of field guns for the attacker.
    battery: i32,
    /// A platoon of the attacker that comes later.
    follows: i32,
    /// Armour that comes to help the defender, if the attacker has any.
    relief: i32,
    /// That the defender's last platoon hides.
    hides: i32,
}

const fn chances(mission: Mission) -> Chances {
    let [tanks, mortars, battery, follows, relief, hides] = match mission {
        Mission::Attack => [50, 35, 70, 20, 20, 40],
        Mission::Meeting => [60, 25, 0, 100, 0, 0],
        Mission::Prepared => [75, 30, 100, 0, 15, 30],
        Mission::Delay => [75, 20, 30, 60, 40, 100],
        Mission::Probe => [20, 20, 0, 0, 0, 100],
        Mission::Village => [60, 50, 40, 0, 20, 50],
    };
    Chances { tanks, mortars, battery, follows, relief, hides }
}

/// The forces of attacker and defender. `aim` is what batteries were laid on before the game.
pub(crate) fn forces(mission: Mission, frame: &Frame, aim: Point, draw: &mut Draw) -> [Force; 2] {
    let nations = pair(draw);
    let defenders = draw.within(frame.defenders);
    let [least, most] = frame.odds;
    let attackers = draw.between((defenders * least + 9) / 10, defenders * most / 10);
    let tanks = if draw.chance(chances(mission).tanks) { draw.between(1, 3) } else { 0 };
    if mission == Mission::Meeting {
        return meeting(nations, attackers, tanks, draw);
    }
    let attacker = attacker(mission, nations[0], attackers, (tanks, aim), draw);
    [attacker, defender(mission, nations[1], defenders, (tanks, aim), draw)]
}

const ATTACKING: [&str; 5] = ["1 Platoon", "2 Platoon", "3 Platoon", "4 Platoon", "5 Platoon"];
const HOLDING: [&str; 5] =
    ["First platoon", "Second platoon", "Third platoon", "Fourth platoon", "Fifth platoon"];

/// Platoons of some lists with so many sections together; no platoon is left with one alone if
/// that can be helped.
fn platoons(
    names: &[&str],
    lists: &[&str],
    total: i32,
    armour: bool,
    draw: &mut Draw,
) -> Vec<GroupForm> {
    let (mut left, mut groups) = (total, vec![]);
    for name in names {
        let list = draw.pick(lists);
        let full = sections(list).min(left);
        let taken = if left - full == 1 && full > 2 { full - 1 } else { full };
        if taken > 0 {
            groups.push(platoon((*name).to_owned(), list, taken, armour));
            left -= taken;
        }
    }
    groups
}

/// The lists a nation's platoons are drawn from: assault troops go into villages.
fn lists(mission: Mission, nation: &Nation) -> &'static [&'static str] {
    if mission == Mission::Village { nation.assault } else { nation.rifles }
}

fn attacker(
    mission: Mission,
    nation: &Nation,
    sections: i32,
    (tanks, aim): (i32, Point),
    draw: &mut Draw,
) -> Force {
    let chances = chances(mission);
    let mut groups =
        platoons(&ATTACKING, lists(mission, nation), sections, mission != Mission::Probe, draw);
    if groups.len() > 2 && draw.chance(chances.follows) {
        reserve(groups.last_mut(), draw.between(2, 3));
    }
    let mut guns = support("Machine guns", nation.guns, draw.between(1, 2));
    let batteries = batteries(mission, draw.chance(chances.battery), aim);
    if !batteries.is_empty() {
        guns.units.push(observer());
    }
    groups.push(guns);
    if draw.chance(chances.mortars) {
        groups.push(support("Mortars", nation.mortars, draw.between(1, 2)));
    }
    if tanks > 0 {
        groups.push(support("Armour", draw.pick(nation.tanks), tanks));
    }
    Force { groups, batteries, dummies: 2 + u8::from(draw.chance(50)), sections }
}

fn defender(
    mission: Mission,
    nation: &Nation,
    sections: i32,
    (tanks, aim): (i32, Point),
    draw: &mut Draw,
) -> Force {
    let chances = chances(mission);
    let mut groups = platoons(&HOLDING, lists(mission, nation), sections, tanks > 0, draw);
    if draw.chance(chances.hides) {
        hide(groups.last_mut());
    }
    let least = if mission == Mission::Prepared { 2 } else { 1 };
    groups.push(support("Machine guns", nation.guns, draw.between(least, 2)));
    if tanks > 0 {
        let mut gun = support("Anti-tank gun", draw.pick(nation.anti_tank), 1);
        hide(Some(&mut gun));
        groups.push(gun);
    }
    if tanks > 0 && draw.chance(chances.relief) {
        let mut relief = support("Relief", draw.pick(nation.reserve_armour), draw.between(1, 2));
        reserve(Some(&mut relief), draw.between(3, 5));
        groups.push(relief);
    }
    let mut batteries = vec![];
    if mission == Mission::Prepared && draw.chance(60) {
        let before = (aim.0 - 8, aim.1);
        batteries.push(battery("battalion mortars", [1, 3], false, vec![before]));
    }
    Force { groups, batteries, dummies: 2 + u8::from(draw.chance(60)), sections }
}

/// Two sides of one strength, each with a platoon that comes later.
fn meeting(nations: [&Nation; 2], sections: i32, tanks: i32, draw: &mut Draw) -> [Force; 2] {
    let (guns, turn) = (draw.between(1, 2), draw.between(2, 3));
    let mortars = draw.chance(chances(Mission::Meeting).mortars);
    nations.map(|nation| {
        let mut groups = platoons(&HOLDING, nation.rifles, sections, tanks > 0, draw);
        reserve(groups.last_mut(), turn);
        groups.push(support("Machine guns", nation.guns, guns));
        if mortars {
            groups.push(support("Mortars", nation.mortars, 1));
        }
        if tanks > 0 {
            groups.push(support("Armour", draw.pick(nation.tanks), tanks));
        }
        Force { groups, batteries: vec![], dummies: 2, sections }
    })
}

/// Field guns, and more of them against a prepared position.
fn batteries(mission: Mission, field: bool, aim: Point) -> Vec<BatteryForm> {
    if mission == Mission::Prepared {
        return vec![
            battery("field battery", [2, 5], false, vec![aim]),
            battery("heavy mortars", [1, 4], true, vec![]),
        ];
    }
    let one = || battery("field battery", [2, 3], false, vec![]);
    field.then(one).into_iter().collect()
}

fn battery(
    name: &str,
    [response, missions]: [u8; 2],
    smoke: bool,
    registered: Vec<Point>,
) -> BatteryForm {
    BatteryForm { name: name.to_owned(), response, missions, smoke, registered }
}

fn observer() -> UnitForm {
    UnitForm {
        name: "observer".to_owned(),
        kind: Some(KindName::Observer),
        quality: None,
        men: Some(2),
        grade: 0,
        count: 1,
        vehicle: None,
        gun: None,
    }
}

fn hide(group: Option<&mut GroupForm>) {
    if let Some(group) = group {
        group.start = StartForm::Feature;
    }
}

/// The group comes later; where it comes is said when the road is known.
fn reserve(group: Option<&mut GroupForm>, turn: i32) {
    if let Some(group) = group {
        group.start = StartForm::Reserve { turn: turn.unsigned_abs() as u8, entries: vec![] };
    }
}
