//! Two cores against one, beside pure arithmetic in the same minutes: what the machine gives.

use std::hint::black_box;
use std::thread;

use ruleshift_batch::{ArmCast, Cast, run};
use ruleshift_game::{Player, Rules};
use ruleshift_players::player;
use ruleshift_record::Plan;

use crate::rounds::{Rounds, nanos};
use crate::row::{Row, verdict};
use crate::setting::{doctrine, reference};

const ROUNDS: usize = 9;
const GAMES: u32 = 2_000;
const STEPS: u64 = 200_000_000;
const PLAN: &str = r#"Plan(
    arms: ["base"],
    scenarios: ["hasty-attack"],
    pairings: [(attacker: "steady", defender: "steady")],
)"#;

/// Arithmetic that needs no memory, shared out over threads.
fn arithmetic(threads: u64) {
    thread::scope(|scope| {
        for seed in 0..threads {
            scope.spawn(move || {
                let step =
                    |n: u64, by: u64| (n ^ by).wrapping_mul(0x9e37_79b9_7f4a_7c15).rotate_left(29);
                black_box((0..STEPS / threads).fold(black_box(seed), step))
            });
        }
    });
}

pub(crate) fn row() -> Row {
    let what = "two cores, against pure arithmetic in the same minutes";
    let goal = ">= 0.95";
    if thread::available_parallelism().map_or(1, usize::from) < 2 {
        return Row {
            what,
            goal,
            measured: "-".to_owned(),
            verdict: "not measured: one core".to_owned(),
            how: "needs two cores".to_owned(),
        };
    }
    let (arena, steady) = (reference(), doctrine("steady"));
    let cast = Cast {
        arenas: vec![&arena],
        arms: vec![ArmCast { rules: Rules::base(), script: None }],
        player: Box::new(|_, arm| -> Box<dyn Player> { player(&steady, &arm.rules) }),
    };
    let plan = Plan::from_ron(PLAN).expect("the plan of a bench is read");
    let plan = Plan { games_per_arm: GAMES, ..plan };
    let play = |threads| nanos(|| drop(run(&plan, &cast, threads, &()).expect("threads start")));
    let rounds = Rounds::of(
        ROUNDS,
        &mut [&mut || nanos(|| arithmetic(1)) / nanos(|| arithmetic(2)), &mut || play(1) / play(2)],
    );
    let ratio = rounds.ratio(1, 0);
    Row {
        what,
        goal,
        measured: format!("{ratio:.2}"),
        verdict: verdict(ratio >= 0.95),
        how: format!(
            "whole runs of {GAMES} games on two threads are {:.2} times as fast as on one, arithmetic {:.2} times; median of {ROUNDS} rounds of the ratio within each",
            rounds.median(1),
            rounds.median(0)
        ),
    }
}
