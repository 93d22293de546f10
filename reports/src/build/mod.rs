//! From the answer of a run to the tree of its report.

mod balance;
mod charts;
mod closer;
mod course;
mod drawn;
mod evening;
mod importance;
pub(crate) mod method;
mod players;
mod short;
pub(crate) mod tables;

use ruleshift_record::{ArmSummary, Metric, RunRecord, Summary};

use crate::format::{count, counted};
use crate::report::{Block, Replay, Report, Section, TicketLine};

/// Builds the report of `summary`; `run` adds the distributions of single games.
pub fn build(summary: &Summary, run: &RunRecord) -> Report {
    Report {
        title: title(&summary.arms),
        facts: facts(summary),
        headline: summary.headline.clone(),
        short: Some(short::section(summary)).filter(|section| !section.blocks.is_empty()),
        front: front(summary),
        body: body(summary, run),
        ..Report::default()
    }
    .explained(&summary.metrics)
}

fn title(arms: &[ArmSummary]) -> String {
    match arms {
        [] => "No arms".to_owned(),
        [reference] => format!("{} alone", reference.title),
        [reference, arm] => format!("{} against {}", arm.title, reference.title),
        [reference, arms @ ..] => format!("{} variants against {}", arms.len(), reference.title),
    }
}

/// A run that every arm has left unfinished says so: it was interrupted.
pub(crate) fn facts(summary: &Summary) -> String {
    let planned = counted(u64::from(summary.games_per_arm), "game");
    let most = summary.arms.iter().map(|arm| arm.games).max().unwrap_or(0);
    let played = if most < summary.games_per_arm {
        format!("{} of {planned}", count(u64::from(most)))
    } else {
        planned
    };
    let look = summary.looks.as_ref().map_or(String::new(), |looks| {
        format!(" (look {} of {})", looks.done, looks.planned.len())
    });
    format!(
        "{played} in each arm{look}, {}, {}, seed {}",
        counted(summary.scenarios.len() as u64, "scenario"),
        players::facts(summary),
        summary.seed
    )
}

/// The metrics judged together as the headline of this run, as far as there were games for them.
fn headline(summary: &Summary) -> impl Iterator<Item = &'static Metric> {
    let judged = |metric: &&Metric| {
        let name = metric.spec().name;
        summary.metrics.iter().any(|m| m.headline && m.metric == name)
    };
    Metric::ALL.iter().filter(judged)
}

fn front(summary: &Summary) -> Vec<Section> {
    let mut front = Vec::new();
    if let Some(table) = tables::front(summary) {
        let legend = (summary.arms.len() > 2).then(|| Block::Paragraph(tables::legend()));
        // Side by side there are only shifts, and no room for more on one screen.
        let words = tables::words(summary).filter(|_| legend.is_none()).map(Block::Paragraph);
        let blocks = std::iter::once(Block::Table(table)).chain(legend).chain(words).collect();
        front.push(Section::new("What shifts", blocks));
    }
    front.extend(players::front(summary));
    front.extend(importance::front(summary));
    front.push(Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]));
    if !summary.tickets.is_empty() {
        front.push(Section::new("Games worth a look", vec![Block::Tickets(tickets(summary))]));
    }
    front
}

/// The games worth a look; a game of the reference belongs to the note before it.
pub(crate) fn tickets(summary: &Summary) -> Vec<TicketLine> {
    let reference = summary.arms.first().map_or("", |a| a.name.as_str());
    let mut lines: Vec<TicketLine> = Vec::new();
    for note in &summary.tickets {
        let game = replay(&note.arm, &note.ticket);
        match lines.last_mut() {
            Some(line) if note.arm == reference => line.games.push(game),
            _ => lines.push(TicketLine::new(note.why.as_str(), vec![game])),
        }
    }
    lines
}

/// The games worth a look of the arm that shifts most over the headline metrics, in multiples of what
/// is noticed: of many arms, one is enough for a screen.
pub(crate) fn furthest(summary: &Summary) -> Option<Section> {
    let size = |arm: &ArmSummary| drawn::size(summary, arm);
    let arms = summary.arms.iter().skip(1);
    let arm = arms.reduce(|best, arm| if size(arm) > size(best) { arm } else { best })?;
    let mut lines = tickets(summary);
    lines.retain(|line| line.games.first().is_some_and(|game| game.arm == arm.name));
    let heading = format!("Games worth a look: {}", arm.title);
    (!lines.is_empty()).then(|| Section::new(heading, vec![Block::Tickets(lines)]))
}

fn replay(arm: &str, ticket: &str) -> Replay {
    Replay { arm: arm.to_owned(), command: format!("ruleshift replay {ticket}") }
}

fn body(summary: &Summary, run: &RunRecord) -> Vec<Section> {
    let mut body = vec![Section::new("What was compared", arms(summary))];
    let pictures = charts::charts(summary, run).into_iter().map(Block::Chart).collect();
    let games = [
        Section::new("The shifts in pictures", pictures),
        balance::section(summary),
        evening::length(summary, run),
        evening::waiting(summary, run),
        course::section(summary),
    ];
    body.extend(games.into_iter().filter(|section| !section.blocks.is_empty()));
    body.extend(closer::games(summary));
    body.extend(tables::sections(summary));
    body.extend(closer::chances(summary));
    body.extend(players::sections(summary));
    body.extend(importance::sections(summary));
    body.extend(closer::sureness(summary));
    body.push(Section::new("How this was measured", method::blocks(summary)));
    body
}

pub(crate) fn arms(summary: &Summary) -> Vec<Block> {
    let mut blocks = vec![Block::Table(tables::arms(summary))];
    for fault in &summary.faults {
        let Some(arm) = summary.arms.get(fault.arm) else { continue };
        blocks.push(Block::Warning(format!(
            "{} stopped early, after {} of {} games. {}",
            arm.title,
            count(u64::from(arm.games)),
            count(u64::from(summary.games_per_arm)),
            fault.message
        )));
        blocks.push(Block::Tickets(vec![TicketLine::new(
            "The game that met the fault",
            vec![replay(&arm.name, &fault.ticket)],
        )]));
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    fn report(arms: &[Vec<sample::Made>]) -> Report {
        let run = sample::run(arms);
        build(&summarise(&run), &run)
    }

    fn headings(report: &Report) -> Vec<&str> {
        report.sections().map(|s| s.heading.as_str()).collect()
    }

    #[test]
    fn a_run_of_nothing_still_has_a_report() {
        assert_eq!(report(&[]).title, "No arms");
        let alone = report(&[vec![]]);
        assert_eq!(alone.title, "Base rules alone");
        assert_eq!(
            headings(&alone),
            ["Keep in mind", "What was compared", "How this was measured"]
        );
    }

    #[test]
    fn the_answer_in_short_comes_first_and_how_it_was_measured_last() {
        let games = sample::games(200);
        let mut run = sample::run(&[games.clone(), games]);
        sample::roster(&mut run, &["steady", "bold"]);
        let report = build(&summarise(&run), &run);
        let body: Vec<&str> = report.body.iter().map(|s| s.heading.as_str()).collect();
        assert_eq!(headings(&report)[0], "In short");
        let first = [
            "What was compared",
            "The shifts in pictures",
            "Balance by scenario and by players",
            "Length and table minutes",
            "Waiting and idle units",
            "How games unfold",
            "The usual game and the unusual one",
        ];
        assert_eq!(body[..first.len()], first);
        assert_eq!(body.last(), Some(&"How this was measured"));
    }

    #[test]
    fn the_words_of_the_first_table_stand_under_it() {
        let words = |metrics: &[&str]| {
            let mut run = sample::run(&[sample::games(20), sample::games(20)]);
            run.plan.headline = metrics.iter().map(|&name| name.to_owned()).collect();
            match build(&summarise(&run), &run).front[0].blocks.get(1) {
                Some(Block::Paragraph(words)) => words.clone(),
                None => String::new(),
                other => panic!("{other:?}"),
            }
        };
        assert!(words(&[]).starts_with("pp: ") && words(&[]).contains(" Margin: "));
        assert!(words(&["margin"]).starts_with("Margin: the attacker's points less"));
        assert!(words(&["attacker_wins"]).starts_with("pp: percentage points"));
        assert_eq!(words(&["turns"]), "");
    }

    #[test]
    fn every_row_has_a_cell_for_every_column() {
        let report = report(&[sample::games(20), sample::games(20), sample::games(10)]);
        let mut tables = 0;
        for block in report.sections().flat_map(|s| &s.blocks) {
            let table = match block {
                Block::Table(table) => table,
                Block::Chart(chart) => &chart.data,
                _ => continue,
            };
            tables += 1;
            assert!(table.rows.iter().all(|r| r.len() == table.columns.len()), "{table:?}");
        }
        assert!(tables >= 8, "{tables}");
    }

    #[test]
    fn the_two_games_of_a_pair_stand_together() {
        let report = report(&[vec![(0, 0, 1.0), (0, 1, 2.0)], vec![(0, 0, 5.0), (0, 1, 2.0)]]);
        let Some(Block::Tickets(lines)) = report.front[2].blocks.first() else {
            panic!("{:?}", report.front);
        };
        let arms: Vec<Vec<&str>> =
            lines.iter().map(|l| l.games.iter().map(|g| g.arm.as_str()).collect()).collect();
        assert_eq!(arms, [vec!["arm-1"], vec!["arm-1", "base"], vec!["arm-1"]]);
    }

    #[test]
    fn a_fault_is_warned_of_with_its_ticket() {
        let mut run = sample::run(&[sample::games(4), sample::games(2)]);
        run.faults = vec![ruleshift_record::ArmFault {
            arm: 1,
            message: "a value out of range".into(),
            ticket: "rs1~x".into(),
        }];
        let report = build(&summarise(&run), &run);
        let compared = report.body.iter().find(|s| s.heading == "What was compared");
        let blocks = &compared.expect("it is always there").blocks;
        assert!(
            matches!(&blocks[1], Block::Warning(w) if w.contains("after 2 of 40 games. a value"))
        );
        assert!(
            matches!(&blocks[2], Block::Tickets(t) if t[0].games[0].command == "ruleshift replay rs1~x")
        );
    }
}
