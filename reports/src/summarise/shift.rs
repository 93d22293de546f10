//! The shift of one metric: from pairs to numbers, before the family is known.

use ruleshift_record::{Metric, MetricShift, PairingShift, RunRecord, ScenarioShift, Verdict};

use super::pairs::{Pair, Pairs};
use super::players::names;
use crate::answer::{Answer, answer, judged, total};
use crate::looks::Watch;
use crate::stats::{Decided, Moments, variance_ratio};

/// A shift that waits for the p-values of its family.
pub(super) struct Finding {
    pub(super) shift: MetricShift,
    arm: usize,
    metric: Metric,
    answer: Answer,
}

type Strata = [Vec<(f64, f64)>];

/// The shift of `metric` between the reference and one arm; `None` with fewer than two pairs.
pub(super) fn finding(run: &RunRecord, pairs: &Pairs, metric: Metric) -> Option<Finding> {
    let (spec, strata) = (metric.spec(), pairs.values(metric));
    let notice = run.plan.notice(metric);
    let answer = answer(&strata, (metric, notice), pairs.alike())?;
    let (reference_mean, mean) = means(&strata)?;
    let shift = MetricShift {
        metric: spec.name.to_owned(),
        unit: spec.unit.to_owned(),
        arm: run.plan.arms[pairs.arm].name.clone(),
        headline: run.plan.is_headline(metric),
        pairs: total(&strata),
        reference_mean,
        mean,
        shift: answer.shift,
        low: answer.interval.low,
        high: answer.interval.high,
        p: answer.p,
        p_adjusted: answer.p,
        notice,
        variance_ratio: variance_ratio(&strata),
        verdict: Verdict::Undecided,
        more_games: 0,
        by_scenario: by_scenario(run, pairs, metric, &strata),
        by_pairing: by_pairing(run, pairs, metric, &strata),
    };
    Some(Finding { shift, arm: pairs.arm, metric, answer })
}

/// Gives every finding its adjusted p-value, over headline metrics and over all others, its word,
/// and the games it lacks. In a run that is watched, words and intervals are those of its looks.
pub(super) fn judge(mut findings: Vec<Finding>, watch: Option<&Watch>) -> Vec<MetricShift> {
    for headline in [true, false] {
        let family: Vec<usize> =
            (0..findings.len()).filter(|&n| findings[n].shift.headline == headline).collect();
        let answers: Vec<Answer> = family.iter().map(|&n| findings[n].answer).collect();
        for (&n, judged) in family.iter().zip(judged(&answers)) {
            let shift = &mut findings[n].shift;
            shift.p_adjusted = judged.p_adjusted;
            shift.verdict = judged.verdict;
            shift.more_games = judged.more_games;
        }
        if let Some(watch) = watch {
            let places: Vec<(usize, Metric)> =
                family.iter().map(|&n| (findings[n].arm, findings[n].metric)).collect();
            let decided = if headline { watch.headline(&places) } else { watch.others(&answers) };
            for (&n, decided) in family.iter().zip(decided) {
                findings[n].watched(watch, decided, family.len());
            }
        }
    }
    findings.into_iter().map(|f| f.shift).collect()
}

impl Finding {
    /// The word and the interval of a run that may have ended early.
    fn watched(&mut self, watch: &Watch, decided: Decided, family: usize) {
        let interval = watch.confidence().and_then(|confidence| self.answer.at(confidence));
        let interval = interval.unwrap_or(self.answer.interval);
        let shift = &mut self.shift;
        (shift.low, shift.high) = (interval.low, interval.high);
        shift.verdict = match (decided.shift, decided.equivalent) {
            (Some(_), Some(_)) if interval.within(shift.notice) => Verdict::TooSmall,
            (Some(_), _) => Verdict::ClearShift,
            (None, Some(_)) => Verdict::NoDifference,
            (None, None) => Verdict::Undecided,
        };
        shift.more_games = match shift.verdict {
            Verdict::Undecided => watch.more_games(&self.answer, family),
            _ => 0,
        };
    }
}

fn by_scenario(
    run: &RunRecord,
    pairs: &Pairs,
    metric: Metric,
    strata: &Strata,
) -> Vec<ScenarioShift> {
    let per_scenario = strata.chunks(pairs.pairings());
    let shift = |(n, strata): (usize, &[Vec<(f64, f64)>])| {
        let alike = pairs.alike_where(|pair| pair.scenario == n);
        let part = part(strata, (metric, run.plan.notice(metric)), alike)?;
        Some(ScenarioShift {
            scenario: run.plan.scenarios[n].name.clone(),
            pairs: part.pairs,
            reference_mean: part.means.0,
            mean: part.means.1,
            shift: part.answer.shift,
            low: part.answer.interval.low,
            high: part.answer.interval.high,
        })
    };
    per_scenario.enumerate().filter_map(shift).collect()
}

/// None with a single pairing, which would only say everything again.
fn by_pairing(
    run: &RunRecord,
    pairs: &Pairs,
    metric: Metric,
    strata: &Strata,
) -> Vec<PairingShift> {
    let pairings = pairs.pairings();
    let shift = |n: usize| {
        let strata: Vec<_> = strata.iter().skip(n).step_by(pairings).cloned().collect();
        let own = |pair: &Pair| pair.game as usize % pairings == n;
        let part = part(&strata, (metric, run.plan.notice(metric)), pairs.alike_where(own))?;
        let (attacker, defender) = names(&run.plan, n);
        Some(PairingShift {
            attacker: attacker.to_owned(),
            defender: defender.to_owned(),
            pairs: part.pairs,
            reference_mean: part.means.0,
            mean: part.means.1,
            shift: part.answer.shift,
            low: part.answer.interval.low,
            high: part.answer.interval.high,
        })
    };
    if pairings > 1 { (0..pairings).filter_map(shift).collect() } else { vec![] }
}

/// What some of the strata say by themselves.
struct Part {
    pairs: u32,
    means: (f64, f64),
    answer: Answer,
}

fn part(strata: &Strata, metric: (Metric, f64), alike: bool) -> Option<Part> {
    let answer = answer(strata, metric, alike)?;
    Some(Part { pairs: total(strata), means: means(strata)?, answer })
}

fn means(strata: &Strata) -> Option<(f64, f64)> {
    let mean = |of: fn(&(f64, f64)) -> f64| {
        Moments::of(&strata.iter().flatten().map(of).collect::<Vec<f64>>()).map(|m| m.mean)
    };
    Some((mean(|v| v.0)?, mean(|v| v.1)?))
}
