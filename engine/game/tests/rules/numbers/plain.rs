//! Numbers of the text that no hook changes.

use ruleshift_game::cell::{CELLS, HEIGHT, WIDTH};
use ruleshift_game::limits::{self, MAX_MEN, MAX_PINS};
use ruleshift_game::luck::Stream;
use ruleshift_game::{
    Cell, Domain, Gait, Ground, Gun, Heading, Hook, Kind, Rules, STEPS, Side, Sight,
};

use super::HALF;
use crate::support::{Scene, fixed, leader};

/// Ten yards in millimetres, by the definition of the yard.
const TEN_YARDS: i32 = 9144;

/// A paragraph, a phrase of it, and whether its numbers are the engine's.
type Phrase = (&'static str, &'static str, fn(&[i32]) -> bool);

fn limits() -> [i32; 8] {
    [
        limits::MAX_UNITS,
        limits::MAX_GROUPS,
        limits::MAX_LEADERS,
        limits::MAX_MARKERS,
        limits::MAX_BATTERIES,
        limits::MAX_OBJECTIVES,
        limits::MAX_CARDS,
        limits::MAX_ADDED_CARDS,
    ]
    .map(|limit| limit as i32)
}

fn at(x: u8, y: u8) -> Cell {
    Cell { x, y }
}

fn together(numbers: &[i32]) -> bool {
    numbers == [i32::from(fixed::TOGETHER)]
}

/// Any of the ways, or one of them.
fn ways(numbers: &[i32]) -> bool {
    let ways = STEPS.len() as i32;
    numbers == [ways] || numbers == [1, ways]
}

/// The cost of a first step to the right or slanting, on open ground.
fn step(way: u8, gait: Gait) -> i32 {
    let open = Scene::new().group(Side::Attacker, (5, 5), &[leader(1)]).group(
        Side::Defender,
        (60, 5),
        &[leader(1)],
    );
    let paths = open.ready().paths;
    paths.step(at(30, 30), Heading::Straight(way), gait).expect("it is open").1.into()
}

/// How many squares of a wood are seen by someone in front of it.
fn depth() -> i32 {
    let mut ground = [Ground::Open; CELLS];
    for cell in Cell::all().filter(|cell| cell.x >= 30) {
        ground[cell.index()] = Ground::Wood;
    }
    let sight = Sight::new(&ground);
    (30..72).filter(|&x| sight.sees(at(20, 9), at(x, 9))).count() as i32
}

fn gun(penetration: [u16; 3], shaped: bool) -> Gun {
    Gun { name: String::new(), penetration, shaped }
}

/// A gun that loses much in each metre tells how long an inch is, and where its table has its
/// ranges.
fn gun_table(n: &[i32]) -> bool {
    let &[near, middle, far, inch] = n else { return false };
    let plate = [60_000, 20_000, 100];
    let between = |m: i32, from: usize, a: i32, b: i32| {
        (plate[from] * (b - m) + plate[from + 1] * (m - a)) / (b - a)
    };
    let gun = gun(plate.map(|plate| plate as u16), true);
    let agrees = |inches: u8| {
        let expected = match i32::from(inches) * inch / 1000 {
            m if m <= near => plate[0],
            m if m <= middle => between(m, 0, near, middle),
            m => between(m, 1, middle, far),
        };
        i32::from(gun.reach(inches)) == expected
    };
    inch == TEN_YARDS && (0..=limits::MAX_RANGE).all(agrees)
}

/// A plate that leans back so far is so much thicker along the line of fire.
fn slope(n: &[i32]) -> bool {
    let thicker = 1000.0 / f64::from(n[0]).to_radians().cos();
    let times = |shaped| i32::from(gun([1000; 3], shaped).reach(40));
    (thicker - f64::from(n[1])).abs() < 1.0 && times(false) == n[1] && times(true) == 1000 * n[2]
}

fn sides_of_a_die() -> i32 {
    let mut luck = Stream::new(1);
    (0..1000).map(|_| i32::from(luck.die())).max().unwrap_or(0)
}

fn domain(hook: Hook, arg: usize) -> Domain {
    hook.spec().args[arg].domain
}

/// Men or pins that count as the full pair: one takes as many dice as two.
fn pairs(n: i32, dice: impl Fn(i32) -> i32) -> bool {
    dice(n - 1) == dice(n) && dice(n) != dice(n + 1)
}

fn dice(men: i32, pins: i32) -> i32 {
    Rules::base().fire_dice(Kind::Section, men, pins)
}

fn assault(men: i32) -> i32 {
    Rules::base().assault_dice(Kind::Section, men, 0)
}

/// Quarters of the first strength, started ones whole, against the half of 5.1.
fn strength(n: &[i32]) -> bool {
    let &[few, first, half, more] = n else { return false };
    let percent = |men: i32| 25 * (4 * men + first - 1).div_euclid(first);
    half == HALF
        && first == 2 * few
        && percent(few) <= half
        && percent(more) > half
        && more == few + 1
}

fn shelter(n: &[i32]) -> bool {
    n[0] == i32::from(fixed::SHELTER)
}

pub(super) fn phrases() -> Vec<Phrase> {
    [table(), fighting(), arms()].concat()
}

/// Sections 1 to 6.
fn table() -> Vec<Phrase> {
    vec![
        ("1.1", "measures # by # in.", |n| n == [i32::from(WIDTH), i32::from(HEIGHT)]),
        ("1.2", "# inch stands for # yards.", |n| {
            // A yard is 914.4 mm.
            n[0] == 1 && gun_table(&[100, 500, 1000, n[1] * 9144 / 10])
        }),
        ("1.3", "squares that meet only at a corner are # in apart", |n| {
            n == [i32::from(at(5, 5).range(at(6, 6)))]
        }),
        ("1.3", "a range of # in includes everything short of # in.", |n| {
            // 8.9 in and 9.0 in.
            n == [at(0, 0).range(at(8, 4)), at(0, 0).range(at(9, 0))].map(i32::from)
        }),
        ("1.4", "All dice have # sides.", |n| n == [sides_of_a_die()]),
        ("1.4", "\"# dice\" are added together.", together),
        ("1.5", "# to # men", |n| n == [1, i32::from(MAX_MEN)]),
        ("1.5", "a grade from # to #", |n| domain(Hook::LeaderCards, 0) == Domain::Int(n[0], n[1])),
        (
            "1.7",
            "up to # units in # groups, # leaders among them, # markers, # batteries, # objectives \
             and # cards, # of them added by house rules",
            |n| n == limits(),
        ),
        (
            "2.5",
            "#. late fire (8); #. pins come off (9.5, 9.6); #. battered groups are tested, the \
             attacker's first, in the order of the force lists (9.8, 9.9), then sides past their break \
             point, the attacker first (9.10, 9.11); #. house rules may step in (event: \
             `on_turn_end`); #. objectives change hands (11.1); #. points are counted (11.2); #. the \
             game may be over (11.6); #. calls come nearer",
            |n| n == [1, 2, 3, 4, 5, 6, 7, 8],
        ),
        ("3.2", "to any of the # around.", ways),
        ("3.2", "it costs # for each #, parts", |n| {
            n == [step(1, Gait::Foot), step(0, Gait::Foot)]
        }),
        ("3.4", "at most # squares of these", |n| n == [depth()]),
        ("3.4", "# squares deep, and # neighbours deep", |n| n == [depth(); 2]),
        ("4.3", "It pays # for every inch", |n| n == [step(0, Gait::Marker)]),
        ("4.8", "an area of # by # in around it", |n| {
            n == [i32::from(fixed::AREA.0), i32::from(fixed::AREA.1)]
        }),
        ("5.1", "so # men of # are # strength and # are not.", strength),
        ("5.4", "never below #.", |n| n == [Rules::base().pinned_move(0, MAX_PINS)]),
        ("5.5", "in # of the # directions of the squares", ways),
        ("6.3", "Roll # dice.", together),
    ]
}

/// Sections 7 to 12.
fn fighting() -> Vec<Phrase> {
    vec![
        ("7.3", "An odd man counts as #, and an odd pin as #:", |n| {
            pairs(n[0], |men| dice(men, 0)) && pairs(n[1], |pins| dice(13, pins))
        }),
        ("7.4", "A number above # is never reached.", |n| n == [sides_of_a_die()]),
        ("9.1", "A unit has at most #.", |n| n == [i32::from(MAX_PINS)]),
        ("9.9", "Roll # dice.", together),
        ("9.11", "Roll # dice.", together),
        ("9.11", "the number goes up to #, which nobody rolls.", |n| {
            n == [Rules::base().side_test_number(100)] && n[0] > 2 * sides_of_a_die()
        }),
        ("10.4", "within # in of another unit", shelter),
        ("10.5", "within # in of it may be hit.", shelter),
        ("10.5", "Roll # dice for each;", together),
        ("12.3", "With a difference of # it fights.", |n| {
            n == [Hook::SuppressedDifference.spec().result.lowest()]
        }),
        ("12.4", "An odd man counts as #,", |n| pairs(n[0], assault)),
    ]
}

/// Sections 13 to 16.
fn arms() -> Vec<Phrase> {
    vec![
        ("13.1", "face # of the # ways.", ways),
        ("13.5", "A gun rolls # dice and hits", together),
        ("13.6", "at #, # and # m, with straight lines between them; an inch is # m.", gun_table),
        (
            "13.6",
            "by # degrees, so their millimetres count # times; those of shaped charges count #.",
            slope,
        ),
        ("13.6", "Roll # dice; the armour", together),
        ("13.6", "Millimetres short of # are not counted.", |n| {
            let number = |margin: i32| Rules::base().penetration_number(margin);
            number(n[0] - 1) == number(0) && number(n[0]) != number(0)
        }),
        // Tests of wrecks count the crews.
        ("13.8", "# its crew is lost, the larger # of an odd number", |n| n == [HALF, HALF]),
        ("13.9", "A unit within # in of it gets in", |n| n == [i32::from(fixed::ABOARD)]),
        ("14.3", "within # in of # the scenario lists for it.", |n| {
            n == [i32::from(fixed::LAID), 1]
        }),
        // Tests of scatter count the ways.
        ("14.5", "# right, # up, # left, # down, # and # on target.", |n| n == [1, 2, 3, 4, 5, 6]),
        ("14.5", "The roll is # dice.", together),
        ("14.6", "up to # corrections in all.", |n| n == [i32::from(fixed::CORRECTIONS)]),
        ("14.8", "There are at most #;", |n| n == [limits::MAX_SCREENS as i32]),
        ("15.4", "Roll # dice; it knows", together),
        ("15.6", "It always comes on a # or more.", |n| n == [Rules::base().reserve_number(30)]),
    ]
}

/// Numbers that say nothing the engine could say otherwise, with the reason.
pub(super) const REVIEWED: &[(&str, &str, &str)] = &[
    ("1.3", "# squares that meet", "a corner has two squares of which one speaks"),
    ("1.4", "# a man, a pin or a point", "any half"),
    ("1.6", "# units never choose", "any two units"),
    ("3.4", "unless # of the # ends", "a line has two ends"),
    ("3.4", "of # squares as near", "a line passes between two squares"),
    ("8.2", "as in #.", "a section of the text"),
    ("13.2", "midway between # ways", "neighbours are two"),
    ("13.5", "fires as in #.", "a section of the text"),
    ("14.8", "unless the # squares", "a line has two ends"),
];

/// RULES 3.1: each row of the table is the engine's: cost on foot, cover, sight.
#[test]
fn the_table_of_grounds_is_the_engines() {
    let text = super::paragraphs().remove("3.1").expect("the table");
    let cells: Vec<&str> = text.split('|').map(str::trim).filter(|cell| !cell.is_empty()).collect();
    let rules = Rules::base();
    let mut rows = 0;
    for row in cells[1..].chunks_exact(4).skip(2) {
        let &[names, cost, cover, sight] = row else { unreachable!() };
        for name in names.split(", ") {
            let named = |ground: &&Ground| ground.label() == name;
            let &ground = Ground::ALL.iter().find(named).unwrap_or_else(|| panic!("no {name}"));
            assert_eq!(rules.ground_cost(ground).to_string(), cost, "{name}");
            let label = ground.cover().label();
            assert_eq!(label.replace(" cover", "").replace("no", "none"), cover, "{name}");
            assert_eq!(seen_through(ground), sight, "{name}");
            rows += 1;
        }
    }
    assert_eq!(rows, Ground::ALL.len());
}

/// What the column of sight says of a ground, by what a line across it sees.
fn seen_through(ground: Ground) -> &'static str {
    let mut map = [Ground::Open; CELLS];
    let sees = |map: &[Ground; CELLS]| Sight::new(map).sees(at(10, 9), at(30, 9));
    (20..22).for_each(|x| map[at(x, 9).index()] = ground);
    let two = sees(&map);
    map[at(22, 9).index()] = ground;
    map[at(30, 9).index()] = Ground::Hill;
    match (two, sees(&map), ground) {
        (true, true, _) => "clear",
        (true, false, _) => "edge only",
        (false, true, _) => "see 3.4",
        (false, false, _) => "blocked",
    }
}
