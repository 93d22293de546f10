//! The whole report as one HTML page that needs nothing else.

use minijinja::value::{Serde, Value};
use minijinja::{AutoEscape, Environment, context};

use super::one_line;
use super::svg::{self, SERIES};
use crate::report::{Block, Chart, Report};

const PAGE: &str = include_str!("html/report.html");
/// Colours, then everything else.
const STYLE: &str = concat!(include_str!("html/theme.css"), include_str!("html/report.css"));

/// The report as a page: no script, no network, light and dark, ready to print.
pub fn html(report: &Report) -> String {
    let mut page = Environment::new();
    page.set_auto_escape_callback(|_| AutoEscape::Html);
    page.add_filter("line", |text: &str| one_line(text));
    page.add_filter("slug", |text: &str| slug(text));
    let charts: Vec<Value> = charts(report).enumerate().map(|(n, c)| chart(n, c)).collect();
    let content = context! {
        report => Value::from(Serde(report)),
        charts,
        series => SERIES,
        style => Value::from_safe_string(STYLE.to_owned()),
    };
    let page = page.render_str(PAGE, content);
    page.expect("the page is a constant that every report fits") + "\n"
}

fn charts(report: &Report) -> impl Iterator<Item = &Chart> {
    report.front.iter().chain(&report.body).flat_map(|s| &s.blocks).filter_map(|b| match b {
        Block::Chart(chart) => Some(chart),
        _ => None,
    })
}

/// The drawing of a chart; the page finds it by the title of its chart.
fn chart(number: usize, chart: &Chart) -> Value {
    let drawing = svg::draw(&chart.plot).map(|d| {
        let body = Value::from_safe_string(d.body);
        context! { width => d.width, height => d.height, body }
    });
    context! { number, title => &chart.title, drawing }
}

/// A heading as an address within the page.
fn slug(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{build, sample, summarise};

    #[test]
    fn a_run_of_nothing_still_makes_a_page() {
        let run = sample::run(&[]);
        assert!(html(&build(&summarise(&run), &run)).ends_with("</html>\n"));
    }

    #[test]
    fn every_chart_has_a_drawing_with_words() {
        let run = sample::run(&[sample::games(30), sample::games(30)]);
        let page = html(&build(&summarise(&run), &run));
        assert_eq!(page.matches("<svg role=\"img\"").count(), 8);
        assert_eq!(page.matches("<desc ").count(), 8);
    }
}
