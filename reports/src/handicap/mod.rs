//! What makes a scenario fair: which choice for a side brings the attacker's wins to a half.
//!
//! [`even_out`] turns the games into the answer, [`build_handicap`] the answer into a report.

mod build;
#[cfg(test)]
mod tests;
mod words;

pub use build::build_handicap;

use ruleshift_record::{
    FORMAT, HandicapChoice, HandicapPlan, HandicapStanding, HandicapSummary, Metric, RunRecord,
};

use crate::stats::{CONFIDENCE, Interval, wilson};

/// Shares of the attacker's wins between which a scenario passes for fair. No source sets them: they
/// are what clubs and designers commonly call fair, and what the shipped scenarios are held to.
const FAIR: [f64; 2] = [0.4, 0.6];

/// What the games of the first arm of `run` say.
///
/// Choices share no luck, for the seed of a game goes by the place of its scenario; so each has an
/// interval of its own (Wilson 1927, Journal of the American Statistical Association 22:209-212),
/// made wider so that all hold at once (Dunn 1961, Journal of the American Statistical Association
/// 56:52-64, Bonferroni's inequality).
pub fn even_out(run: &RunRecord, asked: HandicapPlan) -> HandicapSummary {
    let plan = &run.plan;
    let mut counts = vec![[0; 3]; plan.scenarios.len()];
    for game in run.games.rows().iter().filter(|game| game.arm == 0) {
        let happened = |metric| u64::from(game.get(metric) > 0.0);
        let count = &mut counts[game.scenario];
        count[0] += 1;
        count[1] += happened(Metric::AttackerWins);
        count[2] += happened(Metric::Drawn);
    }
    let plain = &plan.scenarios[0];
    let level = 1.0 - (1.0 - CONFIDENCE) / counts.len() as f64;
    let names = plan.scenarios.iter().map(|scenario| &scenario.name);
    let choice = |(name, [games, wins, draws]): (&String, [u64; 3])| {
        let adds = name.strip_prefix(&plain.name).unwrap_or(name).trim_start_matches('+');
        let interval = wilson(wins, games, level).unwrap_or(Interval { low: 0.0, high: 1.0 });
        HandicapChoice {
            scenario: name.clone(),
            adds: adds.to_owned(),
            games,
            wins,
            draws,
            share: (games > 0).then(|| wins as f64 / games as f64),
            low: interval.low,
            high: interval.high,
            standing: standing(interval),
        }
    };
    let choices: Vec<HandicapChoice> = names.zip(counts).map(choice).collect();
    let players = plan.players(0, 0);
    let mut summary = HandicapSummary {
        format: FORMAT,
        rules: plan.rules,
        headline: vec![],
        scenario: plain.name.clone(),
        title: plain.title.clone(),
        arm: plan.arms[0].name.clone(),
        side: asked.side,
        attacker: players.attacker.name.clone(),
        defender: players.defender.name.clone(),
        least: FAIR[0],
        most: FAIR[1],
        nearest: nearest(&choices),
        choices,
        seed: plan.seed,
        caveats: vec![],
    };
    summary.headline = words::headline(&summary);
    summary.caveats = words::caveats(&summary);
    summary
}

fn standing(interval: Interval) -> HandicapStanding {
    match interval {
        Interval { high, .. } if high < FAIR[0] => HandicapStanding::TooSeldom,
        Interval { low, .. } if low > FAIR[1] => HandicapStanding::TooOften,
        Interval { low, high } if low >= FAIR[0] && high <= FAIR[1] => HandicapStanding::Fair,
        _ => HandicapStanding::Open,
    }
}

/// Place of the share nearest to a half, the first of several.
fn nearest(choices: &[HandicapChoice]) -> Option<usize> {
    let away = |place: &usize| choices[*place].share.map_or(1.0, |share| (share - 0.5).abs());
    let played = (0..choices.len()).filter(|&place| choices[place].games > 0);
    played.min_by(|one, other| away(one).total_cmp(&away(other)))
}
