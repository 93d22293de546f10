//! Sections 1 and 3: ranges, costs of moving, cover, sight.

use ruleshift_game::cell::CELLS;
use ruleshift_game::luck::Stream;
use ruleshift_game::{Cell, Choice, Cover, Gait, Ground, Heading, Hook, Kind, Side, Sight};

use crate::support::{Ready, Scene, idle, leader, skirmish, unit, wish};

/// RULES 3.1, 3.3: cover by ground, in the order of the list.
#[test]
fn ground_gives_its_cover() {
    use Cover::{DugIn, Hard, Light, None};
    let expected = [
        None, None, Light, Light, Light, Light, Hard, Light, None, None, Hard, Hard, None, DugIn,
        None, None,
    ];
    assert_eq!(Ground::ALL.iter().map(|g| g.cover()).collect::<Vec<_>>(), expected);
    let arena = Scene::new()
        .ground(Ground::Wall, 30..31, 0..48)
        .group(Side::Attacker, (5, 5), &[leader(1)])
        .group(Side::Defender, (60, 5), &[leader(1)])
        .ready()
        .arena;
    assert_eq!(arena.cover(Cell { x: 30, y: 9 }), Hard);
    assert_eq!(arena.cover(Cell { x: 31, y: 9 }), None, "behind the wall");
}

/// Squares that so many inches pay for on a straight way.
fn walk(ready: &Ready, from: Cell, way: u8, inches: i32, gait: Gait) -> u8 {
    let (mut at, mut left, mut steps) = (from, 100 * inches, 0);
    while let Some((next, cost)) = ready.paths.step(at, Heading::Straight(way), gait) {
        if i32::from(cost) > left {
            break;
        }
        (at, left, steps) = (next, left - i32::from(cost), steps + 1);
    }
    steps
}

/// RULES 3.2: ten inches of open ground are ten squares straight and seven at a slant.
#[test]
fn slanting_steps_cost_more() {
    let ready = skirmish().ready();
    let open = Scene::new()
        .group(Side::Attacker, (5, 5), &[leader(1)])
        .group(Side::Defender, (60, 5), &[leader(1)])
        .ready();
    let from = Cell { x: 20, y: 20 };
    let reach = |way, inches| walk(&open, from, way, inches, Gait::Foot);
    assert_eq!([reach(0, 10), reach(2, 10), reach(1, 10), reach(5, 10)], [10, 10, 7, 7]);
    assert_eq!(reach(7, 1), 0, "1 in does not pay for a slanting step");
    for cell in Cell::all() {
        for way in 0..8 {
            let Some((to, cost)) = ready.paths.step(cell, Heading::Straight(way), Gait::Foot)
            else {
                continue;
            };
            let straight = ready.rules.ground_cost(ready.arena.ground(to));
            let expected = if way % 2 == 0 { straight } else { straight * 141 / 100 };
            assert_eq!(i32::from(cost), expected);
        }
    }
}

/// RULES 3.2, 4.3: what is entered is paid for, and markers pay half the extra.
#[test]
fn rough_ground_slows_troops_more_than_markers() {
    let wood = Scene::new()
        .ground(Ground::Wood, 10..40, 0..48)
        .group(Side::Attacker, (5, 5), &[leader(1)])
        .group(Side::Defender, (60, 5), &[leader(1)]);
    let ready = wood.clone().ready();
    let reach = |gait| walk(&ready, Cell { x: 9, y: 5 }, 0, 12, gait);
    assert_eq!([reach(Gait::Foot), reach(Gait::Marker)], [6, 8], "at 200 and 150 a square");
    let ready = wood.rule(Hook::MarkerSlowing, |_, _| 0).ready();
    assert_eq!(walk(&ready, Cell { x: 9, y: 5 }, 0, 12, Gait::Marker), 12, "at 100 a square");
}

/// Sight as paragraph 3.4 words it, with halves counted and no shortcut.
fn sees(ground: &[Ground; CELLS], a: Cell, b: Cell) -> bool {
    let (a, b) = if a.index() <= b.index() { (a, b) } else { (b, a) };
    let (dx, dy) = (i32::from(b.x) - i32::from(a.x), i32::from(b.y) - i32::from(a.y));
    let steps = dx.abs().max(dy.abs());
    // The nearest whole square, halves up.
    let nearest = |d: i32, n: i32| (2 * d * n + steps).div_euclid(2 * steps.max(1));
    let squares: Vec<Cell> = (0..=steps)
        .map(|n| if steps == 0 { a } else { a.step(nearest(dx, n), nearest(dy, n)).unwrap() })
        .collect();
    let here = |cell: &Cell| ground[cell.index()];
    let edge = |cell: &&Cell| {
        matches!(here(cell), Ground::Crops | Ground::Hedge | Ground::Wood | Ground::Rubble)
    };
    let inner = if steps < 2 { &[] } else { &squares[1..squares.len() - 1] };
    let from_hill = here(&a) == Ground::Hill || here(&b) == Ground::Hill;
    squares.iter().filter(edge).count() <= 2
        && !inner.iter().any(|cell| here(cell) == Ground::Building)
        && (from_hill || !inner.iter().any(|cell| here(cell) == Ground::Hill))
}

/// RULES 3.4: sight agrees with the words on 60 000 random lines over three random maps, and is
/// the same both ways.
#[test]
fn sight_is_as_the_text_says() {
    for map in 0..3 {
        let mut luck = Stream::new(map);
        let mut ground = [Ground::Open; CELLS];
        for _ in 0..400 {
            let kind = Ground::ALL[luck.below(Ground::ALL.len() as u32) as usize];
            let (x, y) = (luck.below(72) as u8, luck.below(48) as u8);
            for cell in Cell::all() {
                if cell.x.abs_diff(x) <= 1 && cell.y.abs_diff(y) <= 1 && luck.below(3) > 0 {
                    ground[cell.index()] = kind;
                }
            }
        }
        let sight = Sight::new(&ground);
        let mut seen = 0;
        for _ in 0..20_000 {
            let a = Cell::at(luck.below(CELLS as u32) as usize);
            let near = |n: u8, most: u8, by: u32| (n as u32 + by).clamp(12, most as u32 + 11) - 12;
            let (bx, by) = (near(a.x, 72, luck.below(25)), near(a.y, 48, luck.below(25)));
            let b = Cell { x: bx as u8, y: by as u8 };
            assert_eq!(sight.sees(a, b), sees(&ground, a, b), "map {map}: {a:?} to {b:?}");
            assert_eq!(sight.sees(a, b), sight.sees(b, a));
            seen += u32::from(sight.sees(a, b));
        }
        assert!((4_000..16_000).contains(&seen), "{seen}: the map proves little");
    }
}

/// RULES 3.2: where a move of so many inches leads is where one comes to square by square, on every way and to
/// every objective.
#[test]
fn a_move_leads_where_its_steps_lead() {
    let ready = skirmish().objective((60, 40), [0, 0], [0, 0], None).ready();
    let objectives = 0..ready.arena.objectives().len() as u8;
    assert!(objectives.len() > 1);
    let straight = (0..8).map(Heading::Straight);
    for heading in straight.chain(objectives.map(Heading::Objective)) {
        for gait in [Gait::Foot, Gait::Marker, Gait::Vehicle] {
            for (cell, inches) in Cell::all().flat_map(|cell| (1..=12).map(move |n| (cell, n))) {
                let (mut at, mut left) = (cell, u16::from(inches) * 100);
                while let Some((next, cost)) = ready.paths.step(at, heading, gait) {
                    let Some(rest) = left.checked_sub(cost) else { break };
                    (at, left) = (next, rest);
                }
                let reached = ready.paths.reach(cell, heading, inches, gait);
                assert_eq!(reached, at, "{inches} in from {cell:?} by {heading:?}");
            }
        }
    }
}

/// RULES 1.3: a range of 8 in includes everything short of 9 in.
#[test]
fn ranges_leave_off_parts_of_an_inch() {
    let from = Cell { x: 0, y: 0 };
    for to in Cell::all() {
        let squared = u32::from(to.x).pow(2) + u32::from(to.y).pow(2);
        let range = u32::from(from.range(to));
        assert!(range.pow(2) <= squared && squared < (range + 1).pow(2));
    }
}

/// RULES 5.5: the way to an objective is followed, and a wish for it leads there.
#[test]
fn the_way_to_an_objective_leads_there() {
    let scene = Scene::new()
        .ground(Ground::Wood, 25..28, 10..40)
        .group(Side::Attacker, (20, 24), &[unit(Kind::Section, 8)])
        .group(Side::Defender, (60, 40), &[unit(Kind::Section, 8)])
        .turns(8)
        .all_cards();
    let mut walker = wish(|_, choice| match choice {
        Choice::Move(Heading::Objective(0)) => Some(9),
        Choice::Stop(steps) => Some(steps.into()),
        _ => None,
    });
    let record = scene.play(3, &mut walker, &mut idle());
    assert_eq!(record.last().markers()[0].at, Cell { x: 36, y: 24 });
}
