//! Shifts with their intervals, one row per metric.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

use super::{Area, BAND, Drawn, INK, LINE, MUTED, WIDTH, series_colour, words};
use plotters::coord::types::RangedCoordf64;

use crate::format::Scale;
use crate::report::{ForestMark, ForestRow};

/// Room for the labels of the rows, and for the scale below.
const LABELS: u32 = 190;
const SCALE: u32 = 48;

/// Height of a row: its own and that of each series.
const ROW: (u32, u32) = (12, 14);

/// The scale never reaches further than this: larger shifts are named at the edge.
const FURTHEST: f64 = 10.0;

type Canvas<'a, 'b> = ChartContext<'a, SVGBackend<'b>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

fn series(rows: &[ForestRow]) -> usize {
    rows.iter().map(|r| r.marks.len()).max().unwrap_or(0)
}

/// Height of the whole chart.
pub(super) fn height(rows: &[ForestRow]) -> u32 {
    let row = ROW.0 + ROW.1 * series(rows).clamp(1, 40) as u32;
    SCALE + 16 + row * rows.len().clamp(1, 40) as u32
}

/// How far the scale reaches on either side of zero.
fn reach(rows: &[ForestRow]) -> f64 {
    let ends = rows.iter().flat_map(|r| r.marks.iter().flatten()).flat_map(|m| [m.low, m.high]);
    let furthest = ends.map(f64::abs).filter(|v| v.is_finite()).fold(1.5, f64::max);
    (furthest * 1.1).min(FURTHEST)
}

pub(super) fn draw(area: &Area, rows: &[ForestRow]) -> Drawn {
    let (reach, count) = (reach(rows), rows.len().max(1) as f64);
    let mut chart = ChartBuilder::on(area)
        .margin_top(16)
        .margin_right(24)
        .margin_left(LABELS)
        .x_label_area_size(SCALE)
        .build_cartesian_2d(-reach..reach, count..0.0)?;
    chart.draw_series([Rectangle::new([(-1.0, 0.0), (1.0, count)], BAND.filled())])?;
    chart
        .configure_mesh()
        .disable_y_mesh()
        .disable_y_axis()
        .x_labels(9)
        .x_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_label_formatter(&|x| Scale::new("", 1.0).signed(*x).replace(".0", ""))
        .x_label_style(words(13, MUTED))
        .x_desc("multiples of the smallest shift worth noticing")
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    chart.draw_series([PathElement::new([(0.0, 0.0), (0.0, count)], INK.stroke_width(1))])?;
    let style = words(16, INK).pos(Pos::new(HPos::Right, VPos::Center));
    for (n, row) in rows.iter().enumerate() {
        let middle = n as f64 + 0.5;
        chart.draw_series([EmptyElement::at((-reach, middle))
            + Text::new(row.label.clone(), (-12, 0), style.clone())])?;
        for (k, mark) in row.marks.iter().enumerate() {
            let y = n as f64 + (k as f64 + 1.0) / (row.marks.len() as f64 + 1.0);
            if let Some(mark) = mark.filter(|m| !m.shift.is_nan()) {
                // The first colour belongs to the reference, which has no shift.
                let colour = series_colour(k + 1);
                bar(&mut chart, mark, y, colour)?;
                if mark.shift.abs() <= reach {
                    let dot = Circle::new((mark.shift, y), 4, colour.filled());
                    chart.draw_series([dot])?;
                } else {
                    beyond(&mut chart, mark, y, colour)?;
                }
            }
        }
    }
    Ok(())
}

/// The interval, cut off where the scale ends.
fn bar(chart: &mut Canvas, mark: ForestMark, y: f64, colour: RGBColor) -> Drawn {
    let reach = chart.x_range().end;
    let ends = [mark.low, mark.high].map(|x| (x.clamp(-reach, reach), y));
    chart.draw_series([PathElement::new(ends, colour.stroke_width(2))])?;
    Ok(())
}

/// A shift beyond the scale: an arrow head at its end, with the number.
fn beyond(chart: &mut Canvas, mark: ForestMark, y: f64, colour: RGBColor) -> Drawn {
    let (side, reach) = (mark.shift.signum(), chart.x_range().end);
    let inward = if side > 0.0 { HPos::Right } else { HPos::Left };
    let head = Polygon::new([(0, -5), ((9.0 * side) as i32, 0), (0, 5)], colour.filled());
    let style = words(13, MUTED).pos(Pos::new(inward, VPos::Center));
    let at = ((-6.0 * side) as i32, -9);
    let number = Text::new(Scale::new("", 1.0).signed(mark.shift), at, style);
    chart.draw_series([EmptyElement::at((reach * side, y)) + head + number])?;
    Ok(())
}

// Rows that fit the page are a matter of layout, not of data.
const _: () = assert!(WIDTH > 2 * LABELS);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_shows_the_band_and_stops_at_its_end() {
        let rows = |low, high| {
            let marks = vec![Some(ForestMark { shift: 0.0, low, high }), None];
            vec![ForestRow { label: String::new(), marks }]
        };
        assert_eq!(reach(&[]), 1.5 * 1.1);
        assert_eq!(reach(&rows(-0.1, 0.2)), 1.5 * 1.1);
        assert_eq!(reach(&rows(-5.0, 0.2)), 5.5);
        assert_eq!(reach(&rows(-5.0, f64::INFINITY)), 5.5);
        assert_eq!(reach(&rows(-500.0, 0.2)), FURTHEST);
        assert_eq!(height(&rows(0.0, 0.0)), SCALE + 16 + 12 + 28);
    }
}
