//! How games unfold: the margin by turn, drawn and as a table.

use ruleshift_record::{Course, CourseTurn, Summary};

use super::drawn;
use crate::format::{Scale, count, fixed};
use crate::report::{Block, Cell, Chart, Column, CoursePanel, Plot, Section, Table};

const ABOUT: &str = "The attacker's points less the defender's at the end of each turn: above zero the \
    attacker is ahead. All games are counted at every turn; one that has ended keeps the margin it ended \
    with, to which belongs what counts only at the end. Bands say how much games differ, not how sure the \
    line is.";

/// The section; without blocks when no game says how it went.
pub(super) fn section(summary: &Summary) -> Section {
    let courses = courses(summary);
    let blocks = match courses.is_empty() {
        true => vec![],
        false => {
            vec![Block::Paragraph(ABOUT.to_owned()), Block::Chart(chart(summary, &courses))]
        }
    };
    Section::new("How games unfold", blocks)
}

/// Title and course of each arm that is drawn and has one.
fn courses(summary: &Summary) -> Vec<(&str, &Course)> {
    let of = |name: &str| summary.course.iter().find(|course| course.arm == name);
    let arms = drawn::arms(summary).into_iter();
    arms.filter_map(|arm| Some((arm.title.as_str(), of(&arm.name)?))).collect()
}

fn chart(summary: &Summary, courses: &[(&str, &Course)]) -> Chart {
    let panel = |(title, course): &(&str, &Course)| CoursePanel {
        title: (*title).to_owned(),
        turns: course.turns.clone(),
    };
    let said: Vec<String> = courses.iter().map(|(title, course)| said(title, course)).collect();
    Chart {
        title: "The margin by turn".to_owned(),
        description: format!(
            "A panel for each arm: a line for the median, a dark band with the middle half of the games, \
             a light band with the middle nine tenths; in the panels of other arms the median of the \
             reference is dashed. {}.{}",
            said.join(". "),
            drawn::told(summary)
        ),
        series: courses.iter().map(|(title, _)| (*title).to_owned()).collect(),
        plot: Plot::Course { panels: courses.iter().map(panel).collect() },
        data: data(courses),
    }
}

/// Where the margin stands half way, and at the end.
fn said(title: &str, course: &Course) -> String {
    let at = |turn: &CourseTurn| {
        let half = format!("{} to {}", margin(turn.inner_low), margin(turn.inner_high));
        format!("{} after turn {} (middle half {half})", margin(turn.median), turn.turn)
    };
    // Turn n / 2 of n, rounded up, and turn n.
    let middle = &course.turns[(course.turns.len() - 1) / 2];
    let last = course.turns.last().filter(|last| last.turn > middle.turn);
    let told: Vec<String> = std::iter::once(middle).chain(last).map(at).collect();
    format!("Under {title} the median margin is {}", told.join(", and "))
}

fn margin(value: f64) -> String {
    fixed(value, 1)
}

/// Every turn as a row; of every arm the games still going, the median and both bands.
fn data(courses: &[(&str, &Course)]) -> Table {
    let heads = |(_, course): &(&str, &Course)| {
        let head = |what: &str| Column::numbers(format!("{}: {what}", course.arm));
        ["still going", "median", "middle half", "middle nine tenths"].map(head)
    };
    let cells = |course: &Course, row: usize| -> [Cell; 4] {
        let turn = &course.turns[row];
        let going = f64::from(turn.going) / f64::from(course.games.max(1));
        let band = |low, high| format!("{} to {}", margin(low), margin(high));
        [
            Scale::new("share", 1.0).value(going),
            margin(turn.median),
            band(turn.inner_low, turn.inner_high),
            band(turn.outer_low, turn.outer_high),
        ]
        .map(Cell::from)
    };
    let row = |n: usize| -> Vec<Cell> {
        let own = courses.iter().flat_map(|(_, course)| cells(course, n));
        std::iter::once(count(n as u64 + 1).into()).chain(own).collect()
    };
    let turns = courses.iter().map(|(_, course)| course.turns.len()).min().unwrap_or(0);
    Table {
        caption: "Margin at the end of each turn; still going: games in which the turn was played"
            .to_owned(),
        columns: std::iter::once(Column::numbers("Turn"))
            .chain(courses.iter().flat_map(heads))
            .collect(),
        rows: (0..turns).map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    /// Every other game of the second arm ends after three turns, at a margin of 4.
    fn summary() -> Summary {
        let games = sample::games(40);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for row in rows.iter_mut().filter(|row| row.arm == 1 && row.game % 2 == 0) {
                row.margins = vec![1, 2, 4];
            }
        });
        summarise(&run)
    }

    fn texts(row: &[Cell]) -> Vec<&str> {
        row.iter().map(|cell| cell.text.as_str()).collect()
    }

    #[test]
    fn the_table_says_who_still_plays_and_where_the_margin_stands() {
        let section = section(&summary());
        let Some(Block::Chart(chart)) = section.blocks.get(1) else { panic!("{section:?}") };
        assert_eq!((chart.data.rows.len(), chart.data.columns.len()), (8, 9));
        // Until the last turn all games of the reference are level.
        let level = ["4", "100.0 %", "0.0", "0.0 to 0.0", "0.0 to 0.0", "50.0 %"];
        assert_eq!(texts(&chart.data.rows[3])[..6], level);
        assert_eq!(texts(&chart.data.rows[2])[5..7], ["100.0 %", "2.0"]);
        let said =
            "Under Base rules the median margin is 0.0 after turn 4 (middle half 0.0 to 0.0)";
        assert!(chart.description.contains(said), "{}", chart.description);
    }

    #[test]
    fn no_course_is_no_section() {
        assert!(section(&summarise(&sample::run(&[vec![], vec![]]))).blocks.is_empty());
    }
}
