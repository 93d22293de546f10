//! How an assault on men without armour ends (RULES 12.6-12.8, 12.10).

use ruleshift_game::{Cell, Cover, Event, Gait, STEPS, State, UnitId};

use super::{Assault, assaults, free, led, standing};
use crate::support::way;

/// What came of the last round.
enum Result {
    /// One side has hit less: loser, winner, difference.
    Beaten(UnitId, UnitId, u8),
    /// The enemy has no man left.
    Wiped,
    /// Nothing decided: whoever assaulted goes back.
    Undecided,
    /// Whoever assaulted is lost.
    Over,
}

/// RULES 12.3, 12.5, 12.6: a suppressed enemy is beaten at once as by 3; otherwise rounds go on while neither has hit more and both have men, one in the open and
/// three against hard cover; what the last one decided.
fn result(assault: &Assault<'_>) -> Option<Result> {
    let Event::Charged { reached, .. } = assault.events[0].0 else { panic!() };
    if reached && super::gives_way(assault) {
        assert!(assault.rounds().is_empty(), "he does not stand");
        return Some(Result::Beaten(assault.target, assault.id, 3));
    }
    let rounds = assault.rounds();
    let &last = rounds.last()?;
    let at = assault.before.units()[assault.target as usize].at;
    let hard = assault.ready.arena.cover(at) >= Cover::Hard
        || assault.before.units()[assault.target as usize].dug_in;
    let most = if hard { 3 } else { 1 };
    assert!(rounds.len() <= most, "{} rounds", rounds.len());
    for &n in &rounds {
        let (before, event, _) = assault.step(n);
        let Event::AssaultFought { unit, target, hits, enemy_hits, .. } = *event else { panic!() };
        let left = |id: UnitId, hits: u8| before.units()[id as usize].men > hits;
        let (ours, theirs) = (left(unit, enemy_hits), left(target, hits));
        let result = match (ours, theirs, hits.cmp(&enemy_hits)) {
            (false, ..) => Result::Over,
            (_, false, _) => Result::Wiped,
            (.., std::cmp::Ordering::Greater) => Result::Beaten(target, unit, hits - enemy_hits),
            (.., std::cmp::Ordering::Less) => Result::Beaten(unit, target, enemy_hits - hits),
            _ if n == last && rounds.len() < most => panic!("they should have gone on"),
            _ => Result::Undecided,
        };
        if n == last {
            return Some(result);
        }
        assert!(matches!(result, Result::Undecided), "it was decided");
    }
    None
}

/// The first thing that happens to a unit after the losses.
fn fate(assault: &Assault<'_>, id: UnitId) -> Option<usize> {
    assault.find(|event| match *event {
        Event::PinsAdded { unit, .. }
        | Event::Captured { unit, .. }
        | Event::FellBack { unit, .. } => unit == id,
        _ => false,
    })
}

/// RULES 12.3, 12.6-12.8: the loser by 3, or 4 with a leader near, is taken; by less he has a pin and one
/// for each of the difference, and breaks or falls back. Undecided, whoever assaulted falls back
/// without pins.
#[test]
fn the_loser_is_taken_or_thrown_back() {
    let (mut taken, mut pinned, mut undecided, mut rooms, mut gave_way) = (0, 0, 0, 0, 0);
    assaults(250, |assault| {
        if assault.armoured() {
            return;
        }
        rooms += u32::from(assault.rounds().len() > 1);
        match result(assault) {
            Some(Result::Beaten(loser, winner, difference)) => {
                let fate = fate(assault, loser).expect("something becomes of him");
                let (before, event, _) = assault.step(fate);
                let led = led(assault.ready, before, &before.units()[loser as usize]);
                if difference >= if led { 4 } else { 3 } {
                    let men = before.units()[loser as usize].men;
                    assert_eq!(*event, Event::Captured { unit: loser, men, by: winner });
                    taken += 1;
                } else {
                    let now = before.units()[loser as usize].pins + 1 + difference;
                    assert_eq!(*event, Event::PinsAdded { unit: loser, pins: 1 + difference, now });
                    assert!(goes(assault, loser, fate), "{loser} stays");
                    pinned += 1;
                }
                gave_way += u32::from(assault.rounds().is_empty());
                assert!(fate_of_winner(assault, winner));
            }
            Some(Result::Undecided) => {
                let fate = fate(assault, assault.id).expect("he goes back");
                let event = assault.events[fate].0;
                assert!(matches!(event, Event::FellBack { .. } | Event::Captured { .. }));
                undecided += 1;
            }
            Some(Result::Wiped | Result::Over) | None => {
                assert!(assault.find(|e| matches!(e, Event::FellBack { .. })).is_none());
                assert!(assault.find(|e| matches!(e, Event::PinsAdded { .. })).is_none());
            }
        }
    });
    let seen = [taken, pinned, undecided, rooms, gave_way];
    assert!(seen.iter().all(|&n| n > 40), "taken, pinned, undecided, rooms, gave way: {seen:?}");
}

/// Whether a loser with pins breaks, falls back or is taken for want of a way.
fn goes(assault: &Assault<'_>, loser: UnitId, fate: usize) -> bool {
    assault.events[fate + 1..].iter().any(|(event, _)| match *event {
        Event::UnitBroke { unit, .. }
        | Event::FellBack { unit, .. }
        | Event::Captured { unit, .. } => unit == loser,
        _ => false,
    })
}

/// The winner of a round has neither pins nor a step back from it.
fn fate_of_winner(assault: &Assault<'_>, winner: UnitId) -> bool {
    fate(assault, winner).is_none()
}

/// RULES 12.8: squares on a way back that a unit may fall back to.
fn squares(assault: &Assault<'_>, state: &State, id: UnitId, way: i32) -> Vec<Cell> {
    let unit = &state.units()[id as usize];
    let (dx, dy) = STEPS[way.rem_euclid(8) as usize];
    if unit.immobile || unit.bogged {
        return vec![];
    }
    let on_way = (1..=6).map_while(|n| unit.at.step(n * dx, n * dy));
    let fits = |cell: &Cell| {
        cell.range(unit.at) <= 6
            && free(state, id, *cell)
            && assault.ready.paths.open(*cell, Gait::of(unit.kind))
            && state.on_table().all(|(_, u)| u.side == unit.side || u.at.range(*cell) > 1)
    };
    on_way.filter(fits).collect()
}

/// RULES 12.8: straight back, or an eighth or a quarter to a side when that is closed, to the
/// farthest free square within 6 in; with no such square he is taken.
#[test]
fn falling_back_goes_as_far_as_it_can() {
    let (mut straight, mut aside, mut nowhere) = (0, 0, 0);
    assaults(250, |assault| {
        for n in 0..assault.events.len() {
            let (before, event, _) = assault.step(n);
            let (id, to) = match *event {
                Event::FellBack { unit, to } => (unit, Some(to)),
                Event::Captured { unit, .. } if !surrendered(assault, n, unit) => (unit, None),
                _ => continue,
            };
            let enemy = if id == assault.id { assault.target } else { assault.id };
            let at = |id: UnitId| before.units()[id as usize].at;
            let back = way(at(enemy), at(id));
            let open = |turn: i32| squares(assault, before, id, back + turn);
            let rows: [Vec<Vec<Cell>>; 3] =
                [vec![open(0)], vec![open(1), open(-1)], vec![open(2), open(-2)]];
            let first = rows.iter().find(|ways| ways.iter().any(|way| !way.is_empty()));
            match (first, to) {
                (Some(ways), Some(to)) => {
                    assert!(ways.iter().any(|way| way.last() == Some(&to)), "{event:?}");
                    straight += u32::from(ways.len() == 1);
                    aside += u32::from(ways.len() == 2);
                }
                (None, None) => nowhere += 1,
                _ => panic!("{event:?} with the ways {rows:?}"),
            }
        }
    });
    let seen = [straight, aside, nowhere];
    assert!(straight > 300 && aside > 10, "{seen:?}");
}

/// Whether a prisoner gave himself up for his losses, rather than for want of a way.
fn surrendered(assault: &Assault<'_>, n: usize, unit: UnitId) -> bool {
    let pins = |(event, _): &(Event, State)| matches!(*event, Event::PinsAdded { unit: pinned, .. } if pinned == unit);
    let undecided = matches!(result(assault), Some(Result::Undecided));
    !(assault.armoured() || undecided || assault.events[..n].iter().any(pins))
}

/// RULES 12.10: the winner that assaulted takes the enemy's square when it is free.
#[test]
fn the_winner_takes_the_square() {
    let (mut followed, mut stayed) = (0, 0);
    assaults(150, |assault| {
        let won = matches!(result_or_none(assault), Some(Result::Wiped))
            || matches!(result_or_none(assault), Some(Result::Beaten(_, winner, _)) if winner == assault.id);
        let pursued = assault.find(|e| matches!(e, Event::Pursued { .. }));
        assert!(won || pursued.is_none() || assault.armoured());
        if !won {
            return;
        }
        let place = assault.before.units()[assault.target as usize].at;
        match pursued {
            Some(n) => {
                let (before, event, now) = assault.step(n);
                assert_eq!(*event, Event::Pursued { unit: assault.id, to: place });
                assert!(free(before, assault.id, place));
                assert_eq!(now.units()[assault.id as usize].at, place);
                followed += 1;
            }
            None => {
                let end = &assault.events.last().unwrap().1;
                // Units placed for want of room may have shared it before.
                let there = end.units()[assault.id as usize].at == place;
                assert!(there || !standing(end, assault.id) || !free(end, assault.id, place));
                stayed += 1;
            }
        }
    });
    assert!(followed > 200, "{followed} followed, {stayed} stayed");
}

fn result_or_none(assault: &Assault<'_>) -> Option<Result> {
    if assault.armoured() { None } else { result(assault) }
}
