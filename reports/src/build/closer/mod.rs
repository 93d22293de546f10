//! The sections that look closer than means.

mod chance;
mod holding;
pub(super) mod method;
mod rare;
mod saved;
mod spread;
mod tails;

use ruleshift_record::{Metric, Summary};

use crate::format::Scale;
use crate::report::Section;
use crate::words::label;

/// What games look like, right after the pictures.
pub(super) fn games(summary: &Summary) -> Vec<Section> {
    told([tails::section(summary), holding::section(summary)])
}

/// What else may happen, after the tables by scenario.
pub(super) fn chances(summary: &Summary) -> Vec<Section> {
    told([spread::section(summary), rare::section(summary)])
}

/// How sure it all is, before the methods.
pub(super) fn sureness(summary: &Summary) -> Vec<Section> {
    told([chance::section(summary), saved::section(summary)])
}

fn told(sections: impl IntoIterator<Item = Section>) -> Vec<Section> {
    sections.into_iter().filter(|section| !section.blocks.is_empty()).collect()
}

/// The smallest shift of a metric worth noticing in this run.
fn notice(summary: &Summary, metric: &str) -> f64 {
    let judged = summary.metrics.iter().find(|m| m.metric == metric);
    let usual = Metric::by_name(metric).map_or(1.0, |m| m.spec().notice);
    judged.map_or(usual, |m| m.notice)
}

/// How the values of a metric print.
fn scale<'a>(summary: &Summary, metric: &'a str) -> Scale<'a> {
    let unit = Metric::by_name(metric).map_or("", |m| m.spec().unit);
    Scale::new(unit, notice(summary, metric))
}

/// The label of a metric with its unit.
fn labelled(summary: &Summary, metric: &str) -> String {
    scale(summary, metric).labelled(&label(metric))
}
