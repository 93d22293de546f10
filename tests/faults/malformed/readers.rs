//! What reads each kind of input, and sound ones of it.

use ruleshift_hooks::{Overrides, Source, Stack, StackSpec, Variant};
use ruleshift_players::{Doctrine, PlayerSpec, Strategy};
use ruleshift_record::{HuntPlan, Plan, Ticket, Timing};
use ruleshift_scenarios::{Scenario, Support};

use crate::support::stage::doctrine;
use crate::support::{Run, repository};

/// Nothing is left of a good text but that it is good.
type Read = fn(&str) -> Result<(), String>;

/// Reads texts of one kind.
pub(super) struct Reader {
    pub(super) sound: Vec<String>,
    pub(super) read: Read,
}

pub(super) fn reader(kind: &str) -> Reader {
    let (sound, read): (_, Read) = match kind {
        "plans" => (plans(), plan),
        "doctrines" => (files("engine/players/doctrines/", ".ron"), one_doctrine),
        "timing tables" => (timings(), timing),
        "tickets" => (tickets(), ticket),
        "names" => (names(), name),
        "scripts" => (files("variants/", ".rhai"), script),
        "scenarios" => (files("engine/scenarios/files/", ".ron"), scenario),
        other => panic!("{other}"),
    };
    Reader { sound, read }
}

/// The texts of the repository below a folder.
pub(super) fn files(folder: &str, ending: &str) -> Vec<String> {
    let files = repository::files().into_iter();
    let files = files.filter(|file| file.starts_with(folder) && file.ends_with(ending));
    let texts: Vec<String> = files.map(|file| repository::text(&file)).collect();
    assert!(texts.len() > 3, "{folder}");
    texts
}

/// Written by the program, and by hand.
pub(super) fn plans() -> Vec<String> {
    let written = |command: &str, args: &str| {
        let args = format!("{args} --scenario first-evening --games 2 --quiet");
        Run::of(command, args.split_whitespace()).text("plan.ron")
    };
    let by_hand = "Plan(arms: [\"base\", \"no-late-fire:pins=2\"], scenarios: [\"generated:10\"],\n\
                   roster: [\"steady\", \"bold\"], games_per_arm: 4, stop: Clear(looks: 7),\n\
                   notice: { \"minutes\": 10.0 })";
    vec![
        written("compare", "no-late-fire+quick-feet two-turn-end-cards:cards=3"),
        written("sweep", "two-turn-end-cards:cards=1..2 --target minutes=150"),
        written("tune", "tougher-sides:more=0..20/10 --target attacker_wins=50%"),
        written("ladder", "steady bold"),
        by_hand.to_owned(),
    ]
}

/// What is read is written as it was read.
fn plan(text: &str) -> Result<(), String> {
    let hunt = HuntPlan::from_ron(text);
    assert!(hunt.is_err_and(|said| !said.is_empty()), "a plan of games is none of a hunt");
    let plan = Plan::from_ron(text)?;
    let again = Plan::from_ron(&plan.to_ron()).expect("a plan that was written can be read");
    assert_eq!(again.to_ron(), plan.to_ron());
    Ok(())
}

fn one_doctrine(text: &str) -> Result<(), String> {
    Doctrine::from_ron(text).map(drop).map_err(|error| error.to_string())
}

pub(super) fn timings() -> Vec<String> {
    vec![Timing::FILE.to_owned(), "(turn: 60.0, card: 12.5, throw: 8.0)".to_owned()]
}

fn timing(text: &str) -> Result<(), String> {
    let read = Timing::from_ron(text).map_err(|faults| faults.join("\n"))?;
    let seconds = [read.turn, read.card, read.action, read.throw, read.decision];
    assert!(seconds.iter().all(|seconds| (0.0..=Timing::MOST).contains(seconds)), "{read:?}");
    Ok(())
}

pub(super) fn tickets() -> Vec<String> {
    let args = "no-late-fire+quick-feet --attacker steady:without=rally --games 2";
    Run::fine(&format!("{args} --scenario first-evening hasty-attack")).tickets()
}

fn ticket(text: &str) -> Result<(), String> {
    let ticket = text.parse::<Ticket>().map_err(|error| error.to_string())?;
    assert_eq!(ticket.to_string().parse(), Ok(ticket), "a ticket comes back from its text");
    Ok(())
}

/// Rule stacks, players, and support that the name of a scenario adds.
fn names() -> Vec<String> {
    let names = [
        "two-turn-end-cards:cards=3+no-late-fire",
        "tougher-sides:more=-20,other=true",
        "planner:playouts=96:style=bold:turns=2:without=rally",
        "steady:without=rally,orders",
        "+defender:german-machine-gun-section+attacker:break=3",
    ];
    names.map(str::to_owned).to_vec()
}

fn name(text: &str) -> Result<(), String> {
    let support = Support::several(text).map(drop).map_err(|faults| faults.join("\n"));
    let stack = text.parse::<StackSpec>().map(drop).map_err(|error| error.to_string());
    let named = |name: &str| match name {
        "steady" | "bold" => Ok(doctrine(name)),
        _ => Err(format!("no `{name}`")),
    };
    let player = text.parse::<PlayerSpec>();
    let player = player.and_then(|spec| Strategy::new(&spec, &mut |name| named(name)).map(drop));
    for read in [&support, &stack, &player] {
        assert!(read.as_ref().err().is_none_or(|said| super::helps(said)), "{read:?}");
    }
    support.or(stack).or(player)
}

/// Loaded as far as the tables that games are played with.
fn script(text: &str) -> Result<(), String> {
    let loaded = Variant::load(&Source::new("damaged.rhai", text), &Overrides::none());
    let rules = loaded.and_then(|variant| Stack::new(vec![variant]).rules());
    rules.map(drop).map_err(|faults| faults.to_string())
}

fn scenario(text: &str) -> Result<(), String> {
    Scenario::from_ron("damaged", text).map(drop).map_err(|error| error.to_string())
}
