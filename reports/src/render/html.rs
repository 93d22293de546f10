//! The whole report as one HTML page that needs nothing else, and the sheet to vote on.

use minijinja::context;
use minijinja::value::{Serde, Value};

use super::page::Page;
use super::svg::{self, SERIES};
use crate::glossary;
use crate::report::{Block, Chart, Report, Section};

const REPORT: Page = Page {
    body: include_str!("html/report.html"),
    style: include_str!("html/report.css"),
    // Sorts tables.
    script: include_str!("html/report.js"),
};
const SHEET: Page =
    Page { body: include_str!("html/vote.html"), style: include_str!("html/vote.css"), script: "" };

/// Sections beyond which a page begins with a list of them.
const FEW: usize = 5;

/// The report as a page: no network, light and dark, ready to print; its one script sorts tables.
pub fn html(report: &Report) -> String {
    let charts: Vec<Value> = charts(report).enumerate().map(|(n, c)| chart(n, c)).collect();
    let glossary = glossary::table(&report.metrics)
        .map(|table| Section::new(glossary::HEADING, vec![Block::Table(table)]));
    let sections = report.sections().chain(&glossary);
    let mut contents: Vec<&str> = sections.map(|section| section.heading.as_str()).collect();
    if contents.len() <= FEW {
        contents.clear();
    }
    let content = context! {
        report => Value::from(Serde(report)),
        contents => Value::from(Serde(&contents)),
        charts,
        glossary => Value::from(Serde(&glossary)),
        series => SERIES,
    };
    REPORT.render(&report.title, content)
}

/// The sheet on which a club votes, as a page of its own to print on one side.
pub fn vote_sheet(sheet: &Report) -> String {
    let title = format!("To vote on: {}", sheet.title);
    SHEET.render(&title, context! { report => Value::from(Serde(sheet)) })
}

fn charts(report: &Report) -> impl Iterator<Item = &Chart> {
    report.sections().flat_map(|s| &s.blocks).filter_map(|b| match b {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Cell, Column, PageLink, Table};
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

    /// Whatever a label opens is there once, and nothing is there that no label opens.
    #[test]
    fn every_label_of_a_metric_opens_its_meaning() {
        let run = sample::run(&[sample::games(30), sample::games(30)]);
        let page = html(&build(&summarise(&run), &run));
        let after = |mark: &str| -> Vec<String> {
            let rest = page.split(mark).skip(1);
            let mut names: Vec<String> =
                rest.filter_map(|r| r.split('"').next()).map(str::to_owned).collect();
            names.sort();
            names
        };
        let (mut opened, meanings) = (after("popovertarget=\""), after("popover id=\""));
        opened.dedup();
        assert_eq!(opened, meanings);
        assert!(meanings.contains(&"metric-turns".to_owned()), "{meanings:?}");
        assert!(page.contains("Turns played.") && page.contains("0.30 turns"));
    }

    /// The policy of the page lets its own script run, so the script must not open a way out.
    #[test]
    fn the_script_only_sorts() {
        for word in ["</", "innerHTML", "eval", "import", "fetch", "XMLHttp", "location", "window"]
        {
            assert!(!REPORT.script.contains(word), "{word}");
        }
        assert!(REPORT.script.contains("aria-sort"));
    }

    fn of_sections(headings: &[&str]) -> Report {
        let caption = "Numbers";
        let table = || Table {
            caption: caption.into(),
            columns: vec![Column::words("A")],
            rows: vec![vec![Cell::from("x".to_owned())]],
        };
        let section = |h: &&str| Section::new(*h, vec![Block::Table(table())]);
        Report { body: headings.iter().map(section).collect(), ..Report::default() }
    }

    #[test]
    fn many_sections_have_a_list_of_contents() {
        let few = html(&of_sections(&["A", "B", "C", "D", "E"]));
        let many = html(&of_sections(&["A", "B", "C", "D", "E", "F g"]));
        assert!(!few.contains("<nav") && many.contains("<nav"));
        assert!(many.contains("<a href=\"#f-g\">F g</a>") && many.contains("<h2 id=\"f-g\">"));
    }

    #[test]
    fn a_caption_that_repeats_its_heading_is_for_readers_aloud() {
        assert!(html(&of_sections(&["Numbers"])).contains("<caption class=\"unseen\">Numbers<"));
        assert!(html(&of_sections(&["Others"])).contains("<caption>Numbers<"));
    }

    #[test]
    fn pages_beside_the_report_are_linked() {
        let pages = vec![PageLink { title: "To <vote> on".into(), file: "vote-a.html".into() }];
        let page = html(&Report { pages, ..Report::default() });
        assert!(page.contains("<a href=\"vote-a.html\">To &lt;vote&gt; on</a>"));
    }
}
