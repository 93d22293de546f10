//! What happens to the answers of one hook, as a table small enough to read.
//!
//! Only arguments on which an answer depends, before or after, become axes. One of them heads the
//! columns, the others lead the rows; values that make no difference share a row or a column.

mod cases;
mod labels;

use ruleshift_game::{Domain, HookSpec};
use serde::Serialize;

use cases::{Cases, Pair};
use labels::label;

/// Rows of a table that shows the unchanged cases too, and all answers as they are; a longer one shows
/// only rows with a change, and shifts if that makes it shorter.
const WHOLE: usize = 12;
/// Columns of text that a table may take.
const WIDTH: usize = 76;
/// Longest label before a reader's table is broken over lines.
const LABEL: usize = 24;
/// Blanks between columns.
const GAP: usize = 2;

/// The answers of one hook before and after, by those arguments that matter.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Grid {
    /// Arguments that lead the rows, in their order.
    pub rows_by: Vec<&'static str>,
    /// The argument that heads the columns; none when there is one column of answers.
    pub columns_by: Option<&'static str>,
    /// Values of that argument, one text for each column: `OPEN, LIGHT`. Empty when there is none.
    pub columns: Vec<String>,
    /// Whether cells say by how much the answers shift, not what they are before and after.
    pub shifts: bool,
    /// The rows, in the order of the arguments.
    pub rows: Vec<GridRow>,
    /// Combinations of arguments that are in no row, since their answers stay as they are.
    pub unchanged_elsewhere: usize,
}

/// One row: some values of the leading arguments, and the answers there.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GridRow {
    /// For each leading argument its values: `3-30`.
    pub values: Vec<String>,
    /// An answer for each column.
    pub cells: Vec<GridCell>,
    /// Combinations of arguments that it stands for.
    pub cases: usize,
}

/// What becomes of one answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GridCell {
    /// Whether it changes.
    pub changed: bool,
    /// `3 -> 4`, or `3` when it stays; in a table of shifts `1 more` or `same`.
    pub text: String,
}

impl GridCell {
    /// An answer before and after.
    pub(crate) fn of(spec: &HookSpec, (before, after): Pair) -> GridCell {
        let show = |answer: i16| spec.result.show(answer.into());
        let changed = before != after;
        let then = if changed { format!(" -> {}", show(after)) } else { String::new() };
        GridCell { changed, text: format!("{}{then}", show(before)) }
    }

    /// By how much an answer shifts.
    fn shift(_: &HookSpec, (_, by): Pair) -> GridCell {
        let text = match by {
            0 => "same".to_owned(),
            1.. => format!("{by} more"),
            _ => format!("{} less", -by),
        };
        GridCell { changed: by != 0, text }
    }
}

impl GridRow {
    /// Whether any of its answers changes.
    pub fn changed(&self) -> bool {
        self.cells.iter().any(|cell| cell.changed)
    }
}

/// The table of a hook; none when nothing changes or every case changes in the same way.
pub(crate) fn grid(spec: &HookSpec, before: &[i16], after: &[i16]) -> Option<Grid> {
    let cases = Cases::all(spec, before, after);
    if before == after || cases.axes().is_empty() {
        return None;
    }
    let answers = short(&cases, GridCell::of);
    if answers.rows.len() <= WHOLE || !matches!(spec.result, Domain::Int(..)) {
        return Some(answers);
    }
    // By how much numbers shift is often told in fewer words than what they are.
    let by: Vec<i16> = before.iter().zip(after).map(|(before, after)| after - before).collect();
    let none = vec![0; by.len()];
    let shifts = changed_only(&Cases::all(spec, &none, &by), GridCell::shift);
    let shorter = shifts.rows.len() < answers.rows.len();
    Some(if shorter { Grid { shifts: true, ..shifts } } else { answers })
}

/// How a cell is made of an answer before and after.
type Show = fn(&HookSpec, Pair) -> GridCell;

/// All rows, or those with a change when there are many.
fn short(cases: &Cases<'_>, show: Show) -> Grid {
    let whole = lay_out(cases, show);
    if whole.rows.len() <= WHOLE { whole } else { changed_only(cases, show) }
}

/// The rows with a change.
fn changed_only(cases: &Cases<'_>, show: Show) -> Grid {
    let mut part = lay_out(&cases.changed_only(), show);
    part.rows.retain(GridRow::changed);
    let shown: usize = part.rows.iter().map(|row| row.cases).sum();
    part.unchanged_elsewhere = cases.spec.cells() - shown;
    part
}

/// The layout with the fewest rows among those that are not too wide.
fn lay_out(cases: &Cases<'_>, show: Show) -> Grid {
    let axes = cases.axes();
    let plain = with_columns(cases, show, &axes, None);
    let heads = axes.iter().copied().filter(|_| axes.len() > 1);
    let headed = heads.map(|head| with_columns(cases, show, &axes, Some(head)));
    let fitting = headed.filter(|grid| width(grid) <= WIDTH);
    // Of equals the last: a table is read along its last argument.
    fitting.fold(plain, |best, grid| if grid.rows.len() <= best.rows.len() { grid } else { best })
}

fn with_columns(cases: &Cases<'_>, show: Show, axes: &[usize], head: Option<usize>) -> Grid {
    let spec = cases.spec;
    let leading: Vec<usize> = axes.iter().copied().filter(|&axis| Some(axis) != head).collect();
    let columns = head.map(|head| cases.groups(head)).unwrap_or_default();
    let name = |axis: usize| spec.args[axis].name;
    let text = |axis: usize, group: &[usize]| label(spec.args[axis].domain, group);
    let rows = cases.rows(&leading, head.map(|head| (head, columns.as_slice())));
    Grid {
        rows_by: leading.iter().map(|&axis| name(axis)).collect(),
        columns_by: head.map(name),
        columns: head.map_or(vec![], |head| columns.iter().map(|g| text(head, g)).collect()),
        shifts: false,
        unchanged_elsewhere: 0,
        rows: rows
            .iter()
            .map(|row| GridRow {
                values: leading.iter().zip(&row.groups).map(|(&a, g)| text(a, g)).collect(),
                cells: row.pairs.iter().map(|&pair| show(spec, pair)).collect(),
                cases: row.cases,
            })
            .collect(),
    }
}

/// About as wide as a reader's table gets.
fn width(grid: &Grid) -> usize {
    let widest = |texts: &mut dyn Iterator<Item = usize>| texts.max().unwrap_or(0) + GAP;
    let leading = (0..grid.rows_by.len()).map(|n| {
        let labels = grid.rows.iter().map(|row| row.values[n].len().min(LABEL));
        widest(&mut labels.chain([grid.rows_by[n].len()]))
    });
    let columns = grid.columns.iter().enumerate().map(|(n, head)| {
        let longest_word = head.split(", ").map(|word| word.len() + 1).max().unwrap_or(0);
        let cells = grid.rows.iter().map(|row| row.cells[n].text.len());
        widest(&mut cells.chain([longest_word]))
    });
    leading.chain(columns).sum()
}
