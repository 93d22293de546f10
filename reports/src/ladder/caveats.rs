//! What the reader of a ladder must keep in mind.

use ruleshift_record::{LadderPairing, LadderPlayer, LadderRivals, LadderSummary};

use super::percent;
use crate::format::{and, count, counted, p_value};
use crate::stats::{LEVEL, NoStrengths};

/// Always said, first.
const PLAYERS: &str = "Computer players are not your club: the ladder ranks them under these rules \
                       and in these scenarios, and says nothing about people.";

/// Games of a pairing below which the interval formulas are said to be weak.
const FEW: u64 = 50;

/// A difference between shares that is worth a remark.
const NOTICE: f64 = 0.1;

/// A difference from what strengths foresee that is worth a remark.
const GAP: f64 = 0.03;

/// Most pairs of players whose scenarios are named.
const NAMED: usize = 2;

/// All caveats of a ladder; `fault`: why there are no strengths of the players of those `names`.
pub(super) fn caveats(
    summary: &LadderSummary,
    fault: Option<&NoStrengths>,
    names: &[String],
) -> Vec<String> {
    let mut caveats = vec![PLAYERS.to_owned()];
    caveats.extend(fault.map(|fault| unranked(fault, names)));
    caveats.extend(unmet(summary));
    caveats.extend(few(summary));
    caveats.extend(added(summary));
    caveats.extend(misfit(summary));
    caveats.extend(disagreement(summary));
    caveats
}

fn unranked(fault: &NoStrengths, names: &[String]) -> String {
    match fault {
        NoStrengths::Unknown => {
            "No strengths: there are no players, or the reference is none of them.".to_owned()
        }
        NoStrengths::Apart(groups) => {
            let named = |group: &Vec<usize>| {
                let names: Vec<String> = group.iter().map(|p| names[*p].clone()).collect();
                and(&names)
            };
            let groups: Vec<String> = groups.iter().map(named).collect();
            format!("No strengths: {} never met each other.", groups.join(" | "))
        }
        NoStrengths::Sides => "No strengths: too few pairings were played from both sides to tell \
                               a player from his side."
            .to_owned(),
        NoStrengths::Beyond => {
            "No strengths: the results are too lopsided to calculate them.".to_owned()
        }
    }
}

/// Pairings that were not played, or not all of them to the end.
fn unmet(summary: &LadderSummary) -> Option<String> {
    let players = summary.players.len();
    let all = (players * players.saturating_sub(1)) as u64;
    let games = || met(summary).map(|p| p.share.games);
    let (least, most) = (games().min()?, games().max()?);
    let played = games().count() as u64;
    let unplayed = (played < all)
        .then(|| format!("{} of {} were not played", all - played, counted(all, "pairing")));
    let uneven = (least < most)
        .then(|| format!("pairings have from {} to {} games", count(least), count(most)));
    let parts: Vec<String> = unplayed.into_iter().chain(uneven).collect();
    (!parts.is_empty()).then(|| format!("The ladder is not complete: {}.", and(&parts)))
}

/// The pairings of different players.
fn met(summary: &LadderSummary) -> impl Iterator<Item = &LadderPairing> {
    summary.pairings.iter().filter(|p| p.attacker != p.defender)
}

fn few(summary: &LadderSummary) -> Option<String> {
    let least = met(summary).map(|p| p.share.games).min()?;
    (least < FEW).then(|| {
        format!(
            "Only {} in the smallest pairing: below {FEW} the intervals of a single pairing \
             are rough.",
            counted(least, "game")
        )
    })
}

/// What strengths are worth when somebody won or lost everything.
fn added(summary: &LadderSummary) -> Option<String> {
    if summary.fit.is_none_or(|fit| fit.added == 0) {
        return None;
    }
    let with = |share: f64| -> Vec<String> {
        let has = |p: &&LadderPlayer| p.wins.is_some_and(|wins| wins.share == share);
        summary.players.iter().filter(has).map(|p| p.name.clone()).collect()
    };
    let said = |names: Vec<String>, what: &str| {
        (!names.is_empty()).then(|| format!("{} {what} every game", and(&names)))
    };
    let mut why: Vec<String> =
        said(with(1.0), "won").into_iter().chain(said(with(0.0), "lost")).collect();
    if why.is_empty() {
        why.push("some results were all one way".to_owned());
    }
    Some(format!(
        "{}, which leaves strength without a bound: one drawn game was added to each pairing to \
         calculate it. Read the share of wins there.",
        and(&why)
    ))
}

/// The pairing furthest from what strengths foresee, when they do not tell all.
fn misfit(summary: &LadderSummary) -> Option<String> {
    let fit = summary.fit.filter(|fit| fit.p < LEVEL)?;
    let gap = |p: &LadderPairing| p.foreseen.map_or(0.0, |f| (p.share.share - f).abs());
    let worst = summary.pairings.iter().max_by(|a, b| gap(a).total_cmp(&gap(b)))?;
    if gap(worst) < GAP {
        return None;
    }
    Some(format!(
        "One strength for each player does not tell all (p {}): {} attacking {} wins {} where {} \
         is foreseen.",
        equal(fit.p),
        worst.attacker,
        worst.defender,
        percent(worst.share.share),
        percent(worst.foreseen?)
    ))
}

/// Players between whom the scenario decides, those furthest apart first.
fn disagreement(summary: &LadderSummary) -> Vec<String> {
    let range = |r: &LadderRivals| r.scenarios.as_ref().map_or(0.0, |s| s.most.1 - s.least.1);
    let surely = |r: &&LadderRivals| r.scenarios.as_ref().is_some_and(|s| s.p_adjusted < LEVEL);
    // Each pair is in the list both ways round: once is enough, with the stronger first.
    let rank = |name: &str| summary.players.iter().position(|p| p.name == name);
    let mut told: Vec<&LadderRivals> = summary
        .rivals
        .iter()
        .filter(surely)
        .filter(|r| rank(&r.player) < rank(&r.other) && range(r) >= NOTICE)
        .collect();
    told.sort_by(|a, b| range(b).total_cmp(&range(a)));
    let mut lines: Vec<String> = told.iter().take(NAMED).filter_map(|r| between(r)).collect();
    if let (Some(last), more @ 1..) = (lines.last_mut(), told.len().saturating_sub(NAMED)) {
        let others = counted(more as u64, "other pair");
        last.push_str(&format!(" So it is with {others} of players."));
    }
    lines
}

fn between(rivals: &LadderRivals) -> Option<String> {
    let spread = rivals.scenarios.as_ref()?;
    Some(format!(
        "{} against {} depends on the scenario: from {} in {} to {} in {} (p {}).",
        rivals.player,
        rivals.other,
        percent(spread.least.1),
        spread.least.0,
        percent(spread.most.1),
        spread.most.0,
        equal(spread.p_adjusted)
    ))
}

fn equal(p: f64) -> String {
    if p < 0.001 { p_value(p) } else { format!("= {}", p_value(p)) }
}

#[cfg(test)]
mod tests {
    use crate::ladder::{Outcome, rank, sample};

    #[test]
    fn who_lost_everything_is_named() {
        let wins = |a, d| match (a, d) {
            (_, 2) => 20,
            (2, _) => 0,
            _ => 11,
        };
        let summary = rank(&sample::round_robin(&["bold", "steady", "chance"], wins));
        assert!(
            summary.caveats[2].starts_with("chance lost every game, which leaves"),
            "{:?}",
            summary.caveats
        );
        let last = summary.players[2].strength.unwrap();
        assert!(last.strength.is_finite() && last.chance_high < 0.2, "{last:?}");
        assert!(summary.players[2].wins.unwrap().high > 0.02);
    }

    #[test]
    fn players_who_never_met_are_named() {
        let games = [(0, 1, 0, Outcome::Draw), (2, 3, 0, Outcome::Attacker)];
        let caveats = rank(&sample::games(&["a", "b", "c", "d"], &games)).caveats;
        assert_eq!(caveats[1], "No strengths: a and b | c and d never met each other.");
        assert_eq!(caveats[2], "The ladder is not complete: 10 of 12 pairings were not played.");
        assert!(caveats[3].starts_with("Only 1 game in the smallest pairing"), "{caveats:?}");
    }

    #[test]
    fn a_round_of_players_is_told_as_a_misfit() {
        // Each beats the next and is beaten by the one before: no order foresees that.
        let wins = |a: usize, d: usize| if (a + 1) % 3 == d { 18 } else { 2 };
        let caveats = rank(&sample::round_robin(&["a", "b", "c"], wins)).caveats;
        assert!(
            caveats.iter().any(|c| c
                .starts_with("One strength for each player does not tell all (p < 0.001): ")
                && c.ends_with(" where 50 % is foreseen.")),
            "{caveats:?}"
        );
    }

    #[test]
    fn players_whose_scenarios_disagree_are_named() {
        let mut games = sample::round_robin(&["a", "b"], |_, _| 10);
        for row in &mut games.rows {
            let first = row.scenario == 0;
            row.outcome =
                if first == (row.attacker == 0) { Outcome::Attacker } else { Outcome::Defender };
        }
        let caveats = rank(&games).caveats;
        assert!(
            caveats.contains(
                &"a against b depends on the scenario: from 0 % in meeting to 100 % in hill \
                  (p < 0.001)."
                    .to_owned()
            ),
            "{caveats:?}"
        );
    }
}
