//! Where two games with the same luck part, as a report.

use ruleshift_record::{Metric, MetricKind, Values};

use crate::format::{counted, fixed};
use crate::report::{Block, Cell, Column, Replay, Report, Section, Table, TicketLine};
use crate::words::scale;

/// Rows of metrics outside the headline family.
const FURTHER: usize = 8;

/// Two games with the same luck under two rule stacks, up to where they part and in the end.
#[derive(Clone, Debug, PartialEq)]
pub struct Divergence {
    /// The scenario.
    pub title: String,
    /// Forces, players and seed in one line.
    pub facts: String,
    /// The reference, then the other rules.
    pub games: [Parted; 2],
    /// Lines of the story up to the first difference, the last ones.
    pub story: Vec<String>,
    /// Lines of the story before those.
    pub earlier: usize,
    /// When they part, as the middle of a sentence; none when they never do.
    pub when: Option<String>,
    /// What made them part, a sentence each.
    pub makers: Vec<String>,
}

/// One of the two games.
#[derive(Clone, Debug, PartialEq)]
pub struct Parted {
    /// The rules as typed.
    pub arm: String,
    /// Their title.
    pub title: String,
    /// What happens there where they part.
    pub then: Vec<String>,
    /// How it ended, in a sentence.
    pub end: String,
    /// Its metrics.
    pub values: Values,
    /// How to see it again.
    pub command: String,
}

/// The report of a divergence.
pub fn build_divergence(divergence: &Divergence) -> Report {
    let [one, other] = &divergence.games;
    let headline = match &divergence.when {
        Some(when) => format!("The same until {when}; from there on two games."),
        None => format!(
            "The same from the first event to the last: with this luck, {} changes nothing.",
            other.title
        ),
    };
    let mut front = vec![];
    if divergence.when.is_some() {
        front.push(Section::new("The story until they part", story(divergence)));
        front.push(Section::new("Where they part", parting(divergence)));
    }
    let end = |game: &Parted| Block::Paragraph(format!("{}: {}", game.title, game.end));
    let outcomes = Block::Table(outcomes(&divergence.games));
    front.push(Section::new("How they ended", vec![end(one), end(other), outcomes]));
    let replay = |game: &Parted| Replay { arm: game.arm.clone(), command: game.command.clone() };
    front.push(Section::new(
        "Both games again",
        vec![Block::Tickets(vec![TicketLine::new(
            "Each game by itself",
            vec![replay(one), replay(other)],
        )])],
    ));
    Report {
        title: format!("{}: {} against {}", divergence.title, other.title, one.title),
        facts: divergence.facts.clone(),
        headline: vec![headline],
        front,
        ..Report::default()
    }
}

fn story(divergence: &Divergence) -> Vec<Block> {
    let earlier = (divergence.earlier > 0).then(|| {
        let lines = counted(divergence.earlier as u64, "earlier line");
        format!("({lines} of the story left out; --full tells them.)")
    });
    earlier.into_iter().chain(divergence.story.iter().cloned()).map(Block::Paragraph).collect()
}

fn parting(divergence: &Divergence) -> Vec<Block> {
    let then = Table {
        caption: "What happens next".to_owned(),
        columns: vec![Column::words("Rules"), Column::words("Next")],
        rows: divergence
            .games
            .iter()
            .flat_map(|game| {
                let first = game.then.first().cloned().unwrap_or_else(|| "nothing".to_owned());
                let rest = game.then.iter().skip(1).map(|line| (String::new(), line.clone()));
                std::iter::once((game.arm.clone(), first)).chain(rest)
            })
            .map(|(arm, line)| vec![arm.into(), line.into()])
            .collect(),
    };
    let makers = divergence.makers.iter().cloned().map(Block::Paragraph);
    makers.chain([Block::Table(then)]).collect()
}

/// Both games in numbers: the headline metrics, and what differs most besides.
pub fn outcomes(games: &[Parted; 2]) -> Table {
    let [one, other] = games;
    let row = |metric: Metric| -> Vec<Cell> {
        let label = scale(metric).labelled(metric.spec().label);
        let of = |game: &Parted| value(metric, game.values[metric as usize]).into();
        vec![Cell::metric(metric.spec().name, label), of(one), of(other)]
    };
    Table {
        caption: "The two games in numbers".to_owned(),
        columns: vec![
            Column::words("Metric"),
            Column::numbers(one.arm.as_str()),
            Column::numbers(other.arm.as_str()),
        ],
        rows: shown(&one.values, &other.values).into_iter().map(row).collect(),
    }
}

/// A value of one game: whole numbers, which a mean seldom is, without decimals.
fn value(metric: Metric, value: f64) -> String {
    if metric.spec().unit != "share" && value.fract() == 0.0 {
        return fixed(value, 0);
    }
    scale(metric).value(value)
}

/// The headline metrics, then those that differ most in multiples of what is noticed.
fn shown(one: &Values, other: &Values) -> Vec<Metric> {
    let apart = |metric: &Metric| {
        let n = *metric as usize;
        ((one[n] - other[n]) / metric.spec().notice).abs()
    };
    // Yes or no is told by how the games ended.
    let numbers = Metric::ALL.iter().copied().filter(|m| m.spec().kind == MetricKind::Number);
    let (mut first, mut rest): (Vec<Metric>, Vec<Metric>) =
        numbers.partition(|metric| metric.spec().headline);
    // Not a number where a game has no value.
    rest.retain(|metric| apart(metric) >= 1.0);
    rest.sort_by(|a, b| apart(b).total_cmp(&apart(a)));
    first.extend(rest.into_iter().take(FURTHER));
    first
}

#[cfg(test)]
mod tests {
    use super::*;

    fn game(arm: &str, change: impl Fn(&mut Values)) -> Parted {
        let mut values = [1.0; Metric::ALL.len()];
        change(&mut values);
        Parted {
            arm: arm.to_owned(),
            title: format!("Rules {arm}"),
            then: vec![format!("{arm} goes on")],
            end: "Game over".to_owned(),
            values,
            command: format!("ruleshift replay {arm}"),
        }
    }

    fn divergence(when: Option<&str>) -> Divergence {
        Divergence {
            title: "A fight".to_owned(),
            facts: "seed 7".to_owned(),
            games: [game("base", |_| ()), game("more", |v| v[Metric::MenLost as usize] = 9.0)],
            story: vec!["Turn 1".to_owned()],
            earlier: 3,
            when: when.map(str::to_owned),
            makers: vec!["A hook made it.".to_owned()],
        }
    }

    #[test]
    fn games_that_never_part_say_so_and_tell_no_story() {
        let report = build_divergence(&divergence(None));
        assert!(report.headline[0].contains("Rules more changes nothing"), "{:?}", report.headline);
        assert_eq!(report.front.len(), 2);
    }

    #[test]
    fn the_story_the_parting_and_the_ends_are_told_in_that_order() {
        let report = build_divergence(&divergence(Some("turn 1")));
        let headings: Vec<&str> = report.front.iter().map(|s| s.heading.as_str()).collect();
        let expected =
            ["The story until they part", "Where they part", "How they ended", "Both games again"];
        assert_eq!(headings, expected);
        assert_eq!(
            report.front[0].blocks[0],
            Block::Paragraph("(3 earlier lines of the story left out; --full tells them.)".into())
        );
    }

    #[test]
    fn what_differs_stands_beneath_the_headline_metrics() {
        let table = outcomes(&divergence(None).games);
        let last = table.rows.last().unwrap();
        let texts: Vec<&str> = last.iter().map(|cell| cell.text.as_str()).collect();
        assert_eq!(texts, ["men lost (men)", "1", "9"]);
        let numbers = |m: &&&Metric| m.spec().headline && m.spec().kind == MetricKind::Number;
        assert_eq!(table.rows.len(), Metric::ALL.iter().filter(|m| numbers(&m)).count() + 1);
    }
}
