//! What is forbidden to a side never happens for it, and only for it.

use ruleshift_game::{
    BySide, Choice, Event, Game, Observer, Paths, Player, RevealCause, Rules, Side, State, Table,
    View,
};
use ruleshift_players::{Behaviour, Chance, Restricted, Score, Weighing, player, shipped};
use ruleshift_scenarios::Scenario;

/// Counted for each side: each behaviour, by its place in `ALL`, and behind them moves of units.
const UNIT_MOVES: usize = Behaviour::ALL.len();

/// How often each side did each thing.
#[derive(Default)]
struct Seen(BySide<[u32; UNIT_MOVES + 1]>);

impl Seen {
    fn of(&self, side: Side, behaviour: Behaviour) -> u32 {
        self.0[side][behaviour as usize]
    }
}

impl Observer for Seen {
    fn event(&mut self, event: &Event, state: &State) {
        let units = |id: u8| state.units()[id as usize].side;
        let markers = |id: u8| state.markers()[id as usize].side;
        let batteries = |id: u8| state.batteries()[id as usize].side;
        let (side, what) = match *event {
            Event::Rallied { unit, leader: None, .. } => (units(unit), Behaviour::Rally as usize),
            Event::Rallied { leader: Some(leader), .. } | Event::OrderGiven { leader, .. } => {
                (units(leader), Behaviour::Orders as usize)
            }
            Event::SpotTried { marker, .. } => {
                (markers(marker).other(), Behaviour::Spotting as usize)
            }
            Event::Searched { side, .. } => (side.other(), Behaviour::Spotting as usize),
            Event::Charged { unit, .. } => (units(unit), Behaviour::Assault as usize),
            Event::MarkerMoved { marker, .. } => (markers(marker), Behaviour::MarkerMoves as usize),
            Event::MarkerRevealed { marker, cause: RevealCause::OpenedFire, .. } => {
                (markers(marker), Behaviour::OpeningFire as usize)
            }
            Event::BatteryCalled { battery, .. }
            | Event::BatteryAdjusted { battery, .. }
            | Event::BatteryFired { battery, .. } => {
                (batteries(battery), Behaviour::Batteries as usize)
            }
            Event::UnitMoved { unit, .. } => (units(unit), UNIT_MOVES),
            _ => return,
        };
        self.0[side][what] += 1;
    }
}

/// A scenario in which both sides have batteries, tanks or guns, and something to find.
struct Ground {
    scenario: Scenario,
    rules: Rules,
    paths: Paths,
}

impl Ground {
    fn new() -> Ground {
        let scenario = ruleshift_scenarios::shipped("prepared-position").expect("a shipped one");
        let rules = Rules::base();
        Ground { paths: Paths::new(&scenario.arena, &rules), scenario, rules }
    }

    /// Plays a game: its digest.
    fn play(&self, seed: u64, players: [&mut dyn Player; 2], observer: &mut dyn Observer) -> u64 {
        let table = Table { arena: &self.scenario.arena, rules: &self.rules, paths: &self.paths };
        let [attacker, defender] = players;
        let game = Game::new(table, seed, None, observer).play(attacker, defender);
        game.expect("rules without scripts have no faults").digest
    }

    /// What happens in some games in which `forbidden` is forbidden to `side`.
    fn seen(&self, side: Side, forbidden: &[Behaviour]) -> Seen {
        let mut seen = Seen::default();
        for seed in 0..60 {
            let mut bound = Restricted::new(Box::new(Chance), forbidden);
            let mut players: [&mut dyn Player; 2] = [&mut bound, &mut Chance];
            if side == Side::Defender {
                players.swap(0, 1);
            }
            self.play(seed, players, &mut seen);
        }
        seen
    }
}

#[test]
fn what_is_forbidden_never_happens_and_everything_else_still_does() {
    let ground = Ground::new();
    for side in Side::ALL.iter().copied() {
        for forbidden in Behaviour::ALL {
            let seen = ground.seen(side, &[forbidden]);
            for other in Behaviour::ALL {
                let (own, enemy) = (seen.of(side, other), seen.of(side.other(), other));
                let word = other.word();
                assert_eq!(own == 0, other == forbidden, "{forbidden:?}: {side} {word} {own}");
                assert!(enemy > 0, "{forbidden:?}: {} never {word}", side.other());
            }
            assert!(seen.0[side][UNIT_MOVES] > 0, "{forbidden:?}: units of the {side} move");
        }
    }
}

#[test]
fn all_of_it_may_be_forbidden_at_once() {
    let seen = Ground::new().seen(Side::Attacker, &Behaviour::ALL);
    assert_eq!(seen.0[Side::Attacker][..UNIT_MOVES], [0; UNIT_MOVES]);
    assert!(seen.0[Side::Defender][..UNIT_MOVES].iter().all(|&count| count > 0));
}

#[test]
fn a_restriction_of_nothing_changes_no_game() {
    let ground = Ground::new();
    for doctrine in shipped() {
        let make = || player(&doctrine, &ground.rules);
        for seed in 0..12 {
            let (mut attacker, mut defender) = (make(), make());
            let free = ground.play(seed, [&mut *attacker, &mut *defender], &mut ());
            let mut bound = [make(), make()].map(|inner| Restricted::new(inner, &[]));
            let [attacker, defender] = &mut bound;
            let bound = ground.play(seed, [attacker, defender], &mut ());
            assert_eq!(free, bound, "{}, seed {seed}", doctrine.name);
        }
    }
}

/// Takes the last choice, which is never one that was hidden from it.
struct Last;

impl Player for Last {
    fn choose(&mut self, _: &View<'_>, choices: &[Choice]) -> usize {
        assert!(choices.len() > 1, "nobody is asked about a single choice");
        assert!(
            !choices.iter().any(|choice| matches!(
                choice,
                Choice::Rally | Choice::Spot(_) | Choice::Search(_)
            ))
        );
        choices.len() - 1
    }
}

impl Weighing for Last {}

/// What the inner player takes is what is done: the whole list still has it at that place.
struct Checked(Restricted);

impl Player for Checked {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let place = self.0.choose(view, choices);
        let hidden =
            |choice: &Choice| matches!(choice, Choice::Rally | Choice::Spot(_) | Choice::Search(_));
        let last = choices.iter().rposition(|choice| !hidden(choice));
        assert_eq!(Some(place), last, "of {choices:?}");
        place
    }
}

#[test]
fn the_inner_player_sees_what_is_left_in_its_order() {
    let ground = Ground::new();
    let make = || {
        let forbidden = [Behaviour::Rally, Behaviour::Spotting];
        Checked(Restricted::new(Box::new(Last), &forbidden))
    };
    let (mut attacker, mut defender) = (make(), make());
    for seed in 0..5 {
        ground.play(seed, [&mut attacker, &mut defender], &mut ());
    }
}

/// Plays as it is told; the scores must name the choices they are of.
struct Weighed {
    bound: Restricted,
    free: Box<dyn Weighing>,
    forbidden: usize,
}

impl Player for Weighed {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        self.free.choose(view, choices);
        let place = self.bound.choose(view, choices);
        let (bound, free) = (self.bound.scores(), self.free.scores());
        assert_eq!((bound.len(), free.len()), (choices.len(), choices.len()));
        let left = bound.iter().filter(|score| **score != Score::FORBIDDEN).count();
        for ((choice, bound), free) in choices.iter().zip(bound).zip(free) {
            let looks = matches!(choice, Choice::Spot(_) | Choice::Search(_));
            assert_eq!(*bound == Score::FORBIDDEN, looks, "{choice:?}");
            assert!(looks || left == 1 || bound == free, "{choice:?}: {bound:?}, {free:?}");
        }
        self.forbidden += choices.len() - left;
        let best = bound.iter().map(|score| score.value).max();
        assert_eq!(best, Some(bound[place].value), "a doctrine takes what it likes best");
        place
    }
}

#[test]
fn scores_stand_in_the_places_of_their_choices() {
    let ground = Ground::new();
    let doctrines = shipped();
    let steady = doctrines.iter().find(|doctrine| doctrine.name == "steady").expect("shipped");
    let make = || player(steady, &ground.rules);
    let bound = Restricted::new(make(), &[Behaviour::Spotting]);
    let mut weighed = Weighed { bound, free: make(), forbidden: 0 };
    for seed in 0..5 {
        ground.play(seed, [&mut weighed, &mut *make()], &mut ());
    }
    assert!(weighed.forbidden > 100, "{}", weighed.forbidden);
}

#[test]
fn words_name_their_behaviours_and_a_slip_is_told() {
    for behaviour in Behaviour::ALL {
        assert_eq!(Behaviour::by_word(behaviour.word()), Ok(behaviour));
        assert!(behaviour.about().ends_with('.'), "{behaviour:?}: one sentence");
    }
    assert_eq!(
        Behaviour::by_word("ralley"),
        Err("there is no behaviour called `ralley`; did you mean `rally`? There are: rally, \
             spotting, assault, marker-moves, opening-fire, batteries, orders"
            .to_owned())
    );
}
