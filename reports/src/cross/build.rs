//! From the answer of crossed variants to the tree of its report.

use ruleshift_record::{CrossSummary, Metric};

use super::{method, tables};
use crate::build::{self, tables::legend};
use crate::format::counted;
use crate::report::{Block, Report, Section};

/// Metrics that have a picture.
const PICTURES: usize = 2;

/// Builds the report of `summary`.
pub fn build_cross(summary: &CrossSummary) -> Report {
    Report {
        title: title(summary),
        facts: build::facts(&summary.comparison),
        headline: summary.headline.clone(),
        front: front(summary),
        body: body(summary),
        ..Report::default()
    }
    .explained(&summary.comparison.metrics)
}

fn title(summary: &CrossSummary) -> String {
    let arms = counted(summary.plan.arms.len() as u64, "arm");
    let count = counted(summary.plan.factors.len() as u64, "variant");
    let part = if summary.relation.is_empty() { "" } else { ", a part of all combinations" };
    format!("{count} crossed in {arms}{part}")
}

fn front(summary: &CrossSummary) -> Vec<Section> {
    let mut front = Vec::new();
    if !summary.effects.is_empty() {
        let key = Block::Paragraph(format!("{}. {}", tables::key(summary), legend()));
        front.push(Section::new(
            "What each variant does",
            vec![Block::Table(tables::mains(summary)), key],
        ));
    }
    let pairs = tables::front_pairs(summary);
    if !pairs.rows.is_empty() {
        let heading = "What pairs make of each other";
        front.push(Section::new(heading, vec![Block::Table(pairs)]));
    }
    front.push(Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]));
    front.extend(build::furthest(&summary.comparison));
    front
}

fn body(summary: &CrossSummary) -> Vec<Section> {
    let metrics = tables::metrics(summary);
    let pictures = metrics.iter().filter_map(|&m| tables::half_normal(summary, m)).take(PICTURES);
    let each = |of: &dyn Fn(Metric) -> crate::report::Table| -> Vec<Block> {
        metrics.iter().map(|&m| of(m)).filter(|t| !t.rows.is_empty()).map(Block::Table).collect()
    };
    let mut body = vec![
        Section::new("What was compared", build::arms(&summary.comparison)),
        Section::new("The effects in pictures", pictures.map(Block::Chart).collect()),
        Section::new("All effects", each(&|m| tables::effects(summary, m))),
        Section::new("All pairs", each(&|m| tables::pairs(summary, m))),
        Section::new("How this was measured", method::blocks(summary)),
    ];
    body.retain(|section| !section.blocks.is_empty());
    body
}
