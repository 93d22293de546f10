//! How a table shares out the columns of the screen.

use comfy_table::{CellAlignment, ColumnConstraint, Width};

use super::super::{one_line, signed};
use crate::report::{Column, Table};

/// Columns that a label can be broken to.
const SHORTEST_LABEL: usize = 14;
/// Blanks between two columns of a table: the padding of the left one, and one that the table library
/// has there.
const GAP: usize = PADDING + 1;
const PADDING: usize = 2;
/// A place where a heading may be broken; takes no room.
pub(super) const BREAK: char = '\u{200b}';
/// Columns that a heading over numbers gets at least.
const SHORTEST_NUMBER: usize = 8;

/// Shares the width out: rather a heading is broken over two lines than a label, and rather a
/// label than a number or a verdict.
pub(super) fn lay_out(grid: &mut comfy_table::Table, table: &Table, screen: usize) {
    let whole: Vec<usize> = grid.column_max_content_widths().iter().map(|w| *w as usize).collect();
    let crowded = in_all(&whole) > screen;
    let widths = if crowded { squeezed(table, &whole, screen) } else { Some(whole) };
    if crowded {
        let room = |n: usize| widths.as_ref().map_or(0, |widths| widths[n]);
        let headings = table.columns.iter().enumerate().map(|(n, c)| broken(c, room(n)));
        grid.set_header(headings);
    }
    let last = table.columns.len().saturating_sub(1);
    for (n, column) in table.columns.iter().enumerate() {
        let Some(laid) = grid.column_mut(n) else { continue };
        let padding = if n == last { 0 } else { PADDING };
        laid.set_padding((0, padding as u16));
        if column.numeric {
            laid.set_cell_alignment(CellAlignment::Right);
            laid.set_delimiter(BREAK);
        }
        // Labels get the rest.
        if let Some(widths) = widths.as_ref().filter(|_| n > 0) {
            let width = Width::Fixed((widths[n] + padding) as u16);
            laid.set_constraint(ColumnConstraint::Absolute(width));
        }
    }
}

/// Columns that a heading over numbers gets.
type Heading = fn(&str) -> usize;

/// Widths of the columns of a table that is wider than the screen: numbers whole, headings over them
/// in two lines if there is room for that, words whole if there is room for that; nothing when not
/// even the numbers have room.
fn squeezed(table: &Table, whole: &[usize], screen: usize) -> Option<Vec<usize>> {
    let widths = |heading: Heading, words: usize| -> Vec<usize> {
        let width = |(n, column): (usize, &Column)| match column.numeric {
            _ if n == 0 => whole[0].min(SHORTEST_LABEL),
            true => body_width(table, n).max(heading(&one_line(&column.heading))),
            false => whole[n].min(words),
        };
        table.columns.iter().enumerate().map(width).collect()
    };
    let short: Heading = |heading| heading.chars().count().min(SHORTEST_NUMBER);
    // The more room for words the better, but not at the cost of numbers.
    let broken = (SHORTEST_LABEL..screen).rev().map(|words| (two_lines as Heading, words));
    [(two_lines as Heading, usize::MAX), (short, usize::MAX)]
        .into_iter()
        .chain(broken)
        .chain([(short, SHORTEST_LABEL)])
        .map(|(heading, words)| widths(heading, words))
        .find(|widths| in_all(widths) <= screen)
}

/// Width of a table whose columns are so wide.
fn in_all(widths: &[usize]) -> usize {
    widths.iter().map(|width| width + GAP).sum::<usize>().saturating_sub(GAP)
}

/// Width of a column's cells.
fn body_width(table: &Table, column: usize) -> usize {
    let cells = table.rows.iter().filter_map(|row| row.get(column));
    cells.map(|cell| signed(cell).chars().count()).max().unwrap_or(0)
}

/// A heading with the places at which it may be broken: in two, if so many columns have room for that.
fn broken(column: &Column, room: usize) -> String {
    let heading = one_line(&column.heading);
    match halves(&heading) {
        Some((one, other)) if column.numeric && two_lines(&heading) <= room => {
            let whole = width(&heading) <= room;
            if whole { heading } else { format!("{}\n{other}", one.trim()) }
        }
        _ => {
            let heading = heading.replace('-', &format!("-{BREAK}"));
            // Columns of numbers break at nothing else.
            if column.numeric { heading.replace(' ', &format!(" {BREAK}")) } else { heading }
        }
    }
}

/// Columns that a heading needs when it may be broken once.
fn two_lines(heading: &str) -> usize {
    halves(heading).map_or(width(heading), |(one, other)| width(one).max(width(other)))
}

/// A heading broken once, at a blank or behind a hyphen, where it gets narrowest.
fn halves(heading: &str) -> Option<(&str, &str)> {
    let breaks = heading.match_indices([' ', '-']).map(|(at, _)| heading.split_at(at + 1));
    breaks.min_by_key(|(one, other)| width(one).max(width(other)))
}

fn width(text: &str) -> usize {
    text.trim().chars().count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_are_broken_where_least_is_lost() {
        assert_eq!(two_lines("two-turn-end-cards"), "two-turn-".len());
        assert_eq!(two_lines("95 % interval"), "interval".len());
        assert_eq!([two_lines("Shift"), two_lines("")], [5, 0]);
    }
}
