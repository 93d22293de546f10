//! Who plays, what is forbidden to whom, and what behaviours are worth, through the program.

use std::collections::BTreeMap;
use std::fs;

use ruleshift_players::Behaviour;
use ruleshift_record::{Importance, Metric, Seat};
use tempfile::TempDir;

use crate::support::run::mean;
use crate::support::{Run, ruleshift};

const INPUT: i32 = 2;

/// Games of each pairing in each scenario under each arm.
fn shares(run: &Run) -> BTreeMap<[String; 4], u32> {
    let mut shares = BTreeMap::new();
    let plan = run.plan();
    for game in run.games() {
        let players = plan.players(game.arm, plan.pairing(game.game));
        let [arm, scenario] = [&plan.arms[game.arm].name, &plan.scenarios[game.scenario].name];
        let keys =
            [arm, scenario, &players.attacker.name, &players.defender.name].map(String::clone);
        *shares.entry(keys).or_default() += 1;
    }
    shares
}

/// The shipped players that have a style.
fn styles() -> Vec<String> {
    let names = ruleshift_players::shipped().into_iter().map(|doctrine| doctrine.name);
    names.filter(|name| name != ruleshift_players::CHANCE).collect()
}

#[test]
fn each_player_meets_each_equally_often() {
    let styles = styles();
    let pairings = styles.len() * styles.len();
    let games = 2 * 2 * pairings;
    let run = Run::fine(&format!(
        "no-late-fire --players mixed --scenario first-evening probe --games {games}"
    ));
    let shares = shares(&run);
    assert_eq!(shares.len(), 2 * 2 * pairings, "arms, scenarios, pairings");
    assert!(shares.values().all(|games| *games == 2), "{shares:?}");
    let plan = run.plan();
    assert_eq!(plan.roster, styles);
    assert_eq!(plan.pairings.len(), pairings);
    for (n, pairing) in plan.pairings.iter().enumerate() {
        let names = [&pairing.attacker.name, &pairing.defender.name];
        assert_eq!(names, [&styles[n / styles.len()], &styles[n % styles.len()]]);
    }
}

/// Under every player alike, a run of one pairing is part of the run of all.
#[test]
fn a_pairing_among_others_plays_the_games_it_would_play_alone() {
    let scenario = "--scenario first-evening";
    let all = Run::fine(&format!("no-late-fire --players bold steady {scenario} --games 16"));
    let alone =
        Run::fine(&format!("no-late-fire --attacker bold --defender steady {scenario} --games 16"));
    let own: Vec<_> = all.arm(1).into_iter().filter(|game| game.game % 4 == 1).collect();
    let same: Vec<_> = alone.arm(1).into_iter().filter(|game| game.game % 4 == 1).collect();
    assert_eq!(own.len(), 4);
    assert_eq!(own, same);
}

#[test]
fn a_mixed_run_reports_on_players_and_skill() {
    let usual = Run::start(
        "two-turn-end-cards --players cautious,steady bold --scenario first-evening --games 360",
    );
    assert_eq!(usual.done.code, 0, "{}", usual.done.err);
    let out = &usual.done.out;
    for part in
        ["9 pairings of cautious, steady and bold", "Does skill tell?", "stronger player wins"]
    {
        assert!(out.contains(part), "{part}:\n{out}");
    }
    let summary = usual.summary();
    let wins = &summary.metrics[0];
    assert_eq!(wins.by_pairing.iter().map(|p| p.pairs).collect::<Vec<_>>(), [40; 9]);
    let weighed: f64 = wins.by_pairing.iter().map(|p| p.shift / 9.0).sum();
    assert!((weighed - wins.shift).abs() < 1e-9, "the parts make the whole");
    assert_eq!(summary.players[0].metric, "attacker_wins");
    assert_eq!(summary.skill[0].pairs, 30 * 6, "30 of 40 rounds count, mirrors do not");
    for part in ["By players", "with each pairing of players", "The edge of skill"] {
        assert!(usual.text("report.md").contains(part), "{part}");
    }
}

#[test]
fn what_is_forbidden_to_a_side_never_happens() {
    let run = |args: &str| Run::fine(&format!("no-late-fire --games 48 {args}"));
    let rallies = |run: &Run| [0, 1].map(|arm| mean(&run.arm(arm), Metric::Rallies));
    let free = run("");
    assert!(rallies(&free).iter().all(|mean| *mean > 1.0));
    let both = run("--restrict attacker=rally,orders --restrict defender=orders,rally");
    assert_eq!(rallies(&both), [0.0, 0.0]);
    let one = run("--restrict attacker=rally,orders");
    assert!(rallies(&one).iter().all(|mean| *mean > 0.0));
    let plan = one.plan();
    assert_eq!(plan.pairings[0].attacker.name, "steady:without=rally,orders");
    assert_eq!(plan.pairings[0].defender.name, "steady");
    assert_eq!(plan.restricted.len(), 2);
    assert!(
        one.text("report.md").contains("attacker steady:without=rally,orders, defender steady")
    );
    for ticket in one.tickets().iter().step_by(20) {
        ruleshift(["replay", ticket, "--verify"]).fine();
    }
}

#[test]
fn a_restriction_holds_for_all_players_and_is_told_once() {
    let run = Run::start(
        "no-late-fire --players bold steady:without=assault --restrict defender=assault \
         --scenario first-evening --games 24",
    );
    assert_eq!(run.done.code, 0, "{}", run.done.err);
    let facts = "4 pairings of bold and steady:without=assault, the defender without assault";
    let out = run.done.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(out.contains(facts), "{out}");
    let defenders: Vec<String> =
        run.plan().pairings.into_iter().map(|pairing| pairing.defender.name).collect();
    let twice = ["bold:without=assault", "steady:without=assault"];
    assert_eq!(defenders, [twice, twice].concat(), "nobody is forbidden a thing twice");
}

/// Names and values of the worth of behaviours under an arm.
fn worth<'a>(all: &'a [Importance], arm: &str, side: Seat, behaviour: Behaviour) -> &'a Importance {
    let own = |i: &&Importance| i.arm == arm && i.side == side && i.behaviour == behaviour.word();
    all.iter().find(own).unwrap_or_else(|| panic!("{arm} {behaviour:?}"))
}

#[test]
fn further_arms_play_the_first_games_and_are_not_compared() {
    let args = "no-late-fire --importance --games 40 --importance-games 9 --restrict attacker=rally \
                --scenario first-evening probe";
    let run = Run::fine(args);
    let plan = run.plan();
    // Two stacks, seven behaviours of the defender and six of the attacker, who has none of one.
    assert_eq!(plan.arms.len(), 2 + 2 * 13);
    assert!(plan.arms.iter().skip(2).all(|arm| arm.probe.as_ref().unwrap().games == 9));
    let [base, probe] = [0, 2]
        .map(|arm| run.arm(arm).iter().map(|g| (g.scenario, g.game, g.seed)).collect::<Vec<_>>());
    let first: Vec<_> =
        base.into_iter().filter(|&(s, game, _)| game < if s == 0 { 5 } else { 4 }).collect();
    assert_eq!(probe, first);
    let summary = run.summary();
    assert_eq!((summary.arms.len(), summary.importance.len()), (2, 26));
    assert!(summary.metrics.iter().all(|m| m.arm == "no-late-fire" && m.pairs == 40));
    let plain = Run::fine(
        &args.replace("--importance --games", "--games").replace("--importance-games 9 ", ""),
    );
    assert_eq!(summary.metrics, plain.summary().metrics, "asking for more changes no answer");
}

#[test]
fn threads_do_not_change_what_behaviours_are_worth() {
    let run = |threads: &str| {
        Run::fine(&format!(
            "two-turn-end-cards --players bold steady --importance=orders,rally --games 80 --importance-games 40 \
             --scenario first-evening --threads {threads}"
        ))
    };
    let (one, two) = (run("1"), run("2"));
    for name in ["plan.ron", "games.parquet", "summary.json", "report.md", "report.html"] {
        assert!(one.bytes(name) == two.bytes(name), "{name} differs");
    }
}

#[test]
fn the_cost_of_further_arms_is_said_before_the_run() {
    let run = Run::start("no-late-fire --importance --games 30 --scenario first-evening");
    assert_eq!(run.done.code, 0);
    assert!(
        run.done.err.starts_with(
            "To say what behaviours are worth, 28 further arms of 3 games are played:\n84 games \
             besides the 60 that are compared."
        ),
        "{}",
        run.done.err
    );
    assert!(run.done.out.contains("worth of each behaviour (pp of wins)"), "{}", run.done.out);
}

/// A script in a folder of its own: the path to type.
fn script(folder: &TempDir, name: &str, title: &str, hooks: &str) -> String {
    let path = folder.path().join(format!("{name}.rhai"));
    let about = format!("fn about() {{ #{{ title: \"{title}\", summary: \"{title}.\" }} }}");
    fs::write(&path, format!("{about}\n{hooks}\n")).unwrap();
    path.to_string_lossy().into_owned()
}

/// The seed is fixed. Where a rally takes everything off and nothing else does, it is worth some 9
/// points of wins, seven standard errors; where it does nothing, nobody rallies.
#[test]
fn a_rally_that_does_nothing_is_worth_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let alone = "fn rally_amount(now, grade, quality) { 12 }\n\
                 fn pins_recovered(now, pins, quality, cover, led) { 0 }";
    let base = script(&folder, "full-rally", "Full rally", alone);
    let idle = "fn rally_amount(now, grade, quality) { 0 }";
    let idle = format!("{base}+{}", script(&folder, "idle-rally", "Idle rally", idle));
    let args = "--importance=rally --games 800 --importance-games 800 --quiet \
                --restrict attacker=orders --restrict defender=orders";
    let args = [idle.as_str(), "--base", &base].into_iter().chain(args.split_whitespace());
    let mut run = Run::with(args);
    run.done = run.done.fine();
    let summary = run.summary();
    assert_eq!(summary.importance.len(), 4);
    for side in Seat::ALL {
        let full = worth(&summary.importance, &base, side, Behaviour::Rally);
        let idle = worth(&summary.importance, &idle, side, Behaviour::Rally);
        assert!(full.low > 0.03 && full.p_adjusted < 0.001, "{full:?}");
        assert!((full.with - full.without - full.value).abs() < 1e-9, "{full:?}");
        assert_eq!((idle.differing, idle.value, idle.low, idle.high), (0, 0.0, 0.0, 0.0));
        let shift = idle.shift.as_ref().unwrap();
        assert!((shift.shift + full.value).abs() < 1e-9, "{shift:?}");
        assert!(shift.high < -0.03 && shift.p_adjusted < 0.001, "{shift:?}");
    }
    let page = run.text("report.md");
    assert_eq!(page.matches("this tweak makes it nearly pointless").count(), 2, "{page}");
}

#[test]
fn orders_that_nobody_gives_are_worth_exactly_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let none = "fn leader_orders(now, grade) { 0 }\nfn orders_with_group(now, grade) { 0 }";
    let none = script(&folder, "no-orders", "No orders", none);
    let args = "--importance=orders --games 200 --importance-games 200 --scenario hasty-attack";
    let run = Run::with(std::iter::once(none.as_str()).chain(args.split_whitespace()));
    assert_eq!(run.done.code, 0, "{}", run.done.err);
    let summary = run.summary();
    for side in Seat::ALL {
        let orders = worth(&summary.importance, &none, side, Behaviour::Orders);
        assert_eq!((orders.differing, orders.value, orders.low, orders.high), (0, 0.0, 0.0, 0.0));
        assert!(worth(&summary.importance, "base", side, Behaviour::Orders).differing > 100);
    }
    let page = run.text("report.md");
    let never = page.lines().find(|line| line.contains("never occur in these games"));
    assert!(never.is_some_and(|line| line.contains("No orders: the attacker's orders")), "{page}");
}

#[test]
fn all_that_is_wrong_with_players_is_told_at_once() {
    let said = |args: &str, parts: &[&str]| {
        let run = Run::start(&format!("base --games 4 {args}"));
        assert!(!run.path("").exists(), "nothing is written");
        run.done.fails(INPUT, parts);
    };
    said(
        "--players steddy bold:without=raly bold:withot=rally --restrict atacker=rally \
         --restrict defender=oders,assualt --restrict rally",
        &[
            "`steady`",
            "`rally`?",
            "`without`?",
            "`attacker`?",
            "`orders`?",
            "`assault`?",
            "`rally` forbids",
        ],
    );
    said("--players bold", &["two players or more", "--attacker bold --defender bold"]);
    said("--players bold,steady,bold", &["`bold` is named twice"]);
    said("--players mixed --attacker bold", &["--players", "cannot be used with", "--attacker"]);
    said("--importance --importance-games 5", &["--importance-games 5 is more than --games 4"]);
    said("--importance-games 2", &["--importance"]);
    said("--importance=raly,oders", &["`rally`?", "`orders`?"]);
    said("--attacker steady:without=sleep", &["no behaviour called `sleep`", "rally, spotting"]);
}

#[test]
fn the_help_names_every_behaviour() {
    let help = ruleshift(["compare", "--help"]).fine().out;
    let help = help.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = Behaviour::ALL.map(Behaviour::word).join(", ");
    assert!(help.contains(&format!("Behaviours: {words}.")), "{help}");
}
