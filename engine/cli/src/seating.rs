//! Who plays whom in a comparison, and what is forbidden to whom.

use ruleshift_players::{Behaviour, CHANCE, behaviours, shipped};
use ruleshift_record::{Restriction, Seat};

use crate::args::FieldArgs;
use crate::exit::{Failure, keep};
use crate::nearest::nearest;
use crate::resolve;
use crate::wire::Seated;

/// The word for all shipped doctrines that have a style.
const MIXED: &str = "mixed";

/// The players of a comparison, ready to be paired.
pub(crate) struct Seating {
    pub(crate) pairings: Vec<[Seated; 2]>,
    /// Names of those of whom each meets each; none when they were named by side.
    pub(crate) roster: Vec<String>,
    pub(crate) restricted: Vec<Restriction>,
}

/// The players that were typed; what is wrong with them joins the other faults.
pub(crate) fn seating(args: &FieldArgs, faults: &mut Vec<Failure>) -> Option<Seating> {
    let restricted = restrictions(&args.restrict, faults);
    let (mut pairings, roster) = if args.players.is_empty() {
        let attacker = keep(resolve::player(&args.attacker), faults);
        let defender = keep(resolve::player(&args.defender), faults);
        (vec![[attacker?, defender?]], vec![])
    } else {
        let players = players(&args.players, faults)?;
        let names = players.iter().map(|player| player.spec.to_string()).collect();
        (each_against_each(&players), names)
    };
    for (side, behaviour) in &restricted {
        for players in &mut pairings {
            players[*side as usize] = players[*side as usize].without(*behaviour);
        }
    }
    let said = |(side, behaviour): &(Seat, Behaviour)| Restriction {
        side: *side,
        without: behaviour.word().to_owned(),
    };
    let restricted = restricted.iter().map(said).collect();
    Some(Seating { pairings, roster, restricted })
}

/// Every ordered pairing, attackers first, everybody against himself among them.
pub(crate) fn each_against_each(players: &[Seated]) -> Vec<[Seated; 2]> {
    let against = |attacker: &Seated| {
        let attacker = attacker.clone();
        players.iter().map(move |defender| [attacker.clone(), defender.clone()])
    };
    players.iter().flat_map(against).collect()
}

fn players(typed: &[String], faults: &mut Vec<Failure>) -> Option<Vec<Seated>> {
    let players = named(typed, faults)?;
    if let [alone] = &players[..] {
        let name = alone.spec.to_string();
        faults.push(Failure::Input(format!(
            "--players needs two players or more, or `{MIXED}`; for one on both sides write --attacker {name} --defender {name}"
        )));
        return None;
    }
    Some(players)
}

/// The players of a list, each once; `mixed` stands for several.
pub(crate) fn named(typed: &[String], faults: &mut Vec<Failure>) -> Option<Vec<Seated>> {
    let names = names(typed);
    let known = faults.len();
    let twice = |n: usize| names[..n].contains(&names[n]);
    for n in (0..names.len()).filter(|&n| twice(n)) {
        let told = format!("player `{}` is named twice: name it once", names[n]);
        faults.push(Failure::Input(told));
    }
    let found: Vec<Seated> =
        names.iter().filter_map(|name| keep(resolve::player(name), faults)).collect();
    (faults.len() == known).then_some(found)
}

/// One name for each player: `mixed` is several, and a list of what is forbidden has commas too.
fn names(typed: &[String]) -> Vec<String> {
    let mut names: Vec<String> = vec![];
    for word in typed.iter().flat_map(|text| text.split(',')).map(str::trim) {
        let list = names.last_mut().filter(|name| {
            name.rsplit(':').next().is_some_and(|option| option.starts_with("without="))
        });
        match list {
            Some(name) if Behaviour::by_word(word).is_ok() => {
                *name = format!("{name},{word}");
            }
            _ if word == MIXED => {
                let styles = shipped().into_iter().map(|doctrine| doctrine.name);
                names.extend(styles.filter(|name| name != CHANCE));
            }
            _ => names.push(word.to_owned()),
        }
    }
    names
}

/// What is forbidden to which side, each once.
fn restrictions(typed: &[String], faults: &mut Vec<Failure>) -> Vec<(Seat, Behaviour)> {
    let mut found = vec![];
    for text in typed {
        let Some((side, words)) = text.split_once('=') else {
            faults.push(Failure::Input(format!(
                "`{text}` forbids nothing: write --restrict SIDE=BEHAVIOUR, as in attacker=rally"
            )));
            continue;
        };
        let seat = keep(seat(side), faults);
        let words = keep(behaviours(words).map_err(Failure::Input), faults);
        for (side, word) in
            seat.into_iter().flat_map(|s| words.iter().flatten().map(move |w| (s, *w)))
        {
            if !found.contains(&(side, word)) {
                found.push((side, word));
            }
        }
    }
    found
}

fn seat(word: &str) -> Result<Seat, Failure> {
    let words = Seat::ALL.map(Seat::word);
    let help = nearest(word, words.iter().copied())
        .map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
    Seat::ALL.into_iter().find(|seat| seat.word() == word).ok_or_else(|| {
        Failure::Input(format!(
            "there is no side called `{word}`{help} There are: attacker, defender"
        ))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commas_part_players_and_what_is_forbidden_to_one() {
        let parted =
            |typed: &[&str]| names(&typed.iter().map(|t| (*t).to_owned()).collect::<Vec<_>>());
        assert_eq!(
            parted(&["steady:without=rally,orders,bold", "cautious"]),
            ["steady:without=rally,orders", "bold", "cautious"]
        );
        let mixed = parted(&["mixed"]);
        assert!(mixed.len() > 2 && !mixed.iter().any(|name| name == CHANCE), "{mixed:?}");
    }
}
