//! What the reader of a sweep must keep in mind.

use ruleshift_record::{RunRecord, SweepCurve, SweepReading, SweepSummary, Verdict};

use super::is_headline;
use super::tables::curve;
use crate::format::{about, and};
use crate::stats::LEVEL;
use crate::summarise::{dependence_caveats, of_games, p_said};
use crate::words::label;

pub(super) fn caveats(run: &RunRecord, summary: &SweepSummary) -> Vec<String> {
    let mut caveats = of_games(run);
    caveats.extend(left_out(summary));
    caveats.extend(few_values(summary));
    caveats.extend(undecided(summary));
    caveats.extend(bent(summary));
    caveats.extend(between(summary));
    caveats.extend(dependence_caveats(run, &summary.comparison));
    caveats
}

fn left_out(summary: &SweepSummary) -> Option<String> {
    let names = and(&summary.left_out);
    (!summary.left_out.is_empty()).then(|| {
        format!(
            "No part of any curve, with fewer than half of the games that another arm has: {names}."
        )
    })
}

fn few_values(summary: &SweepSummary) -> Option<String> {
    let two = summary.curves.iter().find(|c| c.values.len() == 2)?;
    Some(format!("{}: with two values, nothing is known of what lies between.", two.option))
}

fn undecided(summary: &SweepSummary) -> Option<String> {
    let open = summary.curves.iter().filter(|c| c.trend.verdict == Verdict::Undecided);
    let need = |c: &SweepCurve| {
        let along =
            summary.plan.second.as_ref().map_or(String::new(), |_| format!(" along {}", c.option));
        match c.trend.more_games {
            0 => format!("{}{along} (no number of games would tell)", label(&c.metric)),
            n => format!("{}{along} (about {} more games)", label(&c.metric), about(n)),
        }
    };
    let names: Vec<String> = open.filter(|c| is_headline(summary, &c.metric)).map(need).collect();
    (!names.is_empty()).then(|| format!("Trends undecided so far: {}.", and(&names)))
}

/// Metrics through whose means no simple curve goes, and what is read another way for it.
fn bent(summary: &SweepSummary) -> Vec<String> {
    let off = |c: &&SweepCurve| c.fit.as_ref().and_then(|fit| fit.p).is_some_and(|p| p < LEVEL);
    let read = |c: &SweepCurve| {
        let model = c.fit.as_ref().map_or("curve", |fit| curve(fit.model));
        let p = c.fit.as_ref().and_then(|fit| fit.p).unwrap_or(1.0);
        format!(
            "{}: no {model} along {} fits the means (p {}), so its target is read off the means and \
             their band.",
            label(&c.metric),
            c.option,
            p_said(p)
        )
    };
    let curves = || summary.curves.iter().filter(off);
    let mut told: Vec<String> = curves().filter(|c| !c.crossings.is_empty()).map(read).collect();
    let mut rest: Vec<String> =
        curves().filter(|c| c.crossings.is_empty()).map(|c| label(&c.metric)).collect();
    rest.dedup();
    if !rest.is_empty() {
        let rest = and(&rest);
        told.push(format!("A straight line is too simple for {rest}: look at the curve."));
    }
    told
}

/// Options take whole numbers, crossings need not.
fn between(summary: &SweepSummary) -> Option<String> {
    let crossings = summary.curves.iter().flat_map(|c| c.crossings.iter().map(move |x| (c, x)));
    let mut loose = crossings.filter(|(_, x)| x.at.iter().any(|at| at.fract() != 0.0));
    let (curve, crossing) = loose.next()?;
    let how = match crossing.by {
        SweepReading::Fit => "a curve laid through all means",
        SweepReading::Band => "straight lines between the means",
    };
    Some(format!(
        "{} takes whole numbers: a target between two of them is read off {how}.",
        curve.option
    ))
}
