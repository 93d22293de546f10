//! Do the results say how strong the players are?
//!
//! Each win is an arrow from the winner to the loser; a draw is an arrow both ways. Without a term
//! for the side, a greatest likelihood exists just when every player can be reached from every
//! other along arrows (Ford 1957, The American Mathematical Monthly 64(8) part 2:28-33): else some
//! players could be put above the rest by ever more, and the results would only get likelier.
//!
//! With a term for the attacker there is one more way to run away: the term grows, and strengths
//! grow with it, while every win stays as likely as it was or gets likelier. With the term growing
//! by 1 that asks `d(loser) <= d(winner) + 1` of every attacker's win and of every defender's
//! `d(loser) <= d(winner) - 1`, which is possible just when no round trip along arrows adds up to
//! less than nothing (difference constraints; Bellman 1958, Quarterly of Applied Mathematics
//! 16:87-90). So there must be a round trip with more wins of defenders than of attackers, and one
//! with fewer.
//! (Sources from memory; the second condition is ours, derived from them.)

/// One who has beaten, or held, another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Arrow {
    pub(super) winner: usize,
    pub(super) loser: usize,
    /// Whether the winner was the attacker.
    pub(super) attacking: bool,
}

/// Whether strengths of `players` have a greatest likelihood; `side`: with a term for the attacker.
pub(super) fn has_maximum(players: usize, arrows: &[Arrow], side: bool) -> bool {
    let everyone = reachable(players, arrows.iter().map(|a| (a.winner, a.loser))) == players
        && reachable(players, arrows.iter().map(|a| (a.loser, a.winner))) == players;
    everyone && (!side || (falls(players, arrows, 1) && falls(players, arrows, -1)))
}

/// How many players can be reached from the first.
fn reachable(players: usize, steps: impl Iterator<Item = (usize, usize)>) -> usize {
    let steps: Vec<(usize, usize)> = steps.collect();
    group_of(players, 0, &steps).len()
}

/// The players that can be reached from `start`, itself among them, in order.
fn group_of(players: usize, start: usize, steps: &[(usize, usize)]) -> Vec<usize> {
    let mut seen = vec![false; players];
    let mut open = if start < players { vec![start] } else { vec![] };
    while let Some(player) = open.pop() {
        if !std::mem::replace(&mut seen[player], true) {
            open.extend(steps.iter().filter(|(from, _)| *from == player).map(|(_, to)| *to));
        }
    }
    (0..players).filter(|player| seen[*player]).collect()
}

/// Whether some round trip adds up to less than nothing, an attacker's win counting `attack` and a
/// defender's its opposite.
fn falls(players: usize, arrows: &[Arrow], attack: i64) -> bool {
    let mut reach = vec![0_i64; players];
    for _ in 0..players {
        let mut moved = false;
        for arrow in arrows {
            let next = reach[arrow.winner] + if arrow.attacking { attack } else { -attack };
            if next < reach[arrow.loser] {
                reach[arrow.loser] = next;
                moved = true;
            }
        }
        if !moved {
            return false;
        }
    }
    true
}

/// The players in groups that have met each other, directly or through others.
pub(super) fn groups(players: usize, met: &[(usize, usize)]) -> Vec<Vec<usize>> {
    let both: Vec<(usize, usize)> = met.iter().flat_map(|&(a, b)| [(a, b), (b, a)]).collect();
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for player in 0..players {
        if !groups.iter().any(|group| group.contains(&player)) {
            groups.push(group_of(players, player, &both));
        }
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wins of attackers as `(winner, loser)`, then wins of defenders.
    fn arrows(attackers: &[(usize, usize)], defenders: &[(usize, usize)]) -> Vec<Arrow> {
        let arrow = |attacking| move |&(winner, loser)| Arrow { winner, loser, attacking };
        attackers.iter().map(arrow(true)).chain(defenders.iter().map(arrow(false))).collect()
    }

    #[test]
    fn everyone_must_have_beaten_and_been_beaten() {
        let chain = arrows(&[(0, 1), (1, 2)], &[]);
        assert!(!has_maximum(3, &chain, false));
        let round = arrows(&[(0, 1), (1, 2), (2, 0)], &[]);
        assert!(has_maximum(3, &round, false));
        assert!(!has_maximum(4, &round, false), "nobody has met the fourth");
        assert!(has_maximum(1, &[], false));
    }

    #[test]
    fn attackers_that_always_win_tell_no_advantage() {
        let always = arrows(&[(0, 1), (1, 0)], &[]);
        assert!(has_maximum(2, &always, false) && !has_maximum(2, &always, true));
        let never = arrows(&[], &[(0, 1), (1, 0)]);
        assert!(has_maximum(2, &never, false) && !has_maximum(2, &never, true));
        let mixed = arrows(&[(0, 1), (1, 0)], &[(0, 1), (1, 0)]);
        assert!(has_maximum(2, &mixed, true));
    }

    #[test]
    fn one_side_alone_does_not_tell_side_from_strength() {
        // The first always attacks: its wins may be its own or its side's.
        let one_way = arrows(&[(0, 1)], &[(1, 0)]);
        assert!(has_maximum(2, &one_way, false) && !has_maximum(2, &one_way, true));
        // Games against oneself tell the side alone.
        let alone = arrows(&[(0, 1), (0, 0)], &[(1, 0), (0, 0)]);
        assert!(has_maximum(2, &alone, true));
    }

    #[test]
    fn groups_are_those_who_met() {
        assert_eq!(groups(5, &[(0, 3), (3, 4), (2, 2)]), [vec![0, 3, 4], vec![1], vec![2]]);
    }
}
