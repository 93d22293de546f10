//! Shares that fall step by step: one line for each arm, dots where it ends.

use plotters::prelude::*;

use super::{Area, Drawn, LINE, MUTED, series_colour, words};
use crate::format::fixed;

/// Height of the chart.
pub(super) const HEIGHT: u32 = 300;

/// Largest number that is drawn: beyond it, scales lose their sense.
const LARGEST: f64 = 1e6;

/// The corners of the line by those points, each in force until the next, the last until `end`.
fn corners(points: &[(f64, f64)], end: f64) -> Vec<(f64, f64)> {
    let nexts = points.iter().skip(1).map(|p| p.0).chain([end]);
    points.iter().zip(nexts).flat_map(|(&(x, y), next)| [(x, y), (next, y)]).collect()
}

pub(super) fn draw(area: &Area, curves: &[Vec<(f64, f64)>], axis: &str) -> Drawn {
    let sound = |p: &&(f64, f64)| p.0.abs() < LARGEST && p.1.abs() <= 1.0;
    let curves: Vec<Vec<(f64, f64)>> =
        curves.iter().map(|curve| curve.iter().filter(sound).copied().collect()).collect();
    let last = curves.iter().flatten().map(|p| p.0).fold(1.0, f64::max);
    let end = last + 0.5;
    let mut chart = ChartBuilder::on(area)
        .margin_top(12)
        .margin_right(24)
        .x_label_area_size(48)
        .y_label_area_size(64)
        .build_cartesian_2d(0.0..end, 0.0..1.04)?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .y_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_labels(if last < 20.0 { last as usize + 2 } else { 12 })
        .y_labels(6)
        .x_label_formatter(&|x| fixed(*x, usize::from(x.fract() != 0.0)))
        .y_label_formatter(&|y| format!("{} %", fixed(100.0 * y, 0)))
        .label_style(words(13, MUTED))
        .x_desc(axis)
        .y_desc("games")
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    for (n, curve) in curves.iter().enumerate() {
        let line = corners(curve, end);
        let tip = line.last().copied();
        chart.draw_series([PathElement::new(line, series_colour(n).stroke_width(2))])?;
        chart.draw_series(tip.map(|tip| Circle::new(tip, 3, series_colour(n).filled())))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_is_in_force_until_the_next() {
        assert_eq!(
            corners(&[(0.0, 1.0), (3.0, 0.5)], 4.5),
            [(0.0, 1.0), (3.0, 1.0), (3.0, 0.5), (4.5, 0.5)]
        );
        assert_eq!(corners(&[], 4.5), []);
    }
}
