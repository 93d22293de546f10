//! Charts as SVG.
//!
//! Drawn with `plotters`, which owns scales, ticks and clipping; its colours are then exchanged for
//! style variables, which it cannot write itself, so one drawing serves light, dark and print.

mod course;
mod distribution;
mod forest;
mod half_normal;
mod heat;
mod response;
mod shares;
mod steps;

use plotters::coord::Shift;
use plotters::prelude::*;

use crate::report::Plot;

/// The inside of an `svg` element and its size in user units.
pub(super) struct Drawing {
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) body: String,
}

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Drawn = Result<(), Box<dyn std::error::Error>>;

/// Width of every chart in user units.
const WIDTH: u32 = 760;

/// Series colours before they repeat.
pub(super) const SERIES: usize = 6;

/// Colours that stand for style variables: no real drawing uses them.
const INK: RGBColor = RGBColor(1, 0, 0);
const MUTED: RGBColor = RGBColor(2, 0, 0);
const LINE: RGBColor = RGBColor(3, 0, 0);
const BAND: RGBColor = RGBColor(4, 0, 0);

fn series_colour(n: usize) -> RGBColor {
    RGBColor(5, 0, (n % SERIES) as u8)
}

/// Draws `plot`; `None` when the data cannot be drawn.
pub(super) fn draw(plot: &Plot) -> Option<Drawing> {
    match plot {
        Plot::Forest { rows } => drawing(forest::height(rows), |area| forest::draw(area, rows)),
        Plot::Distribution { start, width, shares, axis } => {
            let bins = distribution::Bins { start: *start, width: *width, shares, axis };
            drawing(distribution::HEIGHT, |area| distribution::draw(area, &bins))
        }
        Plot::Response(plot) => drawing(response::HEIGHT, |area| response::draw(area, plot)),
        Plot::Heat(plot) => drawing(heat::height(plot), |area| heat::draw(area, plot)),
        Plot::Steps { curves, axis } => {
            drawing(steps::HEIGHT, |area| steps::draw(area, curves, axis))
        }
        Plot::Shares { rows, even, axis } => {
            drawing(shares::height(rows), |area| shares::draw(area, rows, *even, axis))
        }
        Plot::Course { panels } => {
            drawing(course::height(panels), |area| course::draw(area, panels))
        }
        Plot::HalfNormal { marks } => {
            drawing(half_normal::HEIGHT, |area| half_normal::draw(area, marks))
        }
    }
}

fn drawing(height: u32, draw: impl FnOnce(&Area) -> Drawn) -> Option<Drawing> {
    let mut text = String::new();
    let area = SVGBackend::with_string(&mut text, (WIDTH, height)).into_drawing_area();
    let drawn = draw(&area).is_ok() && area.present().is_ok();
    drop(area);
    // The element itself is written by the page, with its title and description.
    let inside = text.split_once('>')?.1.rsplit_once("</svg>")?.0;
    drawn.then(|| Drawing { width: WIDTH, height, body: themed(inside) })
}

/// Exchanges the stand-in colours for style variables.
fn themed(svg: &str) -> String {
    let named = [(INK, "ink"), (MUTED, "muted"), (LINE, "line"), (BAND, "band")]
        .map(|(colour, name)| (colour, name.to_owned()));
    let series = (0..SERIES).map(|n| (series_colour(n), format!("series-{n}")));
    let mut svg = svg.replace("font-family=\"sans-serif\"", "font-family=\"inherit\"");
    for (RGBColor(r, g, b), name) in named.into_iter().chain(series) {
        let hex = format!("#{r:02X}{g:02X}{b:02X}");
        for property in ["fill", "stroke"] {
            svg = svg.replace(
                &format!("{property}=\"{hex}\""),
                &format!("style=\"{property}:var(--{name})\""),
            );
        }
    }
    svg
}

fn words(size: u32, colour: RGBColor) -> TextStyle<'static> {
    ("sans-serif", size).into_font().color(&colour)
}

/// A label with so many letters at most; the data of the chart hold all of it.
fn short(label: &str, letters: usize) -> String {
    match label.chars().count() > letters {
        true => label.chars().take(letters - 1).chain(['\u{2026}']).collect(),
        false => label.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{ForestMark, ForestRow, Heat, Response};
    use ruleshift_record::SweepMean;

    fn mark(shift: f64) -> Option<ForestMark> {
        Some(ForestMark { shift, low: shift - 0.5, high: shift + 0.5 })
    }

    fn forest(marks: Vec<Option<ForestMark>>) -> Drawing {
        let rows = vec![ForestRow { label: "a < b".into(), marks }];
        draw(&Plot::Forest { rows }).unwrap()
    }

    #[test]
    fn no_row_and_no_bin_draw_without_a_fault() {
        assert!(draw(&Plot::Forest { rows: vec![] }).is_some());
        let empty = Plot::Distribution { start: 0.0, width: 1.0, shares: vec![], axis: "x".into() };
        assert!(draw(&empty).is_some());
    }

    #[test]
    fn a_sweep_of_nothing_and_one_of_bad_numbers_draw_without_a_fault() {
        let mut plot = Response {
            x: vec![],
            means: vec![],
            fitted: vec![],
            reference: None,
            targets: vec![],
            share: true,
            axes: ("a < b".into(), "y".into()),
        };
        assert!(draw(&Plot::Response(Box::new(plot.clone()))).is_some());
        plot.x = vec![1.0, 2.0];
        for bad in [f64::NAN, f64::INFINITY, 1e300] {
            let mean = SweepMean { mean: bad, low: bad, high: bad, band_low: bad, band_high: bad };
            plot.means = vec![mean; 2];
            plot.reference = Some(bad);
            let drawn = draw(&Plot::Response(Box::new(plot.clone()))).unwrap();
            assert!(!drawn.body.contains("NaN") && drawn.body.contains("a &lt; b"), "{bad}");
        }
        assert!(draw(&Plot::HalfNormal { marks: vec![] }).is_some());
        assert!(draw(&Plot::Course { panels: vec![] }).is_some());
        let none = Plot::Shares { rows: vec![], even: (0.4, 0.6), axis: "x".into() };
        assert!(draw(&none).is_some());
        for bad in [f64::NAN, f64::INFINITY, 1e300] {
            let curves = vec![vec![], vec![(0.0, 1.0), (bad, 0.5), (3.0, bad)]];
            let drawn = draw(&Plot::Steps { curves, axis: "a < b".into() }).unwrap();
            assert!(!drawn.body.contains("NaN") && drawn.body.contains("a &lt; b"), "{bad}");
        }
        let none =
            Heat { rows: ("a".into(), vec![]), columns: ("b".into(), vec![]), cells: vec![] };
        assert!(draw(&Plot::Heat(Box::new(none))).is_some());
    }

    #[test]
    fn every_colour_is_a_style_variable() {
        let drawing = forest(vec![mark(0.2), None, mark(-3.0)]);
        assert!(!drawing.body.contains("=\"#"), "{}", drawing.body);
        assert!(drawing.body.contains("var(--series-3)"), "{}", drawing.body);
    }

    #[test]
    fn a_long_label_is_cut_with_a_mark() {
        assert_eq!(short("hasty-attack", 12), "hasty-attack");
        assert_eq!(short("hasty-attacks", 12), "hasty-attac\u{2026}");
    }

    #[test]
    fn labels_are_escaped() {
        assert!(forest(vec![mark(0.0)]).body.contains("a &lt; b"));
    }

    #[test]
    fn numbers_beyond_all_measure_are_drawn_at_the_edge() {
        for shift in [1e300, -1e300, f64::INFINITY, f64::NAN] {
            assert!(!forest(vec![mark(shift)]).body.contains("NaN"), "{shift}");
        }
    }
}
