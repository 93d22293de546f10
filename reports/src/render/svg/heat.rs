//! Numbers in a grid, the larger the stronger their colour.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

use super::{Area, Drawn, INK, LINE, MUTED, WIDTH, series_colour, words};
use crate::report::Heat;

/// Room for the labels of the rows, for those of the columns, and the height of a row.
const LABELS: i32 = 150;
const HEADS: i32 = 52;
const ROW: i32 = 38;

/// A cell is never wider than this.
const WIDEST: i32 = 110;

/// Height of the whole chart.
pub(super) fn height(plot: &Heat) -> u32 {
    (HEADS + ROW * plot.cells.len().clamp(1, 60) as i32 + 8) as u32
}

pub(super) fn draw(area: &Area, plot: &Heat) -> Drawn {
    let columns = plot.columns.1.len().max(1) as i32;
    let width = ((WIDTH as i32 - LABELS - 8) / columns).min(WIDEST);
    let at = |x: HPos, y: VPos| Pos::new(x, y);
    let head = words(13, MUTED).pos(at(HPos::Center, VPos::Center));
    let side = words(13, MUTED).pos(at(HPos::Right, VPos::Center));
    let title = words(14, MUTED).pos(at(HPos::Left, VPos::Center));
    area.draw(&Text::new(plot.columns.0.clone(), (LABELS, 12), title.clone()))?;
    area.draw(&Text::new(plot.rows.0.clone(), (4, 36), title))?;
    for (k, name) in plot.columns.1.iter().enumerate() {
        let middle = LABELS + k as i32 * width + width / 2;
        area.draw(&Text::new(name.clone(), (middle, 36), head.clone()))?;
    }
    let number = words(15, INK).pos(at(HPos::Center, VPos::Center));
    for (n, (cells, name)) in plot.cells.iter().zip(&plot.rows.1).enumerate() {
        let top = HEADS + n as i32 * ROW;
        area.draw(&Text::new(name.clone(), (LABELS - 12, top + ROW / 2), side.clone()))?;
        for (k, (strength, text)) in cells.iter().enumerate() {
            let left = LABELS + k as i32 * width;
            let ends = [(left, top), (left + width - 2, top + ROW - 2)];
            let colour = series_colour(1).mix(0.05 + 0.5 * strength.clamp(0.0, 1.0));
            area.draw(&Rectangle::new(ends, colour.filled()))?;
            area.draw(&Rectangle::new(ends, LINE.stroke_width(1)))?;
            let middle = (left + width / 2 - 1, top + ROW / 2 - 1);
            area.draw(&Text::new(text.clone(), middle, number.clone()))?;
        }
    }
    Ok(())
}
