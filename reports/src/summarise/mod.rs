//! From the games of a run to its answer.

mod balance;
mod caveats;
mod closer;
mod course;
mod headline;
mod importance;
mod pairs;
mod players;
mod shift;
mod skill;
mod tickets;

use ruleshift_record::{
    ArmSummary, Closer, FORMAT, Metric, MetricShift, Pairing, RunRecord, Summary,
};

use crate::format::count;
use crate::looks::Watch;
pub(crate) use caveats::{of_games, p_said};
pub(crate) use pairs::Pairs;

/// Compares every arm of `run` with the first, pairing games by scenario and number.
///
/// Only games finished in both arms count, so an arm that stopped early keeps what it has. A metric
/// with fewer than two such pairs has no entry; a caveat says so. The answer depends on nothing but
/// `run`.
pub fn summarise(run: &RunRecord) -> Summary {
    let pairs = all_pairs(run);
    let summary = shifts(run, &pairs);
    Summary {
        balance: balance::balance(run),
        course: course::courses(run),
        closer: closer::look(run, &pairs, &summary.metrics),
        ..summary
    }
}

/// The answer of [`summarise`] without balance, course and its closer look at single metrics, which take
/// most of the time: for runs of many arms, and for many runs.
pub fn summarise_shifts(run: &RunRecord) -> Summary {
    shifts(run, &all_pairs(run))
}

fn all_pairs(run: &RunRecord) -> Vec<Pairs<'_>> {
    run.plan.compared().skip(1).map(|arm| Pairs::of(run, arm)).collect()
}

fn shifts(run: &RunRecord, pairs: &[Pairs]) -> Summary {
    let findings = pairs
        .iter()
        .flat_map(|p| Metric::ALL.iter().filter_map(|&m| shift::finding(run, p, m)))
        .collect();
    let watch = Watch::of(run);
    let metrics = shift::judge(findings, watch.as_ref());
    let players = players::dependence(run, pairs, &metrics);
    Summary {
        format: FORMAT,
        rules: run.plan.rules,
        headline: pairs.iter().map(|p| headline::sentence(run, p, &metrics)).collect(),
        arms: run.plan.compared().map(|arm| arm_summary(run, arm)).collect(),
        scenarios: run.plan.scenarios.iter().map(|s| s.name.clone()).collect(),
        pairings: run.plan.pairings.iter().map(pairing).collect(),
        roster: run.plan.roster.clone(),
        restricted: run.plan.restricted.clone(),
        games_per_arm: run.plan.games_per_arm,
        looks: watch.map(|watch| watch.told()),
        seed: run.plan.seed,
        faults: run.faults.clone(),
        tickets: pairs.iter().flat_map(|p| tickets::worth_a_look(run, p, &metrics)).collect(),
        caveats: caveats::caveats(run, pairs, &metrics, &players),
        skill: skill::edges(run, pairs),
        importance: importance::importance(run),
        balance: vec![],
        course: vec![],
        closer: Closer::default(),
        players,
        metrics,
    }
}

/// What depends on the scenario or on who plays, in any of many arms: the first few of it.
pub(crate) fn dependence_caveats(run: &RunRecord, summary: &Summary) -> Vec<String> {
    const TOLD: usize = 3;
    let pairs = all_pairs(run);
    let mut all = caveats::disagreement(run, &pairs, &summary.metrics);
    all.extend(players::caveats(run, &summary.players, &summary.metrics));
    let more = all.len().saturating_sub(TOLD) as u64;
    all.truncate(TOLD);
    if more > 0 {
        let noun = if more == 1 { "shift depends" } else { "shifts depend" };
        all.push(format!("{} more {noun} on the scenario or on the players.", count(more)));
    }
    all
}

fn pairing(pairing: &Pairing) -> (String, String) {
    (pairing.attacker.name.clone(), pairing.defender.name.clone())
}

fn arm_summary(run: &RunRecord, arm: usize) -> ArmSummary {
    let plan = &run.plan.arms[arm];
    let games = run.games.count(arm);
    ArmSummary {
        name: plan.name.clone(),
        title: plan.title.clone(),
        summary: plan.summary.clone(),
        games: u32::try_from(games).unwrap_or(u32::MAX),
    }
}

/// The shifts of one arm, in the order of the metrics.
fn shifts_of<'a>(
    run: &'a RunRecord,
    pairs: &Pairs,
    metrics: &'a [MetricShift],
) -> impl Iterator<Item = &'a MetricShift> {
    let name = &run.plan.arms[pairs.arm].name;
    metrics.iter().filter(move |m| m.arm == *name)
}

/// Arm minus reference, by stratum.
fn differences(strata: &[Vec<(f64, f64)>]) -> Vec<Vec<f64>> {
    strata.iter().map(|s| s.iter().map(|(reference, arm)| arm - reference).collect()).collect()
}

#[cfg(test)]
mod tests {
    use ruleshift_record::Verdict;

    use super::*;
    use crate::sample;

    #[test]
    fn a_run_without_games_has_arms_and_caveats_only() {
        let summary = summarise(&sample::run(&[vec![], vec![]]));
        assert_eq!((summary.arms.len(), summary.metrics.len(), summary.tickets.len()), (2, 0, 0));
        assert!(summary.headline[0].contains("too few games"), "{:?}", summary.headline);
        assert!(!summary.caveats.is_empty());
    }

    #[test]
    fn a_run_with_the_reference_alone_has_no_shift() {
        let summary = summarise(&sample::run(&[vec![(0, 0, 1.0)]]));
        assert_eq!((summary.headline.len(), summary.metrics.len()), (0, 0));
    }

    #[test]
    fn one_pair_is_too_little_for_any_metric() {
        let summary = summarise(&sample::run(&[vec![(0, 0, 1.0)], vec![(0, 0, 4.0)]]));
        assert_eq!(summary.metrics, []);
    }

    #[test]
    fn the_same_games_shift_by_exactly_nothing() {
        let games = sample::games(50);
        let summary = summarise(&sample::run(&[games.clone(), games]));
        for m in &summary.metrics {
            assert_eq!([m.shift, m.low, m.high, m.p, m.p_adjusted], [0.0, 0.0, 0.0, 1.0, 1.0]);
            assert_eq!((m.verdict, m.more_games), (Verdict::NoDifference, 0), "{}", m.metric);
        }
        assert_eq!(summary.metrics.len(), Metric::ALL.len());
    }

    #[test]
    fn every_metric_of_every_arm_has_its_place() {
        let games = sample::games(30);
        let better = games.iter().map(|&(s, g, m)| (s, g, m + 2.0)).collect();
        let summary = summarise(&sample::run(&[games.clone(), better, games]));
        assert_eq!(summary.metrics.len(), 2 * Metric::ALL.len());
        let margin = summary.metrics.iter().find(|m| m.metric == "margin").unwrap();
        assert_eq!((margin.shift, margin.verdict), (2.0, Verdict::ClearShift));
        assert_eq!(margin.by_scenario.len(), 2);
    }
}
