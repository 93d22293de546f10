//! From the answer to the tree of its report.

use ruleshift_record::{HandicapChoice, HandicapStanding, HandicapSummary};

use super::words::{adds, wins, word};
use crate::format::{count, counted};
use crate::report::{Block, Cell, Column, Report, Section, Table};

/// Choices on the front: those nearest to a half.
const FEW: usize = 8;

/// Builds the report of what makes a scenario fair.
pub fn build_handicap(summary: &HandicapSummary) -> Report {
    let mut nearest: Vec<&HandicapChoice> = summary.choices.iter().collect();
    let away = |choice: &HandicapChoice| choice.share.map_or(1.0, |share| (share - 0.5).abs());
    nearest.sort_by(|one, other| away(one).total_cmp(&away(other)));
    nearest.truncate(FEW);
    let fair = summary.choices.iter().filter(|c| c.standing == HandicapStanding::Fair).collect();
    Report {
        title: format!("What makes {} fair?", summary.title),
        facts: facts(summary),
        headline: summary.headline.clone(),
        front: vec![
            section("Nearest to a half", nearest),
            Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]),
        ],
        body: vec![
            section("Surely fair", fair),
            section("Every choice", summary.choices.iter().collect()),
            Section::new("How this was measured", method()),
        ],
        ..Report::default()
    }
}

fn facts(summary: &HandicapSummary) -> String {
    let games: u64 = summary.choices.iter().map(|choice| choice.games).sum();
    format!(
        "{} of {}, {} for the {}, rules {}, attacker {}, defender {}, seed {}",
        counted(games, "game"),
        summary.scenario,
        counted(summary.choices.len() as u64 - 1, "choice"),
        summary.side.word(),
        summary.arm,
        summary.attacker,
        summary.defender,
        summary.seed
    )
}

fn section(heading: &str, choices: Vec<&HandicapChoice>) -> Section {
    if choices.is_empty() {
        return Section::new(heading, vec![Block::Paragraph("None.".to_owned())]);
    }
    let row = |choice: &&HandicapChoice| -> Vec<Cell> {
        let cells = [
            adds(choice).to_owned(),
            wins(choice),
            count(choice.games),
            word(choice.standing).to_owned(),
        ];
        cells.map(Cell::from).to_vec()
    };
    let columns = vec![
        Column::words("Adds"),
        Column::numbers("Attacker wins (together 95 %)"),
        Column::numbers("Games"),
        Column::words("Finding"),
    ];
    let rows = choices.iter().map(row).collect();
    Section::new(heading, vec![Block::Table(Table { caption: heading.to_owned(), columns, rows })])
}

fn method() -> Vec<Block> {
    let sources = [
        "Wilson EB (1927) Journal of the American Statistical Association 22:209-212: intervals",
        "Dunn OJ (1961) Journal of the American Statistical Association 56:52-64: all at once, by \
         Bonferroni's inequality",
        "40 to 60 %: common practice, our choice",
    ];
    vec![
        Block::Paragraph(
            "Every choice is a scenario of its own with games and luck of its own. A choice is fair \
             when its whole interval lies within 40 to 60 %, not fair when all of it lies outside, \
             and open otherwise."
                .to_owned(),
        ),
        Block::Notes(sources.map(str::to_owned).to_vec()),
    ]
}
