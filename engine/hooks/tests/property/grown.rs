//! Grown scripts: judged twice alike, answers in range, games played to their end or to a fault
//! that has a place.

use std::sync::LazyLock;
use std::sync::atomic::{AtomicU32, Ordering};

use proptest::prelude::*;
use ruleshift_game::{Arena, EventScript, Game, Hook, Paths, Rules, Table};
use ruleshift_hooks::{Diagnostics, Overrides, Source, Stack, Variant};
use ruleshift_players::Chance;
use ruleshift_scenarios::Scenario;

use crate::cases;
use crate::grammar::Tape;

const TRIAL_GROUND: &str = include_str!("../../../scenarios/trial-ground.ron");

static ARENA: LazyLock<Arena> = LazyLock::new(|| {
    Scenario::from_ron("trial-ground", TRIAL_GROUND).unwrap_or_else(|error| panic!("{error}")).arena
});

fn load(text: &str) -> Result<Variant, Diagnostics> {
    Variant::load(&Source::new("grown", text), &Overrides::none())
}

/// How a game under a variant went: the digest of its events, or its fault.
fn play(variant: &Variant, rules: &Rules, seed: u64) -> Result<u64, String> {
    let paths = Paths::new(&ARENA, rules);
    let table = Table { arena: &ARENA, rules, paths: &paths };
    let stack = Stack::new(vec![variant.clone()]);
    let mut script = stack.script();
    let script = script.as_mut().map(|script| &mut **script as &mut dyn EventScript);
    let mut nobody = ();
    let game = Game::new(table, seed, script, &mut nobody);
    match game.play(&mut Chance, &mut Chance) {
        Ok(outcome) => Ok(outcome.digest),
        Err(broken) => Err(broken.fault.message),
    }
}

/// Whether a message names a line and column of the script.
fn has_place(message: &str) -> bool {
    let place = message.split("--> grown:").nth(1).unwrap_or_default();
    let numbers = place.split_whitespace().next().unwrap_or_default().split_once(':');
    numbers.is_some_and(|(line, column)| {
        line.parse::<usize>().is_ok() && column.parse::<usize>().is_ok()
    })
}

/// Uses up a grown script, and tells how far it came: 0 refused, 1 played to its end, 2 stopped.
fn use_up(text: &str, seed: u64) -> Result<usize, TestCaseError> {
    let (first, second) = (load(text), load(text));
    let variant = match (first, second) {
        (Ok(first), Ok(second)) => {
            prop_assert_eq!(first.digest(), second.digest());
            prop_assert_eq!(first.warnings(), second.warnings());
            first
        }
        (Err(first), Err(second)) => {
            prop_assert!(first.errors() > 0);
            prop_assert_eq!(&first, &second);
            for fault in first.list() {
                prop_assert!(fault.line.is_some(), "a fault without a place: {}", first);
            }
            return Ok(0);
        }
        (first, second) => {
            let verdicts = (first.is_ok(), second.is_ok());
            return Err(TestCaseError::fail(format!("two verdicts: {verdicts:?}")));
        }
    };
    let rules = Stack::new(vec![variant.clone()]).rules().expect("it was tried on the base rules");
    for &hook in Hook::ALL {
        let wrong =
            rules.table(hook).iter().find(|&&cell| !hook.spec().result.contains(cell.into()));
        prop_assert_eq!(wrong, None, "{}", hook.spec().name);
    }
    let game = play(&variant, &rules, seed);
    prop_assert_eq!(&game, &play(&variant, &rules, seed), "a game is the same twice");
    match game {
        Ok(_) => Ok(1),
        Err(message) => {
            let told = has_place(&message) || message.contains("more than");
            prop_assert!(told, "a fault without a place: {}", message);
            Ok(2)
        }
    }
}

/// Scripts refused, played to their end, stopped in play.
static ENDS: [AtomicU32; 3] = [const { AtomicU32::new(0) }; 3];

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(250), max_shrink_iters: 2_000, ..ProptestConfig::default() })]

    #[test]
    fn grown_scripts(tape in prop::collection::vec(any::<u16>(), 0..400), seed in any::<u64>()) {
        let text = Tape::new(&tape).script();
        let end = use_up(&text, seed).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        let [refused, played, stopped] = [0, 1, 2].map(|n| {
            ENDS[n].fetch_add(u32::from(n == end), Ordering::Relaxed) + u32::from(n == end)
        });
        // A grammar that grows hardly anything but refused scripts would prove nothing.
        let all = refused + played + stopped;
        prop_assert!(all < 200 || played * 5 > all, "{refused} refused, {played} played, {stopped} stopped");
        if all % 1_000 == 0 {
            tell(&format!("{refused} refused, {played} played, {stopped} stopped"));
        }
    }
}

#[expect(clippy::print_stdout, reason = "a long run tells how far it has come")]
fn tell(line: &str) {
    println!("{line}");
}
