//! Shares with their intervals around a half, one row for each part.

use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

use super::{Area, BAND, Drawn, INK, LINE, MUTED, series_colour, short, words};
use crate::format::fixed;
use crate::report::{ShareMark, ShareRow};

/// Room for the labels of the rows, and for the scale below.
const LABELS: u32 = 190;
const SCALE: u32 = 48;

/// Height of a row: its own and that of each series.
const ROW: (u32, u32) = (12, 14);

/// Letters of a label that have room; the table below holds all of it.
const LETTERS: usize = 25;

type Canvas<'a, 'b> = ChartContext<'a, SVGBackend<'b>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Height of the whole chart.
pub(super) fn height(rows: &[ShareRow]) -> u32 {
    let series = rows.iter().map(|r| r.marks.len()).max().unwrap_or(0);
    let row = ROW.0 + ROW.1 * series.clamp(1, 6) as u32;
    SCALE + 16 + row * rows.len().clamp(1, 60) as u32
}

/// From the least to the largest of all that is drawn, the band among it, to whole tenths.
fn reach(rows: &[ShareRow], even: (f64, f64)) -> (f64, f64) {
    let ends = rows.iter().flat_map(|r| r.marks.iter().flatten()).flat_map(|m| [m.low, m.high]);
    let all = ends.chain([even.0 - 0.05, even.1 + 0.05]).filter(|v| v.is_finite());
    let (low, high) = all.fold((0.5_f64, 0.5_f64), |(l, h), v| (l.min(v), h.max(v)));
    ((low * 10.0).floor().max(0.0) / 10.0, (high * 10.0).ceil().min(10.0) / 10.0)
}

pub(super) fn draw(area: &Area, rows: &[ShareRow], even: (f64, f64), axis: &str) -> Drawn {
    let ((low, high), count) = (reach(rows, even), rows.len().max(1) as f64);
    let mut chart = ChartBuilder::on(area)
        .margin_top(16)
        .margin_right(24)
        .margin_left(LABELS)
        .x_label_area_size(SCALE)
        .build_cartesian_2d(low..high, count..0.0)?;
    chart.draw_series([Rectangle::new([(even.0, 0.0), (even.1, count)], BAND.filled())])?;
    chart
        .configure_mesh()
        .disable_y_mesh()
        .disable_y_axis()
        .x_labels(11)
        .x_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_label_formatter(&|x| format!("{} %", fixed(100.0 * x, 0)))
        .x_label_style(words(13, MUTED))
        .x_desc(axis)
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    chart.draw_series([PathElement::new([(0.5, 0.0), (0.5, count)], INK.stroke_width(1))])?;
    let style = words(16, INK).pos(Pos::new(HPos::Right, VPos::Center));
    for (n, row) in rows.iter().enumerate() {
        let top = n as f64;
        if n > 0 {
            chart.draw_series([PathElement::new([(low, top), (high, top)], LINE)])?;
        }
        let label = Text::new(short(&row.label, LETTERS), (-12, 0), style.clone());
        chart.draw_series([EmptyElement::at((low, top + 0.5)) + label])?;
        for (k, mark) in row.marks.iter().enumerate() {
            let y = top + (k as f64 + 1.0) / (row.marks.len() as f64 + 1.0);
            if let Some(mark) = mark.filter(|m| m.share.is_finite()) {
                one(&mut chart, mark, (k, y))?;
            }
        }
    }
    Ok(())
}

/// One mark of a series at a height: its interval, and a shape of its own for who sees no colours.
fn one(chart: &mut Canvas, mark: ShareMark, (series, y): (usize, f64)) -> Drawn {
    let colour = series_colour(series);
    let ends = [(mark.low, y), (mark.high, y)];
    chart.draw_series([PathElement::new(ends, colour.stroke_width(2))])?;
    let at = EmptyElement::at((mark.share, y));
    match series {
        0 => {
            let ring = Circle::new((0, 0), 5, colour.stroke_width(2));
            chart.draw_series([at + ring])?;
        }
        1 => {
            chart.draw_series([at + Circle::new((0, 0), 4, colour.filled())])?;
        }
        2 => {
            let square = Rectangle::new([(-4, -4), (4, 4)], colour.filled());
            chart.draw_series([at + square])?;
        }
        _ => {
            let triangle = Polygon::new([(0, -5), (5, 4), (-5, 4)], colour.filled());
            chart.draw_series([at + triangle])?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_shows_the_band_and_all_intervals() {
        let rows = |low, high| {
            let marks = vec![Some(ShareMark { share: 0.5, low, high }), None];
            vec![ShareRow { label: String::new(), marks }]
        };
        let even = (0.4, 0.6);
        assert_eq!(reach(&[], even), (0.3, 0.7));
        assert_eq!(reach(&rows(0.45, 0.55), even), (0.3, 0.7));
        assert_eq!(reach(&rows(0.11, 0.75), even), (0.1, 0.8));
        assert_eq!(reach(&rows(0.0, 1.0), even), (0.0, 1.0));
        assert_eq!(reach(&rows(f64::NAN, f64::INFINITY), even), (0.3, 0.7));
        assert_eq!(height(&rows(0.0, 1.0)), SCALE + 16 + 12 + 28);
    }
}
