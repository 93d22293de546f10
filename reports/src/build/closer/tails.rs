//! The usual evening and the unusual one.

use ruleshift_record::{ArmSummary, Metric, Summary, TailPlace, TailShift};

use super::{labelled, scale};
use crate::build::tables::{others, reference};
use crate::report::{Block, Cell, Column, Section, Table};

/// The metrics that are shown in full: the evening, and who waits.
const FULL: [Metric; 5] =
    [Metric::Turns, Metric::Minutes, Metric::LongestWait, Metric::PlayerWait, Metric::LongestWatch];

/// The places of all other metrics that fit beside each other.
const BESIDE: [TailPlace; 3] = [TailPlace::Half, TailPlace::HighTenth, TailPlace::MeanOfHighTenth];

const ABOUT: &str = "A mean hides the evening that drags on. Half of the games are below the value in \
    the middle, one game in ten is below the lowest and one in ten above the highest; the mean of the \
    highest tenth says what the longest or worst games are like. A star marks a shift whose whole \
    interval is beyond the smallest shift worth noticing.";

pub(super) fn section(summary: &Summary) -> Section {
    let mut blocks = Vec::new();
    for arm in others(summary) {
        let tables = [full(summary, arm), rest(summary, arm)];
        blocks.extend(tables.into_iter().filter(|t| !t.rows.is_empty()).map(Block::Table));
    }
    if !blocks.is_empty() {
        let notes = others(summary).iter().filter_map(|arm| evening(summary, arm)).collect();
        blocks.splice(0..0, [Block::Paragraph(ABOUT.to_owned()), Block::Notes(notes)]);
    }
    Section::new("The usual game and the unusual one", blocks)
}

fn of<'a>(summary: &'a Summary, arm: &'a ArmSummary) -> impl Iterator<Item = &'a TailShift> {
    summary.closer.tails.iter().filter(move |tail| tail.arm == arm.name)
}

fn is_full(tail: &TailShift) -> bool {
    Metric::by_name(&tail.metric).is_some_and(|metric| FULL.contains(&metric))
}

/// What becomes of the evening, in a sentence.
fn evening(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let name = Metric::Minutes.spec().name;
    let at = |place| of(summary, arm).find(|t| t.metric == name && t.place == place);
    let (half, high) = (at(TailPlace::Half)?, at(TailPlace::HighTenth)?);
    let (tail, scale) = (at(TailPlace::MeanOfHighTenth)?, scale(summary, name));
    Some(format!(
        "{}: half of the evenings take less than {} minutes at the table instead of {}, and one in ten \
         more than {} instead of {}. The longest tenth take {} on average instead of {} ({}, 95 % {}).",
        arm.title,
        scale.value(half.value),
        scale.value(half.reference),
        scale.value(high.value),
        scale.value(high.reference),
        scale.value(tail.value),
        scale.value(tail.reference),
        scale.shift(tail.shift),
        scale.interval(tail.low, tail.high)
    ))
}

fn star(tail: &TailShift) -> &'static str {
    if tail.noticed { " *" } else { "" }
}

/// Length and waits, place by place.
fn full(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |tail: &TailShift| -> Vec<Cell> {
        let scale = scale(summary, &tail.metric);
        vec![
            Cell::metric(&tail.metric, labelled(summary, &tail.metric)),
            tail.place.words().to_owned().into(),
            scale.value(tail.reference).into(),
            scale.value(tail.value).into(),
            (scale.shift(tail.shift) + star(tail)).into(),
            scale.interval(tail.low, tail.high).into(),
        ]
    };
    Table {
        caption: format!("{}: length and waits", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::words("Place among the games"),
            Column::numbers(reference(summary)),
            Column::numbers(arm.name.as_str()),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
        ],
        rows: of(summary, arm).filter(|t| is_full(t)).map(row).collect(),
    }
}

/// The shifts of all other metrics, a row for each.
fn rest(summary: &Summary, arm: &ArmSummary) -> Table {
    let tails: Vec<&TailShift> = of(summary, arm).filter(|t| !is_full(t)).collect();
    let row = |own: &[&TailShift]| -> Vec<Cell> {
        let cell = |place: TailPlace| -> Cell {
            let Some(tail) = own.iter().find(|t| t.place == place) else {
                return "too few games".to_owned().into();
            };
            let scale = scale(summary, &tail.metric);
            let interval = scale.interval(tail.low, tail.high);
            format!("{} ({interval}){}", scale.signed(tail.shift), star(tail)).into()
        };
        let metric = &own[0].metric;
        let label = Cell::metric(metric, labelled(summary, metric));
        std::iter::once(label).chain(BESIDE.map(cell)).collect()
    };
    let places = BESIDE.map(|place| Column::numbers(place.words()));
    Table {
        caption: format!("{}: shifts of all others (95 % interval; shares in pp)", arm.title),
        columns: std::iter::once(Column::words("Metric")).chain(places).collect(),
        rows: tails.chunk_by(|a, b| a.metric == b.metric).map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn every_metric_with_tails_has_its_rows() {
        let summary = summarise(&sample::run(&[sample::games(40), sample::games(40)]));
        let arm = &summary.arms[1];
        let rest = rest(&summary, arm).rows.len();
        assert_eq!(full(&summary, arm).rows.len(), 4 * FULL.len());
        let tails = Metric::ALL.iter().filter(|m| m.spec().tail).count();
        assert_eq!(rest + FULL.len(), tails);
    }

    #[test]
    fn a_star_is_only_for_what_is_surely_noticed() {
        let games = sample::games(40);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for row in rows.iter_mut().filter(|row| row.arm == 1) {
                row.values[Metric::Minutes as usize] = 30.0;
                row.values[Metric::Turns as usize] += 0.2;
            }
        });
        let summary = summarise(&run);
        let rows = full(&summary, &summary.arms[1]).rows;
        assert_eq!((rows[0][4].text.as_str(), rows[4][4].text.as_str()), ("+0.20", "+30.0 *"));
        let said = evening(&summary, &summary.arms[1]).unwrap();
        assert!(said.contains("less than 30.0 minutes at the table instead of 0.0"), "{said}");
    }
}
