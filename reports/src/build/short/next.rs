//! What to try next: rules from what was found to what to type.

use ruleshift_record::{ArmSummary, Balance, METRICS, Metric, Summary, Verdict};

use super::{is_uneven, shift};
use crate::build::balance::percent;
use crate::build::tables::{label, reference};
use crate::format::{about, and};
use crate::report::{Replay, TicketLine};

/// Lines at most.
const MOST: usize = 3;
/// Scenarios that a command names at most.
const NAMED: usize = 4;
/// More games than that are never advised: the program plays no more.
const GAMES: u64 = 10_000_000;
/// The player and the rules that a command need not name.
const USUAL: (&str, &str) = ("steady", "base");

/// At most three lines, the most urgent first.
pub(super) fn lines(summary: &Summary, arm: &ArmSummary) -> Vec<TicketLine> {
    let all = [
        more(summary, arm),
        uneven(summary, arm),
        longer(summary, arm),
        Some(abused(summary, arm)),
    ];
    let line = |(why, typed): (String, String)| {
        let command = format!("ruleshift {typed}");
        TicketLine::new(why, vec![Replay { arm: arm.name.clone(), command }])
    };
    all.into_iter().flatten().take(MOST).map(line).collect()
}

/// Why something is to be tried, and what to type.
type Advice = (String, String);

/// A name as a word of a command, in quotes where it has blanks. One that a shell would read as more
/// than a name is left for the reader to fill in.
fn word(name: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " -_.,:+=/".contains(c);
    match (name.chars().all(plain), name.contains(' ')) {
        (false, _) => "NAME".to_owned(),
        (true, true) => format!("\"{name}\""),
        (true, false) => name.to_owned(),
    }
}

fn option(name: &str, values: &[String]) -> String {
    let values: Vec<String> = values.iter().map(|value| word(value)).collect();
    format!(" --{name} {}", values.join(" "))
}

/// The reference, where it is not the base rules.
fn base(summary: &Summary) -> String {
    match reference(summary) {
        name if name == USUAL.1 => String::new(),
        name => option("base", &[name.to_owned()]),
    }
}

/// Scenarios, players and metrics of this run, where they are few and not the usual ones.
fn field(summary: &Summary) -> String {
    let mut field = base(summary);
    if summary.scenarios.len() <= NAMED {
        field += &option("scenario", &summary.scenarios);
    }
    field + &players(summary) + &judged(summary)
}

/// The headline metrics and what is worth noticing of them, where that is not the usual.
fn judged(summary: &Summary) -> String {
    let Some(arm) = summary.arms.get(1) else { return String::new() };
    let own = || summary.metrics.iter().filter(|m| m.headline && m.arm == arm.name);
    let names: Vec<String> = own().map(|m| m.metric.clone()).collect();
    let usual = METRICS.iter().filter(|spec| spec.headline).map(|spec| spec.name);
    let mut judged = match names.iter().map(String::as_str).eq(usual) {
        true => String::new(),
        false => option("metric", &names),
    };
    for m in own() {
        let usual = Metric::by_name(&m.metric).is_some_and(|own| own.spec().notice == m.notice);
        if !usual {
            judged += &option("notice", &[format!("{}={}", m.metric, m.notice)]);
        }
    }
    judged
}

fn players(summary: &Summary) -> String {
    match (&summary.pairings[..], &summary.roster[..]) {
        ([(attacker, defender)], []) => [("attacker", attacker), ("defender", defender)]
            .into_iter()
            .filter(|(_, name)| *name != USUAL.0)
            .map(|(side, name)| option(side, std::slice::from_ref(name)))
            .collect(),
        (_, []) => String::new(),
        (_, roster) => summary.restricted.iter().fold(option("players", roster), |typed, r| {
            typed + &option("restrict", &[format!("{}={}", r.side.word(), r.without)])
        }),
    }
}

/// Undecided: more games.
fn more(summary: &Summary, arm: &ArmSummary) -> Option<Advice> {
    let open = summary.metrics.iter().filter(|m| {
        m.headline && m.arm == arm.name && m.verdict == Verdict::Undecided && m.more_games > 0
    });
    let open: Vec<_> = open.collect();
    let further = open.iter().map(|m| m.more_games).max()?;
    let games = about(arm.games.saturating_add(further)).replace(',', "");
    let names: Vec<String> = open.iter().map(|m| label(m).to_owned()).collect();
    let all: u64 = games.parse().ok()?;
    (all <= GAMES).then(|| {
        (
            format!("About {} more games in each arm, to decide {}", about(further), and(&names)),
            format!("compare {} --games {games}{}", word(&arm.name), field(summary)),
        )
    })
}

/// Not even: what makes the scenario furthest from a half fair.
fn uneven(summary: &Summary, arm: &ArmSummary) -> Option<Advice> {
    let own = summary.balance.iter().filter(|b| b.arm == arm.name && b.scenario.is_some());
    let off = |b: &Balance| (b.share - 0.5).abs();
    let worst = own.filter(|b| is_uneven(b)).max_by(|a, b| off(a).total_cmp(&off(b)))?;
    let scenario = worst.scenario.as_ref()?;
    let side = if worst.share > 0.5 { "defender" } else { "attacker" };
    let players = if summary.roster.is_empty() { players(summary) } else { String::new() };
    let share = percent(worst.share);
    Some((
        format!("Help for the {side} in {scenario}, where the attacker wins {share} of games"),
        format!("handicap {} --side {side} --rules {}{players}", word(scenario), word(&arm.name)),
    ))
}

/// A longer evening: the same rule with fewer turns.
fn longer(summary: &Summary, arm: &ArmSummary) -> Option<Advice> {
    let minutes = shift(summary, arm, Metric::Minutes)?;
    let shorter = |fewer: u8| word(&format!("{}+short-evening:fewer={fewer}", arm.name));
    (minutes.verdict == Verdict::ClearShift && minutes.shift > 0.0).then(|| {
        (
            "How many turns fewer bring the evening back to its length".to_owned(),
            format!("compare {} {}{}", shorter(1), shorter(2), field(summary)),
        )
    })
}

/// Whether a player may abuse it is never known from a comparison.
fn abused(summary: &Summary, arm: &ArmSummary) -> Advice {
    (
        "Whether a player can abuse it, which no comparison can tell".to_owned(),
        format!("hunt {}{}", word(&arm.name), base(summary)),
    )
}
