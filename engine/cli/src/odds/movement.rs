//! Chances of one move: inches, and squares of each ground (RULES 4.3, 5.3-5.5, 13.3, 13.4, 16.3).

use num_traits::Zero;
use ruleshift_game::{Gait, Ground, Hook, Kind, Rules};

use super::chances::Chances;
use super::dice::{die, total};
use super::fraction::{Fraction, fraction};
use super::page::{Group, Value};
use super::scene::{Scene, capital, pins};
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] = &[
    Hook::MoveDice,
    Hook::MarkerMoveDice,
    Hook::MarkerSlowing,
    Hook::PinnedMove,
    Hook::GroundCost,
    Hook::VehicleCost,
    Hook::BogNumber,
    Hook::MineNumber,
];

/// Squares of a side of the table: no move is longer.
const FARTHEST: i32 = 72;

/// What a table cannot show and is held fixed.
pub(crate) fn held(scene: &Scene) -> Vec<String> {
    vec![
        format!("Movement: one move of a unit {}, not suppressed.", pins(scene.pins)),
        "Squares are entered straight on, all of the same ground, with nobody in the way."
            .to_owned(),
    ]
}

/// Who moves.
#[derive(Clone, Copy)]
enum Mover {
    Unit(Kind),
    Marker,
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let scene = sheet.scene;
    let usual: &[Kind] = match scene.full {
        true => &[Kind::Section, Kind::Leader, Kind::Tank, Kind::Carrier],
        false => &[Kind::Section, Kind::Tank],
    };
    let kinds = scene.kinds_or(usual).into_iter().filter(|&kind| kind != Kind::Battery);
    let mut movers: Vec<Mover> = kinds.map(Mover::Unit).collect();
    if scene.kinds.is_none() {
        movers.push(Mover::Marker);
    }
    movers.iter().map(|&mover| of(sheet, mover)).collect()
}

fn of(sheet: &Sheet<'_>, mover: Mover) -> Group {
    let mut group = Group::new(match mover {
        Mover::Unit(kind) => format!("{}, {}", capital(kind.label()), pins(sheet.scene.pins)),
        Mover::Marker => "Marker".to_owned(),
    });
    let inches = inches(sheet.rules, mover, sheet.scene.pins);
    group.row("inches, mean", Value::Mean(inches.mean(|&n| n)));
    for (tenths, times) in [(9, "9 times in 10"), (5, "every other time"), (1, "once in 10")] {
        let reached = Value::Number(inches.reached(&fraction(tenths, 10)));
        let what = format!("inches, at least, {times}");
        if tenths == 9 { group.row(what, reached) } else { group.detail(what, reached) }
    }
    group.spread("inches", &inches);
    let brief = [Ground::Open, Ground::Wood];
    let grounds = if sheet.scene.full { Ground::ALL } else { &brief };
    for &ground in grounds {
        let squares = squares(sheet.rules, mover, &inches, ground);
        let mean = squares.map_or(Value::Word("no entry"), |s| Value::Mean(s.mean(|&n| n)));
        group.row(format!("squares of {} entered, mean", ground.label()), mean);
    }
    group
}

/// Inches of a move: the roll, shortened by pins.
fn inches(rules: &Rules, mover: Mover, pins: i32) -> Chances<i32> {
    match mover {
        Mover::Marker => total(rules.marker_move_dice()),
        Mover::Unit(kind) => {
            total(rules.move_dice(kind)).map(|&rolled| rules.pinned_move(rolled, pins))
        }
    }
}

/// Cost of a square entered straight on, in hundredths of an inch; none where it is not entered.
pub(crate) fn cost(rules: &Rules, gait: Gait, ground: Ground) -> Option<i32> {
    let foot = rules.ground_cost(ground);
    let cost = match gait {
        Gait::Foot => foot,
        Gait::Marker => 100 + (foot - 100) * rules.marker_slowing() / 100,
        Gait::Vehicle => rules.vehicle_cost(ground),
    };
    (cost > 0).then_some(cost)
}

/// Chance that a square stops a unit that enters it: the vehicle sticks, or a mine goes off.
fn stops(rules: &Rules, mover: Mover, ground: Ground) -> Fraction {
    match mover {
        Mover::Marker => Fraction::zero(),
        Mover::Unit(_) if ground == Ground::Minefield => {
            die().chance(|&face| face >= rules.mine_number())
        }
        Mover::Unit(kind) if kind.is_vehicle() => {
            die().chance(|&face| face <= rules.bog_number(ground))
        }
        Mover::Unit(_) => Fraction::zero(),
    }
}

/// Squares entered by a move over one kind of ground; none where it cannot be entered.
fn squares(
    rules: &Rules,
    mover: Mover,
    inches: &Chances<i32>,
    ground: Ground,
) -> Option<Chances<i32>> {
    let gait = match mover {
        Mover::Unit(kind) => Gait::of(kind),
        Mover::Marker => Gait::Marker,
    };
    let cost = cost(rules, gait, ground)?;
    let stops = stops(rules, mover, ground);
    Some(inches.then(|&inches| stopped((inches * 100 / cost).min(FARTHEST), &stops)))
}

/// Squares entered of `most`, each of which is the last with chance `stops`: the geometric
/// distribution cut off (Feller, An Introduction to Probability Theory and Its Applications, vol. 1,
/// 3rd ed. 1968, chapter VI, section 8).
fn stopped(most: i32, stops: &Fraction) -> Chances<i32> {
    let mut left = fraction(1, 1);
    let mut all = Vec::new();
    for square in 1..most {
        all.push((square, &left * stops));
        left *= fraction(1, 1) - stops;
    }
    all.push((most, left));
    Chances::of(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One die less 1 in for 2 pins: 0, 1, ... 5, mean 5/2. Three dice: mean 21/2.
    #[test]
    fn inches_are_dice_less_what_pins_take() {
        let rules = Rules::base();
        let mean = |kind, pins| inches(&rules, Mover::Unit(kind), pins).mean(|&n| n);
        assert_eq!(mean(Kind::Section, 0), fraction(7, 2));
        assert_eq!(mean(Kind::Section, 3), fraction(5, 2));
        assert_eq!(mean(Kind::Truck, 0), fraction(21, 2));
    }

    /// Wood costs 2: of 1 to 6 in none, one, one, two, two, three squares, mean 9/6. A marker pays
    /// 1.5: none, one, two, two, three, four, mean 12/6.
    #[test]
    fn rough_ground_takes_squares() {
        let rules = Rules::base();
        let mean = |mover| {
            let inches = inches(&rules, mover, 0);
            squares(&rules, mover, &inches, Ground::Wood).unwrap().mean(|&n| n)
        };
        assert_eq!(mean(Mover::Unit(Kind::Section)), fraction(9, 6));
        assert_eq!(mean(Mover::Marker), fraction(12, 6));
        let tank = Mover::Unit(Kind::Tank);
        assert_eq!(squares(&rules, tank, &total(2), Ground::Building), None);
    }

    /// Of three squares, each of which stops with a half: 1/2, 1/4, 1/4.
    #[test]
    fn what_stops_a_unit_stops_it_at_once() {
        let known = [(1, fraction(1, 2)), (2, fraction(1, 4)), (3, fraction(1, 4))];
        assert_eq!(stopped(3, &fraction(1, 2)), Chances::of(known));
        assert_eq!(stopped(0, &fraction(1, 2)), Chances::certain(0));
    }
}
