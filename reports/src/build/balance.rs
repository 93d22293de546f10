//! Who wins, scenario by scenario and player by player, against an even half.

use ruleshift_record::{Balance, Summary};

use super::drawn;
use crate::format::{Scale, count, fixed};
use crate::report::{Block, Cell, Chart, Column, Plot, Section, ShareMark, ShareRow, Table};

/// Where the attacker's share of wins counts as even: what the shipped scenarios keep to.
pub(super) const EVEN: (f64, f64) = (0.4, 0.6);

const ABOUT: &str = "How often the attacker wins under each arm, with 95 % intervals; a draw is no win of \
    his. The line is at a half, the band from 40 to 60 %, between which a scenario counts as even. Games of \
    one number have the same luck in both arms, so a shift is surer than two intervals side by side look.";

/// The section; without blocks when nothing was played.
pub(super) fn section(summary: &Summary) -> Section {
    let by_scenario = rows(summary, |b| b.players.is_none(), |b| b.scenario.clone());
    let by_players = rows(
        summary,
        |b| b.scenario.is_none(),
        |b| b.players.as_ref().map(|(attacker, defender)| format!("{attacker} against {defender}")),
    );
    let charts = [
        chart(
            summary,
            "The attacker's wins by scenario",
            ("Scenario", "all scenarios"),
            by_scenario,
        ),
        chart(summary, "The attacker's wins by players", ("Players", "all players"), by_players),
    ];
    let mut blocks: Vec<Block> = charts.into_iter().flatten().map(Block::Chart).collect();
    let heading = match blocks.len() {
        2 => "Balance by scenario and by players",
        _ => "Balance by scenario",
    };
    if !blocks.is_empty() {
        blocks.insert(0, Block::Paragraph(ABOUT.to_owned()));
    }
    Section::new(heading, blocks)
}

/// The parts in their order, each with what every arm that is drawn has of it; the whole comes first.
type Rows<'a> = Vec<(Option<String>, Vec<Option<&'a Balance>>)>;

fn rows<'a>(
    summary: &'a Summary,
    wanted: impl Fn(&Balance) -> bool,
    name: impl Fn(&Balance) -> Option<String>,
) -> Rows<'a> {
    let mut rows: Rows = Vec::new();
    let arms = drawn::arms(summary);
    for (n, arm) in arms.iter().enumerate() {
        for part in summary.balance.iter().filter(|b| b.arm == arm.name && wanted(b)) {
            let name = name(part);
            let known = rows.iter().position(|row| row.0 == name);
            let place = known.unwrap_or_else(|| {
                rows.push((name, vec![None; arms.len()]));
                rows.len() - 1
            });
            rows[place].1[n] = Some(part);
        }
    }
    rows
}

/// `None` without parts: the whole alone needs no picture.
fn chart(summary: &Summary, title: &str, (part, all): (&str, &str), rows: Rows) -> Option<Chart> {
    if rows.len() < 2 {
        return None;
    }
    let mark = |b: &Balance| ShareMark { share: b.share, low: b.low, high: b.high };
    let label = |name: &Option<String>| name.clone().unwrap_or_else(|| all.to_owned());
    let drawn_row = |(name, parts): &(Option<String>, Vec<Option<&Balance>>)| ShareRow {
        label: label(name),
        marks: parts.iter().map(|b| b.map(mark)).collect(),
    };
    let data_row = |(name, parts): &(Option<String>, Vec<Option<&Balance>>)| -> Vec<Cell> {
        let games = parts.iter().flatten().map(|b| b.games).max().unwrap_or(0);
        let head = [label(name), count(u64::from(games))];
        head.into_iter().chain(parts.iter().map(|b| cell(*b))).map(Cell::from).collect()
    };
    let columns = [Column::words(part), Column::numbers("Games in each arm")];
    let arms = drawn::arms(summary);
    Some(Chart {
        title: title.to_owned(),
        description: description(summary, part, &rows),
        series: drawn::titles(summary),
        data: Table {
            caption: "Share of games that the attacker wins, with its 95 % interval".to_owned(),
            columns: columns
                .into_iter()
                .chain(arms.iter().map(|arm| Column::numbers(arm.name.as_str())))
                .collect(),
            rows: rows.iter().map(data_row).collect(),
        },
        plot: Plot::Shares {
            rows: rows.iter().map(drawn_row).collect(),
            even: EVEN,
            axis: "games that the attacker wins".to_owned(),
        },
    })
}

/// The share of a part with its interval.
fn cell(part: Option<&Balance>) -> String {
    part.map_or("no games".to_owned(), |b| format!("{} ({})", percent(b.share), ends(b)))
}

pub(super) fn percent(share: f64) -> String {
    Scale::new("share", 1.0).value(share)
}

/// The ends of an interval in percent, without the sign.
pub(super) fn ends(part: &Balance) -> String {
    format!("{} to {}", fixed(100.0 * part.low, 1), fixed(100.0 * part.high, 1))
}

/// How the marks of a row look, by the place of their series.
const MARKS: [&str; 4] = ["a ring", "a dot", "a square", "a triangle"];

/// The whole of each arm, and its parts that are surely not even.
fn description(summary: &Summary, part: &str, rows: &Rows) -> String {
    let arms = drawn::arms(summary);
    let said = arms.iter().zip(MARKS).enumerate().filter_map(|(n, (arm, shape))| {
        let all = percent(rows.first()?.1[n]?.share);
        let uneven = |(name, parts): &(Option<String>, Vec<Option<&Balance>>)| {
            let b = parts[n].filter(|b| b.high < EVEN.0 || b.low > EVEN.1)?;
            Some(format!("{} in {}", percent(b.share), name.as_ref()?))
        };
        let uneven: Vec<String> = rows.iter().filter_map(uneven).collect();
        let rest = match uneven.is_empty() {
            true => String::new(),
            false => format!(", surely outside 40 to 60 % with {}", uneven.join(", ")),
        };
        Some(format!("{} ({shape}), over all games {all}{rest}", arm.title))
    });
    let said: Vec<String> = said.collect();
    format!(
        "The attacker's share of wins, a row for all games and one for each of the {}; in each row from top \
         to bottom: {}.{}",
        if part == "Players" { "pairings of players" } else { "scenarios" },
        said.join("; "),
        drawn::told(summary)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    fn charts(section: &Section) -> Vec<&Chart> {
        let blocks = section.blocks.iter();
        blocks
            .filter_map(|block| match block {
                Block::Chart(chart) => Some(chart),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn one_pairing_needs_no_picture_of_players() {
        let games = sample::games(200);
        let mut run = sample::run(&[games.clone(), games]);
        let alone = section(&summarise(&run));
        assert_eq!((alone.heading.as_str(), charts(&alone).len()), ("Balance by scenario", 1));
        sample::roster(&mut run, &["steady", "bold"]);
        let several = section(&summarise(&run));
        assert_eq!(several.heading, "Balance by scenario and by players");
        let rows: Vec<usize> = charts(&several).iter().map(|c| c.data.rows.len()).collect();
        assert_eq!(rows, [1 + 2, 1 + 4]);
    }

    #[test]
    fn each_arm_has_its_share_in_each_scenario() {
        let games = |won: u32| -> Vec<sample::Made> {
            let one = |s: usize| (0..100).map(move |g| (s, g, if g < won { 1.0 } else { -1.0 }));
            one(0).chain(one(1).filter(move |_| won < 90)).collect()
        };
        let section = section(&summarise(&sample::run(&[games(50), games(90)])));
        let chart = charts(&section)[0];
        let texts: Vec<Vec<&str>> =
            chart.data.rows.iter().map(|r| r.iter().map(|c| c.text.as_str()).collect()).collect();
        // Wilson's interval of 90 in 100 and of 50 in 100 (made with the formula of Wilson 1927).
        assert_eq!(texts[1], ["hill", "100", "50.0 % (40.4 to 59.6)", "90.0 % (82.6 to 94.5)"]);
        assert_eq!(texts[2], ["meeting", "100", "50.0 % (40.4 to 59.6)", "no games"]);
        let said = "Base rules (a ring), over all games 50.0 %; Arm 1 (a dot), over all games 90.0 %, \
                    surely outside 40 to 60 % with 90.0 % in hill.";
        assert!(chart.description.ends_with(said), "{}", chart.description);
    }

    #[test]
    fn nothing_played_is_no_section() {
        assert!(section(&summarise(&sample::run(&[vec![], vec![]]))).blocks.is_empty());
    }
}
