//! `diverge`, and the pages on which games are watched: where two games part is where they really part,
//! and the hook that is named is the one that did it.

use std::fs;

use ruleshift_batch::{GameId, play_one};
use ruleshift_game::{Event, EventScript, Observer, Paths, State, Table};
use serde_json::Value;

use crate::support::stage::{Stage, stack, strategy};
use crate::support::{Done, Run, ruleshift, ruleshift_in};

/// Exit code for something typed wrongly.
const INPUT: i32 = 2;

/// Notes every event.
struct Events(Vec<Event>);

impl Observer for Events {
    fn event(&mut self, event: &Event, _: &State) {
        self.0.push(*event);
    }
}

/// The events of a game between steady players.
fn events(scenario: &str, rules: &str, seed: u64) -> Vec<Event> {
    let stage = Stage::shipped(scenario);
    let stack = stack(rules);
    let rules = stack.rules().unwrap();
    let paths = Paths::new(&stage.arena, &rules);
    let table = Table { arena: &stage.arena, rules: &rules, paths: &paths };
    let mut script = stack.script();
    let make = || stack.script().unwrap();
    let maker: Option<&dyn Fn() -> Box<dyn EventScript>> =
        if script.is_some() { Some(&make) } else { None };
    let player = || strategy("steady").player(&rules, maker);
    let (mut attacker, mut defender) = (player(), player());
    let mut events = Events(vec![]);
    let hooks: Option<&mut dyn EventScript> = match &mut script {
        Some(script) => Some(&mut **script),
        None => None,
    };
    play_one(GameId { table, seed }, hooks, &mut *attacker, &mut *defender, &mut events);
    events.0
}

/// Where two games part, counted here: events that are the same before it.
fn same(scenario: &str, rules: &str, seed: u64) -> usize {
    let (base, other) = (events(scenario, "base", seed), events(scenario, rules, seed));
    assert_ne!(base, other, "{rules}: take another seed");
    base.iter().zip(&other).take_while(|(a, b)| a == b).count()
}

fn diverge(rules: &str, seed: u64) -> Done {
    let seed = seed.to_string();
    ruleshift(["diverge", rules, "--scenario", "first-evening", "--seed", &seed]).fine()
}

/// The place is found by another way here: both games are played in the test itself. Choices come
/// before events, so the program may name a choice that leads to the first event that differs.
#[test]
fn the_place_is_where_the_events_of_both_games_differ() {
    for (rules, seed) in [
        ("no-late-fire", 3),
        ("kinder-pin-recovery", 5),
        ("two-turn-end-cards", 7),
        ("sharp-eyes", 9),
    ] {
        let told = diverge(rules, seed).out;
        let after: usize = {
            let words = told.split(", after ").nth(1).unwrap_or_else(|| panic!("{told}"));
            words.split(' ').next().unwrap().parse().unwrap()
        };
        assert_eq!(after, same("first-evening", rules, seed), "{rules}:\n{told}");
    }
}

#[test]
fn the_hook_that_made_it_is_named() {
    for (rules, hook) in [
        ("no-late-fire", "late_fire_allowed"),
        ("kinder-pin-recovery", "pins_recovered"),
        ("two-turn-end-cards", "turn_end_cards"),
    ] {
        let told = diverge(rules, 3).out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(&format!("The hook {hook} of ")), "{rules}:\n{told}");
        assert_eq!(told.matches("The hook ").count(), 1, "{rules}:\n{told}");
    }
}

/// Of several hooks only the one that acts first is named: late fire comes at the end of a turn, a marker
/// moves before it.
#[test]
fn of_two_hooks_the_one_that_acts_first_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let script = [
        "fn about() { #{ title: \"Both\", summary: \"Two changes.\" } }",
        "fn late_fire_allowed(now, kind, quality) { false }",
        "fn marker_actions(now) { now - 1 }",
        "",
    ];
    let script = script.join("\n");
    fs::write(folder.path().join("both.rhai"), script).unwrap();
    let told = ruleshift_in(folder.path(), ["diverge", "both.rhai", "--seed", "3"]).fine().out;
    assert!(told.contains("The hook marker_actions of Both"), "{told}");
    assert!(!told.contains("late_fire_allowed"), "{told}");
    // With the variant without that hook as the reference, it is the other one's turn.
    let late = "fn about() { #{ title: \"Slow\", summary: \"One change.\" } }\n\
                fn marker_actions(now) { now - 1 }\n";
    fs::write(folder.path().join("slow.rhai"), late).unwrap();
    let args = ["diverge", "both.rhai", "--base", "slow.rhai", "--seed", "3"];
    let told = ruleshift_in(folder.path(), args).fine().out;
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("The hook late_fire_allowed of Both"), "{told}");
}

#[test]
fn event_hooks_are_named_too() {
    let folder = tempfile::tempdir().unwrap();
    let script = "fn about() { #{ title: \"Alarm\", summary: \"A note.\" } }\n\
                  fn on_turn_end(game, turn) { if turn == 2 { game.note(\"two turns\") } }\n";
    fs::write(folder.path().join("alarm.rhai"), script).unwrap();
    let told = ruleshift_in(folder.path(), ["diverge", "alarm.rhai", "--seed", "3"]).fine().out;
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("The hook on_turn_end of Alarm made it"), "{told}");
    assert!(
        told.contains("The same until turn 2") && told.contains("House rule: two turns"),
        "{told}"
    );
}

#[test]
fn games_that_never_part_say_so() {
    let folder = tempfile::tempdir().unwrap();
    let script = "fn about() { #{ title: \"Idle\", summary: \"Nothing.\" } }\n\
                  fn marker_actions(now) { now }\n";
    fs::write(folder.path().join("idle.rhai"), script).unwrap();
    let told = ruleshift_in(folder.path(), ["diverge", "idle.rhai", "--seed", "3"]).fine().out;
    assert!(told.contains("with this luck, Idle changes nothing"), "{told}");
}

#[test]
fn what_is_typed_wrongly_is_told_with_what_to_type() {
    let ticket = Run::fine("no-late-fire --games 1 --scenario first-evening").tickets().remove(1);
    ruleshift(["diverge", "base"]).fails(INPUT, &["the same rules, `base`", "--base"]);
    ruleshift(["diverge", &ticket, "--seed", "3", "--attacker", "bold"])
        .fails(INPUT, &["leave out --attacker, --seed"]);
    ruleshift(["diverge", "no-late-fir", "--scenario", "hasty-atack"])
        .fails(INPUT, &["`no-late-fire`", "`hasty-attack`"]);
    ruleshift(["diverge", "no-late-fire", "--seed", "7d0"]).fails(INPUT, &["16 digits"]);
    for command in ["diverge", "replay"] {
        ruleshift([command, &ticket, "--html", "game.txt"]).fails(INPUT, &["ends in .html"]);
        ruleshift([command, &ticket, "--html", "no/such/folder/game.html"])
            .fails(3, &["game.html cannot be written"]);
    }
}

/// The data of a page on which a game is watched.
fn film(page: &str) -> Value {
    let start = page.find("id=\"film\">").expect("the page has a film") + "id=\"film\">".len();
    let end = start + page[start..].find("</script>").unwrap();
    serde_json::from_str(&page[start..end]).unwrap()
}

#[test]
fn a_page_holds_every_event_of_both_games_and_stays_small() {
    let folder = tempfile::tempdir().unwrap();
    let page = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    let args = ["diverge", "no-late-fire", "--scenario", "first-evening", "--seed", "3"];
    ruleshift_in(folder.path(), args.into_iter().chain(["--html", "both.html"])).fine();
    let text = page("both.html");
    assert!(text.len() < 1_000_000, "{} bytes", text.len());
    let film = film(&text);
    let count = |reel: usize| film["reels"][reel]["steps"].as_array().unwrap().len();
    let rules = ["base", "no-late-fire"].map(|rules| events("first-evening", rules, 3).len());
    assert_eq!([count(0), count(1)], rules);
    assert_eq!(film["parting"]["step"], same("first-evening", "no-late-fire", 3));
}

/// A name in a script reaches the page as text, never as markup.
#[test]
fn names_of_scripts_cannot_become_markup() {
    let folder = tempfile::tempdir().unwrap();
    let script = "fn about() { #{ title: \"</script><b>x\", summary: \"S.\" } }\n\
                  fn on_turn_end(game, turn) { game.note(\"</script><i>y\") }\n";
    fs::write(folder.path().join("odd.rhai"), script).unwrap();
    let args = ["diverge", "odd.rhai", "--seed", "3", "--html", "odd.html"];
    ruleshift_in(folder.path(), args).fine();
    let text = fs::read_to_string(folder.path().join("odd.html")).unwrap();
    assert!(!text.contains("<b>x") && !text.contains("<i>y"));
    assert_eq!(text.matches("</script>").count(), 2, "the data and the script itself");
    assert!(film(&text).to_string().contains("</script><i>y"));
}

/// A comparison leaves a page for each game worth a look; its report links to them.
#[test]
fn reports_link_to_the_games_worth_a_look() {
    let run = Run::fine("no-late-fire --games 60 --scenario first-evening");
    let report = run.text("report.html");
    let mut links = 0;
    for n in 1..=4 {
        let name = format!("game-{n}.html");
        if report.contains(&format!("href=\"{name}\"")) {
            links += 1;
            let film = film(&run.text(&name));
            let tickets: Vec<String> = (0..2)
                .map(|reel| film["reels"][reel]["command"].as_str().unwrap().to_owned())
                .map(|command| command.rsplit(' ').next().unwrap().to_owned())
                .collect();
            let played = run.tickets();
            assert!(tickets.iter().all(|ticket| played.contains(ticket)), "{tickets:?}");
        }
    }
    assert!(links >= 3, "{links} links");
    for why in ["Typical game", "Largest shift", "Closest finish"] {
        assert!(report.contains(why), "{why}");
    }
}
