//! What `ruleshift hunt` finds, and what it leaves alone.

mod again;
mod harness;

use ruleshift_record::{HuntPlan, HuntSummary, HuntVerdict, Metric, Seat};

use crate::support::ruleshift;
use harness::{Hunt, game};

const RALLYING: (&str, &str) = ("rallying-pays.rhai", include_str!("hunt/rallying-pays.rhai"));
const FIRST_BLOOD: (&str, &str) = ("first-blood.rhai", include_str!("hunt/first-blood.rhai"));
const HERE: &str = "--scenario first-evening --games 96";

/// An exploit that was planted: the gain is there under the variant and not without it.
#[track_caller]
fn exploit(summary: &HuntSummary) {
    assert_eq!(summary.verdict, HuntVerdict::Exploit, "{:?}", summary.headline);
    assert!(summary.whole.variant.gain.low > 0.05 && summary.whole.surplus.low > 0.05);
    assert!(summary.whole.base.gain.high < summary.whole.variant.gain.low, "not without it");
}

#[test]
fn an_exploit_by_an_event_hook_is_found_with_all_that_shows_it() {
    let args = format!("{} {HERE} --budget 48 --judge 900", RALLYING.0);
    let hunt = Hunt::fine(&args, &[RALLYING]);
    let summary = hunt.summary();
    exploit(&summary);
    // The trick is not to fight: it harms the enemy less.
    let spares = |side, metric| {
        summary.habits.iter().any(|h| h.side == side && h.metric == metric && h.shift.high < -0.2)
    };
    assert!(spares(Seat::Attacker, "defender_losses"), "{:?}", summary.habits);
    assert!(spares(Seat::Defender, "attacker_losses"), "{:?}", summary.habits);
    assert!(summary.habits.len() <= 8);

    let (run, side) = (hunt.run(), |place: usize| summary.by_side[place].variant.gain.low);
    assert!(side(0) > 0.0 && side(1) > 0.0, "either side can do it");
    let [found, usual] = &summary.tickets[..] else { panic!("{:?}", summary.tickets) };
    let ((won, ticket), (lost, usual)) = (game(&run, &found.ticket), game(&run, &usual.ticket));
    assert_eq!((won.scenario, won.game, won.seed), (lost.scenario, lost.game, lost.seed));
    assert_eq!(ticket.stack, usual.stack);
    let attacks = ticket.attacker == summary.trail.found;
    assert!(attacks || ticket.defender == summary.trail.found);
    assert_eq!(won.get(Metric::AttackerWins), f64::from(u8::from(attacks)));
    assert_eq!(lost.get(Metric::AttackerWins), f64::from(u8::from(!attacks)));
    assert_eq!(won.get(Metric::Drawn) + lost.get(Metric::Drawn), 0.0);
    // The ticket holds the style; its file may lie anywhere.
    std::fs::rename(hunt.path("found.ron"), hunt.path("mine.ron")).unwrap();
    hunt.again(&["replay", "--verify", &found.ticket]).fine();

    let report = hunt.text("report.md");
    for part in ["opens an exploit", "found.ron", "Where it gains", "ruleshift replay rs"] {
        assert!(report.contains(part), "{part}");
    }
    let play = ["compare", RALLYING.0, "--attacker", "run/mine.ron", "--games", "4", "--quiet"];
    hunt.again(&play).fine();
}

#[test]
fn an_exploit_by_value_hooks_is_found() {
    let args = format!("{} {HERE} --budget 84 --judge 1500", FIRST_BLOOD.0);
    exploit(&Hunt::fine(&args, &[FIRST_BLOOD]).summary());
}

/// Under rules that change nothing no style gains from the variant, to the last game.
#[test]
fn rules_that_change_nothing_are_not_accused() {
    let template = ruleshift_hooks::template();
    let args = format!("template.rhai {HERE} --budget 24 --judge 400");
    let summary = Hunt::fine(&args, &[("template.rhai", &template)]).summary();
    assert_eq!(summary.verdict, HuntVerdict::NotFound);
    let surplus = summary.whole.surplus;
    assert_eq!((surplus.value, surplus.low, surplus.high), (0.0, 0.0, 0.0));
    assert!(summary.at_most > 0.0 && summary.at_most < 0.02, "{}", summary.at_most);
    assert!(summary.headline.join(" ").contains("no proof"));
}

#[test]
fn harmless_house_rules_are_not_accused() {
    for variant in ["safe-leaders", "walking-wounded"] {
        let args = format!("{variant} {HERE} --budget 36 --judge 900");
        let summary = Hunt::fine(&args, &[]).summary();
        assert_eq!(summary.verdict, HuntVerdict::NotFound, "{variant}: {:?}", summary.headline);
        assert!(summary.whole.surplus.low < 0.05, "{variant}: and it is not near");
    }
}

#[test]
fn the_same_seed_gives_the_same_hunt_on_any_number_of_threads() {
    let hunt = |more: &str| {
        let args = format!("quick-feet {HERE} --budget 14 --judge 120 {more}");
        let hunt = Hunt::fine(&args, &[]);
        let files = ["plan.ron", "games.parquet", "summary.json", "report.md", "found.ron"];
        files.map(|name| hunt.bytes(name))
    };
    let one = hunt("--threads 1");
    assert!(one == hunt("--threads 3"), "threads change nothing");
    assert_ne!(one[4], hunt("--seed 2")[4], "the seed does");
}

/// What the report says is what the games say, and games that judge are in even shares.
#[test]
fn the_figures_are_those_of_the_games() {
    let hunt =
        Hunt::fine(&format!("quick-feet {HERE} --budget 5 --judge 100 --side defender"), &[]);
    let (plan, run, summary) = (hunt.plan(), hunt.run(), hunt.summary());
    assert_eq!(plan.seats, vec![Seat::Defender; 3]);
    assert_eq!(plan.judged.games_per_arm, 102, "as many against each of three players");
    let share = |style, variant| {
        let arm = HuntPlan::place(style, variant);
        let games = run.games.rows();
        let games = games.iter().filter(|game| game.arm == arm);
        let wins = games.map(|g| 1.0 - g.get(Metric::AttackerWins) - g.get(Metric::Drawn) / 2.0);
        wins.sum::<f64>() / 102.0
    };
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
    let whole = &summary.whole;
    near(whole.base.usual, share(0, false));
    near(whole.variant.usual, share(0, true));
    near(whole.base.found, share(1, false));
    near(whole.variant.found, share(1, true));
    near(whole.surplus.value, whole.variant.gain.value - whole.base.gain.value);
    assert_eq!((summary.by_side.len(), summary.by_scenario.len()), (1, 1));
    assert_eq!(std::fs::read_dir(hunt.path("")).unwrap().count(), 6, "five files and the style");
}

#[test]
fn the_screen_has_the_answer_and_json_is_the_summary_alone() {
    let args = format!("no-late-fire {HERE} --budget 4 --judge 60");
    let hunt = Hunt::start(&args, &[]);
    assert_eq!(hunt.done.code, 0, "{}", hunt.done.err);
    for part in ["Can a player abuse", "no exploit found within budget", "no proof", "found.ron"] {
        assert!(hunt.done.out.contains(part), "{part}: {}", hunt.done.out);
    }
    assert!(hunt.done.out.lines().count() < 60, "one screen");
    let json = Hunt::start(&format!("{args} --json"), &[]);
    assert_eq!(json.done.out.trim_end(), hunt.text("summary.json").trim_end());
}

#[test]
fn all_that_is_typed_wrongly_is_told_at_once_and_nothing_is_written() {
    let args = "no-late-fir --scenario hasty-atack --against steddy,blod --base xyzzy";
    let hunt = Hunt::start(args, &[]);
    let parts = ["`no-late-fire`", "`hasty-attack`", "`steady`", "`bold`", "`xyzzy`"];
    assert!(!hunt.path("").exists());
    hunt.done.fails(2, &parts);
    ruleshift(["hunt", "no-late-fire", "--budget", "3"]).fails(2, &["--budget", "4..="]);
    ruleshift(["hunt", "no-late-fire", "--side", "both"]).fails(2, &["attacker", "defender"]);
    ruleshift(["hunt", "no-late-fire", "--gain", "90"]).fails(2, &["--gain", "0..=50"]);
}

/// A style may lead a game where the usual one never goes: a rule that fails there ends the hunt,
/// and the game comes back from its ticket.
#[test]
fn a_rule_that_fails_in_a_game_of_a_style_ends_the_hunt_with_its_ticket() {
    let text = r#"
        fn about() { #{ title: "Brittle", summary: "Fails.", counters: #{ seen: "rallies" } } }
        fn on_unit_rallied(game, unit, pins) {
            let seen = game.counter(SEEN) + 1;
            game.set_counter(SEEN, seen);
            if seen > 20 { let share = 6 / (seen - seen); }
        }"#;
    let hunt = Hunt::start(&format!("brittle.rhai {HERE} --budget 14"), &[("brittle.rhai", text)]);
    let told = hunt.done.err.split("ticket: ").nth(1).expect("a ticket is told").trim().to_owned();
    assert!(told.contains("steady:weights="), "{told}");
    let replayed = hunt.again(&["replay", "--verify", &told]);
    assert_eq!(replayed.code, 0, "{}", replayed.err);
    hunt.done.fails(1, &["the hunt stopped", "a rule failed in a game", "zero"]);
}
