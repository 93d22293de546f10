//! Many questions at once: which p-value stands for what.

use ruleshift_record::{ArmSummary, Explored, MetricShift, Summary};

use crate::build::tables::others;
use crate::format::{Scale, count, p_value};
use crate::report::{Block, Cell, Column, Section, Table};
use crate::stats::LEVEL;
use crate::words::label;

const HEADLINE: &str = "Headline metrics are few and chosen beforehand: Holm's method keeps the chance \
    of even one false shift among them at 5 %.";

const OTHERS: &str = "The other metrics are many and looked through for what stands out. Their verdicts \
    too go by Holm; the last column instead keeps the expected share of false ones among all that are \
    picked out at 5 % (false discovery rate). What only that column shows is a lead to follow with new \
    games, not a finding.";

pub(super) fn section(summary: &Summary) -> Section {
    let mut blocks = Vec::new();
    for (text, of) in [
        (HEADLINE, headline as fn(&Summary, &ArmSummary) -> Table),
        (OTHERS, explored as fn(&Summary, &ArmSummary) -> Table),
    ] {
        let tables = others(summary).iter().map(|arm| of(summary, arm));
        let tables: Vec<Table> = tables.filter(|t| !t.rows.is_empty()).collect();
        if !tables.is_empty() {
            blocks.push(Block::Paragraph(text.to_owned()));
            blocks.extend(tables.into_iter().map(Block::Table));
        }
    }
    let notes: Vec<String> =
        others(summary).iter().filter_map(|arm| sentence(summary, arm)).collect();
    if !notes.is_empty() {
        blocks.push(Block::Notes(notes));
    }
    Section::new("Many questions at once", blocks)
}

fn headline(summary: &Summary, arm: &ArmSummary) -> Table {
    let own = summary.metrics.iter().filter(|m| m.headline && m.arm == arm.name);
    let row = |m: &MetricShift| -> Vec<Cell> {
        vec![
            Cell::metric(&m.metric, label(&m.metric)),
            p_value(m.p).into(),
            p_value(m.p_adjusted).into(),
        ]
    };
    Table {
        caption: format!("{}: headline metrics", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("p"),
            Column::numbers("p after Holm"),
        ],
        rows: own.map(row).collect(),
    }
}

fn explored(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |e: &Explored| -> Option<Vec<Cell>> {
        let shift = summary.metrics.iter().find(|m| m.arm == e.arm && m.metric == e.metric)?;
        let scale = Scale::of(shift);
        Some(vec![
            Cell::metric(&e.metric, scale.labelled(&label(&e.metric))),
            scale.shift(shift.shift).into(),
            p_value(e.p).into(),
            p_value(e.p_holm).into(),
            p_value(e.p_discovery).into(),
        ])
    };
    let own = summary.closer.explored.iter().filter(|e| e.arm == arm.name);
    Table {
        caption: format!("{}: all other metrics", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Shift"),
            Column::numbers("p"),
            Column::numbers("p after Holm"),
            Column::numbers("p by false discovery rate"),
        ],
        rows: own.filter_map(row).collect(),
    }
}

/// How many metrics each method picks out, and which of them only the milder one does.
fn sentence(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let own: Vec<&Explored> =
        summary.closer.explored.iter().filter(|e| e.arm == arm.name).collect();
    let lot = own.len() as u64;
    let mild: Vec<&&Explored> = own.iter().filter(|e| e.p_discovery < LEVEL).collect();
    let leads: Vec<String> =
        mild.iter().filter(|e| e.p_holm >= LEVEL).map(|e| label(&e.metric)).collect();
    let end = match leads.len() {
        0 => "the stricter Holm picks out the same".to_owned(),
        n => format!("leads that Holm does not show ({n}): {}", leads.join(", ")),
    };
    (lot > 0).then(|| {
        format!(
            "{}: {} of {} other metrics stand out by the false discovery rate; {end}.",
            arm.title,
            count(mild.len() as u64),
            count(lot)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn leads_are_told_from_findings() {
        let mut summary = summarise(&sample::run(&[sample::games(40), sample::games(40)]));
        let told = |metric: &str, p_holm, p_discovery| Explored {
            arm: "arm-1".into(),
            metric: metric.into(),
            p: 0.001,
            p_holm,
            p_discovery,
        };
        summary.closer.explored =
            vec![told("dice", 0.01, 0.002), told("bogged", 0.06, 0.04), told("shots", 0.9, 0.3)];
        assert_eq!(
            sentence(&summary, &summary.arms[1]).unwrap(),
            "Arm 1: 2 of 3 other metrics stand out by the false discovery rate; leads that Holm does \
             not show (1): vehicles stuck."
        );
        let section = section(&summary);
        let tables: Vec<&Table> = section
            .blocks
            .iter()
            .filter_map(|b| match b {
                Block::Table(table) => Some(table),
                _ => None,
            })
            .collect();
        assert_eq!((tables[0].rows.len(), tables[1].rows.len()), (8, 3));
        assert_eq!(tables[1].rows[1][4].text, "0.040");
    }
}
