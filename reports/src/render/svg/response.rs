//! Means over a range of values: dots with their intervals in front of the band of all, the fitted
//! curve, and lines for the reference and for targets.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use ruleshift_record::SweepMean;

use super::{Area, Drawn, INK, LINE, MUTED, series_colour, words};
use crate::format::fixed;
use crate::report::Response;

/// Height of the chart.
pub(super) const HEIGHT: u32 = 340;

/// Largest number that is drawn: beyond it, scales lose their sense.
const LARGEST: f64 = 1e12;

fn drawable(value: f64) -> bool {
    value.abs() < LARGEST
}

/// From the least to the largest of all that is drawn, with some room.
fn span(values: impl Iterator<Item = f64>, room: f64) -> (f64, f64) {
    let known = values.filter(|v| drawable(*v));
    let (low, high) =
        known.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
    match low.is_finite() {
        true if high > low => (low - room * (high - low), high + room * (high - low)),
        true => (low - 1.0, high + 1.0),
        false => (0.0, 1.0),
    }
}

/// The ends of the axis of values: those of every mark.
fn heights(plot: &Response) -> (f64, f64) {
    let means = plot.means.iter().flat_map(|m| [m.band_low, m.low, m.high, m.band_high]);
    let lines = plot.reference.into_iter().chain(plot.targets.iter().copied());
    let fitted = plot.fitted.iter().map(|p| p.1);
    span(means.chain(lines).chain(fitted), 0.08)
}

pub(super) fn draw(area: &Area, plot: &Response) -> Drawn {
    let (left, right) = span(plot.x.iter().copied(), 0.04);
    let (low, high) = heights(plot);
    let mut chart = ChartBuilder::on(area)
        .margin_top(14)
        .margin_right(24)
        .x_label_area_size(48)
        .y_label_area_size(76)
        .build_cartesian_2d(left..right, low..high)?;
    let decimals = |span: f64| if span < 0.05 { 3 } else { usize::from(span < 5.0) * 2 };
    let y_decimals = decimals(high - low);
    let x_labels = if right - left < 12.0 { (right - left) as usize + 2 } else { 12 };
    chart
        .configure_mesh()
        .disable_x_mesh()
        .y_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_labels(x_labels)
        .y_labels(6)
        .x_label_formatter(&|x| fixed(*x, usize::from(x.fract() != 0.0)))
        .y_label_formatter(&|y| match plot.share {
            true => format!("{} %", fixed(100.0 * y, usize::from(high - low < 0.08))),
            false => fixed(*y, y_decimals),
        })
        .label_style(words(13, MUTED))
        .x_desc(plot.axes.0.as_str())
        .y_desc(plot.axes.1.as_str())
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    let means: Vec<_> = plot.x.iter().copied().zip(&plot.means).collect();
    let sound = |m: &SweepMean| [m.mean, m.band_low, m.band_high].into_iter().all(drawable);
    let means: Vec<_> = means.into_iter().filter(|(_, m)| sound(m)).collect();
    let colour = series_colour(1);
    let edge = means.iter().map(|(x, m)| (*x, m.band_high));
    let band: Vec<_> = edge.chain(means.iter().rev().map(|(x, m)| (*x, m.band_low))).collect();
    if means.len() > 1 {
        chart.draw_series([Polygon::new(band, colour.mix(0.18).filled())])?;
    }
    let note = words(13, MUTED).pos(Pos::new(HPos::Right, VPos::Bottom));
    for (y, name, dash, style) in lines(plot) {
        let ends = vec![(left, y), (right, y)];
        chart.draw_series(DashedLineSeries::new(ends, dash, dash, style.stroke_width(1)))?;
        let text = Text::new(name, (-4, -3), note.clone());
        chart.draw_series([EmptyElement::at((right, y)) + text])?;
    }
    let fitted: Vec<_> = plot.fitted.iter().copied().filter(|p| drawable(p.1)).collect();
    chart.draw_series([PathElement::new(fitted, series_colour(2).stroke_width(2))])?;
    for (x, m) in means {
        let ends = [(x, m.low.max(low)), (x, m.high.min(high))];
        chart.draw_series([PathElement::new(ends, colour.stroke_width(2))])?;
        chart.draw_series([Circle::new((x, m.mean), 4, colour.filled())])?;
    }
    Ok(())
}

/// The lines across: height, name, length of the dashes, colour.
fn lines(plot: &Response) -> impl Iterator<Item = (f64, &'static str, u32, RGBColor)> {
    let reference = plot.reference.map(|y| (y, "reference", 8, series_colour(0)));
    let targets = plot.targets.iter().map(|&y| (y, "target", 2, INK));
    reference.into_iter().chain(targets).filter(|line| drawable(line.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_leaves_room_and_knows_nothing_of_bad_numbers() {
        assert_eq!(span([1.0, 3.0, f64::NAN, 1e300].into_iter(), 0.5), (0.0, 4.0));
        assert_eq!(span([2.0].into_iter(), 0.5), (1.0, 3.0));
        assert_eq!(span(std::iter::empty(), 0.5), (0.0, 1.0));
    }
}
