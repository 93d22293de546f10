//! When is a run over, and what does it play until then?
//!
//! A run is played in legs. After each of them the games so far are looked at, and what comes next
//! depends on nothing else: whoever goes on with an interrupted run comes to the same end.

mod clear;
mod tune;

pub(crate) use clear::Watch;
pub(crate) use tune::tuned;

use ruleshift_record::{Experiment, Metric, Plan, RunRecord, Stop};

use crate::columns;
use crate::stats::{CONFIDENCE, PairTable, Width, width_step};

/// A leg of a run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Next {
    /// Rounds that are played when it is over, those before among them.
    pub rounds: u32,
    /// Whether each arm plays.
    pub arms: Vec<bool>,
}

/// What comes next when `run` has played `rounds` rounds and shows their games, no more; `None` when
/// it is over.
pub fn next(run: &RunRecord, rounds: u32) -> Option<Next> {
    let plan = &run.plan;
    let all = |rounds| Next { rounds, arms: vec![true; plan.arms.len()] };
    match (&plan.experiment, plan.stop) {
        (Experiment::Tune(tune), _) => tune::next(tune, run, rounds),
        (_, Some(Stop::Clear { .. })) => {
            let next = plan.looks().into_iter().find(|look| *look > rounds)?;
            let over = rounds > 0 && Watch::of(run).is_some_and(|watch| watch.all_decided());
            (!over).then(|| all(next))
        }
        (_, Some(Stop::Precision { half_width })) => narrower(run, rounds, half_width).map(all),
        (_, None) => (rounds == 0).then(|| all(plan.rounds())),
    }
}

/// The rounds to play until the interval of the shift in wins is narrow enough in every arm; none
/// when it is, or when no more may be played.
fn narrower(run: &RunRecord, rounds: u32, wanted: f64) -> Option<u32> {
    let plan = &run.plan;
    let done = if rounds == 0 { 0 } else { plan.games_in_rounds(rounds) };
    let reach = plan.compared().skip(1).map(|arm| reach(run, arm)).fold(0.0, f64::max);
    match width_step(done, reach, wanted, plan.games_per_arm) {
        Width::Play(games) => {
            let next = plan.rounds_for(games).max(rounds + 1).min(plan.rounds());
            (next > rounds).then_some(next)
        }
        Width::Reached | Width::Capped(_) => None,
    }
}

/// Half of the width of the interval of an arm's shift in wins; without bound before there is one.
fn reach(run: &RunRecord, arm: usize) -> f64 {
    let pairs = columns::pairs(run, (0, arm), Metric::AttackerWins);
    let won = |value: f64| value >= 0.5;
    let table = PairTable::count(pairs.iter().flatten().map(|&(r, a)| (won(a), won(r))));
    let interval = table.interval(CONFIDENCE);
    interval.map_or(f64::INFINITY, |interval| (interval.high - interval.low) / 2.0)
}

/// How many of the looks of a plan `run` has come to: those for which an arm has the games.
fn looks_done(plan: &Plan, run: &RunRecord) -> usize {
    let most = plan.compared().map(|arm| run.games.count(arm)).max().unwrap_or(0);
    let come = |look: &&u32| most >= plan.games_in_rounds(**look) as usize;
    plan.looks().iter().take_while(come).count()
}
