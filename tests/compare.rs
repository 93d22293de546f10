//! What `ruleshift compare` writes and prints.

use ruleshift_record::{METRICS, Metric};
use serde_json::Value;

use crate::support::run::mean;
use crate::support::{Run, ruleshift_in};

#[test]
fn a_run_leaves_its_files() {
    let run = Run::fine("no-late-fire --games 20");
    let sheet = "vote-no-late-fire.html";
    for name in ["plan.ron", "games.parquet", "summary.json", "report.md", "report.html", sheet] {
        assert!(run.bytes(name).len() > 100, "{name} says something");
    }
    // A page for each game worth a look: a typical one, and those of three other kinds.
    for n in 1..=4 {
        assert!(run.text(&format!("game-{n}.html")).len() > 100, "game {n} can be watched");
    }
    assert_eq!(std::fs::read_dir(run.path("")).unwrap().count(), 10, "and nothing else");
    assert!(run.text("report.html").starts_with("<!DOCTYPE html>"));
    assert!(run.text("report.md").contains("no-late-fire"));
}

/// Each variant has a sheet to vote on, which the report leads to.
#[test]
fn every_variant_has_a_sheet_to_vote_on() {
    let run = Run::fine("two-turn-end-cards:cards=3 no-late-fire --games 20 --scenario probe");
    let report = run.text("report.html");
    for (file, title) in [
        ("vote-two-turn-end-cards-cards=3.html", "Two turn-end cards"),
        ("vote-no-late-fire.html", "No late fire"),
    ] {
        assert!(report.contains(&format!("<a href=\"{file}\">")), "{file} is not linked");
        let sheet = run.text(file);
        assert!(sheet.contains(&format!("<h1>{title}")), "{file} is not about {title}");
        assert!(sheet.contains("20 games in each arm, 1 scenario, attacker steady"), "{file}");
    }
    assert!(run.text("vote-two-turn-end-cards-cards=3.html").contains("with cards = 3"));
}

/// The form that programs read: names and types stay as they are.
#[test]
fn the_summary_has_its_fixed_form() {
    let run = Run::fine("no-late-fire --games 20");
    let summary: Value = serde_json::from_str(&run.text("summary.json")).unwrap();
    assert_eq!(summary["games_per_arm"], 20);
    let arms: Vec<&Value> = summary["arms"].as_array().unwrap().iter().collect();
    assert_eq!(arms.iter().map(|arm| &arm["name"]).collect::<Vec<_>>(), ["base", "no-late-fire"]);
    let metrics = summary["metrics"].as_array().unwrap();
    assert_eq!(metrics.len(), METRICS.len());
    for (metric, spec) in metrics.iter().zip(&METRICS) {
        assert_eq!(metric["metric"], spec.name);
        assert_eq!(metric["unit"], spec.unit);
        assert_eq!(metric["arm"], "no-late-fire");
        for number in ["reference_mean", "mean", "shift", "low", "high", "p_adjusted"] {
            assert!(metric[number].is_number(), "{number} of {}", spec.name);
        }
        let words = [
            "clear shift",
            "shift too small to notice",
            "no difference worth noticing",
            "undecided",
        ];
        assert!(words.iter().any(|word| metric["verdict"] == *word), "{}", metric["verdict"]);
    }
}

#[test]
fn games_are_one_row_each_with_keys_first() {
    let run = Run::fine("no-late-fire --scenario hasty-attack meeting-engagement --games 21 --csv");
    let csv = run.text("games.csv");
    let names: Vec<&str> = METRICS.iter().map(|metric| metric.name).collect();
    let keys = "arm,scenario,attacker,defender,game,seed,ticket";
    assert_eq!(csv.lines().next().unwrap(), format!("{keys},{}", names.join(",")));
    assert_eq!(csv.lines().count(), 1 + 2 * 21);
    let shared = |arm: &str, scenario: &str| {
        csv.lines().filter(|l| l.starts_with(&format!("{arm},{scenario},steady,steady,"))).count()
    };
    for arm in ["base", "no-late-fire"] {
        assert_eq!([shared(arm, "hasty-attack"), shared(arm, "meeting-engagement")], [11, 10]);
    }
}

#[test]
fn the_same_game_has_the_same_seed_in_every_arm() {
    let run = Run::fine("no-late-fire three-marker-actions --games 30");
    let key = |arm| run.arm(arm).iter().map(|g| (g.scenario, g.game, g.seed)).collect::<Vec<_>>();
    assert_eq!(key(0), key(1));
    assert_eq!(key(0), key(2));
    let mut seeds: Vec<u64> = key(0).iter().map(|key| key.2).collect();
    seeds.sort_unstable();
    seeds.dedup();
    assert_eq!(seeds.len(), 30, "no game is played twice");
}

#[test]
fn means_in_the_summary_are_means_of_the_games() {
    let run = Run::fine("two-turn-end-cards kinder-pin-recovery --games 200");
    let summary = run.summary();
    for shift in &summary.metrics {
        let metric = Metric::by_name(&shift.metric).unwrap();
        let arm = summary.arms.iter().position(|arm| arm.name == shift.arm).unwrap();
        let (reference, changed) = (mean(&run.arm(0), metric), mean(&run.arm(arm), metric));
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9 * (1.0 + b.abs());
        assert!(near(shift.reference_mean, reference), "{} of base", shift.metric);
        assert!(near(shift.mean, changed), "{} of {}", shift.metric, shift.arm);
        assert!(near(shift.shift, changed - reference), "shift of {}", shift.metric);
        assert!(shift.low <= shift.shift && shift.shift <= shift.high, "{}", shift.metric);
    }
}

#[test]
fn json_is_the_summary_alone() {
    let mut run = Run::start("no-late-fire --games 20 --json");
    run.done = run.done.fine();
    assert_eq!(run.done.out.trim_end(), run.text("summary.json").trim_end());
}

#[test]
fn quiet_prints_nothing_and_the_usual_way_prints_one_screen() {
    let quiet = Run::fine("no-late-fire --games 20");
    assert_eq!(quiet.done.out, "");
    let usual = Run::start("no-late-fire --games 20");
    assert_eq!(usual.done.code, 0);
    for part in ["no-late-fire", "attacker wins", "ruleshift replay rs", "report.html"] {
        assert!(usual.done.out.contains(part), "{part}");
    }
    assert!(usual.done.out.lines().count() < 60, "one screen");
    assert!(usual.bytes("games.parquet") == quiet.bytes("games.parquet"), "no game is another");
}

#[test]
fn stacks_options_and_another_reference_are_arms_of_their_own() {
    let run = Run::fine(
        "two-turn-end-cards:cards=3+no-late-fire --base no-late-fire --games 12 --scenario hasty-attack",
    );
    let plan = run.plan();
    let names: Vec<&str> = plan.arms.iter().map(|arm| arm.name.as_str()).collect();
    assert_eq!(names, ["no-late-fire", "two-turn-end-cards:cards=3+no-late-fire"]);
    assert_eq!(plan.arms[1].stack.len(), 2);
    assert_eq!(mean(&run.arm(0), Metric::LateShots), 0.0, "the reference has its own rules");
    assert_eq!(mean(&run.arm(1), Metric::LateShots), 0.0, "both variants are in the stack");
    let cards = |arm| mean(&run.arm(arm), Metric::CardsPerTurn);
    assert!(cards(1) > cards(0), "and so is the option");
}

/// RULES 2.4: with every number of turn-end cards, the option changes the game.
#[test]
fn an_option_is_not_its_default() {
    let run = Run::fine("two-turn-end-cards two-turn-end-cards:cards=3 --games 200");
    let cards = |arm| mean(&run.arm(arm), Metric::CardsPerTurn);
    assert!(cards(0) < cards(1) && cards(1) < cards(2));
}

#[test]
fn scenarios_are_chosen_by_name() {
    let scenarios = |args: &str| {
        let run = Run::fine(&format!("no-late-fire --games 4 {args}"));
        run.plan().scenarios.iter().map(|s| s.name.clone()).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(scenarios("--scenario meeting-engagement"), "meeting-engagement");
    let both = "meeting-engagement hasty-attack";
    assert_eq!(scenarios("--scenario meeting-engagement hasty-attack"), both);
    assert_eq!(scenarios("--scenario meeting-engagement,hasty-attack"), both);
    assert_eq!(scenarios("--scenario all"), scenarios(""));
}

#[test]
fn players_are_chosen_by_side() {
    let run = Run::fine("no-late-fire --games 4 --attacker bold --defender chance --csv");
    let players = &run.plan().pairings[0];
    assert_eq!([&players.attacker.name, &players.defender.name], ["bold", "chance"]);
    let csv = run.text("games.csv");
    assert!(csv.lines().skip(1).all(|line| line.contains(",bold,chance,")));
    let other = Run::fine("no-late-fire --games 4 --attacker chance --defender bold");
    assert_ne!(run.games()[0].digest, other.games()[0].digest);
}

/// The headline decides which answers are adjusted together; it changes no game.
#[test]
fn the_headline_is_chosen_by_metric() {
    let usual = Run::fine("no-late-fire --games 60");
    let chosen = Run::fine("no-late-fire --games 60 --metric late_shots,turns");
    assert_eq!(usual.games(), chosen.games());
    let headline = |run: &Run| {
        let shifts = run.summary().metrics.into_iter().filter(|shift| shift.headline);
        shifts.map(|shift| shift.metric).collect::<Vec<_>>()
    };
    assert_eq!(headline(&chosen), ["turns", "late_shots"], "in the order of the table");
    let marked = METRICS.iter().filter(|metric| metric.headline).map(|metric| metric.name);
    assert_eq!(headline(&usual), marked.collect::<Vec<_>>());
    let late = |run: &Run| {
        let shifts = run.summary().metrics;
        shifts.into_iter().find(|shift| shift.metric == "late_shots").unwrap()
    };
    assert_eq!(late(&usual).p.to_bits(), late(&chosen).p.to_bits());
    assert!(late(&chosen).p_adjusted <= late(&usual).p_adjusted, "a smaller family");
}

#[test]
fn another_seed_gives_other_games() {
    let games = |seed: &str| Run::fine(&format!("no-late-fire --games 6 --seed {seed}")).games();
    let (one, two) = (games("1"), games("2"));
    assert!(one.iter().all(|game| two.iter().all(|other| other.seed != game.seed)));
}

#[test]
fn without_a_wish_runs_get_folders_of_their_own() {
    let folder = tempfile::tempdir().unwrap();
    let args = ["compare", "no-late-fire", "--games", "4", "--quiet"];
    for _ in 0..2 {
        ruleshift_in(folder.path(), args).fine();
    }
    for name in ["no-late-fire", "no-late-fire-2"] {
        assert!(folder.path().join("runs").join(name).join("report.html").exists(), "{name}");
    }
}
