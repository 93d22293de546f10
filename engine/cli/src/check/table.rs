//! Before and after as a table for the terminal.

use comfy_table::presets::NOTHING;
use comfy_table::{ContentArrangement, Table};
use ruleshift_hooks::{Grid, GridRow};

/// Rows shown of one table.
const ROWS: usize = 12;
/// Blanks between columns.
const GAP: u16 = 2;

/// The table in `width` columns of text, its lines indented, with a word on what is not in it.
pub(super) fn table(grid: &Grid, width: usize, indent: &str) -> String {
    // Rows with a change are what a reader looks for.
    let changed = grid.rows.iter().filter(|row| row.changed()).count();
    let shown: Vec<&GridRow> = match grid.rows.len() <= ROWS {
        true => grid.rows.iter().collect(),
        false => grid.rows.iter().filter(|row| row.changed()).take(ROWS).collect(),
    };
    let mut table = Table::new();
    table
        .load_style(NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width((width - indent.len()) as u16)
        .set_header(head(grid));
    let mut above: Option<&GridRow> = None;
    for row in &shown {
        table.add_row(cells(row, above));
        above = Some(row);
    }
    for column in table.column_iter_mut() {
        column.set_padding((0, GAP));
    }
    let mut text: String =
        table.trim_fmt().lines().map(|line| format!("{indent}{line}").trim_end().to_owned() + "\n").collect();
    if let Some(rest) = rest(grid, changed, shown.len()) {
        text += &format!("{indent}{rest}\n");
    }
    text
}

/// The names of the leading arguments; over the columns the name of theirs, with its values.
fn head(grid: &Grid) -> Vec<String> {
    let Some(name) = grid.columns_by else {
        return grid.rows_by.iter().copied().chain(["answer"]).map(str::to_owned).collect();
    };
    let leading = grid.rows_by.iter().map(|name| format!("\n{name}"));
    let columns = grid.columns.iter().enumerate();
    leading
        .chain(columns.map(|(n, values)| match n {
            0 => format!("{name}\n{values}"),
            _ => format!("\n{values}"),
        }))
        .collect()
}

/// The cells of a row; leading values that are those of the row above are left blank.
fn cells(row: &GridRow, above: Option<&GridRow>) -> Vec<String> {
    let same = above.map_or(0, |above| {
        row.values.iter().zip(&above.values).take_while(|(a, b)| a == b).count()
    });
    let value = |(n, value): (usize, &String)| if n < same { String::new() } else { value.clone() };
    let answers = row.cells.iter().map(ruleshift_hooks::GridCell::text);
    row.values.iter().enumerate().map(value).chain(answers).collect()
}

fn rest(grid: &Grid, changed: usize, shown: usize) -> Option<String> {
    let left_out = match changed.saturating_sub(shown) {
        0 => None,
        1 => Some("1 more row with a change is not shown.".to_owned()),
        n => Some(format!("{n} more rows with a change are not shown.")),
    };
    let elsewhere = (grid.unchanged_elsewhere > 0).then(|| "Everywhere else nothing changes.".to_owned());
    let said: Vec<String> = left_out.into_iter().chain(elsewhere).collect();
    (!said.is_empty()).then(|| said.join(" "))
}
