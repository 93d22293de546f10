//! The whole report as Markdown, to paste where a club talks.

use std::fmt::Write;

use super::{one_line, signed};
use crate::glossary;
use crate::report::{Block, Chart, Report, Section, Table, TicketLine};

/// The report as Markdown with tables in pipe form; charts become their data.
pub fn markdown(report: &Report) -> String {
    let mut out = format!("# {}\n\n{}\n", escape(&report.title), escape(&report.facts));
    for sentence in &report.headline {
        push(&mut out, format_args!("\n**{}**\n", escape(sentence)));
    }
    for section in report.sections() {
        write_section(&mut out, section);
    }
    if let Some(table) = glossary::table(&report.metrics) {
        write_section(&mut out, &Section::new(glossary::HEADING, vec![Block::Table(table)]));
    }
    out
}

fn write_section(out: &mut String, section: &Section) {
    push(out, format_args!("\n## {}\n", escape(&section.heading)));
    for block in &section.blocks {
        match block {
            Block::Paragraph(text) => push(out, format_args!("\n{}\n", escape(text))),
            Block::Warning(text) => push(out, format_args!("\n> **Warning:** {}\n", escape(text))),
            Block::Notes(notes) => write_notes(out, notes),
            Block::Table(table) => write_table(out, table),
            Block::Chart(chart) => write_chart(out, chart),
            Block::Tickets(lines) => write_tickets(out, lines),
        }
    }
}

fn write_notes(out: &mut String, notes: &[String]) {
    out.push('\n');
    for note in notes {
        push(out, format_args!("- {}\n", escape(note)));
    }
}

fn write_table(out: &mut String, table: &Table) {
    push(out, format_args!("\n{}\n\n|", escape(&table.caption)));
    for column in &table.columns {
        push(out, format_args!(" {} |", escape(&column.heading)));
    }
    out.push_str("\n|");
    for column in &table.columns {
        out.push_str(if column.numeric { " --: |" } else { " :-- |" });
    }
    out.push('\n');
    for row in &table.rows {
        out.push('|');
        for cell in row {
            push(out, format_args!(" {} |", escape(&signed(cell))));
        }
        out.push('\n');
    }
}

fn write_chart(out: &mut String, chart: &Chart) {
    push(out, format_args!("\n### {}\n\n", escape(&chart.title)));
    push(out, format_args!("{}\n", escape(&chart.description)));
    write_table(out, &chart.data);
}

fn write_tickets(out: &mut String, lines: &[TicketLine]) {
    out.push('\n');
    for line in lines {
        let watch = line.page.as_ref().map(|page| format!(" ([watch it on the table]({page}))"));
        push(out, format_args!("- {}{}\n", escape(&line.why), watch.unwrap_or_default()));
        for game in &line.games {
            let command = one_line(&game.command).replace('`', "'");
            push(out, format_args!("  - {}: `{command}`\n", escape(&game.arm)));
        }
    }
}

/// Adds formatted text; writing to a string cannot fail.
fn push(out: &mut String, text: std::fmt::Arguments) {
    let _ = out.write_fmt(text);
}

/// `text` on one line, with every character that Markdown would read as markup escaped.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in one_line(text).chars() {
        if matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '~' | '&') {
            escaped.push('\\');
        }
        escaped.push(c);
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Replay;

    #[test]
    fn a_title_cannot_become_markup() {
        assert_eq!(
            escape("a|b *c* [d](e)\n# <f> `g` &amp;"),
            r"a\|b \*c\* \[d\](e) \# \<f\> \`g\` \&amp;"
        );
    }

    #[test]
    fn a_command_stays_in_its_code_span() {
        let mut out = String::new();
        let games = vec![Replay { arm: "a".into(), command: "x`y".into() }];
        write_tickets(&mut out, &[TicketLine::new("w", games)]);
        assert_eq!(out, "\n- w\n  - a: `x'y`\n");
    }
}
