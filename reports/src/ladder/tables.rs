//! The tables of a ladder.

use ruleshift_record::{LadderPairing, LadderPlayer, LadderRivals, LadderStrength, LadderSummary};

use super::{percent, percent_within, within};
use crate::format::{Scale, count, fixed, p_value};
use crate::report::{Cell, Column, Table};

/// What stands in a cell with nothing to say.
const DASH: &str = "\u{2013}";

/// The players, the strongest first.
pub(super) fn ladder(summary: &LadderSummary) -> Table {
    let row = |p: &LadderPlayer| -> Vec<Cell> {
        let side = |share: Option<ruleshift_record::LadderShare>| {
            share.map_or(DASH.to_owned(), |s| percent(s.share))
        };
        vec![
            p.name.clone().into(),
            place(p).into(),
            within(p.wins.as_ref()).into(),
            side(p.attacking).into(),
            side(p.defending).into(),
            p.strength.as_ref().map_or(DASH.to_owned(), chances).into(),
            p.strength.map_or(DASH.to_owned(), |s| log_odds(s.strength)).into(),
        ]
    };
    Table {
        caption: "The ladder, the strongest first".to_owned(),
        columns: vec![
            Column::words("Player"),
            Column::numbers("Place"),
            Column::numbers("Wins (95 %)"),
            Column::numbers("Attacks"),
            Column::numbers("Defends"),
            Column::numbers("Chance"),
            Column::numbers("Strength"),
        ],
        rows: summary.players.iter().map(row).collect(),
    }
}

/// What the heads of the first table mean.
pub(super) fn words(summary: &LadderSummary) -> String {
    format!(
        "Place: the places a player may hold. Wins: share of games against all others, a draw \
         being half a win; Attacks, Defends: the same on that side. Chance: to beat {0} if sides \
         were even, by strength. Strength: log odds of that chance; {0} has 0.",
        summary.reference
    )
}

fn place(player: &LadderPlayer) -> String {
    match (player.place, player.place_last) {
        (first, last) if first == last => first.to_string(),
        (first, last) => format!("{first}\u{2013}{last}"),
    }
}

/// A strength as a chance; a dash for the reference, which has nothing to be unsure of.
fn chances(s: &LadderStrength) -> String {
    if s.low < s.high {
        percent_within(s.chance, s.chance_low, s.chance_high)
    } else {
        DASH.to_owned()
    }
}

/// A strength with its sign and two decimals.
fn log_odds(value: f64) -> String {
    Scale::new("log odds", 0.5).shift(value)
}

/// Wins of the player of the row against the player of the column, over both sides. Columns have
/// numbers, so that names of any length leave room for all of them.
pub(super) fn matrix(summary: &LadderSummary) -> Table {
    let cell = |row: &LadderPlayer, column: &LadderPlayer| -> Cell {
        let met = |r: &&LadderRivals| r.player == row.name && r.other == column.name;
        let text = |r: &LadderRivals| {
            let half = 50.0 * (r.share.high - r.share.low);
            let half = if half < 0.5 { "<1".to_owned() } else { fixed(half, 0) };
            format!("{} ±{half}", fixed(100.0 * r.share.share, 0))
        };
        summary.rivals.iter().find(met).map_or(DASH.to_owned(), text).into()
    };
    let row = |(rank, player): (usize, &LadderPlayer)| {
        let cells = summary.players.iter().map(|other| cell(player, other));
        std::iter::once(format!("{} {}", rank + 1, player.name).into()).chain(cells).collect()
    };
    let columns = (1..=summary.players.len()).map(|n| Column::numbers(n.to_string()));
    Table {
        caption: "Wins of the row against the column, in % (± half the 95 % interval)".to_owned(),
        columns: std::iter::once(Column::words("Player")).chain(columns).collect(),
        rows: summary.players.iter().enumerate().map(row).collect(),
    }
}

/// Strengths and the attacker's advantage with their intervals.
pub(super) fn strengths(summary: &LadderSummary) -> Table {
    let scale = Scale::new("log odds", 0.5);
    let row = |name: String, s: &LadderStrength| -> Vec<Cell> {
        vec![
            name.into(),
            scale.shift(s.strength).into(),
            if s.low < s.high { scale.interval(s.low, s.high) } else { DASH.to_owned() }.into(),
            chances(s).into(),
        ]
    };
    let players = summary.players.iter();
    let players = players.filter_map(|p| Some(row(p.name.clone(), p.strength.as_ref()?)));
    let side = summary.advantage.iter().map(|a| row("the attacker, between equals".to_owned(), a));
    Table {
        caption: format!("Strengths against {} and the advantage of the side", summary.reference),
        columns: vec![
            Column::words("Player"),
            Column::numbers("Log odds"),
            Column::numbers("95 % interval"),
            Column::numbers("As a chance"),
        ],
        rows: players.chain(side).collect(),
    }
}

/// Every attacker against every defender.
pub(super) fn pairings(summary: &LadderSummary) -> Table {
    let scale = Scale::new("share", 0.03);
    let row = |p: &LadderPairing| -> Vec<Cell> {
        let whole = |n: u64| Cell::from(count(n));
        let interval =
            format!("{} to {}", fixed(100.0 * p.share.low, 1), fixed(100.0 * p.share.high, 1));
        vec![
            p.attacker.clone().into(),
            p.defender.clone().into(),
            whole(p.share.games),
            whole(p.wins),
            whole(p.draws),
            whole(p.losses),
            scale.value(p.share.share).into(),
            interval.into(),
            p.foreseen.map_or(DASH.to_owned(), |f| scale.value(f)).into(),
        ]
    };
    Table {
        caption: "The attacker's wins in every pairing".to_owned(),
        columns: ["Attacker", "Defender"]
            .map(Column::words)
            .into_iter()
            .chain(
                ["Games", "Wins", "Draws", "Losses", "Share", "95 % interval", "Foreseen"]
                    .map(Column::numbers),
            )
            .collect(),
        rows: summary.pairings.iter().map(row).collect(),
    }
}

/// The attacker's share and each player's in every scenario.
pub(super) fn scenarios(summary: &LadderSummary) -> Table {
    let row = |s: &ruleshift_record::LadderScenario| -> Vec<Cell> {
        let shares = std::iter::once(&s.attacker).chain(&s.players);
        let shares = shares.map(|share| Cell::from(within(share.as_ref())));
        std::iter::once(s.name.clone().into()).chain(shares).collect()
    };
    let names = summary.players.iter().map(|p| Column::numbers(p.name.as_str()));
    Table {
        caption:
            "Share of games won (95 %): by the attacker, and by each player against all others"
                .to_owned(),
        columns: [Column::words("Scenario"), Column::numbers("Attacker")]
            .into_iter()
            .chain(names)
            .collect(),
        rows: summary.scenarios.iter().map(row).collect(),
    }
}

/// How much it depends on the scenario who of two players wins.
pub(super) fn spreads(summary: &LadderSummary) -> Table {
    let rank = |name: &str| summary.players.iter().position(|p| p.name == name);
    let row = |r: &LadderRivals| -> Option<Vec<Cell>> {
        let spread = r.scenarios.as_ref()?;
        let part = |(name, share): &(String, f64)| format!("{} in {name}", percent(*share));
        Some(vec![
            r.player.clone().into(),
            r.other.clone().into(),
            part(&spread.least).into(),
            part(&spread.most).into(),
            fixed(spread.q, 1).into(),
            fixed(spread.df, 0).into(),
            p_value(spread.p_adjusted).into(),
        ])
    };
    let once = summary.rivals.iter().filter(|r| rank(&r.player) < rank(&r.other));
    Table {
        caption: "The player's wins against the other, from scenario to scenario".to_owned(),
        columns: ["Player", "Against", "Least", "Most"]
            .map(Column::words)
            .into_iter()
            .chain(["Q", "df", "p"].map(Column::numbers))
            .collect(),
        rows: once.filter_map(row).collect(),
    }
}
