//! Pages on which the games worth a look can be watched, each beside the same game in the reference.

use ruleshift_hooks::Stack;
use ruleshift_record::{Plan, Ticket, Timing};
use ruleshift_reports::watch::watch_page;
use ruleshift_reports::{Block, Report, TicketLine};

use crate::again::Again;
use crate::diverge::Meeting;
use crate::resolve;

/// Pages of one run at most: a folder should stay small enough to be sent. Of further games the report
/// has the ticket.
const MOST: usize = 16;

/// Adds a page for each game worth a look, and links to it from the report.
pub(super) fn add(plan: &Plan, report: &mut Report, pages: &mut Vec<(String, String)>) {
    let Some(reference) = reference(plan) else { return };
    let sections = report.front.iter_mut().chain(&mut report.body);
    let lines = sections.flat_map(|section| &mut section.blocks).filter_map(|block| match block {
        Block::Tickets(lines) => Some(lines),
        _ => None,
    });
    let mut filmed = 0;
    for line in lines.flatten() {
        if filmed == MOST {
            break;
        }
        let Some(page) = page(line, &reference, &plan.timing) else { continue };
        filmed += 1;
        let file = format!("game-{filmed}.html");
        line.page = Some(file.clone());
        pages.push((file, page));
    }
}

/// The rules of the reference, as they are now.
fn reference(plan: &Plan) -> Option<Stack> {
    let names: Vec<&str> =
        plan.arms.first()?.stack.iter().map(|variant| variant.name.as_str()).collect();
    let typed = if names.is_empty() { "base".to_owned() } else { names.join("+") };
    resolve::stack(&typed).ok()
}

/// The page of a game and its partner; none where the game is not what it was any more, since a script
/// or a file has changed since it was played.
fn page(line: &TicketLine, reference: &Stack, timing: &Timing) -> Option<String> {
    let command = &line.games.first()?.command;
    let ticket: Ticket = command.split_whitespace().last()?.parse().ok()?;
    let (game, differs) = Again::of(&ticket).ok()?;
    if !differs.is_empty() || game.stack.spec() == reference.spec() {
        return None;
    }
    let meeting = Meeting::of(game, reference, timing).ok()?;
    Some(watch_page(&meeting.film()))
}
