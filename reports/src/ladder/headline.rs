//! The answer of a ladder in plain words.

use ruleshift_record::{LadderPlayer, LadderShare, LadderSummary};

use super::{percent, whole};
use crate::format::{and, counted};

/// Who leads, how the others fare, who is level with whom, and what the side is worth.
pub(super) fn headline(summary: &LadderSummary) -> Vec<String> {
    [leader(summary), others(summary), level(summary), side(summary)]
        .into_iter()
        .flatten()
        .collect()
}

/// A share with its interval in a sentence.
fn surely(share: &LadderShare) -> String {
    let (low, high) = whole(share.low, share.high);
    format!("{} (95 % {low} to {high})", percent(share.share))
}

fn leader(summary: &LadderSummary) -> Option<String> {
    let first = summary.players.first()?;
    let wins = first.wins.as_ref()?;
    let won = format!("wins {} of {}", surely(wins), counted(wins.games, "game"));
    if first.strength.is_none() {
        return Some(format!("{} {won}, but the games do not rank the players.", first.name));
    }
    let level = level_with_first(summary);
    Some(match level.as_slice() {
        [] if summary.players.len() == 1 => return None,
        [] => format!(
            "{} is the strongest of {}: it {won}.",
            first.name,
            counted(summary.players.len() as u64, "player")
        ),
        names => {
            format!("{} stands first and {won}, but {}.", first.name, not_behind(names))
        }
    })
}

fn not_behind(names: &[String]) -> String {
    let verb = if names.len() == 1 { "is" } else { "are" };
    format!("{} {verb} not surely weaker", and(names))
}

/// Players who cannot be told apart from the first of the ladder.
fn level_with_first(summary: &LadderSummary) -> Vec<String> {
    let rest = summary.players.iter().skip(1);
    rest.filter(|p| p.place == 1).map(|p| p.name.clone()).collect()
}

fn others(summary: &LadderSummary) -> Option<String> {
    let told = |p: &LadderPlayer| p.wins.map(|wins| format!("{} {}", p.name, percent(wins.share)));
    let names: Vec<String> = summary.players.iter().skip(1).filter_map(told).collect();
    let ranked = summary.players.iter().all(|p| p.strength.is_some());
    match (&names[..], ranked) {
        ([], _) => None,
        ([other], _) => Some(format!("The other: {other}.")),
        (_, true) => Some(format!("The others, by strength: {}.", and(&names))),
        (_, false) => Some(format!("The others: {}.", and(&names))),
    }
}

/// Runs of players below the first of whom none is surely stronger than another.
fn level(summary: &LadderSummary) -> Option<String> {
    let mut runs: Vec<String> = Vec::new();
    let mut reached = 0;
    for start in 1..summary.players.len() {
        let end = (start..summary.players.len())
            .take_while(|n| summary.players[*n].place as usize <= start + 1)
            .last()?;
        if end > start && end > reached {
            let names: Vec<String> =
                summary.players[start..=end].iter().map(|p| p.name.clone()).collect();
            runs.push(and(&names));
            reached = end;
        }
    }
    let known = summary.players.iter().all(|p| p.strength.is_some());
    (known && !runs.is_empty()).then(|| format!("Not told apart: {}.", runs.join("; ")))
}

fn side(summary: &LadderSummary) -> Option<String> {
    let attacker = summary.attacker.as_ref()?;
    let even = |a: &ruleshift_record::LadderStrength| {
        let (low, high) = whole(a.chance_low, a.chance_high);
        format!("; between equals, {} ({low} to {high})", percent(a.chance))
    };
    let equals = summary.advantage.as_ref().map(even).unwrap_or_default();
    Some(format!("The attacker wins {} of all games{equals}.", surely(attacker)))
}

#[cfg(test)]
mod tests {
    use crate::ladder::{Outcome, rank, sample};

    /// The headline when the attacker wins as many of 20 games as `wins` says.
    fn told(players: &[&str], wins: impl Fn(usize, usize) -> usize) -> Vec<String> {
        rank(&sample::round_robin(players, wins)).headline
    }

    #[test]
    fn a_clear_order_is_told_as_one() {
        // Everyone beats the next 4:1.
        let wins = |a: usize, d: usize| match a as i32 - d as i32 {
            -2 => 18,
            -1 => 16,
            1 => 4,
            _ => 2,
        };
        assert_eq!(
            told(&["bold", "steady", "chance"], wins),
            [
                "bold is the strongest of 3 players: it wins 85 % (95 % 75 to 91) of 80 games.",
                "The others, by strength: steady 50 % and chance 15 %.",
                "The attacker wins 50 % (95 % 41 to 59) of all games; between equals, 50 % (38 to \
                 62).",
            ]
        );
    }

    #[test]
    fn players_alike_are_told_as_alike() {
        let told = told(&["bold", "steady", "wary"], |_, _| 12);
        assert!(told[0].ends_with("but steady and wary are not surely weaker."), "{told:?}");
        assert_eq!(told[2], "Not told apart: steady and wary.");
        assert!(told[3].starts_with("The attacker wins 60 % (95 % "), "{told:?}");
    }

    #[test]
    fn games_that_rank_nobody_say_so() {
        let told = told(&["bold", "steady"], |_, _| 20);
        assert!(told[0].contains("but steady is not surely weaker"), "{told:?}");
        let nothing = rank(&sample::games(&["bold", "steady"], &[]));
        assert_eq!(nothing.headline, [""; 0]);
        let one_way = [(0, 1, 0, Outcome::Attacker), (0, 1, 0, Outcome::Defender)];
        let one_way = rank(&sample::games(&["bold", "steady"], &one_way)).headline;
        assert!(one_way[0].ends_with("of 2 games, but the games do not rank the players."));
        assert_eq!(one_way[1], "The other: steady 50 %.");
        assert_eq!(one_way.len(), 3, "nothing is said of who is level: {one_way:?}");
    }
}
