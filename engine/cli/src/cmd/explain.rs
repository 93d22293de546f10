//! `ruleshift explain`: what a fault of a script means and how to mend it.

use std::fmt::Write;

use ruleshift_hooks::{Id, id_by_text, nearest_id};

use crate::account::page::hang;
use crate::args::ExplainArgs;
use crate::exit::Failure;
use crate::screen;

pub(crate) fn run(args: &ExplainArgs) -> Result<(), Failure> {
    let Some(typed) = &args.id else {
        screen::show(&all());
        return Ok(());
    };
    let id = id_by_text(typed).ok_or_else(|| Failure::Input(unknown(typed)))?;
    screen::show(&plain(id.page()));
    Ok(())
}

fn all() -> String {
    let width = Id::ALL.iter().map(|id| id.text().len()).max().unwrap_or(0);
    let mut text =
        "What `ruleshift check` may find; `ruleshift explain ID` tells more:\n".to_owned();
    for id in Id::ALL {
        let label = format!("  {:width$}  ", id.text());
        text += &hang(&label, id.about(), label.len(), screen::width());
        text.push('\n');
    }
    text
}

fn unknown(typed: &str) -> String {
    let help = match nearest_id(typed) {
        Some(id) => format!("did you mean `{}`?", id.text()),
        None => "`ruleshift explain` lists them all".to_owned(),
    };
    format!("`check` finds nothing called `{typed}`: {help}")
}

/// The Markdown of a page as text: headings without their marks, scripts and commands indented.
fn plain(page: &str) -> String {
    let mut fenced = false;
    let mut text = String::new();
    for line in page.lines() {
        if line.starts_with("```") {
            fenced = !fenced;
        } else if fenced {
            let _ = writeln!(text, "{}", format!("  {line}").trim_end());
        } else {
            let _ = writeln!(text, "{}", line.trim_start_matches('#').trim_start());
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_is_shown_as_plain_text() {
        let page =
            "# size\n\nIt grew.\n\n```rhai\nfn a() { 1 }\n\nfn b() { 2 }\n```\n\n## To mend it\n";
        let shown = "size\n\nIt grew.\n\n  fn a() { 1 }\n\n  fn b() { 2 }\n\nTo mend it\n";
        assert_eq!(plain(page), shown);
    }
}
