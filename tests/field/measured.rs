//! The measured table of the shipped scenarios, which the page of the scenarios shows.

use std::fmt::Write;
use std::fs;

use ruleshift_record::Metric;

use super::SURE;
use super::shipped::{DOCTRINES, Seen, every, mean, played, seen};
use crate::support::repository;
use crate::support::stats::{quantile, wilson};

const PAGE: &str = "engine/scenarios/README.md";
const BEGIN: &str =
    "<!-- measured: written by RULESHIFT_BLESS=1 cargo test -p ruleshift-tests field -->\n";
const END: &str = "<!-- end of measured -->\n";

/// Shipped scenarios are fair: 40 to 60 % for the attacker (a club's tolerance, P). A scenario at
/// the limit fails once in 740 (3 standard errors, 1.1 points each for 2,000 games).
#[test]
fn shipped_scenarios_are_fair() {
    for seen in seen() {
        let wins = seen.sample(Metric::AttackerWins);
        let around = SURE * wins.error();
        let fair = 0.4 - around..=0.6 + around;
        assert!(fair.contains(&wins.mean()), "{}: {:.3}", seen.scenario, wins.mean());
    }
}

/// They are an evening's length and come to a decision (table practice, P).
#[test]
fn shipped_scenarios_end_in_good_time_and_are_decided() {
    for seen in seen() {
        let (turns, drawn) = (seen.mean(Metric::Turns), seen.mean(Metric::Drawn));
        assert!((5.8..=14.0).contains(&turns), "{}: {turns:.2} turns", seen.scenario);
        assert!(drawn < 0.1, "{}: {drawn:.3} drawn", seen.scenario);
    }
}

/// The lead changes, and games end by position and will more often than by the loss of all: of 52
/// engagements one in ten was given up for losses (McQuie, Army, Nov 1987, S).
#[test]
fn games_turn_and_end_before_everyone_is_lost() {
    let (changes, lost) = (mean(Metric::LeadChanges), mean(Metric::EndedByAnnihilation));
    assert!(changes >= 0.5, "{changes:.2} lead changes");
    assert!(lost <= 0.5, "{lost:.3} end with nobody left");
}

fn percent(share: f64) -> f64 {
    100.0 * share
}

/// One scenario between steady players as a row of the page.
fn line(seen: &Seen) -> String {
    let share = |metric| percent(seen.mean(metric));
    let wins = seen.mean(Metric::AttackerWins);
    let (low, high) = wilson(wins, seen.values.len() as f64);
    let turns = seen.all(Metric::Turns);
    format!(
        "| {} | {:.1} ({:.1} to {:.1}) | {:.1} | {:.1} ({:.0} to {:.0}) | {:.0} / {:.0} | {:.0} / {:.0} / {:.0} | {:.2} | {:.0} |\n",
        seen.scenario,
        percent(wins),
        percent(low),
        percent(high),
        share(Metric::Drawn),
        seen.mean(Metric::Turns),
        quantile(&turns, 0.1),
        quantile(&turns, 0.9),
        share(Metric::WinnerLosses),
        share(Metric::LoserLosses),
        share(Metric::EndedByObjective),
        share(Metric::EndedByBreak),
        share(Metric::EndedByAnnihilation),
        seen.mean(Metric::LeadChanges),
        seen.mean(Metric::Minutes),
    )
}

/// The attacker's wins of one scenario for a doctrine that plays itself.
fn wins(seen: &Seen) -> String {
    let wins = seen.mean(Metric::AttackerWins);
    let (low, high) = wilson(wins, seen.values.len() as f64);
    format!("{:.1} ({:.1} to {:.1})", percent(wins), percent(low), percent(high))
}

/// Both tables.
pub(super) fn page() -> String {
    let [(_, steady), (_, others), _] = DOCTRINES;
    let mut text = format!(
        "Each scenario {steady} times between `steady` players under the base rules:\n\n\
         | scenario | attacker wins, % (95 %) | drawn, % | turns (10 to 90 %) | lost by winner / loser, % | ended on points / by a break / with nobody left, % | lead changes | minutes |\n\
         |---|---|---|---|---|---|---|---|\n"
    );
    seen().iter().for_each(|seen| text.push_str(&line(seen)));
    let _ = write!(
        text,
        "\nHow often the attacker wins, in percent, when both sides play alike; {others} games of each \
         scenario:\n\n| scenario | `cautious` | `bold` |\n|---|---|---|\n"
    );
    for (cautious, bold) in played(1).iter().zip(played(2)) {
        let _ = writeln!(text, "| {} | {} | {} |", cautious.scenario, wins(cautious), wins(bold));
    }
    let turns = every(Metric::Turns);
    let _ = write!(
        text,
        "\nOver all of them between `steady` players: {:.2} lead changes in a game, {:.0} % of the games \
         on points, {:.0} % by a break, {:.0} % with nobody left; nine in ten take {:.0} turns or \
         fewer.\n",
        mean(Metric::LeadChanges),
        percent(mean(Metric::EndedByObjective)),
        percent(mean(Metric::EndedByBreak)),
        percent(mean(Metric::EndedByAnnihilation)),
        quantile(&turns, 0.9)
    );
    text
}

/// The page with the tables of this run between its marks.
fn written(old: &str) -> Option<String> {
    let (before, rest) = old.split_once(BEGIN)?;
    let (_, after) = rest.split_once(END)?;
    Some(format!("{before}{BEGIN}\n{}\n{END}{after}", page()))
}

#[test]
fn the_page_of_the_scenarios_shows_what_was_measured() {
    let old = repository::text(PAGE);
    let new = written(&old).expect("the page has the marks of the measured tables");
    if std::env::var_os("RULESHIFT_BLESS").is_some() {
        fs::write(repository::root().join(PAGE), &new).unwrap();
    } else {
        assert_eq!(
            old, new,
            "games have changed; if they were to:\n  \
             RULESHIFT_BLESS=1 cargo test -p ruleshift-tests field"
        );
    }
}
