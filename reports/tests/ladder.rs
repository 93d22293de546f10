//! What the report of a ladder looks like, and what no data may do to it.

use crate::coverage::say;
use crate::made::Luck;
use proptest::prelude::*;
use ruleshift_record::{LadderSummary, TicketNote};
use ruleshift_reports::stats::chance;
use ruleshift_reports::{
    LadderGames, LadderRow, Outcome, Report, build_ladder, html, json, markdown, rank, terminal,
};

/// Players with their planted strengths; the last but one never wins, the last is a twin of
/// another.
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
                    // Only where either might have won.
                    c if (0.01..0.99).contains(&c) && own.unit() < 1.0 / 16.0 => Outcome::Draw,
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
            why: "The weaker beats the stronger".into(),
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
    insta::assert_snapshot!(text, @r#"
    A ladder of 7 players
    rules base, 12,600 games, 300 in each pairing, 3 scenarios, seed 42

    planner is the strongest of 7 players: it wins 77 % (95 % 76 to 79) of 3,600
    games.
    The others, by strength: bold 66 %, sturdy 59 %, steady 58 %, cautious 49 %,
    hasty 41 % and chance 0 %.
    Not told apart: sturdy and steady.
    The attacker wins 51 % (95 % 50 to 52) of all games; between equals, 52 % (51 to
    53).

    The ladder, the strongest first
    Player     Place    Wins (95 %)   Attacks   Defends         Chance   Strength
    ─────────────────────────────────────────────────────────────────────────────
    planner        1   77 % (76–79)      78 %      76 %   70 % (68–72)      +0.85
    bold           2   66 % (64–67)      67 %      64 %   58 % (56–60)      +0.32
    sturdy       3–4   59 % (58–61)      61 %      58 %   51 % (49–54)      +0.05
    steady       3–4   58 % (57–60)      60 %      56 %              –       0.00
    cautious       5   49 % (47–50)      50 %      48 %   40 % (38–42)      −0.41
    hasty          6   41 % (39–42)      41 %      40 %   32 % (30–34)      −0.77
    chance         7      0 % (0–1)       0 %       0 %      0 % (0–1)      −6.52
    Place: the places a player may hold. Wins: share of games against all others, a
    draw being half a win; Attacks, Defends: the same on that side. Chance: to beat
    steady if sides were even, by strength. Strength: log odds of that chance;
    steady has 0.

    Wins of the row against the column, in % (± half the 95 % interval)
    Player           1       2       3       4       5       6        7
    ───────────────────────────────────────────────────────────────────
    1 planner        –   64 ±4   68 ±4   68 ±4   78 ±3   85 ±3   100 ±1
    2 bold       36 ±4       –   57 ±4   57 ±4   68 ±4   76 ±3   100 ±1
    3 sturdy     32 ±4   43 ±4       –   50 ±4   63 ±4   69 ±4   100 ±1
    4 steady     32 ±4   43 ±4   50 ±4       –   59 ±4   66 ±4   100 ±1
    5 cautious   22 ±3   32 ±4   37 ±4   41 ±4       –   60 ±4   100 ±1
    6 hasty      15 ±3   24 ±3   31 ±4   34 ±4   40 ±4       –   100 ±1
    7 chance      0 ±1    0 ±1    0 ±1    0 ±1    0 ±1    0 ±1        –

    Keep in mind
    - Computer players are not your club: the ladder ranks them under these rules
      and in these scenarios, and says nothing about people.
    - chance lost every game, which leaves strength without a bound: one drawn game
      was added to each pairing to calculate it. Read the share of wins there.

    Games worth a look
    - The weaker beats the stronger
      ruleshift replay rs1~orchard-road@4567cdef~base~hasty~planner~0000000000000017~00
    "#);
}

#[test]
fn markdown_has_every_table() {
    let text = markdown(&report(&made(&PLAYERS[..3], 20)));
    let tables = text.split("## How this was measured").next().unwrap_or_default();
    insta::assert_snapshot!(tables, @r#"
    # A ladder of 3 players

    rules base, 360 games, 60 in each pairing, 3 scenarios, seed 42

    **bold is the strongest of 3 players: it wins 60 % (95 % 54 to 66) of 240 games.**

    **The others, by strength: steady 49 % and cautious 41 %.**

    **Not told apart: steady and cautious.**

    **The attacker wins 54 % (95 % 49 to 59) of all games; between equals, 54 % (49 to 59).**

    ## The ladder

    The ladder, the strongest first

    | Player | Place | Wins (95 %) | Attacks | Defends | Chance | Strength |
    | :-- | --: | --: | --: | --: | --: | --: |
    | bold | 1 | 60 % (54–66) | 63 % | 57 % | 58 % (51–64) | +0.31 |
    | steady | 2–3 | 49 % (42–55) | 54 % | 43 % | – | 0.00 |
    | cautious | 2–3 | 41 % (35–47) | 45 % | 37 % | 45 % (38–52) | −0.21 |

    Place: the places a player may hold. Wins: share of games against all others, a draw being half a win; Attacks, Defends: the same on that side. Chance: to beat steady if sides were even, by strength. Strength: log odds of that chance; steady has 0.

    ## Who beats whom

    Wins of the row against the column, in % (± half the 95 % interval)

    | Player | 1 | 2 | 3 |
    | :-- | --: | --: | --: |
    | 1 bold | – | 55 ±9 | 66 ±8 |
    | 2 steady | 45 ±9 | – | 52 ±9 |
    | 3 cautious | 34 ±8 | 48 ±9 | – |

    ## Keep in mind

    - Computer players are not your club: the ladder ranks them under these rules and in these scenarios, and says nothing about people.

    ## Games worth a look

    - The weaker beats the stronger
      - base: `ruleshift replay rs1~orchard-road@4567cdef~base~hasty~planner~0000000000000017~00`

    ## Strengths

    Strengths against steady and the advantage of the side

    | Player | Log odds | 95 % interval | As a chance |
    | :-- | --: | --: | --: |
    | bold | +0.31 | +0.05 to +0.57 | 58 % (51–64) |
    | steady | 0.00 | – | – |
    | cautious | −0.21 | −0.51 to +0.09 | 45 % (38–52) |
    | the attacker, between equals | +0.17 | −0.03 to +0.38 | 54 % (49–59) |

    ## Every pairing

    The attacker's wins in every pairing

    | Attacker | Defender | Games | Wins | Draws | Losses | Share | 95 % interval | Foreseen |
    | :-- | :-- | --: | --: | --: | --: | --: | --: | --: |
    | bold | steady | 60 | 34 | 3 | 23 | 59.2 % | 46.5 to 70.7 | 61.9 % |
    | bold | cautious | 60 | 37 | 7 | 16 | 67.5 % | 54.9 to 78.0 | 66.7 % |
    | steady | bold | 60 | 29 | 2 | 29 | 50.0 % | 37.7 to 62.3 | 46.5 % |
    | steady | cautious | 60 | 33 | 4 | 23 | 58.3 % | 45.7 to 69.9 | 59.5 % |
    | cautious | bold | 60 | 19 | 5 | 36 | 35.8 % | 24.9 to 48.5 | 41.3 % |
    | cautious | steady | 60 | 31 | 3 | 26 | 54.2 % | 41.7 to 66.1 | 49.1 % |

    ## By scenario

    Share of games won (95 %): by the attacker, and by each player against all others

    | Scenario | Attacker | bold | steady | cautious |
    | :-- | --: | --: | --: | --: |
    | orchard-road | 68 % (58–77) | 61 % (50–71) | 49 % (37–61) | 40 % (30–51) |
    | mill-bridge | 53 % (44–62) | 54 % (44–65) | 51 % (40–62) | 44 % (34–55) |
    | night-probe | 42 % (33–51) | 65 % (54–75) | 46 % (36–57) | 39 % (29–50) |

    ## Whether the scenario decides

    The player's wins against the other, from scenario to scenario

    | Player | Against | Least | Most | Q | df | p |
    | :-- | :-- | :-- | :-- | --: | --: | --: |
    | bold | steady | 45 % in mill-bridge | 60 % in night-probe | 2.5 | 2 | 0.869 |
    | bold | cautious | 64 % in orchard-road | 70 % in night-probe | 0.5 | 2 | 1.000 |
    | steady | cautious | 48 % in mill-bridge | 56 % in orchard-road | 0.7 | 2 | 1.000 |
    "#);
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

/// Six players alike, in 400 ladders: the chance of even one order called sure is 5 %, whose
/// standard error here is 1.1 %. Holm's method over fifteen dependent tests errs on the careful
/// side.
#[test]
fn players_alike_are_told_apart_in_at_most_5_of_100_ladders() {
    let alike = PLAYERS.map(|(name, _)| (name, 0.0));
    let mut wrong = 0_u32;
    for ladder in 0..400_u64 {
        let mut games = made(&alike[..6], 12);
        let mut luck = Luck(ladder);
        for row in &mut games.rows {
            row.outcome = if luck.unit() < 0.55 { Outcome::Attacker } else { Outcome::Defender };
        }
        wrong += u32::from(rank(&games).players.iter().any(|p| (p.place, p.place_last) != (1, 6)));
    }
    say("ladders of six alike with a false order", f64::from(wrong) / 400.0, 400);
    assert!((2..=33).contains(&wrong), "{wrong} of 400");
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
            let last = p.place_last as usize;
            prop_assert!(1 <= p.place && p.place <= p.place_last && last <= players);
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
