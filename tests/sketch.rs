//! Drawn scenarios: a thousand of them played, and the commands that draw them.

use std::num::NonZero;
use std::thread;

use ruleshift_game::limits::MAX_PINS;
use ruleshift_game::{
    Arena, Cell, Digest, Event, Gait, Game, Observer, Paths, Place, Rules, SideSetup, Start, State,
    Table, Unit,
};
use ruleshift_players::player;
use ruleshift_scenarios::{Scenario, Sketch};

use crate::support::stage::doctrine;
use crate::support::{Run, repository, ruleshift, ruleshift_in};

/// Scenarios drawn and played, one game each.
const SCENARIOS: u64 = 1_000;
/// The players of the games, in turn: some that know what they do, some that do anything at all.
const PAIRS: [[&str; 2]; 4] =
    [["steady", "steady"], ["chance", "chance"], ["steady", "chance"], ["chance", "steady"]];

/// Holds a game to what must be so in every scenario.
#[derive(Default)]
struct Laws {
    before: Option<State>,
    turn_limit: u16,
    ended: u32,
}

impl Observer for Laws {
    fn event(&mut self, event: &Event, now: &State) {
        assert_eq!(self.ended, 0, "nothing happens after the end: {event:?}");
        self.ended += u32::from(matches!(event, Event::GameEnded { .. }));
        assert!(now.turn() <= self.turn_limit);
        if matches!(event, Event::CardDrawn { .. }) {
            assert!(now.on_table().all(|(_, unit)| unit.men > 0), "units without men are gone");
        }
        let before = self.before.get_or_insert(*now);
        for (before, now) in before.units().iter().zip(now.units()) {
            unit_laws(before, now);
        }
        *before = *now;
    }
}

fn unit_laws(before: &Unit, now: &Unit) {
    let gone = |unit: &Unit| !matches!(unit.place, Place::Hidden | Place::Table | Place::Carried);
    assert!(now.men <= before.men && now.pins <= MAX_PINS, "{before:?} {now:?}");
    assert!(!gone(before) || now.place == before.place, "{before:?} {now:?}");
    assert_eq!((now.side, now.group, now.kind), (before.side, before.group, before.kind));
}

/// The squares where each group of a side may start, and whether it has vehicles.
fn starts(setup: &SideSetup) -> impl Iterator<Item = (Vec<Cell>, bool)> {
    setup.groups.iter().map(|group| {
        let squares = match &group.start {
            Start::Spot => setup.spots.clone(),
            Start::Feature => setup.features.iter().map(|feature| feature.at).collect(),
            Start::Reserve { entries, .. } => entries.clone(),
        };
        (squares, group.units.iter().any(|unit| unit.kind.is_vehicle()))
    })
}

/// The ways of the game itself lead everywhere, whatever the generator believes.
fn ways_lead_everywhere(name: &str, arena: &Arena, paths: &Paths) {
    for (squares, vehicles) in arena.setup().sides.0.iter().flat_map(starts) {
        for objective in 0..arena.objectives().len() {
            for &at in &squares {
                assert_ne!(paths.to_go(objective, at, Gait::Foot), u32::MAX, "{name}, {at:?}");
                let drives = paths.to_go(objective, at, Gait::Vehicle) != u32::MAX;
                assert!(drives || !vehicles, "{name}, {at:?}: no way for vehicles");
            }
        }
    }
}

/// Draws and plays one; how many tries were thrown away.
fn play(seed: u64, rules: &Rules) -> u32 {
    let sketch = Sketch::new(seed, None, None);
    let drawn = sketch.draw(&format!("sketch-{seed}")).unwrap_or_else(|e| panic!("{e}"));
    let arena = &drawn.scenario.arena;
    let paths = Paths::new(arena, rules);
    ways_lead_everywhere(&drawn.scenario.name, arena, &paths);
    let turn_limit = arena.setup().turn_limit.into();
    let mut laws = Laws { turn_limit, ..Laws::default() };
    let table = Table { arena, rules, paths: &paths };
    let pair = PAIRS[seed as usize % PAIRS.len()];
    let [mut attacker, mut defender] = pair.map(|name| player(&doctrine(name), rules));
    let played = Game::new(table, seed, None, &mut laws).play(&mut *attacker, &mut *defender);
    assert!(played.is_ok(), "{sketch}: {:?}", played.err().map(|broken| broken.fault));
    assert_eq!(laws.ended, 1, "{sketch}");
    drawn.rejected.len() as u32
}

/// Nearly all of the time goes into lines of sight, six million for each map: it is shared out over
/// the cores.
#[test]
fn a_thousand_drawn_scenarios_are_played_without_a_fault() {
    let threads = thread::available_parallelism().map_or(1, NonZero::get);
    let rules = Rules::base();
    let share = |first: usize| {
        (first as u64..SCENARIOS).step_by(threads).map(|seed| play(seed, &rules)).sum::<u32>()
    };
    let rejected: u32 = thread::scope(|scope| {
        let workers: Vec<_> = (0..threads).map(|first| scope.spawn(move || share(first))).collect();
        workers.into_iter().map(|worker| worker.join().expect("every game is played")).sum()
    });
    assert!(rejected < SCENARIOS as u32 / 4, "{rejected} tries were thrown away");
}

#[test]
fn a_new_scenario_is_a_file_to_play_and_its_games_come_back() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.ron").to_string_lossy().into_owned();
    let new = ["new", "scenario", "--seed", "5", "--mission", "probe", "--terrain", "mixed"];
    let shown = ruleshift(new).fine().out;
    assert!(shown.starts_with("// Drawn as sketch-5-probe-mixed: "), "{shown}");
    let to_file = new.iter().copied().chain(["--out", &path]);
    let said = ruleshift(to_file.clone()).fine().out;
    assert!(said.contains("mine.ron: Probe towards "), "{said}");
    let text = std::fs::read_to_string(&path).unwrap();
    assert_eq!(text, shown, "the file and the screen get the same");
    Scenario::from_ron("mine", &text).unwrap_or_else(|error| panic!("{error}"));

    let run = Run::fine(&format!("no-late-fire --scenario {path} --games 10"));
    ruleshift(["replay", &run.tickets()[0], "--verify"]).fine();
    ruleshift(to_file).fails(2, &["mine.ron is there already"]);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text, "it is left alone");
}

#[test]
fn what_cannot_be_drawn_or_written_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let new = |rest: &str| {
        let args = ["new", "scenario"].into_iter().chain(rest.split_whitespace());
        ruleshift_in(folder.path(), args)
    };
    new("--mission atack").fails(2, &["'atack'", "'attack'"]);
    new("--terrain swamp").fails(2, &["'swamp'", "open, mixed, close"]);
    new("--seed -1").fails(2, &["-1"]);
    new("--out mine.txt").fails(2, &["`mine.txt`", "ends in .ron"]);
    new("--out missing/mine.ron").fails(3, &["mine.ron", "cannot be written"]);
    let compare = |scenario| Run::start(&format!("base --games 2 --scenario {scenario}"));
    compare("sketch-7-atack-close").done.fails(2, &["did you mean `attack`?"]);
    compare("generated:0").done.fails(2, &["expected 1 to 1000"]);
    compare("generated:2 sketch-1").done.fails(2, &["`sketch-1` is named twice"]);
}

/// Nothing but the ticket is needed, and the seed of the run does not choose the scenarios.
#[test]
fn drawn_scenarios_are_compared_and_their_tickets_replayed() {
    let run = |seed| {
        let args = format!("two-turn-end-cards --scenario generated:3 --games 20 --seed {seed}");
        Run::fine(&args)
    };
    let (first, second) = (run(1), run(2));
    let scenarios = |run: &Run| {
        let plan = run.plan();
        plan.scenarios.into_iter().map(|s| (s.name, s.digest)).collect::<Vec<_>>()
    };
    assert_eq!(scenarios(&first), scenarios(&second));
    let names: Vec<String> = scenarios(&first).into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["sketch-1", "sketch-2", "sketch-3"]);
    let tickets = first.tickets();
    let ticket = tickets.iter().find(|ticket| ticket.contains("~sketch-3@")).unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    ruleshift_in(elsewhere.path(), ["replay", ticket, "--verify"]).fine();
    ruleshift_in(elsewhere.path(), ["replay", ticket]).fine();
}

#[test]
fn lists_name_what_may_be_drawn() {
    let missions = ruleshift(["list", "missions"]).fine().out;
    for word in ["attack", "meeting", "prepared", "delay", "probe", "village", "open", "close"] {
        assert!(missions.contains(&format!("  {word} ")), "{word}");
    }
    let forces = ruleshift(["list", "forces"]).fine().out;
    for list in ruleshift_scenarios::force_lists() {
        assert!(forces.contains(&format!("  {} ", list.name)), "{}", list.name);
    }
    let scenarios = ruleshift(["list", "scenarios"]).fine().out;
    assert!(scenarios.contains("Meeting engagement at Lesnard crossroads"), "{scenarios}");
}

/// What is drawn for a seed is a promise: plans and tickets name scenarios by it. The digests are of
/// the files, so a force list may change without moving them.
#[test]
fn golden_files_of_the_first_drawn_scenarios() {
    let digest = |seed| {
        let drawn = Sketch::new(seed, None, None).draw("test").unwrap_or_else(|e| panic!("{e}"));
        let mut digest = Digest::new();
        digest.text(&drawn.text);
        format!("sketch-{seed} {}\n", digest.short())
    };
    let now: String = (1..=4).map(digest).collect();
    let kept = "tests/golden/sketches.txt";
    if std::env::var_os("RULESHIFT_BLESS").is_some() {
        std::fs::write(repository::root().join(kept), &now).unwrap();
    }
    assert_eq!(repository::text(kept), now, "see `Bless golden digests` in DEVELOPERS.md");
}
