//! From the answer of a hunt to the tree of its report.

use ruleshift_record::{HuntPlan, HuntSummary, Seat};

use super::tables;
use super::words::{share, usual};
use crate::format::{and, count, counted};
use crate::method_page::{AGAIN, MethodSection, more};
use crate::report::{Block, Replay, Report, Section, TicketLine};

/// Builds the report of `summary`, the answer of `hunt`.
pub fn build_hunt(hunt: &HuntPlan, summary: &HuntSummary) -> Report {
    Report {
        title: format!("Can a player abuse {}?", summary.title),
        facts: facts(hunt, summary),
        headline: summary.headline.clone(),
        front: front(hunt, summary),
        body: body(hunt, summary),
        ..Report::default()
    }
    .explained(&[])
}

/// The hunt in one line.
fn facts(hunt: &HuntPlan, summary: &HuntSummary) -> String {
    format!(
        "{} tried as the {} against {}, {}, {} to judge, seed {}",
        counted(u64::from(summary.trail.tried), "style"),
        sides(hunt),
        opponents(hunt),
        counted(hunt.judged.scenarios.len() as u64, "scenario"),
        counted(u64::from(summary.whole.seeds), "seed"),
        hunt.search.seed
    )
}

fn sides(hunt: &HuntPlan) -> String {
    let sides =
        [Seat::Attacker, Seat::Defender].into_iter().filter(|side| hunt.seats.contains(side));
    and(&sides.map(|side| tables::side(side).to_owned()).collect::<Vec<_>>())
}

fn opponents(hunt: &HuntPlan) -> String {
    let mut names: Vec<String> = Vec::new();
    for (pairing, seat) in hunt.judged.pairings.iter().zip(&hunt.seats) {
        let name = match seat {
            Seat::Attacker => &pairing.defender.name,
            Seat::Defender => &pairing.attacker.name,
        };
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    and(&names)
}

fn front(hunt: &HuntPlan, summary: &HuntSummary) -> Vec<Section> {
    let gains = Block::Table(tables::gains(hunt, summary));
    let mut front = vec![Section::new("What the style gains", vec![gains])];
    if !summary.habits.is_empty() {
        let habits = Block::Table(tables::habits(hunt, &summary.habits));
        front.push(Section::new("What the style does differently", vec![habits]));
    }
    front.push(Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]));
    let line = summary.tickets.first().map(|first| {
        let games = summary.tickets.iter().map(|note| replay(&note.arm, &note.ticket));
        TicketLine::new(first.why.as_str(), games.collect())
    });
    if let Some(line) = line {
        front.push(Section::new("A game that shows it", vec![Block::Tickets(vec![line])]));
    }
    front
}

fn replay(arm: &str, ticket: &str) -> Replay {
    Replay { arm: arm.to_owned(), command: format!("ruleshift replay {ticket}") }
}

fn body(hunt: &HuntPlan, summary: &HuntSummary) -> Vec<Section> {
    let faults = summary.faults.iter().map(|fault| Block::Warning(fault.message.clone()));
    let parts = [("Side", &summary.by_side), ("Scenario", &summary.by_scenario)];
    let parts = parts.map(|(what, parts)| Block::Table(tables::parts(summary, what, parts)));
    let play = format!(
        "It plays as --attacker {0} or --defender {0}, and lies as found.ron in the folder of this run.",
        summary.trail.found.name
    );
    [
        Section::new("Where it gains", faults.chain(parts).collect()),
        Section::new(
            "The style",
            vec![Block::Table(tables::weights(hunt, summary)), Block::Paragraph(play)],
        ),
        Section::new(
            "The search",
            vec![Block::Table(tables::rounds(summary)), Block::Table(tables::finalists(summary))],
        ),
        Section::new("How this was measured", method(hunt).map(Block::Paragraph).to_vec()),
    ]
    .into()
}

fn method(hunt: &HuntPlan) -> [String; 5] {
    let (search, usual) = (&hunt.search, usual(hunt));
    [
        format!(
            "A style is a set of weights. The search is CMA-ES (Hansen and Ostermeier 2001, \
             Evolutionary Computation 9:159-195) over all of them at once, on a scale in which each \
             step multiplies a weight, from those of {usual} outwards. Each style plays {} under \
             the base rules and under the variant beside {usual}: the same seats, opponents and \
             luck. It is worth the lesser of two: what it wins more than {usual} under the variant, \
             and how much more that is than what it wins more under the base rules. So neither a \
             style that is better in both games is worth anything, nor a bad one that the variant \
             makes a bit less bad.",
            counted(u64::from(search.games), "game")
        ),
        format!(
            "Each round has seeds of its own. The {} most promising styles play {} each on a \
             second set of seeds, by which one is chosen. That one alone is judged, on {} seeds \
             that neither the search nor the choice has seen, so nothing here is the best of many.",
            search.finalists,
            counted(u64::from(search.finalist_games), "game"),
            count(u64::from(hunt.judged.games_per_arm))
        ),
        format!(
            "A draw is half a win. Each seed is played four times, by both styles under both rules, \
             and gives one difference; each scenario and side is a stratum. Intervals are \
             two-sided, at 95 %, by Student's t with Satterthwaite's degrees of freedom. The word \
             is `opens an exploit` when the lower ends of both gains lie above {}, which is our \
             choice (`--gain`); a style that gains less than that is so accused in at most 2.5 % of \
             hunts. What the style does differently is told of metrics that surely differ, by \
             Holm's method over all of them, and as much as anyone would notice.",
            share().amount(hunt.gain)
        ),
        more(&[MethodSection::Hunt]),
        AGAIN.to_owned(),
    ]
}
