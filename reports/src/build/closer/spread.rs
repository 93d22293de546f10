//! What to expect in scenarios, and of players, that were not played.

use ruleshift_record::{Sample, ShiftSpread, Summary};

use super::{labelled, scale};
use crate::build::tables::others;
use crate::format::count;
use crate::report::{Block, Cell, Column, Section, Table};
use crate::words::label;

/// Shifts of each arm that are told in words.
const TOLD: usize = 2;

pub(super) fn section(summary: &Summary) -> Section {
    let mut blocks = Vec::new();
    let mut notes = Vec::new();
    for arm in others(summary) {
        for over in [Sample::Scenarios, Sample::Pairings] {
            let of = |s: &&ShiftSpread| s.arm == arm.name && s.over == over;
            let own: Vec<&ShiftSpread> = summary.closer.spread.iter().filter(of).collect();
            notes.extend(own.iter().take(TOLD).map(|s| sentence(summary, &arm.title, s)));
            if !own.is_empty() {
                blocks.push(Block::Table(table(summary, &arm.title, over, &own)));
            }
        }
    }
    if !notes.is_empty() {
        blocks.insert(0, Block::Notes(notes));
    }
    Section::new("What to expect where nothing was played", blocks)
}

fn sentence(summary: &Summary, title: &str, spread: &ShiftSpread) -> String {
    let scale = scale(summary, &spread.metric);
    let (one, several) = spread.over.words();
    let end = match spread.next {
        Some((low, high)) => format!(
            "in a {one} of this kind that was not played, expect {} ({})",
            scale.interval(low, high),
            scale.unit_of_shift()
        ),
        None => format!("the {several} differ by no more than chance may do"),
    };
    format!(
        "{title}, {}: over {several} of this kind {} on average (95 % {}); {end}.",
        label(&spread.metric),
        scale.shift(spread.mean),
        scale.interval(spread.low, spread.high)
    )
}

fn table(summary: &Summary, title: &str, over: Sample, spreads: &[&ShiftSpread]) -> Table {
    let row = |spread: &&ShiftSpread| -> Vec<Cell> {
        let scale = scale(summary, &spread.metric);
        let next = spread.next.map(|(low, high)| scale.interval(low, high));
        vec![
            Cell::metric(&spread.metric, labelled(summary, &spread.metric)),
            count(u64::from(spread.count)).into(),
            scale.shift(spread.mean).into(),
            scale.interval(spread.low, spread.high).into(),
            scale.unsigned(spread.tau).into(),
            next.unwrap_or("not told apart from chance".to_owned()).into(),
        ]
    };
    let (one, several) = over.words();
    Table {
        caption: format!("{title}: shifts with the {several} as a sample"),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Of how many"),
            Column::numbers("Mean shift"),
            Column::numbers("95 % interval"),
            Column::numbers(format!("From {one} to {one} (±)")),
            Column::numbers(format!("A {one} not played")),
        ],
        rows: spreads.iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn one_that_was_not_played_is_foretold_only_where_they_differ() {
        let mut summary = summarise(&sample::run(&[sample::games(40), sample::games(40)]));
        let spread = |next| ShiftSpread {
            arm: "arm-1".into(),
            metric: "attacker_wins".into(),
            over: Sample::Scenarios,
            count: 8,
            mean: 0.029,
            low: -0.004,
            high: 0.062,
            tau: 0.04,
            next,
        };
        let said = |next| sentence(&summary, "Arm 1", &spread(next));
        assert_eq!(
            said(Some((-0.07, 0.128))),
            "Arm 1, attacker wins: over scenarios of this kind +2.9 pp on average (95 % −0.4 to +6.2); \
             in a scenario of this kind that was not played, expect −7.0 to +12.8 (percentage points)."
        );
        assert!(said(None).ends_with("; the scenarios differ by no more than chance may do."));
        summary.closer.spread = vec![spread(None)];
        let section = section(&summary);
        let Block::Table(table) = &section.blocks[1] else { panic!("{section:?}") };
        assert_eq!(table.rows[0][4].text, "4.0 pp");
        assert_eq!(table.rows[0][5].text, "not told apart from chance");
    }
}
