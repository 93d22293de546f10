//! The answer of a tuning: which value of an option brings a metric to a target.

mod build;
mod caveats;
mod headline;

pub use build::build_tune;

use ruleshift_record::{
    FORMAT, GameRow, Metric, RunRecord, TicketNote, TuneAnswer, TunePlan, TuneSummary,
};

use crate::looks::tuned;
use crate::stats::{Moments, TuneFound};

/// The answer of a tuning, finished or not; `run` has an arm for each value of `plan`.
///
/// A plan whose metric nobody knows, or whose values do not rise, has an answer without settings. The
/// answer depends on nothing but `plan` and `run`.
pub fn tune(plan: &TunePlan, run: &RunRecord) -> TuneSummary {
    let metric = Metric::by_name(&plan.metric);
    let found = tuned(plan, run).unwrap_or(TuneFound {
        settings: vec![],
        crossing: None,
        shape_holds: true,
        answer: TuneAnswer::Undecided { nearest: 0.0, more_games: 0 },
    });
    let arms = 0..run.plan.arms.len();
    let mut summary = TuneSummary {
        format: FORMAT,
        rules: run.plan.rules,
        headline: vec![],
        stack: stack(plan, run),
        option: plan.option.clone(),
        metric: plan.metric.clone(),
        unit: metric.map_or(String::new(), |m| m.spec().unit.to_owned()),
        target: plan.target,
        notice: metric.map_or(0.0, |m| run.plan.notice(m)),
        shape: plan.shape,
        shape_holds: found.shape_holds,
        settings: found.settings,
        crossing: found.crossing,
        answer: found.answer,
        games: arms.map(|arm| run.games.count(arm) as u64).sum(),
        most_games: run.plan.games_per_arm,
        seed: run.plan.seed,
        scenarios: run.plan.scenarios.iter().map(|scenario| scenario.name.clone()).collect(),
        caveats: vec![],
        tickets: typical(plan, run, found.answer).into_iter().collect(),
    };
    summary.headline = headline::headline(&summary);
    summary.caveats = caveats::caveats(run, &summary);
    summary
}

/// The rules that the option is tuned upon: what stands before the variant in every arm.
fn stack(plan: &TunePlan, run: &RunRecord) -> String {
    let variant = plan.option.split([':', ',']).next().unwrap_or_default();
    let arm = run.plan.arms.first();
    let before = arm.into_iter().flat_map(|arm| &arm.stack).map(|variant| variant.name.as_str());
    let before: Vec<&str> = before.take_while(|name| !name.starts_with(variant)).collect();
    if before.is_empty() { "base".to_owned() } else { before.join("+") }
}

/// The setting that an answer names.
fn named(answer: TuneAnswer) -> f64 {
    match answer {
        TuneAnswer::Found { value } => value,
        TuneAnswer::Between { nearest }
        | TuneAnswer::NoneReaches { nearest, .. }
        | TuneAnswer::Undecided { nearest, .. } => nearest,
    }
}

/// The game of the value named that is nearest to its mean.
fn typical(plan: &TunePlan, run: &RunRecord, answer: TuneAnswer) -> Option<TicketNote> {
    let metric = Metric::by_name(&plan.metric)?;
    let value = named(answer).floor() as i64;
    let arm = plan.values.iter().position(|known| *known == value)?;
    let margins = run.games.column(arm, Metric::Margin);
    let values = run.games.column(arm, metric);
    let (mean, margin) = (Moments::of(&values)?.mean, Moments::of(&margins)?.mean);
    let away = |n: &usize| ((values[*n] - mean).abs(), (margins[*n] - margin).abs());
    let nearest = (0..values.len().min(margins.len())).min_by(|a, b| {
        let (a, b) = (away(a), away(b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    })?;
    let (scenario, game) = run.games.keys(arm).nth(nearest)?;
    let row: GameRow = run.games.row(arm, scenario, game)?;
    Some(TicketNote {
        why: "A game near the mean of the setting named".to_owned(),
        arm: run.plan.arms[arm].name.clone(),
        ticket: run.ticket(&row).to_string(),
    })
}

#[cfg(test)]
mod tests;
