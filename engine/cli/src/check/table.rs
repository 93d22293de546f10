//! Before and after as a table for the terminal.

use comfy_table::presets::NOTHING;
use comfy_table::{ContentArrangement, Table};
use ruleshift_hooks::{Grid, GridRow};

/// Rows shown of one table.
const ROWS: usize = 12;
/// Blanks between columns.
const GAP: u16 = 2;
/// Longest line of a list of values.
const LABEL: usize = 30;

/// The table in `width` columns of text, its lines indented, with a word on what is not in it.
pub(super) fn table(grid: &Grid, width: usize, indent: &str) -> String {
    if let ([only], [], None) = (&grid.rows[..], &grid.rows_by[..], grid.columns_by) {
        return format!("{indent}{} in every case\n", only.cells[0].text);
    }
    // Rows with a change are what a reader looks for.
    let changed: Vec<&GridRow> = grid.rows.iter().filter(|row| row.changed()).collect();
    let rows = if grid.rows.len() <= ROWS { grid.rows.iter().collect() } else { changed.clone() };
    let shown = &rows[..rows.len().min(ROWS)];
    let everywhere = everywhere(grid, shown);
    let leading: Vec<usize> = (0..grid.rows_by.len()).filter(|n| !everywhere.contains(n)).collect();

    let mut table = Table::new();
    table
        .load_style(NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width.saturating_sub(indent.len()) as u16)
        .set_header(head(grid, &leading));
    for row in cells(shown, &leading) {
        table.add_row(row);
    }
    for column in table.column_iter_mut() {
        column.set_padding((0, GAP));
    }
    let conditions = conditions(grid, shown, &everywhere);
    let drawn = table.trim_fmt();
    let lines = conditions.iter().map(String::as_str).chain(drawn.lines());
    let rest = rest(grid, changed.len().saturating_sub(shown.len()));
    let lines = lines.map(str::trim_end).chain(rest.as_deref());
    lines.map(|line| format!("{indent}{line}\n")).collect()
}

/// Leading arguments that have the same value in all rows of a table with several.
fn everywhere(grid: &Grid, rows: &[&GridRow]) -> Vec<usize> {
    let same = |n: &usize| rows.iter().all(|row| row.values[*n] == rows[0].values[*n]);
    if rows.len() < 2 { vec![] } else { (0..grid.rows_by.len()).filter(same).collect() }
}

/// `Where moved = true:`
fn conditions(grid: &Grid, rows: &[&GridRow], everywhere: &[usize]) -> Option<String> {
    let one = |&n: &usize| format!("{} = {}", grid.rows_by[n], rows[0].values[n]);
    let all: Vec<String> = everywhere.iter().map(one).collect();
    (!all.is_empty()).then(|| format!("Where {}:", all.join(" and ")))
}

/// The names of the leading arguments; over the columns the name of theirs, with its values.
fn head(grid: &Grid, leading: &[usize]) -> Vec<String> {
    let leading = leading.iter().map(|&n| grid.rows_by[n]);
    let Some(name) = grid.columns_by else {
        return leading.chain(["answer"]).map(str::to_owned).collect();
    };
    let over = |n: usize| if n == 0 { name } else { "" };
    let columns =
        grid.columns.iter().enumerate().map(|(n, values)| format!("{}\n{values}", over(n)));
    leading.map(|name| format!("\n{name}")).chain(columns).collect()
}

/// The cells of all rows. Leading values that are those of the row above are not said again; what
/// is left of a long list of them goes on in their place.
fn cells(rows: &[&GridRow], leading: &[usize]) -> Vec<Vec<String>> {
    let mut going_on: Vec<Vec<String>> = vec![vec![]; leading.len()];
    let mut all = Vec::new();
    for (place, row) in rows.iter().enumerate() {
        let same = |row: &GridRow, above: &GridRow| {
            leading.iter().take_while(|n| row.values[**n] == above.values[**n]).count()
        };
        let known = if place == 0 { 0 } else { same(row, rows[place - 1]) };
        let below = rows.get(place + 1).map_or(0, |below| same(below, row));
        let mut cells = Vec::new();
        for (n, lines) in going_on.iter_mut().enumerate() {
            if n >= known {
                *lines = broken(&row.values[leading[n]]);
            }
            let here = if n < below { lines.len().min(1) } else { lines.len() };
            cells.push(lines.drain(..here).collect::<Vec<_>>().join("\n"));
        }
        cells.extend(row.cells.iter().map(|cell| cell.text.clone()));
        all.push(cells);
    }
    all
}

/// A list of values in lines.
fn broken(values: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for value in values.split_inclusive(' ') {
        match lines.last_mut() {
            Some(line) if line.len() + value.trim_end().len() <= LABEL => line.push_str(value),
            _ => lines.push(value.to_owned()),
        }
    }
    lines.iter().map(|line| line.trim_end().to_owned()).collect()
}

/// What is not in the table.
fn rest(grid: &Grid, left_out: usize) -> Option<String> {
    let rows = match left_out {
        0 => None,
        1 => Some("1 more row with a change is not shown."),
        _ => Some("more rows with a change are not shown."),
    };
    let count = if left_out > 1 { format!("{left_out} ") } else { String::new() };
    let rows = rows.map(|rows| format!("{count}{rows}"));
    let elsewhere = (grid.unchanged_elsewhere > 0).then_some("Everywhere else nothing changes.");
    let said: Vec<&str> = rows.as_deref().into_iter().chain(elsewhere).collect();
    (!said.is_empty()).then(|| said.join(" "))
}
