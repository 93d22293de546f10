//! What happens to the answers of one hook, as a table small enough to read.
//!
//! Only arguments on which an answer depends, before or after, become axes. One of them heads the
//! columns, the others lead the rows; values that make no difference share a row or a column.

mod cases;
mod labels;

use ruleshift_game::HookSpec;
use serde::Serialize;

use cases::{Cases, Pair};
use labels::label;

/// Rows of a table that shows the unchanged cases too; a longer one shows only rows with a change.
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

/// One answer before and after.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GridCell {
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
}

impl GridCell {
    pub(crate) fn of(spec: &HookSpec, (before, after): Pair) -> GridCell {
        let show = |answer: i16| spec.result.show(answer.into());
        GridCell { before: show(before), after: show(after) }
    }

    /// Whether it changes.
    pub fn changed(&self) -> bool {
        self.before != self.after
    }

    /// `3 -> 4`, or `3` when it stays.
    pub fn text(&self) -> String {
        match self.changed() {
            true => format!("{} -> {}", self.before, self.after),
            false => self.before.clone(),
        }
    }
}

impl GridRow {
    /// Whether any of its answers changes.
    pub fn changed(&self) -> bool {
        self.cells.iter().any(GridCell::changed)
    }
}

/// The table of a hook; none when nothing changes or every case changes in the same way.
pub(crate) fn grid(spec: &HookSpec, before: &[i16], after: &[i16]) -> Option<Grid> {
    let cases = Cases::all(spec, before, after);
    if before == after || cases.axes().is_empty() {
        return None;
    }
    let whole = lay_out(spec, &cases);
    if whole.rows.len() <= WHOLE {
        return Some(whole);
    }
    let mut part = lay_out(spec, &cases.changed_only());
    part.rows.retain(GridRow::changed);
    part.unchanged_elsewhere =
        spec.cells() - part.rows.iter().map(|row| row.cases).sum::<usize>();
    Some(part)
}

/// The layout with the fewest rows among those that are not too wide.
fn lay_out(spec: &HookSpec, cases: &Cases<'_>) -> Grid {
    let axes = cases.axes();
    let plain = with_columns(spec, cases, &axes, None);
    let heads = axes.iter().copied().filter(|_| axes.len() > 1);
    let headed = heads.map(|head| with_columns(spec, cases, &axes, Some(head)));
    let fitting = headed.filter(|grid| width(grid) <= WIDTH);
    // Of equals the last: a table is read along its last argument.
    fitting.fold(plain, |best, grid| if grid.rows.len() <= best.rows.len() { grid } else { best })
}

fn with_columns(spec: &HookSpec, cases: &Cases<'_>, axes: &[usize], head: Option<usize>) -> Grid {
    let leading: Vec<usize> = axes.iter().copied().filter(|&axis| Some(axis) != head).collect();
    let columns = head.map(|head| cases.groups(head)).unwrap_or_default();
    let name = |axis: usize| spec.args[axis].name;
    let text = |axis: usize, group: &[usize]| label(spec.args[axis].domain, group);
    let rows = cases.rows(&leading, head.map(|head| (head, columns.as_slice())));
    Grid {
        rows_by: leading.iter().map(|&axis| name(axis)).collect(),
        columns_by: head.map(name),
        columns: head.map_or(vec![], |head| columns.iter().map(|g| text(head, g)).collect()),
        unchanged_elsewhere: 0,
        rows: rows
            .iter()
            .map(|row| GridRow {
                values: leading.iter().zip(&row.groups).map(|(&a, g)| text(a, g)).collect(),
                cells: row.pairs.iter().map(|&pair| GridCell::of(spec, pair)).collect(),
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
        let cells = grid.rows.iter().map(|row| row.cells[n].text().len());
        widest(&mut cells.chain([longest_word]))
    });
    leading.chain(columns).sum()
}
