//! What hardly ever, or nearly always, happens.

use ruleshift_record::{RareEvent, Summary};

use crate::format::{count, fixed};
use crate::report::{Block, Cell, Column, Section, Table};
use crate::words::label;

const ABOUT: &str = "So few games say anything else that the usual intervals would mislead. These are \
    exact: what never happened may still happen as often as the upper end says.";

pub(super) fn section(summary: &Summary) -> Section {
    let rows: Vec<Vec<Cell>> = summary.closer.rare.iter().map(row).collect();
    if rows.is_empty() {
        return Section::new("What hardly ever happens", vec![]);
    }
    let table = Table {
        caption: "Questions that nearly all games of an arm answer alike".to_owned(),
        columns: vec![
            Column::words("Question"),
            Column::words("Arm"),
            Column::numbers("Games with yes"),
            Column::numbers("Share"),
            Column::numbers("95 % interval"),
        ],
        rows,
    };
    let blocks = vec![Block::Paragraph(ABOUT.to_owned()), Block::Table(table)];
    Section::new("What hardly ever happens", blocks)
}

fn row(rare: &RareEvent) -> Vec<Cell> {
    let share = f64::from(rare.events) / f64::from(rare.games.max(1));
    let decimals = decimals(rare.high - rare.low);
    let percent = |share: f64| fixed(100.0 * share, decimals);
    vec![
        Cell::metric(&rare.metric, label(&rare.metric)),
        rare.arm.clone().into(),
        match rare.events {
            0 => format!("never in {}", count(u64::from(rare.games))),
            n => format!("{} of {}", count(u64::from(n)), count(u64::from(rare.games))),
        }
        .into(),
        format!("{} %", percent(share)).into(),
        format!("{} to {} %", percent(rare.low), percent(rare.high)).into(),
    ]
}

/// So many that the width of an interval has two digits.
fn decimals(width: f64) -> usize {
    (0..6).find(|n| 100.0 * width * 10_f64.powi(*n) >= 10.0).unwrap_or(6) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_never_happened_may_happen() {
        let never = RareEvent {
            arm: "base".into(),
            metric: "drawn".into(),
            events: 0,
            games: 100_000,
            low: 0.0,
            high: 0.000_036_89,
        };
        let texts = |rare: &RareEvent| row(rare).into_iter().map(|c| c.text).collect::<Vec<_>>();
        assert_eq!(
            texts(&never),
            ["drawn", "base", "never in 100,000", "0.0000 %", "0.0000 to 0.0037 %"]
        );
        let some = RareEvent { events: 3, games: 40, low: 0.0157, high: 0.2039, ..never };
        assert_eq!(texts(&some)[2..], ["3 of 40", "8 %", "2 to 20 %"]);
    }
}
