//! From the answer of a sweep to the tree of its report.

use ruleshift_record::{Metric, SweepSummary};

use super::headline::whole;
use super::{charts, method, tables};
use crate::build::{self, tables::legend};
use crate::report::{Block, Report, Section};

/// Builds the report of `summary`.
pub fn build_sweep(summary: &SweepSummary) -> Report {
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

fn title(summary: &SweepSummary) -> String {
    let plan = &summary.plan;
    let range = |values: &[i64]| match (values.iter().min(), values.iter().max()) {
        (Some(low), Some(high)) if low < high => format!("{} to {}", whole(*low), whole(*high)),
        (Some(only), _) => whole(*only),
        _ => "nothing".to_owned(),
    };
    let first = format!("{} from {}", plan.option, range(&plan.values));
    match &plan.second {
        Some((second, values)) => format!("{first}, {second} from {}", range(values)),
        None => first,
    }
}

fn front(summary: &SweepSummary) -> Vec<Section> {
    let mut front = Vec::new();
    let table = match summary.grids.first() {
        Some(grid) => tables::grid(summary, grid),
        None => tables::front(summary),
    };
    if let Some(table) = table {
        let reference = summary.comparison.arms.first().map_or("", |arm| arm.title.as_str());
        let signs = format!("Signs: shift against {reference}. {}", legend());
        let blocks = vec![Block::Table(table), Block::Paragraph(signs)];
        front.push(Section::new("The means", blocks));
    }
    let crossings = tables::crossings(summary);
    if !crossings.rows.is_empty() {
        front.push(Section::new("Targets", vec![Block::Table(crossings)]));
    }
    front.push(Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]));
    front.extend(build::furthest(&summary.comparison));
    front
}

fn body(summary: &SweepSummary) -> Vec<Section> {
    let mut body = vec![Section::new("What was compared", build::arms(&summary.comparison))];
    let charts: Vec<Block> = charts::charts(summary).into_iter().map(Block::Chart).collect();
    body.push(Section::new("The curves in pictures", charts));
    let mut options: Vec<&str> = summary.curves.iter().map(|c| c.option.as_str()).collect();
    options.dedup();
    let trends = options.iter().map(|option| {
        let curves = summary.curves.iter().filter(|c| c.option == *option);
        Block::Table(tables::trends(option, curves))
    });
    body.push(Section::new("Trends", trends.collect()));
    if summary.plan.second.is_some() {
        let grids = summary.grids.iter().filter_map(|g| tables::grid(summary, g));
        body.push(Section::new("Over both options", grids.map(Block::Table).collect()));
        let together = Block::Table(tables::interactions(summary));
        body.push(Section::new("How the options work together", vec![together]));
    } else {
        let table = |c| Some(tables::shifts(summary, c, Metric::by_name(&c.metric)?));
        let shifts = summary.curves.iter().filter_map(table);
        body.push(Section::new("Value by value", shifts.map(Block::Table).collect()));
    }
    body.push(Section::new("How this was measured", method::blocks(summary)));
    body.retain(|section| !section.blocks.is_empty());
    body
}
