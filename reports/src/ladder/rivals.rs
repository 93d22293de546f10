//! Every two players against each other, and whether the scenario decides between them.

use ruleshift_record::{LadderRivals, LadderSpread};

use super::games::{LadderGames, Sorted};
use super::shares::Question;
use crate::stats::{Share, heterogeneity, holm};

/// Every two players who have met, both ways round, in that order.
pub(super) fn rivals(games: &LadderGames, sorted: &Sorted, order: &[usize]) -> Vec<LadderRivals> {
    let spreads = spreads(games, sorted);
    let pairs = order.iter().flat_map(|&a| order.iter().map(move |&b| (a, b)));
    let rivals = |(player, other): (usize, usize)| {
        let of = |a: usize, b: usize| spreads.iter().find(|s| s.0 == (a, b)).map(|s| s.1.clone());
        Some(LadderRivals {
            player: games.players[player].clone(),
            other: games.players[other].clone(),
            share: Question::of(player).against(other).answer(sorted)?,
            scenarios: of(player, other).or_else(|| of(other, player).map(turned)),
        })
    };
    pairs.filter(|(a, b)| a != b).filter_map(rivals).collect()
}

/// The spread over scenarios of every two players, by number and the smaller first, tested by
/// Holm's method over all of them.
fn spreads(games: &LadderGames, sorted: &Sorted) -> Vec<((usize, usize), LadderSpread)> {
    let count = games.players.len();
    let pairs = (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b)));
    let mut found: Vec<((usize, usize), LadderSpread)> =
        pairs.filter_map(|(a, b)| Some(((a, b), spread(games, sorted, a, b)?))).collect();
    let adjusted = holm(&found.iter().map(|f| f.1.p_adjusted).collect::<Vec<f64>>());
    found.iter_mut().zip(adjusted).for_each(|(f, p)| f.1.p_adjusted = p);
    found
}

/// How the share of one player against another differs between scenarios, its p-value not adjusted.
fn spread(games: &LadderGames, sorted: &Sorted, a: usize, b: usize) -> Option<LadderSpread> {
    let within = |(number, name): (usize, &String)| {
        Some((name.clone(), Question::of(a).against(b).within(number).ask(sorted)?.0))
    };
    let parts: Vec<(String, Share)> =
        games.scenarios.iter().enumerate().filter_map(within).collect();
    let test = heterogeneity(&parts.iter().map(|(_, s)| (s.value, s.se())).collect::<Vec<_>>())?;
    let rising = |a: &&(String, Share), b: &&(String, Share)| a.1.value.total_cmp(&b.1.value);
    let named = |part: &(String, Share)| (part.0.clone(), part.1.value);
    Some(LadderSpread {
        q: test.q,
        df: test.df,
        p_adjusted: test.p,
        least: parts.iter().min_by(rising).map(named)?,
        most: parts.iter().max_by(rising).map(named)?,
    })
}

/// The same seen by the other player.
fn turned(spread: LadderSpread) -> LadderSpread {
    let rest = |(name, share): (String, f64)| (name, 1.0 - share);
    LadderSpread { least: rest(spread.most), most: rest(spread.least), ..spread }
}
