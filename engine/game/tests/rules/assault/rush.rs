//! Who assaults whom, the rush, the dice (RULES 12.1, 12.2, 12.4, 12.5).

use ruleshift_game::{Cell, Choice, Cover, Event, Kind, Place, Quality, State, Unit};

use super::{Assault, assaults, free, gives_way, led, melee};
use crate::support::{Odds, ask_scene};

/// RULES 12.1: sections assault enemies they see within 8 in, flame and anti-tank teams armoured
/// vehicles only, nobody else anybody; all such are offered, none to a suppressed unit.
#[test]
fn assaults_are_offered_as_the_text_says() {
    use Kind::{AntiTankTeam, AssaultSection, FlameTeam, Section};
    let (mut offered, mut against_armour, mut refused) = (0, 0, 0);
    ask_scene(melee(), 60, |view, choices| {
        let doing = view.doing();
        let free = doing.placing == 0 && doing.moving.is_none();
        let Some(unit) = doing.unit.filter(|_| free).and_then(|id| view.unit(id)) else { return };
        for (id, target) in view.enemy_units() {
            let able = unit.place == Place::Table && !unit.suppressed(view.rules());
            let near = unit.at.range(target.at) <= 8 && view.sees(unit.at, target.at);
            let armoured = target.armour[0] > 0;
            let kind = match unit.kind {
                Section | AssaultSection => true,
                AntiTankTeam | FlameTeam => armoured,
                _ => false,
            };
            assert_eq!(choices.contains(&Choice::Assault(id)), able && near && kind);
            offered += u32::from(able && near && kind);
            against_armour += u32::from(able && near && kind && armoured);
            refused += u32::from(near && !(able && kind));
        }
    });
    let seen = [offered, against_armour, refused];
    assert!(seen.iter().all(|&n| n > 300), "{seen:?}");
}

/// RULES 12.1: an assault ends the activation, and the unit has moved.
#[test]
fn an_assault_ends_the_activation() {
    let mut seen = 0;
    assaults(10, |assault| {
        let unit = assault.events[0].1.units()[assault.id as usize];
        assert_eq!((unit.actions, unit.moved), (0, true));
        seen += 1;
    });
    assert!(seen > 100, "{seen}");
}

/// The last free square of a rush that so many hundredths of an inch pay for.
fn rush_to(assault: &Assault<'_>, hundredths: i32) -> Cell {
    let unit = |id: u8| &assault.before.units()[id as usize];
    let (from, to) = (unit(assault.id).at, unit(assault.target).at);
    let (dx, dy) = (i32::from(to.x) - i32::from(from.x), i32::from(to.y) - i32::from(from.y));
    let length = dx.abs().max(dy.abs());
    let nearest = |d: i32, n: i32| (f64::from(d * n) / f64::from(length) + 0.5).floor() as i32;
    let (mut left, mut at, mut stop) = (hundredths, from, from);
    for n in 1..length {
        let next = from.step(nearest(dx, n), nearest(dy, n)).unwrap();
        let straight = assault.ready.rules.ground_cost(assault.ready.arena.ground(next));
        let slant = next.x != at.x && next.y != at.y;
        left -= if slant { straight * 141 / 100 } else { straight };
        if left < 0 || at.range(to) <= 1 {
            break;
        }
        at = next;
        if free(assault.before, assault.id, at) {
            stop = at;
        }
    }
    stop
}

/// RULES 12.2: two dice less pins are the inches of the rush; it goes straight at the enemy, each
/// square at its price, to the last free square; in touch they fight, otherwise that is all.
#[test]
fn the_rush_goes_as_far_as_it_pays_for() {
    let (mut reached_him, mut short) = (0, 0);
    let mut sevens = Odds::default();
    assaults(60, |assault| {
        let Event::Charged { inches, to, reached, .. } = assault.events[0].0 else { panic!() };
        let pins = assault.before.units()[assault.id as usize].pins;
        let rolled = inches + pins / 2;
        assert!(inches == 0 || (2..=12).contains(&rolled), "{inches} in with {pins} pins");
        sevens.add(rolled >= 7, 21.0 / 36.0);
        assert_eq!(to, rush_to(assault, 100 * i32::from(inches)));
        let enemy = assault.before.units()[assault.target as usize].at;
        assert_eq!(reached, to.range(enemy) <= 1);
        let fought = reached && !gives_way(assault);
        assert_eq!(!assault.rounds().is_empty(), fought, "{:?}", assault.events[0].0);
        reached_him += u32::from(reached);
        short += u32::from(!reached);
    });
    sevens.hold(1_000);
    assert!(reached_him > 500 && short > 200, "{reached_him} got there, {short} did not");
}

/// RULES 12.4.
fn pool(unit: &Unit, led: bool) -> u8 {
    let men = unit.men;
    let dice = match unit.kind {
        Kind::AssaultSection => men,
        Kind::Tank => 4,
        Kind::AssaultGun | Kind::Carrier => 2,
        Kind::Truck => return 0,
        _ => men.div_ceil(2),
    };
    dice.saturating_sub(unit.pins / 2).max(1) + if led { 2 } else { 0 }
}

/// RULES 12.5: the chance of each die.
fn chance(assault: &Assault<'_>, quality: Quality, cover: Cover, charging: bool) -> f64 {
    let number = assault.ready.rules.assault_number(quality, cover, charging);
    f64::from(7 - number) / 6.0
}

/// RULES 12.4, 12.5: both roll the dice of their pools at the numbers of their quality.
#[test]
fn both_fight_with_their_pools() {
    let (mut with_leader, mut pinned) = (0, 0);
    let (mut attack, mut uphill, mut defence) = (Odds::default(), Odds::default(), Odds::default());
    assaults(150, |assault| {
        for n in assault.rounds() {
            let (before, event, _) = assault.step(n);
            let Event::AssaultFought { dice, hits, enemy_dice, enemy_hits, .. } = *event else {
                panic!()
            };
            let (ours, theirs) = sides(assault, before);
            assert_eq!(dice, pool(ours, led(assault.ready, before, ours)));
            let cover = assault.ready.arena.cover(theirs.at);
            let cover = if assault.armoured() { Cover::None } else { cover };
            let hard = cover >= Cover::Hard;
            let odds = if hard { &mut uphill } else { &mut attack };
            odds.add_many(hits, dice, chance(assault, ours.quality, cover, true));
            if !assault.armoured() {
                let led = theirs.kind != Kind::Truck && led(assault.ready, before, theirs);
                assert_eq!(enemy_dice, pool(theirs, led));
                with_leader += u32::from(led);
                pinned += u32::from(theirs.pins > 1);
            }
            defence.add_many(
                enemy_hits,
                enemy_dice,
                chance(assault, theirs.quality, Cover::None, false),
            );
        }
    });
    attack.hold(5_000);
    uphill.hold(80);
    defence.hold(5_000);
    assert!(with_leader > 50 && pinned > 50, "{with_leader} led, {pinned} pinned");
}

fn sides<'a>(assault: &Assault<'_>, state: &'a State) -> (&'a Unit, &'a Unit) {
    (&state.units()[assault.id as usize], &state.units()[assault.target as usize])
}
