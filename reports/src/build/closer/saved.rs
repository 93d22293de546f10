//! What the same sureness would have cost without each way of being surer.

use ruleshift_record::{ArmSummary, Saved, Summary};

use crate::build::tables::others;
use crate::format::{about, count};
use crate::report::{Block, Cell, Column, Section, Table};
use crate::words::label;

const ABOUT: &str = "Games in each arm that would have made us as sure of the shift: had each arm luck \
    of its own; and had scenarios been drawn by chance and not shared out evenly.";

/// A known margin must save so much before it is worth a word.
const HELPS: f64 = 0.9;

pub(super) fn section(summary: &Summary) -> Section {
    let tables = others(summary).iter().map(|arm| table(summary, arm));
    let mut blocks: Vec<Block> = tables.filter(|t| !t.rows.is_empty()).map(Block::Table).collect();
    if !blocks.is_empty() {
        blocks.insert(0, Block::Paragraph(format!("{ABOUT} {}", margin(summary))));
    }
    Section::new("What playing with the same luck saved", blocks)
}

/// Why no luck was taken out of the shifts, and what that might have been worth.
fn margin(summary: &Summary) -> String {
    const NONE: &str = "Beyond that no luck was taken out: it would take a number of each game whose \
        mean is known before any is played, and a run has none.";
    let helps = |s: &&Saved| s.margin.is_some_and(|ratio| ratio < HELPS);
    match summary.closer.saved.iter().any(|s| helps(&s)) {
        true => format!(
            "{NONE} The nearest is the margin under the reference: were its mean known from very many \
             games of the reference alone, so many pairs as the last column says would do."
        ),
        false => format!(
            "{NONE} Not even a known mean of the margin under the reference, as in the last column, \
             would have saved much."
        ),
    }
}

fn table(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |saved: &Saved| -> Vec<Cell> {
        let pairs = f64::from(saved.pairs);
        vec![
            Cell::metric(&saved.metric, label(&saved.metric)),
            count(u64::from(saved.pairs)).into(),
            needed(pairs / saved.luck).into(),
            needed(pairs / saved.strata).into(),
            saved.margin.map_or("not known".to_owned(), |ratio| needed(pairs * ratio)).into(),
        ]
    };
    let own = summary.closer.saved.iter().filter(|s| s.arm == arm.name);
    Table {
        caption: arm.title.clone(),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Pairs compared"),
            Column::numbers("Without the same luck"),
            Column::numbers("Scenarios by chance"),
            Column::numbers("Were the margin known"),
        ],
        rows: own.map(row).collect(),
    }
}

/// So many games, roughly.
fn needed(games: f64) -> String {
    if games < f64::from(u32::MAX) { about(games.ceil() as u32) } else { "no limit".to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_of_the_variance_is_worth_four_times_the_games() {
        assert_eq!(
            [needed(1000.0 / 0.25), needed(1000.0), needed(1.0 / 0.0)],
            ["4,000", "1,000", "no limit"]
        );
    }

    #[test]
    fn a_margin_that_would_save_nothing_is_said_to() {
        let games = crate::sample::games(200);
        let arm = games.iter().map(|&(s, g, m)| (s, g, m + f64::from(g / 13 % 3))).collect();
        let mut summary = crate::summarise(&crate::sample::run(&[games, arm]));
        assert!(margin(&summary).ends_with("would have saved much."), "{:?}", summary.closer.saved);
        summary.closer.saved[0].margin = Some(0.5);
        assert!(margin(&summary).ends_with("as the last column says would do."));
    }
}
