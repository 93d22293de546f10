//! One screen for the terminal: the headline and the front of the report.

mod layout;

use comfy_table::presets::NOTHING;
use comfy_table::{ColumnConstraint, ContentArrangement, LineStyle, Width};
use ruleshift_record::Verdict;

use super::{one_line, signed};
use crate::report::{Block, Report, Section, Table, TicketLine, sign};
use layout::{BREAK, lay_out};

/// Narrowest and widest text in columns.
const WIDTHS: (usize, usize) = (40, 100);

/// Most headline sentences, notes and tickets before the rest is left to the written report.
const MOST: (usize, usize, usize) = (4, 5, 3);

/// The front of the report, at most `width` columns wide but for commands, which stay whole so
/// that they can be copied; with `colour`, verdicts and headings carry terminal colours.
pub fn terminal(report: &Report, width: usize, colour: bool) -> String {
    let screen = Screen { width: width.clamp(WIDTHS.0, WIDTHS.1), colour };
    let mut out = screen.bold(&screen.wrapped("", &report.title));
    out.push_str(&screen.wrapped("", &report.facts));
    out.push('\n');
    for sentence in report.headline.iter().take(MOST.0) {
        out.push_str(&screen.wrapped("", sentence));
    }
    out.push_str(&screen.left_out(report.headline.len(), MOST.0, "arm"));
    for section in &report.front {
        screen.write_section(&mut out, section);
    }
    out
}

struct Screen {
    width: usize,
    colour: bool,
}

impl Screen {
    fn write_section(&self, out: &mut String, section: &Section) {
        out.push('\n');
        // A table names itself by its caption.
        if !matches!(section.blocks.as_slice(), [Block::Table(_), ..]) {
            out.push_str(&self.bold(&self.wrapped("", &section.heading)));
        }
        for (n, block) in section.blocks.iter().enumerate() {
            if n > 0 && matches!(block, Block::Table(_)) {
                out.push('\n');
            }
            match block {
                Block::Paragraph(text) => out.push_str(&self.wrapped("", text)),
                Block::Warning(text) => out.push_str(&self.wrapped("!", text)),
                Block::Notes(notes) => self.write_notes(out, notes),
                Block::Table(table) => self.write_table(out, table),
                Block::Chart(chart) => out.push_str(&self.wrapped("", &chart.description)),
                Block::Tickets(lines) => self.write_tickets(out, lines),
            }
        }
    }

    fn write_notes(&self, out: &mut String, notes: &[String]) {
        for note in notes.iter().take(MOST.1) {
            out.push_str(&self.wrapped("-", note));
        }
        out.push_str(&self.left_out(notes.len(), MOST.1, "note"));
    }

    fn write_tickets(&self, out: &mut String, lines: &[TicketLine]) {
        for line in lines.iter().take(MOST.2) {
            out.push_str(&self.wrapped("-", &line.why));
            for game in &line.games {
                out.push_str(&format!("  {}\n", one_line(&game.command)));
            }
        }
        out.push_str(&self.left_out(lines.len(), MOST.2, "game"));
    }

    fn write_table(&self, out: &mut String, table: &Table) {
        out.push_str(&self.bold(&self.wrapped("", &table.caption)));
        let mut grid = self.grid();
        grid.style_mut().header_separator = LineStyle::none().fill('─').junction('─');
        grid.set_header(table.columns.iter().map(|c| one_line(&c.heading)));
        grid.add_rows(table.rows.iter().map(|r| r.iter().map(signed)));
        lay_out(&mut grid, table, self.width);
        for (n, line) in grid.trim_fmt().lines().enumerate() {
            // The head of the table may hold any name.
            let line = line.replace(BREAK, "");
            out.push_str(&if n > 1 { self.coloured(&line) } else { line });
            out.push('\n');
        }
    }

    /// `text` wrapped to the width, behind a `mark` that stands out on the left.
    fn wrapped(&self, mark: &str, text: &str) -> String {
        let mut grid = self.grid();
        let text = one_line(text);
        if mark.is_empty() {
            grid.add_row([text]);
        } else {
            grid.add_row([mark.to_owned(), text]);
            let narrow = ColumnConstraint::Absolute(Width::Fixed(mark.len() as u16 + 1));
            grid.set_constraints([narrow]);
        }
        for column in grid.column_iter_mut() {
            column.set_padding((0, 0));
        }
        grid.trim_fmt() + "\n"
    }

    fn grid(&self) -> comfy_table::Table {
        let mut grid = comfy_table::Table::new();
        grid.load_style(NOTHING)
            .set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(self.width as u16);
        grid
    }

    fn left_out(&self, all: usize, shown: usize, noun: &str) -> String {
        match all.saturating_sub(shown) {
            0 => String::new(),
            1 => format!("  1 more {noun} in the written report\n"),
            n => format!("  {n} more {noun}s in the written report\n"),
        }
    }

    fn bold(&self, text: &str) -> String {
        if self.colour { format!("\u{1b}[1m{}\u{1b}[0m\n", text.trim_end()) } else { text.into() }
    }

    /// A line of a table with its verdict words coloured; the table is laid out by then, so the
    /// codes take no room.
    fn coloured(&self, line: &str) -> String {
        let mut line = line.to_owned();
        if self.colour {
            for (verdict, code) in COLOURS {
                for mark in [verdict.word().to_owned(), format!(" {}", sign(verdict))] {
                    line = line.replace(&mark, &format!("\u{1b}[{code}m{mark}\u{1b}[0m"));
                }
            }
        }
        line
    }
}

const COLOURS: [(Verdict, u8); 4] = [
    (Verdict::ClearShift, 33),
    (Verdict::TooSmall, 36),
    (Verdict::NoDifference, 32),
    (Verdict::Undecided, 35),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{build, sample, summarise};

    fn report(arms: usize) -> Report {
        let games = sample::games(120);
        let better: Vec<_> = games.iter().map(|&(s, g, m)| (s, g, m + f64::from(g % 3))).collect();
        let mut all = vec![games];
        all.resize(arms, better);
        let run = sample::run(&all);
        build(&summarise(&run), &run)
    }

    #[test]
    fn one_screen_is_enough_for_any_number_of_arms() {
        for (arms, most) in [(1, 40), (2, 40), (3, 40), (9, 44)] {
            let text = terminal(&report(arms), 100, false);
            assert!(text.lines().count() <= most, "{arms} arms:\n{text}");
        }
    }

    #[test]
    fn text_keeps_to_the_width_and_commands_stay_whole() {
        for (width, arms) in [(40, 1), (60, 2), (80, 3), (100, 2), (100, 9)] {
            for line in terminal(&report(arms), width, false).lines() {
                let fits = line.chars().count() <= width;
                assert!(fits || line.starts_with("  ruleshift replay rs1~"), "{width}: {line}");
            }
        }
    }

    /// On a screen of eighty columns, a name as long as most stands over its numbers in two lines.
    #[test]
    fn a_name_over_numbers_takes_two_lines() {
        let mut report = report(2);
        for section in &mut report.front {
            for block in &mut section.blocks {
                if let Block::Table(table) = block {
                    table.columns[2].heading = "two-turn-end-cards".to_owned();
                }
            }
        }
        let text = terminal(&report, 80, false);
        let head: Vec<&str> = text.lines().take_while(|line| !line.starts_with('─')).collect();
        let [.., one, other] = head[..] else { panic!("{text}") };
        assert!(one.contains("two-turn- ") && other.contains("end-cards"), "{text}");
    }

    #[test]
    fn colour_adds_codes_and_nothing_else() {
        let (plain, colour) = (terminal(&report(2), 100, false), terminal(&report(2), 100, true));
        assert!(!plain.contains('\u{1b}') && colour.contains("\u{1b}[33mclear shift\u{1b}[0m"));
        let mut bare = colour;
        for code in
            ["\u{1b}[0m", "\u{1b}[1m", "\u{1b}[32m", "\u{1b}[33m", "\u{1b}[35m", "\u{1b}[36m"]
        {
            bare = bare.replace(code, "");
        }
        assert_eq!(bare, plain);
    }
}
