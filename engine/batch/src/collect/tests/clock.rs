//! Whose time it is, and how long one watches the other.

use ruleshift_game::{Card, Cell, Choice, Event, Heading, Observer, Player, State, UnitId, View};
use ruleshift_players::player;
use ruleshift_record::{Metric, Timing, Values};

use super::games::doctrine;
use super::stage::{ENEMY_SECTION, SECTION, STAGE, start};
use super::{Collector, EndCause, ended, of};

const NOTHING: Timing = Timing { turn: 0.0, card: 0.0, action: 0.0, throw: 0.0, decision: 0.0 };
const AT: Cell = Cell { x: 30, y: 24 };

fn timed(timing: &Timing, events: &[Event]) -> Values {
    let (state, mut collector) = (start(), Collector::new(timing, STAGE.table()));
    for event in events.iter().chain([&ended(EndCause::TurnLimit)]) {
        collector.event(event, &state);
    }
    *collector.values()
}

fn card(unit: UnitId) -> Event {
    Event::CardDrawn { card: Card::Group(start().units()[unit as usize].group, 0) }
}

fn moved(unit: UnitId) -> Event {
    Event::UnitMoved { unit, heading: Heading::Straight(0), inches: 4, to: AT }
}

fn late_shot(unit: UnitId) -> Event {
    let (target, held, blast) = (ENEMY_SECTION, false, false);
    Event::Fired { unit, target, dice: 4, needed: 4, hits: 0, late: true, held, blast }
}

/// A card takes half a minute, an action two.
fn times(events: &[Event]) -> [f64; 5] {
    let values = timed(&Timing { card: 30.0, action: 120.0, ..NOTHING }, events);
    [
        Metric::Minutes,
        Metric::AttackerMinutes,
        Metric::DefenderMinutes,
        Metric::SharedMinutes,
        Metric::LongestWatch,
    ]
    .map(|metric| of(&values, metric))
}

#[test]
fn cards_and_actions_are_the_time_of_their_side() {
    let events = [card(SECTION), moved(SECTION), card(ENEMY_SECTION), card(SECTION)];
    assert_eq!(times(&events), [3.5, 3.0, 0.5, 0.0, 2.5]);
}

#[test]
fn a_watch_goes_on_over_turn_ends_and_to_the_last_card() {
    let end = Event::CardDrawn { card: Card::TurnEnd(0) };
    let late = Event::LateFireBegan { first: ruleshift_game::Side::Attacker };
    let over = [late, Event::TurnEnded { turn: 1 }, Event::TurnStarted { turn: 2, cards: 4 }];
    let mut events = vec![card(ENEMY_SECTION), card(SECTION), moved(SECTION), end];
    events.extend(over);
    events.extend([card(SECTION), moved(SECTION)]);
    assert_eq!(times(&events)[4], 5.0);
    // A shot of one's own ends it.
    events.insert(5, late_shot(ENEMY_SECTION));
    assert_eq!(times(&events)[4], 2.5);
    // One of the other's does not.
    events[5] = late_shot(SECTION);
    assert_eq!(times(&events)[4], 5.0);
}

#[test]
fn without_shots_a_watch_of_cards_is_the_longest_run_of_cards() {
    let events = [SECTION, ENEMY_SECTION, ENEMY_SECTION, ENEMY_SECTION, SECTION, ENEMY_SECTION];
    let values = timed(&Timing { card: 60.0, ..NOTHING }, &events.map(card));
    assert_eq!(of(&values, Metric::LongestWatch), 3.0);
    assert_eq!(of(&values, Metric::PlayerWait), 3.0);
}

/// Whole games with a timing table in which one kind of thing takes a minute, the rest nothing:
/// what the sides' minutes add up to over all games, for each kind.
fn minutes(timing: &Timing, mut check: impl FnMut(&Values, &State)) -> [f64; 3] {
    let doctrine = doctrine("steady");
    let mut sums = [0.0; 3];
    for seed in 0..60 {
        let mut seen = Last { collector: Collector::new(timing, STAGE.table()), state: start() };
        let (mut attacker, mut defender) =
            (player(&doctrine, &STAGE.rules), player(&doctrine, &STAGE.rules));
        STAGE.play(seed, [&mut *attacker, &mut *defender], &mut seen);
        let values = seen.collector.values();
        check(values, &seen.state);
        let parts = [Metric::AttackerMinutes, Metric::DefenderMinutes, Metric::SharedMinutes];
        sums.iter_mut().zip(parts).for_each(|(sum, metric)| *sum += of(values, metric));
    }
    sums
}

struct Last<'a> {
    collector: Collector<'a>,
    state: State,
}

impl Observer for Last<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.collector.event(event, state);
        self.state = *state;
    }
}

#[test]
fn each_entry_of_the_table_goes_where_it_belongs() {
    let whole = |values: &Values| of(values, Metric::Minutes);
    let [attacker, defender, _] = minutes(&Timing { turn: 60.0, ..NOTHING }, |values, state| {
        assert_eq!(whole(values), f64::from(state.turn()));
        assert_eq!(of(values, Metric::LongestWatch), 0.0);
    });
    assert_eq!([attacker, defender], [0.0; 2], "turns are shared");
    let [.., shared] = minutes(&Timing { card: 60.0, ..NOTHING }, |values, _| {
        assert!(of(values, Metric::LongestWatch) <= of(values, Metric::PlayerWait));
    });
    assert_eq!(shared, 0.0, "each card has a side");
    let [.., shared] = minutes(&Timing { action: 60.0, ..NOTHING }, |values, _| {
        for (minutes, actions) in [
            (Metric::AttackerMinutes, Metric::AttackerActions),
            (Metric::DefenderMinutes, Metric::DefenderActions),
        ] {
            assert_eq!(of(values, minutes), of(values, actions));
        }
    });
    assert_eq!(shared, 0.0, "each action has a side");
}

/// A player whose choices are counted.
struct Counted {
    player: Box<dyn Player>,
    choices: u32,
}

impl Player for Counted {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        self.choices += 1;
        self.player.choose(view, choices)
    }
}

/// Choices that come to nothing at a turn's end are nobody's, and one on the other's card that comes
/// to nothing is taken for his; players who choose by chance do most of that.
#[test]
fn choices_are_the_time_of_who_makes_them() {
    let timing = Timing { decision: 60.0, ..NOTHING };
    for (name, tolerance) in [("steady", 0.0), ("chance", 0.02)] {
        let doctrine = doctrine(name);
        let counted = || Counted { player: player(&doctrine, &STAGE.rules), choices: 0 };
        let (mut attacker, mut defender) = (counted(), counted());
        let mut sums = [0.0; 2];
        for seed in 0..60 {
            let mut collector = Collector::new(&timing, STAGE.table());
            STAGE.play(seed, [&mut attacker, &mut defender], &mut collector);
            let parts = [Metric::AttackerMinutes, Metric::DefenderMinutes];
            let values = collector.values();
            sums.iter_mut().zip(parts).for_each(|(sum, metric)| *sum += of(values, metric));
        }
        for (sum, made) in sums.into_iter().zip([attacker.choices, defender.choices]) {
            let off = (sum - f64::from(made)).abs() / f64::from(made);
            assert!(off <= tolerance, "{name}: {sum} of {made}");
        }
    }
}

/// What nobody has are the throws of the turn's end: recovery and tests of will.
#[test]
fn most_throws_find_their_side() {
    let [attacker, defender, shared] =
        minutes(&Timing { throw: 60.0, ..NOTHING }, |values, state| {
            assert_eq!(of(values, Metric::Minutes), f64::from(state.tally().throws));
        });
    let share = shared / (attacker + defender + shared);
    assert!((0.01..0.15).contains(&share), "{share}");
}
