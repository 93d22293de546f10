//! What a reader must keep in mind.

use ruleshift_record::{Arm, ArmFault, Metric, MetricShift, PlayerDependence, RunRecord, Verdict};

use super::pairs::Pairs;
use super::{differences, players, shifts_of};
use crate::format::{Scale, about, and, counted, fixed, p_value};
use crate::stats::{CONFIDENCE, LEVEL, heterogeneity, holm, stratified_mean, unseen_share};
use crate::words::label;

/// Always said, first.
const PLAYERS: &str = "Computer players are not your club: a shift is evidence, the table decides.";

/// Pairs below which the interval formulas are said to be weak.
const FEW: u32 = 100;

/// Pairs in a scenario with a pairing of players below which those are said to be few.
const THIN: u32 = 20;

/// Arms that are named when the same is said of many.
const NAMED: usize = 4;

/// All caveats of a run.
pub(super) fn caveats(
    run: &RunRecord,
    pairs: &[Pairs],
    metrics: &[MetricShift],
    players: &[PlayerDependence],
) -> Vec<String> {
    let mut caveats = vec![PLAYERS.to_owned()];
    caveats.extend(run.faults.iter().filter_map(|f| fault(run, f)));
    for p in pairs {
        let title = &run.plan.arms[p.arm].title;
        caveats.extend(of_arm(run, p).into_iter().map(|text| format!("{title}: {text}")));
        caveats.extend(undecided(run, p, metrics));
    }
    caveats.extend(disagreement(run, pairs, metrics));
    caveats.extend(players::caveats(run, players, metrics));
    caveats
}

/// What is to be kept in mind of any run with more arms than can be gone through one by one: the
/// players, faults, and games that are too few or say nothing, once for all arms of which the same
/// is to be said.
pub(crate) fn of_games(run: &RunRecord) -> Vec<String> {
    let mut caveats = vec![PLAYERS.to_owned()];
    caveats.extend(run.faults.iter().filter_map(|f| fault(run, f)));
    let mut told: Vec<(String, Vec<String>)> = Vec::new();
    for arm in run.plan.compared().skip(1) {
        for text in of_arm(run, &Pairs::of(run, arm)) {
            let title = called(run, arm).to_owned();
            match told.iter_mut().find(|(said, _)| *said == text) {
                Some((_, titles)) => titles.push(title),
                None => told.push((text, vec![title])),
            }
        }
    }
    caveats.extend(told.into_iter().map(|(text, titles)| format!("{}: {text}", some(&titles))));
    caveats
}

/// The title of an arm; its name where others have the same title, as the values of an option have.
fn called(run: &RunRecord, arm: usize) -> &str {
    let Arm { name, title, .. } = &run.plan.arms[arm];
    let alike = run.plan.compared().filter(|other| run.plan.arms[*other].title == *title);
    if alike.count() > 1 { name } else { title }
}

/// Titles of arms, only the first few of many.
fn some(titles: &[String]) -> String {
    match titles.len().checked_sub(NAMED) {
        Some(more @ 1..) => {
            let mut names = titles[..NAMED].to_vec();
            names.push(counted(more as u64, "more arm"));
            and(&names)
        }
        _ => and(titles),
    }
}

/// What the games of one arm leave unsure.
fn of_arm(run: &RunRecord, pairs: &Pairs) -> Vec<String> {
    let unsure = [few(run, pairs), thin(pairs), unseen(run, pairs), alike(pairs)];
    unsure.into_iter().flatten().collect()
}

fn fault(run: &RunRecord, fault: &ArmFault) -> Option<String> {
    let arm = run.plan.arms.get(fault.arm)?;
    let games = run.games.count(fault.arm) as u64;
    let line = fault.message.lines().next().unwrap_or_default();
    Some(format!(
        "{} stopped early, after {} of {}: {line}",
        arm.title,
        counted(games, "game"),
        run.plan.games_in_arm(fault.arm)
    ))
}

/// Too few pairs to lean on.
fn few(run: &RunRecord, pairs: &Pairs) -> Option<String> {
    match pairs.count() {
        n @ (0 | 1) => Some(format!(
            "{} of games with {}, too few to compare.",
            counted(u64::from(n), "pair"),
            run.plan.arms[0].title
        )),
        n if n < FEW => Some(format!(
            "only {n} pairs of games. The intervals are rough below {FEW} pairs, and \
             what happens rarely may not have happened at all."
        )),
        _ => None,
    }
}

/// Few games for each scenario and pairing: what is said of single ones is rough.
fn thin(pairs: &Pairs) -> Option<String> {
    let (scenarios, pairings) = (pairs.scenarios() as u32, pairs.pairings() as u32);
    let strata = scenarios * pairings;
    let thin = pairings > 1 && pairs.count() >= FEW && pairs.count() < strata * THIN;
    thin.then(|| {
        format!(
            "only about {} of games for each pairing of players in each scenario. Single ones \
             are rough, and a player on whom a shift hangs may be missed; {} games in each arm would \
             do.",
            counted(u64::from(pairs.count().div_ceil(strata)), "pair"),
            about(strata * THIN)
        )
    })
}

/// Scenarios of which no pair was finished, as long as another has some.
fn unseen(run: &RunRecord, pairs: &Pairs) -> Option<String> {
    let scenarios = run.plan.scenarios.iter().enumerate();
    let unseen = scenarios.filter(|(n, _)| !pairs.has(*n));
    let names: Vec<String> = unseen.map(|(_, scenario)| scenario.name.clone()).collect();
    let some = !names.is_empty() && names.len() < pairs.scenarios();
    some.then(|| format!("no pair of games in {}: nothing is said of it.", and(&names)))
}

/// What games that never differ leave possible.
fn alike(pairs: &Pairs) -> Option<String> {
    let share = unseen_share(pairs.count(), CONFIDENCE).filter(|_| pairs.alike())?;
    Some(format!(
        "no game differs, which leaves it possible (95 %) that up to {} % of games would.",
        fixed(100.0 * share, if share < 0.01 { 2 } else { 0 })
    ))
}

fn undecided(run: &RunRecord, pairs: &Pairs, metrics: &[MetricShift]) -> Option<String> {
    let open = |headline: bool| {
        shifts_of(run, pairs, metrics)
            .filter(move |m| m.verdict == Verdict::Undecided && m.headline == headline)
    };
    let need = |m: &MetricShift| match m.more_games {
        0 => format!("{} (no number of games would tell)", label(&m.metric)),
        n => format!("{} (about {} more games)", label(&m.metric), about(n)),
    };
    let mut names: Vec<String> = open(true).map(need).collect();
    let others = open(false).count() as u64;
    if others > 0 {
        names.push(counted(others, "metric") + " outside the headline");
    }
    let title = &run.plan.arms[pairs.arm].title;
    (!names.is_empty()).then(|| format!("{title}: undecided so far: {}.", and(&names)))
}

/// Balance metrics whose shift depends on the scenario, by Holm's method over all of them.
pub(super) fn disagreement(
    run: &RunRecord,
    pairs: &[Pairs],
    metrics: &[MetricShift],
) -> Vec<String> {
    let tested: Vec<(&MetricShift, &Pairs, f64)> = pairs
        .iter()
        .flat_map(|p| shifts_of(run, p, metrics).map(move |m| (m, p)))
        .filter_map(|(m, p)| Some((m, p, p_same_everywhere(m, p)?)))
        .collect();
    let adjusted = holm(&tested.iter().map(|t| t.2).collect::<Vec<f64>>());
    let told = tested.iter().zip(adjusted).filter(|(_, p)| *p < LEVEL);
    told.filter_map(|((m, pairs, _), p)| between(run, pairs, m, p)).collect()
}

fn p_same_everywhere(shift: &MetricShift, pairs: &Pairs) -> Option<f64> {
    let metric = [Metric::AttackerWins, Metric::Margin]
        .into_iter()
        .find(|metric| metric.spec().name == shift.metric)?;
    let shifts = differences(&pairs.values(metric));
    let parts: Vec<(f64, f64)> = shifts
        .chunks(pairs.pairings())
        .filter_map(stratified_mean)
        .map(|e| (e.value, e.se))
        .collect();
    heterogeneity(&parts).map(|h| h.p)
}

/// The two scenarios furthest apart; `None` when nobody would notice.
fn between(run: &RunRecord, pairs: &Pairs, m: &MetricShift, p: f64) -> Option<String> {
    let by_shift = |a: &&_, b: &&_| {
        let of = |s: &ruleshift_record::ScenarioShift| s.shift;
        of(a).total_cmp(&of(b))
    };
    let (low, high) =
        (m.by_scenario.iter().min_by(by_shift)?, m.by_scenario.iter().max_by(by_shift)?);
    let scale = Scale::of(m);
    (high.shift - low.shift >= m.notice).then(|| {
        format!(
            "{}: scenarios disagree on {}: from {} in {} to {} in {} (p {}).",
            run.plan.arms[pairs.arm].title,
            label(&m.metric),
            scale.shift(low.shift),
            low.scenario,
            scale.shift(high.shift),
            high.scenario,
            p_said(p)
        )
    })
}

/// A p-value behind its letter.
pub(crate) fn p_said(p: f64) -> String {
    if p < 0.001 { p_value(p) } else { format!("= {}", p_value(p)) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    #[test]
    fn the_players_are_always_mentioned_first() {
        assert_eq!(summarise(&sample::run(&[vec![]])).caveats, [PLAYERS]);
    }

    #[test]
    fn a_fault_says_how_far_the_arm_came() {
        let mut run = sample::run(&[vec![(0, 0, 1.0)], vec![(0, 0, 1.0)]]);
        let message = "value out of range\nsecond line".to_owned();
        run.faults = vec![
            ArmFault { arm: 1, message: message.clone(), ticket: String::new() },
            ArmFault { arm: 9, message, ticket: String::new() },
        ];
        let caveats = summarise(&run).caveats;
        let games = run.plan.games_per_arm;
        assert_eq!(
            caveats[1],
            format!("Arm 1 stopped early, after 1 game of {games}: value out of range")
        );
        assert_eq!(caveats[2], "Arm 1: 1 pair of games with Base rules, too few to compare.");
        assert_eq!(caveats[3], "Arm 1: no pair of games in meeting: nothing is said of it.");
        assert!(caveats[4].ends_with("that up to 95 % of games would."), "{caveats:?}");
        assert_eq!(caveats.len(), 5);
    }

    #[test]
    fn scenarios_that_pull_apart_are_named() {
        let reference = sample::games(400);
        let arm = reference
            .iter()
            .map(|&(s, g, m)| {
                let wobble = f64::from(g % 3) - 1.0;
                (s, g, m + wobble + if s == 0 { 3.0 } else { -3.0 })
            })
            .collect();
        let caveats = summarise(&sample::run(&[reference, arm])).caveats;
        let told: Vec<&String> = caveats.iter().filter(|c| c.contains("disagree")).collect();
        assert!(
            told.iter().any(|c| c.contains("on margin: from −3.00 in meeting to +3.00 in hill")),
            "{caveats:?}"
        );
    }

    #[test]
    fn an_undecided_metric_says_what_it_needs() {
        let reference = sample::games(40);
        let arm = reference
            .iter()
            .map(|&(s, g, m)| (s, g, m + if g % 2 == 0 { 3.0 } else { -3.1 }))
            .collect();
        let caveats = summarise(&sample::run(&[reference, arm])).caveats;
        assert!(caveats.iter().any(|c| c.contains("margin (about ")), "{caveats:?}");
        assert!(caveats.iter().any(|c| c.contains("only 40 pairs")), "{caveats:?}");
    }
}
