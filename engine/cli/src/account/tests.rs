//! The account of golden games says what their metrics say, and fits the terminal.

use std::sync::LazyLock;

use ruleshift_batch::{Collector, GameEnd, GameId, play_one};
use ruleshift_game::{EventScript, Paths, Side, Table};
use ruleshift_record::{Metric, Timing, Values};

use super::*;
use crate::story::HouseNames;
use crate::wire::arm_cast;
use crate::{resolve, screen};

/// The digests that the project keeps of fixed games: what each plays stands in its line.
const GOLDEN: &str = include_str!("../../../../tests/golden/digests.txt");

/// A game played again, with all that was taken down.
struct Played {
    name: String,
    /// Account on one screen, in full, and story.
    texts: [String; 3],
    account: Notes,
    values: Values,
}

/// What an account took down, without the game it was taken from.
struct Notes {
    losses: Losses,
    deeds: Deeds,
    turns: Turns,
    ending: Ending,
    contact: Option<u16>,
    luck: Luck,
    state: State,
}

/// Plays the game of a line again and checks that it is the game.
fn play(line: &str) -> Played {
    let words: Vec<&str> = line.split(' ').collect();
    let [scenario, stack_spec, attacker, defender, seed, digest] = words[..] else {
        panic!("{line}")
    };
    let hex = |word| u64::from_str_radix(word, 16).unwrap();
    let (scenario, stack) =
        (resolve::scenario(scenario).unwrap(), resolve::stack(stack_spec).unwrap());
    let cast = arm_cast(&stack).unwrap();
    let paths = Paths::new(&scenario.arena, &cast.rules);
    let table = Table { arena: &scenario.arena, rules: &cast.rules, paths: &paths };
    let players = [attacker, defender];
    let [mut one, mut other] = players
        .map(|name| resolve::player(name).unwrap().strategy.player(&cast.rules, cast.make()));
    let timing = Timing::default();
    let story = || Story::new(&scenario.arena, &cast.rules, HouseNames::of(&stack), true);
    let mut account = Account::new(&scenario.arena, &cast.rules, story());
    let (mut collector, mut told) = (Collector::new(&timing, table), story());
    let mut both = Both(&mut account, &mut told);
    let mut all = Both(&mut collector, &mut both);
    let mut script = cast.script.as_ref().map(|make| make());
    let script = script.as_mut().map(|script| &mut **script as &mut dyn EventScript);
    let id = GameId { table, seed: hex(seed) };
    match play_one(id, script, &mut *one, &mut *other, &mut all) {
        GameEnd::Finished(played) => assert_eq!(played, hex(digest), "{line}"),
        GameEnd::Faulted { fault, .. } => panic!("{line}: {}", fault.message),
    }
    Played {
        name: line.to_owned(),
        texts: [
            account.text(players, stack_spec, Length::Screen),
            account.text(players, stack_spec, Length::Full),
            told.into_text(),
        ],
        values: *collector.values(),
        account: Notes {
            contact: account.opening.contact.map(|contact| contact.turn),
            ending: account.ending.unwrap(),
            state: account.last.unwrap(),
            losses: account.losses,
            deeds: account.deeds,
            turns: account.turns,
            luck: account.luck,
        },
    }
}

/// Golden games of all scenarios and of most rules and players, but for the slow planner's.
fn golden() -> &'static [Played] {
    static GAMES: LazyLock<Vec<Played>> = LazyLock::new(|| {
        let lines = GOLDEN.lines().filter(|line| line.split(' ').count() == 6);
        let quick = lines.filter(|line| !line.contains("planner") && !line.starts_with('#'));
        quick.step_by(7).map(play).collect()
    });
    &GAMES
}

impl Played {
    fn value(&self, metric: Metric) -> f64 {
        self.values[metric as usize]
    }

    /// Asserts that a number of the account is the metric's.
    #[track_caller]
    fn is(&self, metric: Metric, counted: u32) {
        assert_eq!(f64::from(counted), self.value(metric), "{metric:?} of {}", self.name);
    }
}

#[test]
fn the_sums_of_the_account_are_the_metrics_of_the_game() {
    let mut games = 0;
    for game in golden() {
        let Notes { losses, turns, ending, contact, luck, state, .. } = &game.account;
        let [attacker, defender] = &losses.0.0;
        game.is(Metric::AttackerMenLost, attacker.all_hit());
        game.is(Metric::DefenderMenLost, defender.all_hit());
        game.is(Metric::Prisoners, attacker.taken + defender.taken);
        game.is(Metric::UnitsBroken, attacker.broken + defender.broken);
        game.is(Metric::OwnFire, attacker.own + defender.own);
        game.is(Metric::AttackerVehiclesLost, attacker.armour);
        game.is(Metric::DefenderVehiclesLost, defender.armour);
        game.is(Metric::Turns, turns.all.len() as u32);
        game.is(Metric::Turns, ending.turn.into());
        game.is(Metric::FirstContact, contact.unwrap_or(ending.turn + 1).into());
        assert_eq!(f64::from(ending.margin), game.value(Metric::Margin), "{}", game.name);
        game.is(Metric::AttackerWins, u32::from(ending.winner == Some(Side::Attacker)));
        game.is(Metric::Drawn, u32::from(ending.winner.is_none()));
        game.is(Metric::Dice, ending.dice);
        let shots = luck.guns.0.iter().map(|tries| (tries.tried, tries.came));
        let (shots, hits) = shots.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
        let share = if shots == 0 { 0.0 } else { f64::from(hits) / f64::from(shots) };
        assert!((share - game.value(Metric::GunHits)).abs() < 1e-6, "{}", game.name);
        for (&side, lost) in Side::ALL.iter().zip([attacker, defender]) {
            let gone = lost.all_hit() + lost.fled + lost.taken - lost.back;
            assert_eq!(gone, state.losses(side).0, "{side} of {}", game.name);
            let by_turn: u32 = turns.all.iter().map(|turn| turn.gone[side]).sum();
            assert_eq!(by_turn, gone + lost.back, "{side} of {}", game.name);
        }
        games += 1;
    }
    assert!(games > 50, "{games}");
}

/// Whoever did harm did it to the enemy: no more than he lost.
#[test]
fn nobody_is_said_to_have_done_more_than_was_lost() {
    let mut named = [0; 2];
    for game in golden() {
        let Notes { losses, deeds, state, .. } = &game.account;
        let mut pins = 0;
        for &side in Side::ALL {
            let of_side = || deeds.0.iter().filter(|deed| deed.doer.side(state) == side);
            let lost = &losses.0[side.other()];
            let hit: u32 = of_side().map(|deed| deed.hit).sum();
            let driven: u32 = of_side().map(|deed| deed.driven).sum();
            assert!(hit + lost.own <= lost.all_hit(), "{side} of {}", game.name);
            assert!(driven <= lost.fled + lost.taken, "{side} of {}", game.name);
            named[0] += hit;
            named[1] += lost.all_hit();
            pins += of_side().map(|deed| deed.pins).sum::<u32>();
        }
        assert!(f64::from(pins) <= game.value(Metric::PinsGiven), "{}", game.name);
    }
    // The rest is own fire, mines and house rules.
    assert!(named[0] * 10 > named[1] * 9, "{named:?}");
}

#[test]
fn turning_points_are_three_to_six_in_order_and_none_left_out_weighs_more() {
    for game in golden() {
        let turns = &game.account.turns;
        let told: Vec<u16> = turns.turning_points([3, 3]).iter().map(|turn| turn.number).collect();
        let weighty = turns.all.iter().filter(|turn| turn.weight() > 0).count();
        assert!((weighty.min(3)..=6).contains(&told.len()), "{told:?} of {}", game.name);
        assert!(told.is_sorted(), "{told:?}");
        let (inside, outside): (Vec<_>, Vec<_>) =
            turns.all.iter().partition(|turn| told.contains(&turn.number));
        let least = inside.iter().filter(|turn| !turn.breaks()).map(|turn| turn.weight()).min();
        let most = outside.iter().map(|turn| turn.weight()).max();
        assert!(least >= most || least.is_none(), "{least:?} {most:?} of {}", game.name);
        assert!(!outside.iter().any(|turn| turn.breaks()), "{}", game.name);
    }
}

#[test]
fn accounts_and_stories_keep_to_eighty_columns_and_a_screen() {
    for game in golden() {
        for line in game.texts.iter().flat_map(|text| text.lines()) {
            assert!(line.chars().count() <= screen::NARROW, "{line} in {}", game.name);
        }
        let [brief, full, _] = &game.texts;
        let lines = brief.lines().count();
        assert!(lines <= SCREEN, "{lines} lines in {}:\n{brief}", game.name);
        // The one is the other with less: nothing is told in two ways.
        let outcome = |text: &str| text.split("\n\n").next().map(str::to_owned);
        assert_eq!(outcome(brief), outcome(full), "{}", game.name);
    }
}

/// Lines that a brief account has at most, blank ones and all: a laptop shows as many at once.
const SCREEN: usize = 46;

/// Fire is fair over many games: the sum of what was expected is met within four standard errors,
/// which one run of 16,000 would miss.
#[test]
fn hits_come_as_expected_over_many_games() {
    let (mut came, mut mean, mut dice) = (0, 0.0, 0);
    for game in golden() {
        for tries in &game.account.luck.fire.0 {
            came += tries.came;
            dice += tries.tried;
            mean += crate::odds::decimal(&tries.mean);
        }
    }
    // A die's variance is a quarter at most.
    let error = (f64::from(dice) / 4.0).sqrt();
    assert!(dice > 5_000 && (f64::from(came) - mean).abs() < 4.0 * error, "{came} {mean} {dice}");
}

fn snapshot(scenario: &str, stack: &str) -> [String; 3] {
    let start = format!("{scenario} {stack} steady steady ");
    let line = GOLDEN.lines().find(|line| line.starts_with(&start)).expect("a golden game");
    play(line).texts
}

#[test]
fn an_account_reads_well_on_a_screen_and_in_full() {
    let [brief, full, _] = snapshot("meeting-engagement", "base");
    insta::assert_snapshot!(format!("{brief}\n--- in full ---\n\n{full}"));
}

#[test]
fn a_story_reads_well() {
    let [_, _, story] = snapshot("first-tanks", "steady-nerves");
    insta::assert_snapshot!(story);
}
