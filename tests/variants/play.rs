//! House rules whose effect only shows in a whole game, watched event by event.

use ruleshift_batch::{GameEnd, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Event, EventScript, Observer, Paths, State, Table};
use ruleshift_players::player;

use crate::support::stage;

/// Games of each scenario that is watched.
const GAMES: u32 = 6;
const SEED: u64 = 7;

/// What happened, each with the turn.
#[derive(Default)]
struct Log(Vec<(u16, Event)>);

impl Observer for Log {
    fn event(&mut self, event: &Event, state: &State) {
        self.0.push((state.turn(), *event));
    }
}

/// The events of some games of a scenario under a rule stack, between steady players.
fn watched(typed: &str, scenario: &str) -> Log {
    let arena = ruleshift_scenarios::shipped(scenario).unwrap().arena;
    let stack = stage::stack(typed);
    let rules = stack.rules().unwrap();
    let paths = Paths::new(&arena, &rules);
    let table = Table { arena: &arena, rules: &rules, paths: &paths };
    let mut log = Log::default();
    for seed in (0..GAMES).map(|game| game_seed(SEED, 0, game)) {
        let [mut attacker, mut defender] =
            [(); 2].map(|()| player(&stage::doctrine("steady"), &rules));
        let mut script = stack.script();
        let script = script.as_mut().map(|script| &mut **script as &mut dyn EventScript);
        let id = GameId { table, seed };
        let end = play_one(id, script, &mut *attacker, &mut *defender, &mut log);
        assert!(matches!(end, GameEnd::Finished(_)), "{typed}: {end:?}");
    }
    log
}

/// The turns of a log: cards in the deck at the start, and cards drawn that did not go back.
fn turns(log: &Log) -> Vec<(u32, u32)> {
    let mut turns: Vec<(u32, u32)> = Vec::new();
    for (_, event) in &log.0 {
        match event {
            Event::TurnStarted { cards, .. } => turns.push((u32::from(*cards), 0)),
            Event::CardDrawn { .. } => turns.last_mut().unwrap().1 += 1,
            Event::CardPutBack { .. } => turns.last_mut().unwrap().1 -= 1,
            _ => {}
        }
    }
    turns
}

fn count(log: &Log, wanted: impl Fn(&(u16, Event)) -> bool) -> usize {
    log.0.iter().filter(|event| wanted(event)).count()
}

#[test]
fn no_turn_ends_among_its_first_cards() {
    let early = |&(cards, drawn): &(u32, u32)| drawn <= 3 && drawn < cards;
    assert!(turns(&watched("base", "probe")).iter().any(early), "it happens otherwise");
    let watched = watched("no-early-turn-end:first=3", "probe");
    assert!(!turns(&watched).iter().any(early));
    assert!(count(&watched, |(_, event)| matches!(event, Event::CardPutBack { .. })) > 0);
}

#[test]
fn even_turns_are_even() {
    let turns = turns(&watched("even-turns:cards=5", "probe"));
    assert!(turns.iter().all(|&(cards, drawn)| drawn == cards.min(5)), "{turns:?}");
    assert!(turns.iter().any(|&(cards, _)| cards > 5));
}

#[test]
fn mist_is_gone_after_the_first_turns() {
    let log = watched("morning-mist:turns=2", "probe");
    let limited = |late: bool| {
        count(&log, |(turn, event)| {
            matches!(event, Event::SightLimited { inches: 12 }) && (*turn > 2) == late
        })
    };
    assert!(limited(false) > 0);
    assert_eq!(limited(true), 0);
}

#[test]
fn reserves_come_by_their_card_alone() {
    let log = watched("relief-by-card", "meeting-engagement");
    let by_die = |(_, event): &(u16, Event)| matches!(event, Event::ReserveTested { rolled, needed, .. } if rolled >= needed);
    assert_eq!(count(&log, by_die), 0);
    assert!(count(&watched("base", "meeting-engagement"), by_die) > 0);
    let called = count(&log, |(_, event)| matches!(event, Event::ReserveCalled { .. }));
    assert!(called > 0, "nobody was relieved");
    let cards = count(&log, |(_, event)| matches!(event, Event::CardAdded { .. }));
    let turns = turns(&log).len();
    assert!(cards < 2 * turns, "no cards are added for a side that has no reserve left");
}

#[test]
fn wounded_men_come_back_one_by_one() {
    let log = watched("walking-wounded", "village-fight");
    let back = |(_, event): &(u16, Event)| matches!(event, Event::MenChanged { by: 1, .. });
    let other =
        |(_, event): &(u16, Event)| matches!(event, Event::MenChanged { by, .. } if *by != 1);
    assert!(count(&log, back) > 0);
    assert_eq!(count(&log, other), 0);
}

/// A garrison acts less only until the shots are counted.
#[test]
fn the_garrison_sleeps_until_the_shots_are_counted() {
    let log = watched("surprise:shots=3", "hasty-attack");
    let (mut shots, mut asleep) = (0, 0);
    for (_, event) in &log.0 {
        match event {
            Event::GameEnded { .. } => shots = 0,
            Event::Fired { .. } | Event::GunFired { .. } => shots += 1,
            Event::ActionsChanged { by, .. } => {
                assert_eq!(*by, -1);
                assert!(shots <= 3, "awake after {shots} shots");
                asleep += 1;
            }
            _ => {}
        }
    }
    assert!(asleep > 0);
}
