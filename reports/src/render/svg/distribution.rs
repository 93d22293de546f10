//! Shares of games by value: the reference filled, every other arm as an outline of its own kind.

use plotters::prelude::*;

use super::{Area, Drawn, LINE, MUTED, series_colour, words};
use crate::format::fixed;

/// Height of the chart.
pub(super) const HEIGHT: u32 = 300;

/// What is drawn.
pub(super) struct Bins<'a> {
    pub(super) start: f64,
    pub(super) width: f64,
    pub(super) shares: &'a [Vec<f64>],
    pub(super) axis: &'a str,
}

impl Bins<'_> {
    /// The outline of one series: up, along and down every bin.
    fn outline(&self, shares: &[f64]) -> Vec<(f64, f64)> {
        let edge = |n: usize| self.start + self.width * n as f64;
        let tops = shares.iter().enumerate().flat_map(|(n, s)| [(edge(n), *s), (edge(n + 1), *s)]);
        let ends = [(edge(0), 0.0), (edge(shares.len()), 0.0)];
        std::iter::once(ends[0]).chain(tops).chain([ends[1]]).collect()
    }

    fn end(&self) -> f64 {
        let bins = self.shares.iter().map(Vec::len).max().unwrap_or(0).max(1);
        self.start + self.width * bins as f64
    }

    fn highest(&self) -> f64 {
        self.shares.iter().flatten().copied().fold(0.01, f64::max)
    }
}

pub(super) fn draw(area: &Area, bins: &Bins) -> Drawn {
    let mut chart = ChartBuilder::on(area)
        .margin_top(12)
        .margin_right(24)
        .x_label_area_size(48)
        .y_label_area_size(64)
        .build_cartesian_2d(bins.start..bins.end(), 0.0..bins.highest() * 1.08)?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .y_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_labels(12)
        .y_labels(5)
        .x_label_formatter(&|x| fixed(*x, 0))
        .y_label_formatter(&|y| format!("{} %", fixed(100.0 * y, 0)))
        .label_style(words(13, MUTED))
        .x_desc(bins.axis)
        .y_desc("games")
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    for (n, shares) in bins.shares.iter().enumerate() {
        let outline = bins.outline(shares);
        if n == 0 {
            let fill = series_colour(0).mix(0.25).filled();
            chart.draw_series([Polygon::new(outline.clone(), fill)])?;
        }
        let style = series_colour(n).stroke_width(2);
        match n {
            2 => chart.draw_series(DashedLineSeries::new(outline, 8, 4, style))?,
            3 => chart.draw_series(DashedLineSeries::new(outline, 2, 4, style))?,
            _ => chart.draw_series([PathElement::new(outline, style)])?,
        };
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outline_goes_up_along_and_down() {
        let shares = [vec![0.25, 0.75]];
        let bins = Bins { start: 5.5, width: 1.0, shares: &shares, axis: "" };
        assert_eq!(
            bins.outline(&shares[0]),
            [(5.5, 0.0), (5.5, 0.25), (6.5, 0.25), (6.5, 0.75), (7.5, 0.75), (7.5, 0.0)]
        );
        assert_eq!((bins.end(), bins.highest()), (7.5, 0.75));
    }
}
