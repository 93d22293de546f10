//! The margin by turn: a panel for each arm, with its median between bands.

use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use ruleshift_record::CourseTurn;

use super::{Area, Drawn, INK, LINE, MUTED, series_colour, short, words};
use crate::format::fixed;
use crate::report::CoursePanel;

/// Height of a row of panels, and panels beside each other.
const ROW: u32 = 300;
const BESIDE: usize = 2;

/// Letters of a title that have room; the key above the panels holds all of it.
const LETTERS: usize = 40;

/// Largest number that is drawn: beyond it, scales lose their sense.
const LARGEST: f64 = 1e5;

type Canvas<'a, 'b> = ChartContext<'a, SVGBackend<'b>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Height of the whole chart.
pub(super) fn height(panels: &[CoursePanel]) -> u32 {
    ROW * panels.len().clamp(1, 8).div_ceil(BESIDE) as u32
}

/// The turns that can be drawn.
fn sound(panel: &CoursePanel) -> Vec<CourseTurn> {
    let drawable = |t: &&CourseTurn| {
        [t.outer_low, t.inner_low, t.median, t.inner_high, t.outer_high]
            .iter()
            .all(|margin| margin.abs() < LARGEST)
    };
    panel.turns.iter().filter(drawable).copied().collect()
}

/// Where the scales of all panels end: the last turn, the least and the largest margin.
fn reach(panels: &[Vec<CourseTurn>]) -> (f64, f64, f64) {
    let all = || panels.iter().flatten();
    let last = all().map(|t| t.turn).max().unwrap_or(1).max(2);
    let low = all().map(|t| t.outer_low).fold(-1.0, f64::min);
    let high = all().map(|t| t.outer_high).fold(1.0, f64::max);
    let room = 0.06 * (high - low);
    (last.into(), low - room, high + room)
}

pub(super) fn draw(area: &Area, panels: &[CoursePanel]) -> Drawn {
    let turns: Vec<Vec<CourseTurn>> = panels.iter().map(sound).collect();
    let reach = reach(&turns);
    let across = panels.len().clamp(1, BESIDE);
    let rows = panels.len().clamp(1, 8).div_ceil(BESIDE);
    let reference = turns.first().map_or(&[][..], Vec::as_slice);
    let places = area.split_evenly((rows, across));
    for (n, (place, panel)) in places.iter().zip(panels).enumerate() {
        let mut chart = scales(place, &panel.title, reach)?;
        bands(&mut chart, &turns[n], n)?;
        if n > 0 {
            let line: Vec<(f64, f64)> = points(reference, |t| t.median).collect();
            chart.draw_series(DashedLineSeries::new(line, 6, 4, MUTED.stroke_width(2)))?;
        }
    }
    Ok(())
}

/// Title, axes and the line of nobody ahead.
fn scales<'a, 'b>(
    place: &'a Area<'b>,
    title: &str,
    (last, low, high): (f64, f64, f64),
) -> Result<Canvas<'a, 'b>, Box<dyn std::error::Error>> {
    let mut chart = ChartBuilder::on(place)
        .caption(short(title, LETTERS), words(15, INK))
        .margin_top(6)
        .margin_right(18)
        .x_label_area_size(44)
        .y_label_area_size(56)
        .build_cartesian_2d(1.0..last, low..high)?;
    chart
        .configure_mesh()
        .disable_x_mesh()
        .y_max_light_lines(1)
        .light_line_style(LINE.mix(0.0))
        .bold_line_style(LINE)
        .axis_style(LINE)
        .x_labels(if last < 14.0 { last as usize + 1 } else { 10 })
        .y_labels(7)
        .x_label_formatter(&|x| fixed(*x, usize::from(x.fract() != 0.0)))
        .y_label_formatter(&|y| fixed(*y, 0))
        .label_style(words(13, MUTED))
        .x_desc("after turn")
        .y_desc("margin, points")
        .axis_desc_style(words(14, MUTED))
        .draw()?;
    chart.draw_series([PathElement::new([(1.0, 0.0), (last, 0.0)], INK.stroke_width(1))])?;
    Ok(chart)
}

fn points(
    turns: &[CourseTurn],
    of: fn(&CourseTurn) -> f64,
) -> impl DoubleEndedIterator<Item = (f64, f64)> + use<'_> {
    turns.iter().map(move |turn| (f64::from(turn.turn), of(turn)))
}

/// The area between two lines: along the lower one, back along the upper.
fn between(turns: &[CourseTurn], lines: [fn(&CourseTurn) -> f64; 2]) -> Vec<(f64, f64)> {
    points(turns, lines[0]).chain(points(turns, lines[1]).rev()).collect()
}

/// The bands and the median.
fn bands(chart: &mut Canvas, turns: &[CourseTurn], series: usize) -> Drawn {
    let colour = series_colour(series);
    if turns.len() > 1 {
        let outer = between(turns, [|t| t.outer_low, |t| t.outer_high]);
        chart.draw_series([Polygon::new(outer, colour.mix(0.15).filled())])?;
        let inner = between(turns, [|t| t.inner_low, |t| t.inner_high]);
        chart.draw_series([Polygon::new(inner, colour.mix(0.3).filled())])?;
    }
    let median: Vec<(f64, f64)> = points(turns, |t| t.median).collect();
    chart.draw_series([PathElement::new(median.clone(), colour.stroke_width(3))])?;
    chart.draw_series(median.into_iter().map(|at| Circle::new(at, 3, colour.filled())))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turn(turn: u32, median: f64) -> CourseTurn {
        let [outer_low, inner_low] = [median - 4.0, median - 1.0];
        let [inner_high, outer_high] = [median + 1.0, median + 4.0];
        CourseTurn { turn, going: 1, outer_low, inner_low, median, inner_high, outer_high }
    }

    #[test]
    fn all_panels_have_the_same_scales() {
        let panels = [vec![turn(1, 0.0), turn(2, 6.0)], vec![turn(1, -3.0)]];
        // From -7 to 10, with six parts of a hundred on either side.
        let (last, low, high) = reach(&panels);
        assert_eq!(last, 2.0);
        assert!((low + 8.02).abs() < 1e-9 && (high - 11.02).abs() < 1e-9, "{low} {high}");
        assert_eq!(reach(&[]).0, 2.0);
    }

    #[test]
    fn a_band_goes_along_below_and_back_above() {
        let turns = [turn(1, 0.0), turn(2, 2.0)];
        assert_eq!(
            between(&turns, [|t| t.inner_low, |t| t.inner_high]),
            [(1.0, -1.0), (2.0, 1.0), (2.0, 3.0), (1.0, 1.0)]
        );
    }

    #[test]
    fn turns_beyond_all_measure_are_not_drawn() {
        let turns = [f64::NAN, f64::INFINITY, 1e300, 2.0].map(|median| turn(1, median)).to_vec();
        let panel = CoursePanel { title: String::new(), turns };
        assert_eq!(sound(&panel), [turn(1, 2.0)]);
    }

    #[test]
    fn two_panels_stand_beside_each_other() {
        let panels = |n| vec![CoursePanel { title: String::new(), turns: vec![] }; n];
        assert_eq!([0, 1, 2, 3, 4].map(|n| height(&panels(n))), [300, 300, 300, 600, 600]);
    }
}
