//! How long both sides hold out, as a chart and in words.

use ruleshift_record::{HoldingCurve, HoldingShift, Summary};

use crate::build::tables::reference;
use crate::format::{Scale, count, fixed, p_value};
use crate::report::{Block, Cell, Chart, Column, Plot, Section, Table};

const ABOUT: &str = "A game that ends because a side broke, or had nobody left, has ended of itself. \
    One that the turn limit ended was cut: nobody knows how long both sides would have held out. So \
    the question is in how many games both sides still hold after so many turns. Each scenario is \
    followed up to its own turn limit and keeps its share from there on.";

pub(super) fn section(summary: &Summary) -> Section {
    let mut blocks = Vec::new();
    if let Some(holding) = &summary.closer.holding {
        let sentences = holding.shifts.iter().filter_map(|s| sentence(summary, s)).collect();
        blocks.push(Block::Paragraph(ABOUT.to_owned()));
        blocks.push(Block::Notes(sentences));
        blocks.push(Block::Chart(chart(summary, &holding.curves)));
        blocks.push(Block::Table(table(summary, &holding.shifts)));
    }
    Section::new("How long both sides hold out", blocks)
}

fn title(summary: &Summary, arm: &str) -> String {
    summary.arms.iter().find(|a| a.name == arm).map_or(arm, |a| a.title.as_str()).to_owned()
}

fn curve<'a>(summary: &'a Summary, arm: &str) -> Option<&'a HoldingCurve> {
    summary.closer.holding.as_ref()?.curves.iter().find(|curve| curve.arm == arm)
}

fn percent(share: f64) -> String {
    Scale::new("share", 1.0).value(share)
}

fn cut(curve: &HoldingCurve) -> f64 {
    f64::from(curve.cut) / f64::from((curve.cut + curve.broke).max(1))
}

fn turns() -> Scale<'static> {
    Scale::new("turns", 0.3)
}

fn sentence(summary: &Summary, shift: &HoldingShift) -> Option<String> {
    let (one, other) = (curve(summary, reference(summary))?, curve(summary, &shift.arm)?);
    let scale = turns();
    let sure = shift.low > 0.0 || shift.high < 0.0;
    let words = match sure {
        true => format!(
            "Up to there they hold out {} {} on average",
            scale.amount(shift.shift),
            if shift.shift > 0.0 { "longer" } else { "less" }
        ),
        false => "Whether they hold out longer up to there is not shown".to_owned(),
    };
    Some(format!(
        "{}: in {} of games both sides still hold when the turn limit comes, instead of {}. {words} \
         ({}, 95 % {}).",
        title(summary, &shift.arm),
        percent(cut(other)),
        percent(cut(one)),
        scale.shift(shift.shift),
        scale.interval(shift.low, shift.high)
    ))
}

/// All turns at which a game of any arm ended.
fn ends(curves: &[HoldingCurve]) -> Vec<f64> {
    let mut turns: Vec<f64> = curves.iter().flat_map(|c| c.points.iter().map(|p| p.turn)).collect();
    turns.sort_by(f64::total_cmp);
    turns.dedup();
    turns
}

fn chart(summary: &Summary, curves: &[HoldingCurve]) -> Chart {
    let line = |curve: &HoldingCurve| -> Vec<(f64, f64)> {
        let points = curve.points.iter().map(|p| (p.turn, p.share));
        std::iter::once((0.0, 1.0)).chain(points).collect()
    };
    let said = |curve: &HoldingCurve| {
        let half = curve.points.iter().find(|p| p.share <= 0.5);
        let half = half.map_or("in more than half to the turn limit".to_owned(), |p| {
            format!("in half of the games until turn {}", fixed(p.turn, 0))
        });
        let end = percent(curve.points.last().map_or(1.0, |p| p.share));
        format!("under {} both sides hold {half}, in {end} to the end", title(summary, &curve.arm))
    };
    Chart {
        title: "Games in which both sides still hold".to_owned(),
        description: format!(
            "A line for each arm that falls by the share of games that end with each turn: {}.",
            curves.iter().map(said).collect::<Vec<_>>().join("; ")
        ),
        series: curves.iter().map(|curve| title(summary, &curve.arm)).collect(),
        data: data(curves),
        plot: Plot::Steps { curves: curves.iter().map(line).collect(), axis: "after turn".into() },
    }
}

/// The share after every turn, with its interval.
fn data(curves: &[HoldingCurve]) -> Table {
    let cell = |curve: &HoldingCurve, turn: f64| -> Cell {
        match curve.points.iter().rfind(|p| p.turn <= turn) {
            Some(p) if p.low < p.high => {
                let (low, high) = (percent(p.low), percent(p.high));
                format!("{} ({} to {high})", percent(p.share), low.trim_end_matches(" %")).into()
            }
            Some(p) => percent(p.share).into(),
            None => percent(1.0).into(),
        }
    };
    let row = |turn: f64| -> Vec<Cell> {
        let shares = curves.iter().map(|curve| cell(curve, turn));
        std::iter::once(fixed(turn, usize::from(turn.fract() != 0.0)).into())
            .chain(shares)
            .collect()
    };
    let arms = curves.iter().map(|curve| Column::numbers(curve.arm.as_str()));
    Table {
        caption: "Share of games in which both sides still hold (95 % interval)".to_owned(),
        columns: std::iter::once(Column::numbers("After turn")).chain(arms).collect(),
        rows: ends(curves).into_iter().map(row).collect(),
    }
}

fn table(summary: &Summary, shifts: &[HoldingShift]) -> Table {
    let scale = turns();
    let row = |shift: &HoldingShift| -> Vec<Cell> {
        vec![
            title(summary, &shift.arm).into(),
            count(u64::from(shift.pairs)).into(),
            scale.value(shift.reference).into(),
            scale.value(shift.mean).into(),
            scale.shift(shift.shift).into(),
            scale.interval(shift.low, shift.high).into(),
            shift.p.map_or("none ended".to_owned(), p_value).into(),
        ]
    };
    Table {
        caption: "Mean turns until a side breaks or the turn limit comes; p: the curves are alike"
            .to_owned(),
        columns: vec![
            Column::words("Arm"),
            Column::numbers("Pairs"),
            Column::numbers(reference(summary)),
            Column::numbers("This arm"),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
            Column::numbers("p, log-rank"),
        ],
        rows: shifts.iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use ruleshift_record::Metric;

    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn a_side_that_breaks_sooner_is_told_in_words_and_numbers() {
        let games = sample::games(200);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for row in rows {
                let breaks = row.game % 4 == 0 || (row.arm == 1 && row.game % 4 == 1);
                row.values[Metric::Turns as usize] = if breaks { 5.0 } else { 8.0 };
                row.values[Metric::EndedByObjective as usize] = f64::from(u8::from(!breaks));
            }
        });
        let section = section(&summarise(&run));
        let Block::Notes(notes) = &section.blocks[1] else { panic!("{section:?}") };
        assert!(notes[0].starts_with(
            "Arm 1: in 50.0 % of games both sides still hold when the turn limit comes, instead of \
             75.0 %. Up to there they hold out 0.75 turns less on average (−0.75, 95 % −0.93 to −0.57)"
        ), "{notes:?}");
        let Block::Chart(chart) = &section.blocks[2] else { panic!("{section:?}") };
        let Plot::Steps { curves, .. } = &chart.plot else { panic!("{chart:?}") };
        assert_eq!(curves[0], [(0.0, 1.0), (5.0, 0.75)]);
        assert_eq!(chart.data.rows[0][0].text, "5");
        assert!(chart.data.rows[0][2].text.starts_with("50.0 % (42."), "{:?}", chart.data);
        assert!(chart.description.contains("under Base rules both sides hold in more than half"));
    }
}
