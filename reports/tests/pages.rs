//! What a whole report looks like, and what no data may do to it.

use crate::made::{self, BASE, CARDS, Made};
use proptest::prelude::*;
use ruleshift_record::{ArmFault, GameRow, Metric, RunRecord, Summary, Verdict};
use ruleshift_reports::{build, html, json, markdown, summarise, terminal};

/// All four renderings of a run.
fn rendered(run: &RunRecord) -> [String; 4] {
    let summary = summarise(run);
    let report = build(&summary, run);
    [terminal(&report, 100, true), markdown(&report), html(&report), json(&summary)]
}

#[test]
fn the_terminal_shows_one_screen() {
    let run = made::run(&[BASE, CARDS], 600);
    let report = build(&summarise(&run), &run);
    insta::assert_snapshot!(terminal(&report, 100, false), @r#"
    Two turn-end cards against Base rules
    600 games in each arm, 3 scenarios, attacker steady, defender bold, seed 42

    Two turn-end cards: whether the attacker's chances change is undecided (+2.0 pp, 95 % −0.9 to +4.9);
    games last 1.15 turns longer (95 % +1.08 to +1.21), units left idle fall from 34.1 % to 26.8 % (95 %
    −7.5 to −7.1) and the evening takes 12.8 minutes longer (95 % +12.0 to +13.5).

    Two turn-end cards
    Metric                       base     two-     Shift    95 % interval   Verdict
                                         cards
    ────────────────────────────────────────────────────────────────────────────────────────────────────
    attacker wins              42.2 %   44.2 %   +2.0 pp     −0.9 to +4.9   undecided
    margin (points)             −0.21    −0.06     +0.15   +0.01 to +0.29   no difference worth noticing
    length (turns)               8.50     9.64     +1.15   +1.08 to +1.21   clear shift
    time at the table            93.1    105.9     +12.8   +12.0 to +13.5   clear shift
    (minutes)
    units left idle            34.1 %   26.8 %   −7.3 pp     −7.5 to −7.1   clear shift
    attacker's losses          26.4 %   26.2 %   −0.1 pp     −0.4 to +0.1   no difference worth noticing
    defender's losses          30.6 %   30.7 %   +0.1 pp     −0.2 to +0.3   no difference worth noticing
    longest wait of a unit       2.92     2.97     +0.05    0.00 to +0.10   no difference worth noticing
    (turns)
    pp: percentage points, one percentage less another. Margin: the attacker's points less the
    defender's; a side that is beaten loses, whatever the points.

    Keep in mind
    - Computer players are not your club: a shift is evidence, the table decides.
    - Two turn-end cards: undecided so far: attacker wins (about 3,600 more games) and 17 metrics
      outside the headline.

    Games worth a look
    - Typical game: margin 0 after 10 turns
      ruleshift replay rs1~night-probe@4567cdef~two-cards@0123abcd~steady@89ab0123~bold@89ab0123~0000000000000cd8~4024000000000cd8
    - Largest shift: margin −2 after 10 turns, instead of margin +2 after 7 turns
      ruleshift replay rs1~mill-bridge@4567cdef~two-cards@0123abcd~steady@89ab0123~bold@89ab0123~0000000000001079~8024000000001079
      ruleshift replay rs1~mill-bridge@4567cdef~base~steady@89ab0123~bold@89ab0123~0000000000001079~001c000000001079
    - The winner changed: margin −1 after 9 turns, instead of margin +5 after 8 turns
      ruleshift replay rs1~orchard-road@4567cdef~two-cards@0123abcd~steady@89ab0123~bold@89ab0123~0000000000000000~ffd2000000000000
      ruleshift replay rs1~orchard-road@4567cdef~base~steady@89ab0123~bold@89ab0123~0000000000000000~0034000000000000
      1 more game in the written report
    "#);
}

#[test]
fn markdown_starts_with_the_answer() {
    let run = made::run(&[BASE, CARDS], 600);
    let text = markdown(&build(&summarise(&run), &run));
    let front = text.split("## Games worth a look").next().unwrap_or_default();
    insta::assert_snapshot!(front, @r#"
    # Two turn-end cards against Base rules

    600 games in each arm, 3 scenarios, attacker steady, defender bold, seed 42

    **Two turn-end cards: whether the attacker's chances change is undecided (+2.0 pp, 95 % −0.9 to +4.9); games last 1.15 turns longer (95 % +1.08 to +1.21), units left idle fall from 34.1 % to 26.8 % (95 % −7.5 to −7.1) and the evening takes 12.8 minutes longer (95 % +12.0 to +13.5).**

    ## In short

    - Is it fair? The attacker wins 44.2 % of games (95 % 40.2 to 48.2), inside the 40 to 60 % of an even game; 9.8 % of games are drawn. It was 42.2 %: whether that is a change is undecided.
    - Does it lengthen the evening? Yes: 105.9 minutes at the table instead of 93.1 (+12.8, 95 % +12.0 to +13.5).
    - For whom is it worse? Neither side wins clearly less or loses clearly more men.
    - How sure is it? 600 pairs of games with the same luck: 7 of 8 headline metrics are decided, not attacker wins; 3 shift clearly.

    What to try next?

    - About 3,600 more games in each arm, to decide attacker wins
      - two-cards: `ruleshift compare two-cards --games 4200 --scenario orchard-road mill-bridge night-probe --defender bold`
    - How many turns fewer bring the evening back to its length
      - two-cards: `ruleshift compare two-cards+short-evening:fewer=1 two-cards+short-evening:fewer=2 --scenario orchard-road mill-bridge night-probe --defender bold`
    - Whether a player can abuse it, which no comparison can tell
      - two-cards: `ruleshift hunt two-cards`

    ## What shifts

    Two turn-end cards

    | Metric | base | two-cards | Shift | 95 % interval | Verdict |
    | :-- | --: | --: | --: | --: | :-- |
    | attacker wins | 42.2 % | 44.2 % | +2.0 pp | −0.9 to +4.9 | undecided |
    | margin (points) | −0.21 | −0.06 | +0.15 | +0.01 to +0.29 | no difference worth noticing |
    | length (turns) | 8.50 | 9.64 | +1.15 | +1.08 to +1.21 | clear shift |
    | time at the table (minutes) | 93.1 | 105.9 | +12.8 | +12.0 to +13.5 | clear shift |
    | units left idle | 34.1 % | 26.8 % | −7.3 pp | −7.5 to −7.1 | clear shift |
    | attacker's losses | 26.4 % | 26.2 % | −0.1 pp | −0.4 to +0.1 | no difference worth noticing |
    | defender's losses | 30.6 % | 30.7 % | +0.1 pp | −0.2 to +0.3 | no difference worth noticing |
    | longest wait of a unit (turns) | 2.92 | 2.97 | +0.05 | 0.00 to +0.10 | no difference worth noticing |

    pp: percentage points, one percentage less another. Margin: the attacker's points less the defender's; a side that is beaten loses, whatever the points.

    ## Keep in mind

    - Computer players are not your club: a shift is evidence, the table decides.
    - Two turn-end cards: undecided so far: attacker wins (about 3,600 more games) and 17 metrics outside the headline.
    "#);
    for heading in [
        "## In short",
        "## What was compared",
        "## The shifts in pictures",
        "### How games differ in margin",
        "## Balance by scenario",
        "### The attacker's wins by scenario",
        "## Length and table minutes",
        "### How games differ in length",
        "### How games differ in time at the table",
        "## Waiting and idle units",
        "### How games differ in units left idle",
        "## How games unfold",
        "### The margin by turn",
        "## The usual game and the unusual one",
        "## How long both sides hold out",
        "### Games in which both sides still hold",
        "## By scenario",
        "## All other metrics",
        "## What to expect where nothing was played",
        "## What hardly ever happens",
        "## Many questions at once",
        "## What playing with the same luck saved",
        "## How this was measured",
        "## What the metrics mean",
    ] {
        assert!(text.contains(&format!("\n{heading}\n")), "{heading} is missing");
    }
}

#[test]
fn a_variant_that_changes_nothing_shifts_nothing_at_all() {
    let null = Made { name: "null", title: "Null variant", summary: "Changes nothing.", ..BASE };
    let run = made::run(&[BASE, null], 999);
    let summary = summarise(&run);
    assert_eq!(summary.metrics.len(), Metric::ALL.len());
    for m in &summary.metrics {
        let numbers = [m.shift, m.low, m.high, m.p, m.p_adjusted];
        assert_eq!(numbers, [0.0, 0.0, 0.0, 1.0, 1.0], "{}", m.metric);
        assert_eq!((m.verdict, m.more_games), (Verdict::NoDifference, 0), "{}", m.metric);
        assert!(m.by_scenario.iter().all(|s| [s.shift, s.low, s.high] == [0.0; 3]));
    }
    assert_eq!(
        summary.headline,
        ["Null variant: no metric shifts: in 999 pairs of games nothing differs."]
    );
    assert_eq!(
        summary.caveats[1..],
        [
            "Null variant: no game differs, which leaves it possible (95 %) that up to 0.30 % of games \
          would."
        ]
    );
}

#[test]
fn the_page_loads_nothing_from_elsewhere() {
    let page = rendered(&made::run(&[BASE, CARDS], 60))[2].clone();
    for door in ["src=", "url(", "@import", "<link", "<iframe", "http:", "https:", "fetch", "//cdn"]
    {
        assert!(!page.contains(door), "the page has {door}");
    }
    assert_eq!(page.matches("<script>").count(), page.matches("<script").count());
    assert_eq!(page.matches("<script").count(), 1, "and no script but its own");
    let links = page.split("href=\"").skip(1);
    assert!(links.into_iter().all(|link| link.starts_with('#')), "links lead elsewhere");
    let policy = "content=\"default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; \
                  img-src data:; base-uri 'none'; form-action 'none'\"";
    assert!(page.contains(policy), "the browser may load something");
    assert!(page.contains("prefers-color-scheme: dark") && page.contains("@media print"));
}

#[test]
fn a_title_from_a_script_is_only_ever_text() {
    let hostile = Made {
        name: "<b>",
        title: "</title><script>alert(1)</script> & \"more\" 'still' |x| `y`\u{1b}[2J",
        summary: "<img src=x onerror=alert(1)>",
        ..CARDS
    };
    let [terminal, markdown, page, _] = rendered(&made::run(&[BASE, hostile], 60));
    assert_eq!(page.matches("<script").count(), 1, "the page's own");
    assert!(!page.contains("<img") && !page.contains("<b>"));
    assert!(page.contains("&lt;script&gt;alert(1)"), "the title is still to be read");
    assert!(markdown.contains(r"\<script\>"));
    assert!(!markdown.replace(r"\<", "").contains('<'), "an unescaped bracket is left");
    assert!(!terminal.contains("\u{1b}[2J"));
}

#[test]
fn the_page_is_well_formed_enough_to_read_aloud() {
    let page = rendered(&made::run(&[BASE, CARDS], 60))[2].clone();
    assert_eq!(page.matches("<h1>").count(), 1);
    assert_eq!(page.matches("<svg role=\"img\" aria-labelledby=").count(), 8);
    assert_eq!(page.matches("<table>").count(), page.matches("<caption").count());
    for element in
        ["section", "table", "tr", "svg", "figure", "details", "main", "ul", "nav", "button"]
    {
        let opened = page.matches(&format!("<{element}>")).count()
            + page.matches(&format!("<{element} ")).count();
        assert_eq!(opened, page.matches(&format!("</{element}>")).count(), "{element}");
    }
    let mut ids: Vec<&str> =
        page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "an id is used twice");
}

#[test]
fn json_reads_back_as_the_same_answer() {
    let summary = summarise(&made::run(&[BASE, CARDS], 60));
    let back: Summary = serde_json::from_str(&json(&summary)).unwrap();
    let numbers = |s: &Summary| -> Vec<f64> {
        s.metrics.iter().flat_map(|m| [m.shift, m.low, m.high, m.p, m.variance_ratio]).collect()
    };
    for (found, expected) in numbers(&back).into_iter().zip(numbers(&summary)) {
        // The reader may be off by one in the last place.
        assert!((found - expected).abs() <= 2.0 * f64::EPSILON * expected.abs());
    }
    let words = |s: &Summary| s.metrics.iter().map(|m| (m.metric.clone(), m.verdict)).collect();
    let [found, expected]: [Vec<(String, Verdict)>; 2] = [words(&back), words(&summary)];
    assert_eq!(found, expected);
    assert_eq!((back.headline, back.tickets), (summary.headline, summary.tickets));
}

#[test]
fn an_arm_that_stopped_early_keeps_what_it_has() {
    let mut run = made::run(&[BASE, CARDS], 300);
    let short = |g: &GameRow| g.arm == 0 || (g.scenario == 0 && g.game < 40);
    run.games = run.games.changed(|rows| rows.retain(short));
    run.faults =
        vec![ArmFault { arm: 1, message: "too many cards".into(), ticket: "rs1~t".into() }];
    let summary = summarise(&run);
    assert!(summary.metrics.iter().all(|m| m.pairs == 40 && m.by_scenario.len() == 1));
    let caveats = summary.caveats.join("\n");
    assert!(caveats.contains("stopped early, after 40 games of 300: too many cards"), "{caveats}");
    assert!(caveats.contains("no pair of games in mill-bridge and night-probe"), "{caveats}");
}

#[test]
fn the_order_of_games_does_not_matter() {
    let run = made::run(&[BASE, CARDS], 90);
    let mut turned = made::run(&[BASE, CARDS], 90);
    turned.games = turned.games.changed(|rows| rows.reverse());
    assert_eq!(rendered(&run), rendered(&turned));
}

/// A game of any number, some of them senseless.
fn any_game() -> impl Strategy<Value = GameRow> {
    let value = prop_oneof![
        Just(0.0),
        Just(1.0),
        -50.0..50.0_f64,
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(f64::MAX),
        Just(f64::MIN_POSITIVE),
    ];
    (0..4_usize, 0..5_usize, 0..6_u32, proptest::collection::vec(value, 1..8)).prop_map(
        |(arm, scenario, game, pool)| GameRow {
            arm,
            scenario,
            game,
            seed: u64::from(game),
            digest: 0,
            values: std::array::from_fn(|n| pool[n % pool.len()]),
            margins: pool
                .iter()
                .map(|value| *value as i16)
                .cycle()
                .take(game as usize * 9)
                .collect(),
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_data_makes_a_report_panic(
        games in proptest::collection::vec(any_game(), 0..60),
        arms in 0..4_usize,
        title in "\\PC{0,20}",
        width in 0..300_usize,
    ) {
        let mut run = made::run(&[BASE, CARDS, CARDS, BASE][..arms], 30);
        run.games = games.into();
        run.faults = vec![ArmFault { arm: 2, message: title.clone(), ticket: title.clone() }];
        for arm in &mut run.plan.arms {
            arm.title = title.clone();
        }
        let summary = summarise(&run);
        let report = build(&summary, &run);
        terminal(&report, width, true);
        markdown(&report);
        html(&report);
        json(&summary);
    }
}
