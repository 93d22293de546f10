//! A tuning: which values get more games, and what they say.

use ruleshift_record::{Metric, Plan, RunRecord, TunePlan};

use super::Next;
use crate::columns;
use crate::stats::{Tried, TuneFound, TuneStep, TuneTask, Tuning};

/// What a tuning plays next.
pub(super) fn next(tune: &TunePlan, run: &RunRecord, rounds: u32) -> Option<Next> {
    let next = run.plan.looks().into_iter().find(|look| *look > rounds)?;
    let TuneStep::Play(values) = tuning(tune, &run.plan)?.next(&tried(tune, run)?) else {
        return None;
    };
    let plays = |value: &i64| values.iter().any(|(wanted, _)| wanted == value);
    Some(Next { rounds: next, arms: tune.values.iter().map(plays).collect() })
}

/// What the games of a tuning say, whether it is over or not; `None` for a plan that cannot be.
pub(crate) fn tuned(tune: &TunePlan, run: &RunRecord) -> Option<TuneFound> {
    Some(tuning(tune, &run.plan)?.found(&tried(tune, run)?))
}

fn tuning(tune: &TunePlan, plan: &Plan) -> Option<Tuning> {
    let metric = Metric::by_name(&tune.metric)?;
    Tuning::new(TuneTask {
        values: tune.values.clone(),
        target: tune.target,
        notice: plan.notice(metric),
        kind: metric.spec().kind,
        shape: tune.shape,
        games: plan.looks().into_iter().map(|rounds| plan.games_in_rounds(rounds)).collect(),
    })
}

/// What was played with each value. Games behind the last look that a value has come to do not
/// count: they are those of a leg that was interrupted, or an arm that a fault has stopped.
fn tried(tune: &TunePlan, run: &RunRecord) -> Option<Vec<Tried>> {
    let (plan, metric) = (&run.plan, Metric::by_name(&tune.metric)?);
    let of = |arm: usize| {
        let come = |rounds: &&u32| run.games.count(arm) >= plan.games_in_rounds(**rounds) as usize;
        let looks = plan.looks();
        let looks = looks.iter().take_while(come).collect::<Vec<_>>();
        let most = looks.last().map_or(0, |rounds| plan.games_of_scenario_in(**rounds));
        let strata = columns::values_before(run, arm, metric, most);
        Tried { looks: looks.len(), strata }
    };
    Some((0..tune.values.len()).map(of).collect())
}
