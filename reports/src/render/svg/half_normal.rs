//! Effects by size against what chance alone would give: those on the line are nothing but chance.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

use super::{Area, Drawn, INK, LINE, MUTED, series_colour, words};
use crate::format::fixed;
use crate::report::HalfNormalMark;

/// Height of the chart.
pub(super) const HEIGHT: u32 = 340;

/// The scale never reaches further than this: larger effects lie on its edge.
const FURTHEST: f64 = 60.0;

pub(super) fn draw(area: &Area, marks: &[HalfNormalMark]) -> Drawn {
    let largest = |of: fn(&HalfNormalMark) -> f64, least: f64| {
        marks.iter().map(of).filter(|v| v.is_finite()).fold(least, f64::max)
    };
    let right = largest(|m| m.expected, 1.5) * 1.18;
    let top = (largest(|m| m.errors, 3.0) * 1.12).min(FURTHEST);
    let mut chart = ChartBuilder::on(area)
        .margin_top(14)
        .margin_right(24)
        .x_label_area_size(48)
        .y_label_area_size(64)
        .build_cartesian_2d(0.0..right, 0.0..top)?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .y_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_labels(8)
        .y_labels(6)
        .x_label_formatter(&|x| fixed(*x, 1))
        .y_label_formatter(&|y| fixed(*y, usize::from(top < 6.0)))
        .label_style(words(13, MUTED))
        .x_desc("where chance alone would put it, in standard errors")
        .y_desc("size, in standard errors")
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    let end = right.min(top);
    let chance = vec![(0.0, 0.0), (end, end)];
    chart.draw_series([PathElement::new(chance, series_colour(0).stroke_width(2))])?;
    let style = words(14, INK).pos(Pos::new(HPos::Right, VPos::Center));
    for mark in marks.iter().filter(|m| m.expected.is_finite() && !m.errors.is_nan()) {
        let at = (mark.expected, mark.errors.min(top));
        if mark.sure {
            chart.draw_series([Circle::new(at, 5, series_colour(1).filled())])?;
            let label = Text::new(mark.label.clone(), (-10, 0), style.clone());
            chart.draw_series([EmptyElement::at(at) + label])?;
        } else {
            chart.draw_series([Circle::new(at, 5, series_colour(1).stroke_width(2))])?;
        }
    }
    Ok(())
}
