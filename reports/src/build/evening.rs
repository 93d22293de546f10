//! How long the evening gets, and who waits in it.

use ruleshift_record::{Metric, MetricShift, RunRecord, Summary};

use super::charts::distribution;
use super::tables::{chosen, others};
use crate::report::{Block, Section};

/// What is told of length; the first two are drawn.
const LENGTH: [Metric; 6] = [
    Metric::Turns,
    Metric::Minutes,
    Metric::AttackerMinutes,
    Metric::DefenderMinutes,
    Metric::SharedMinutes,
    Metric::FirstContact,
];

/// What is told of waiting and idleness; the first is drawn.
const WAITING: [Metric; 5] = [
    Metric::IdleUnits,
    Metric::LongestWait,
    Metric::PlayerWait,
    Metric::LongestWatch,
    Metric::CardsPerTurn,
];

const MINUTES: &str = "Turns are what the rules count, minutes are what the club feels: a turn with more \
    to do takes longer. Minutes come from the timing table, seconds for each turn, card, action, throw \
    and choice; they are as right as that table is for your club.";

const IDLE: &str = "A unit is idle in a turn that ends without an action of its own. Who waits long leaves \
    the table in his thoughts, so not only the mean counts: how long the longest waits get stands under \
    \"The usual game and the unusual one\".";

/// Turns and minutes.
pub(super) fn length(summary: &Summary, run: &RunRecord) -> Section {
    let blocks = blocks(summary, run, MINUTES, (&LENGTH, 2));
    Section::new("Length and table minutes", blocks)
}

/// Units without anything to do, and players who watch.
pub(super) fn waiting(summary: &Summary, run: &RunRecord) -> Section {
    let blocks = blocks(summary, run, IDLE, (&WAITING, 1));
    Section::new("Waiting and idle units", blocks)
}

/// What it is about, the shifts of these metrics under each arm, and pictures of the first few; nothing
/// when nothing was played.
fn blocks(
    summary: &Summary,
    run: &RunRecord,
    about: &str,
    (metrics, pictures): (&[Metric], usize),
) -> Vec<Block> {
    let wanted = |m: &MetricShift| Metric::by_name(&m.metric).is_some_and(|m| metrics.contains(&m));
    let tables = others(summary).iter().map(|arm| chosen(summary, arm, wanted));
    let tables: Vec<Block> = tables.filter(|t| !t.rows.is_empty()).map(Block::Table).collect();
    let drawn = metrics[..pictures].iter().filter_map(|&m| distribution(summary, run, m));
    let drawn: Vec<Block> = drawn.map(Block::Chart).collect();
    let told =
        (!tables.is_empty() || !drawn.is_empty()).then(|| Block::Paragraph(about.to_owned()));
    told.into_iter().chain(tables).chain(drawn).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn each_section_has_a_row_for_each_of_its_metrics_and_its_pictures() {
        let run = sample::run(&[sample::games(20), sample::games(20)]);
        let summary = summarise(&run);
        let found = [length(&summary, &run), waiting(&summary, &run)];
        for (section, (rows, pictures)) in found.iter().zip([(6, 2), (5, 1)]) {
            let Block::Table(table) = &section.blocks[1] else { panic!("{section:?}") };
            assert_eq!(table.rows.len(), rows, "{table:?}");
            let charts = section.blocks.iter().filter(|b| matches!(b, Block::Chart(_)));
            assert_eq!(charts.count(), pictures, "{section:?}");
        }
    }

    #[test]
    fn nothing_played_is_nothing_said() {
        let run = sample::run(&[vec![], vec![]]);
        let summary = summarise(&run);
        assert!(length(&summary, &run).blocks.is_empty());
        assert!(waiting(&summary, &run).blocks.is_empty());
    }
}
