//! Men on foot against armour, and what becomes of riders (RULES 12.9, 13.9).

use ruleshift_game::{Choice, Event, Face, Hook, Kind, Place, Player, View};

use super::{Assault, assaults, melee, standing};
use crate::support::{By, Lively, Record};

fn penetration(kind: Kind) -> u16 {
    if kind == Kind::AntiTankTeam { 100 } else { 50 }
}

/// RULES 12.9: one round; each hit strikes the flank with the force of its kind, until the vehicle
/// is gone; then a crew that is there and not suppressed strikes back; if it is not gone the men
/// fall back without pins, otherwise they take its square.
#[test]
fn armour_is_fought_in_one_round() {
    let (mut strikes, mut gone, mut silent, mut back) = (0, 0, 0, 0);
    assaults(250, |assault| {
        let rounds = assault.rounds();
        if !assault.armoured() || rounds.is_empty() {
            return;
        }
        assert_eq!(rounds.len(), 1);
        let (before, fought, _) = assault.step(rounds[0]);
        let Event::AssaultFought { hits, enemy_dice, .. } = *fought else { panic!() };
        let struck = strikes_in(assault, rounds[0]);
        assert_eq!(struck, strikes_in(assault, assault.events.len()), "strikes come first");
        let there = standing(before, assault.target);
        assert!(struck == hits || struck < hits && !there, "{struck} strikes of {hits} hits");
        let crew = &before.units()[assault.target as usize];
        let able = there && !crew.suppressed(&assault.ready.rules);
        assert_eq!(enemy_dice > 0, able);
        strikes += u32::from(struck);
        gone += u32::from(!there);
        silent += u32::from(!able);
        back += u32::from(ends_as_it_should(assault, there));
    });
    let seen = [strikes, gone, silent, back];
    assert!(seen.iter().all(|&n| n > 20), "strikes, gone, silent, back: {seen:?}");
}

/// Strikes before the event at that place.
fn strikes_in(assault: &Assault<'_>, end: usize) -> u8 {
    let mut strikes = 0;
    for (event, _) in &assault.events[..end] {
        if let Event::ArmourStruck { by, unit, face, penetration: through, .. } = *event {
            let kind = assault.before.units()[by as usize].kind;
            assert_eq!((by, unit, face), (assault.id, assault.target, Face::Flank));
            assert_eq!(through, penetration(kind));
            strikes += 1;
        }
    }
    strikes
}

/// Whether men who are left fell back, as they do when the vehicle is still there.
fn ends_as_it_should(assault: &Assault<'_>, vehicle_stands: bool) -> bool {
    let mine = |e: &Event| matches!(*e, Event::PinsAdded { unit, .. } if unit == assault.id);
    assert!(assault.find(mine).is_none(), "men get no pins");
    let end = &assault.events.last().unwrap().1;
    let back = assault.find(|e| matches!(*e, Event::FellBack { unit, .. } if unit == assault.id));
    let alive = standing(end, assault.id);
    assert_eq!(back.is_some(), alive && vehicle_stands);
    back.is_some()
}

/// Gets into vehicles, stays in them, and is otherwise lively.
fn rider(seed: u64) -> impl Player {
    let mut lively = Lively::new(seed);
    By(move |view: &View<'_>, choices: &[Choice]| {
        let place = |wanted: fn(&Choice) -> bool| choices.iter().position(wanted);
        place(|c| matches!(c, Choice::Mount(_)))
            .or_else(|| {
                place(|c| matches!(c, Choice::Dismount(_))).and(place(|c| *c == Choice::Done))
            })
            .unwrap_or_else(|| lively.choose(view, choices))
    })
}

/// Assaults trucks whenever it can, and is otherwise lively, but never fires.
fn hunter(seed: u64) -> impl Player {
    let mut lively = Lively::new(seed);
    By(move |view: &View<'_>, choices: &[Choice]| {
        let truck = |id: u8| view.unit(id).is_some_and(|unit| unit.kind == Kind::Truck);
        let hunts = |c: &Choice| matches!(*c, Choice::Assault(id) if truck(id));
        let fires = |c: &Choice| matches!(c, Choice::Fire(_));
        choices.iter().position(hunts).unwrap_or_else(|| {
            let chosen = lively.choose(view, choices);
            let done = choices.iter().position(|c| *c == Choice::Done);
            if fires(&choices[chosen]) { done.unwrap_or(chosen) } else { chosen }
        })
    })
}

/// RULES 12.8, 13.9: whoever rides in a truck that falls back goes with it, and gets out when it is
/// taken, without pins. (Riders once stayed behind, or went nowhere.)
#[test]
fn riders_share_the_fate_of_their_truck() {
    let ready =
        melee().rule(Hook::AssaultNumber, |_, args| if args[2] == 1 { 4 } else { 7 }).ready();
    let (mut moved, mut taken) = (0, 0);
    for seed in 0..300 {
        let mut record = Record::default();
        let (mut riders, mut hunter) = (rider(seed), hunter(seed));
        ready.play(seed, &mut hunter, &mut riders, &mut record);
        for pair in record.0.windows(2) {
            let (before, event) = (&pair[0].1, &pair[1].0);
            let (Event::FellBack { unit, .. } | Event::Captured { unit, .. }) = *event else {
                continue;
            };
            for (id, rider) in before.units().iter().enumerate() {
                if rider.place != Place::Carried || rider.carrier != Some(unit) {
                    continue;
                }
                let now = &pair[1].1;
                if let Event::FellBack { to, .. } = *event {
                    assert_eq!((now.units()[id].place, now.units()[id].at), (Place::Carried, to));
                    moved += 1;
                } else {
                    let last = &record.last().units()[id];
                    assert!(last.place != Place::Carried || last.carrier != Some(unit));
                    taken += 1;
                }
            }
        }
    }
    assert!(moved > 10 && taken > 4, "{moved} moved, {taken} taken");
}
