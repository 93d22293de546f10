//! From the answer of a ladder to the tree of its report.

use ruleshift_record::LadderSummary;

use super::{method, tables};
use crate::format::{count, counted};
use crate::report::{Block, Replay, Report, Section, TicketLine};

/// Players beyond whom the table of all against all is too wide for the front.
const SIDE_BY_SIDE: usize = 7;

/// Builds the report of a ladder.
pub fn build_ladder(summary: &LadderSummary) -> Report {
    Report {
        title: format!("A ladder of {}", counted(summary.players.len() as u64, "player")),
        facts: facts(summary),
        headline: summary.headline.clone(),
        front: front(summary),
        body: body(summary),
        ..Report::default()
    }
}

fn facts(summary: &LadderSummary) -> String {
    format!(
        "rules {}, {}, {} in each pairing, {}, seed {}",
        summary.arm,
        counted(games(summary), "game"),
        count(u64::from(summary.games_per_pairing)),
        counted(summary.scenarios.len() as u64, "scenario"),
        summary.seed
    )
}

/// All games, those against oneself too.
pub(super) fn games(summary: &LadderSummary) -> u64 {
    summary.pairings.iter().map(|p| p.share.games).sum()
}

fn front(summary: &LadderSummary) -> Vec<Section> {
    let mut front = Vec::new();
    if !summary.pairings.is_empty() {
        let words = Block::Paragraph(tables::words(summary));
        front.push(Section::new("The ladder", vec![Block::Table(tables::ladder(summary)), words]));
    }
    if summary.players.len() <= SIDE_BY_SIDE {
        front.extend(matrix(summary));
    }
    front.push(Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]));
    if !summary.tickets.is_empty() {
        front.push(Section::new("Games worth a look", vec![Block::Tickets(tickets(summary))]));
    }
    front
}

fn matrix(summary: &LadderSummary) -> Option<Section> {
    let table = Block::Table(tables::matrix(summary));
    (!summary.rivals.is_empty()).then(|| Section::new("Who beats whom", vec![table]))
}

fn tickets(summary: &LadderSummary) -> Vec<TicketLine> {
    let line = |note: &ruleshift_record::TicketNote| {
        let command = format!("ruleshift replay {}", note.ticket);
        TicketLine::new(note.why.as_str(), vec![Replay { arm: note.arm.clone(), command }])
    };
    summary.tickets.iter().map(line).collect()
}

fn body(summary: &LadderSummary) -> Vec<Section> {
    let mut body = Vec::new();
    if summary.players.len() > SIDE_BY_SIDE {
        body.extend(matrix(summary));
    }
    let tables = [
        ("Strengths", tables::strengths(summary)),
        ("Every pairing", tables::pairings(summary)),
        ("By scenario", tables::scenarios(summary)),
        ("Whether the scenario decides", tables::spreads(summary)),
    ];
    for (heading, table) in tables {
        if !table.rows.is_empty() {
            body.push(Section::new(heading, vec![Block::Table(table)]));
        }
    }
    body.push(Section::new("How this was measured", method::blocks(summary)));
    body
}
