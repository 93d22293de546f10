//! What the report of a ladder looks like, and what no data may do to it.

use crate::made::Luck;
use proptest::prelude::*;
use ruleshift_record::{LadderSummary, TicketNote};
use ruleshift_reports::stats::chance;
use ruleshift_reports::{
    LadderGames, LadderRow, Outcome, Report, build_ladder, html, json, markdown, rank, terminal,
};

/// Players with their planted strengths; the last but one never wins, the last is a twin of another.
const PLAYERS: [(&str, f64); 7] = [
    ("steady", 0.0),
    ("bold", 0.3),
    ("cautious", -0.4),
    ("planner", 0.9),
    ("hasty", -0.9),
    ("chance", -60.0),
    ("sturdy", 0.0),
];

/// What a scenario is worth to the attacker.
const SCENARIOS: [(&str, f64); 3] =
    [("orchard-road", 0.5), ("mill-bridge", 0.0), ("night-probe", -0.2)];

/// A round robin of made games with shared luck; one game in 16 is a draw.
fn made(players: &[(&str, f64)], seeds: u64) -> LadderGames {
    let count = players.len();
    let mut rows = Vec::new();
    for (scenario, &(_, side)) in SCENARIOS.iter().enumerate() {
        for seed in 0..seeds {
            let common = Luck(seed * 3 + scenario as u64).unit();
            for (attacker, defender) in (0..count).flat_map(|a| (0..count).map(move |d| (a, d))) {
                let mut own = Luck(seed * 1009 + (scenario * 49 + attacker * 7 + defender) as u64);
                let luck = (common + own.unit()).fract();
                let outcome = match chance(players[attacker].1 - players[defender].1 + side) {
                    c if (0.01..0.99).contains(&c) && own.unit() < 1.0 / 16.0 => {
                        // Rare, but in games that might have gone either way.
                        let _ = c;
                        Outcome::Draw
                    }
                    c if luck < c => Outcome::Attacker,
                    _ => Outcome::Defender,
                };
                if attacker != defender {
                    rows.push(LadderRow { attacker, defender, scenario, seed, outcome });
                }
            }
        }
    }
    LadderGames {
        rules: 1,
        arm: "base".into(),
        players: players.iter().map(|(name, _)| (*name).into()).collect(),
        scenarios: SCENARIOS.map(|(name, _)| name.into()).to_vec(),
        reference: 0,
        seed: 42,
        games_per_pairing: (seeds * 3) as u32,
        rows,
        tickets: vec![TicketNote {
            why: "hasty beats planner".into(),
            arm: "base".into(),
            ticket: "rs1~orchard-road@4567cdef~base~hasty~planner~0000000000000017~00".into(),
        }],
    }
}

fn report(games: &LadderGames) -> Report {
    build_ladder(&rank(games))
}

#[test]
fn the_terminal_shows_the_ladder_in_80_columns() {
    let text = terminal(&report(&made(&PLAYERS, 100)), 80, false);
    for line in text.lines().filter(|line| !line.starts_with("  ruleshift replay")) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    insta::assert_snapshot!(text, @r#""#);
}

#[test]
fn markdown_has_every_table() {
    let text = markdown(&report(&made(&PLAYERS[..3], 20)));
    insta::assert_snapshot!(text, @r#""#);
}

#[test]
fn the_planted_order_is_found() {
    let summary = rank(&made(&PLAYERS, 300));
    let names: Vec<&str> = summary.players.iter().map(|p| p.name.as_str()).collect();
    let mut planted: Vec<(&str, f64)> = PLAYERS.to_vec();
    planted.sort_by(|a, b| b.1.total_cmp(&a.1));
    assert_eq!(names[..2], ["planner", "bold"]);
    assert_eq!(names[4..], ["cautious", "hasty", "chance"]);
    let mut twins = [names[2], names[3]];
    twins.sort_unstable();
    assert_eq!(twins, ["steady", "sturdy"]);
    let places: Vec<(u32, u32)> = summary.players.iter().map(|p| (p.place, p.place_last)).collect();
    assert_eq!(places, [(1, 1), (2, 2), (3, 4), (3, 4), (5, 5), (6, 6), (7, 7)]);
    assert!(summary.headline.contains(&format!("Not told apart: {} and {}.", names[2], names[3])));
}

#[test]
fn json_reads_back_as_the_same_ladder() {
    let summary = rank(&made(&PLAYERS, 10));
    let text = json(&summary);
    let back: LadderSummary = serde_json::from_str(&text).unwrap();
    let names =
        |s: &LadderSummary| -> Vec<String> { s.players.iter().map(|p| p.name.clone()).collect() };
    assert_eq!(names(&back), names(&summary));
    assert_eq!((back.headline, back.caveats), (summary.headline, summary.caveats));
    assert!(!text.contains("null"), "a round robin leaves nothing unsaid");
}

#[test]
fn the_order_of_games_does_not_matter() {
    let games = made(&PLAYERS, 20);
    let mut turned = games.clone();
    turned.rows.reverse();
    assert_eq!(rank(&games), rank(&turned));
}

#[test]
fn games_against_oneself_tell_of_the_side_alone() {
    let games = made(&PLAYERS[..3], 20);
    let mut more = games.clone();
    for seed in 1000..1200 {
        let outcome = if seed % 4 == 0 { Outcome::Defender } else { Outcome::Attacker };
        more.rows.push(LadderRow { attacker: 1, defender: 1, scenario: 0, seed, outcome });
    }
    let (plain, more) = (rank(&games), rank(&more));
    assert_eq!(plain.attacker, more.attacker);
    for (a, b) in plain.players.iter().zip(&more.players) {
        assert_eq!((&a.name, a.wins, a.attacking), (&b.name, b.wins, b.attacking));
    }
    let chance = |s: &LadderSummary| s.advantage.unwrap().chance;
    assert!(chance(&more) > chance(&plain) + 0.05, "{} {}", chance(&more), chance(&plain));
    assert_eq!(more.pairings.iter().filter(|p| p.attacker == p.defender).count(), 1);
}

/// A game of anyone, some of them of nobody.
fn any_row() -> impl Strategy<Value = LadderRow> {
    let outcome =
        prop_oneof![Just(Outcome::Attacker), Just(Outcome::Draw), Just(Outcome::Defender)];
    (0..5_usize, 0..5_usize, 0..4_usize, 0..3_u64, outcome).prop_map(
        |(attacker, defender, scenario, seed, outcome)| LadderRow {
            attacker,
            defender,
            scenario,
            seed,
            outcome,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_games_make_a_ladder_panic_or_leave_its_bounds(
        rows in proptest::collection::vec(any_row(), 0..40),
        players in 0..5_usize,
        reference in 0..6_usize,
        name in "\\PC{0,12}",
        width in 0..200_usize,
    ) {
        let mut games = made(&PLAYERS[..players], 0);
        games.rows = rows;
        games.reference = reference;
        games.players.iter_mut().for_each(|n| n.push_str(&name));
        let summary = rank(&games);
        for share in summary.players.iter().filter_map(|p| p.wins).chain(summary.attacker) {
            let ordered = 0.0 <= share.low && share.low <= share.share + 1e-12
                && share.share <= share.high + 1e-12 && share.high <= 1.0;
            prop_assert!(ordered, "{share:?}");
        }
        for p in &summary.players {
            prop_assert!(1 <= p.place && p.place <= p.place_last && p.place_last as usize <= players);
            prop_assert!(p.strength.is_none_or(|s| s.low.is_finite() && s.high.is_finite()));
        }
        let report = build_ladder(&summary);
        for table in report.front.iter().chain(&report.body).flat_map(|s| &s.blocks) {
            if let ruleshift_reports::Block::Table(table) = table {
                prop_assert!(table.rows.iter().all(|r| r.len() == table.columns.len()));
            }
        }
        terminal(&report, width, true);
        markdown(&report);
        html(&report);
        json(&summary);
    }
}
