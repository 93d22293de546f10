//! How strong is each player, by who beat whom?
//!
//! Bradley & Terry (1952, Biometrika 39:324-345) with one term for the side: the log odds of the
//! attacker's win are his strength less the defender's plus the attacker's advantage (as the home
//! advantage of Agresti 2002, Categorical Data Analysis, 2nd edition, section 10.6; order effects:
//! Davidson & Beaver 1977, Biometrics 33:693-702, from memory). One player, the reference, has
//! strength 0. A draw counts as half a win for each, a common convention of rating systems (from
//! memory); as a draw has less spread than a toss of a coin, errors by the model are then a little
//! too large, never too small.
//!
//! The likelihood is concave, so Newton's method with halved steps finds its top; errors come from
//! the inverse of the information there. When there is no top ([`win_graph`]), because somebody won
//! or lost everything, one drawn game is added to every pairing that was played. That is half a win
//! for each side, as the prior of Jeffreys adds to a single share; it weighs little against the
//! games, shrinks towards "all alike", and lets a ladder with a player who never won be printed
//! where a fault would throw away what is known of all others. Whoever prints such strengths must
//! say so: [`Strengths::added`].

use super::cholesky::{Matrix, inverse};
use super::win_graph::{self, Arrow};
use super::{Interval, normal_quantile};

/// All games of one attacker against one defender.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pairing {
    /// The attacker, by number.
    pub attacker: usize,
    /// The defender, by number; games against oneself tell of the side alone.
    pub defender: usize,
    /// Games that the attacker won.
    pub wins: u64,
    /// Games that nobody won.
    pub draws: u64,
    /// Games that the defender won.
    pub losses: u64,
}

/// Whether the model has a term for the attacker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideTerm {
    /// Sides do not matter.
    None,
    /// One advantage of the attacker, the same for all.
    Attacker,
}

/// Why there are no strengths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoStrengths {
    /// No player, a reference who does not play, or a game of someone unknown.
    Unknown,
    /// Groups of players that never met each other.
    Apart(Vec<Vec<usize>>),
    /// Too few pairings were played from both sides to tell a player from his side.
    Sides,
    /// The numbers are beyond what can be calculated with.
    Beyond,
}

/// A difference of log odds with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogOdds {
    /// The difference.
    pub value: f64,
    /// Its standard error, not negative.
    pub se: f64,
}

impl LogOdds {
    /// The two-sided interval of that `confidence`, by the normal limit.
    pub fn interval(&self, confidence: f64) -> Interval {
        let reach = normal_quantile(0.5 + confidence / 2.0) * self.se;
        Interval { low: self.value - reach, high: self.value + reach }
    }

    /// The two-sided p-value of "even odds"; 1 without spread, as with the reference itself.
    pub fn p(&self) -> f64 {
        if self.se > 0.0 {
            statrs::function::erf::erfc((self.value / self.se).abs() / 2.0_f64.sqrt())
        } else {
            1.0
        }
    }
}

/// The chance of a win at those log odds.
pub fn chance(log_odds: f64) -> f64 {
    1.0 / (1.0 + (-log_odds).exp())
}

/// The strengths of all players.
#[derive(Clone, Debug, PartialEq)]
pub struct Strengths {
    slots: Slots,
    values: Vec<f64>,
    pub(super) covariance: Matrix,
    /// Twice the log likelihood lost against a model with a share of its own for every pairing.
    pub deviance: f64,
    /// Pairings less free numbers: the degrees of freedom of the deviance, at least 0.
    pub df: usize,
    /// Drawn games added to every pairing, because the results alone have no answer; else 0.
    pub added: u32,
}

impl Strengths {
    /// The strength of a player, against the reference at 0.
    pub fn of(&self, player: usize) -> LogOdds {
        self.difference(player, self.slots.reference)
    }

    /// How much stronger one player is than another.
    pub fn difference(&self, player: usize, other: usize) -> LogOdds {
        self.along(&self.slots.row(player, other, false))
    }

    /// The attacker's advantage; `None` without such a term.
    pub fn advantage(&self) -> Option<LogOdds> {
        let reference = self.slots.reference;
        self.slots.side.then(|| self.along(&self.slots.row(reference, reference, true)))
    }

    /// The chance of that attacker against that defender.
    pub fn attacker_chance(&self, attacker: usize, defender: usize) -> f64 {
        chance(dot(&self.row(attacker, defender), &self.values))
    }

    /// What each free number counts for in the log odds of one pairing.
    pub(super) fn row(&self, attacker: usize, defender: usize) -> Vec<f64> {
        self.slots.row(attacker, defender, self.slots.side)
    }

    fn along(&self, row: &[f64]) -> LogOdds {
        let variance: f64 =
            row.iter().zip(&self.covariance).map(|(r, line)| r * dot(line, row)).sum();
        LogOdds { value: dot(row, &self.values), se: variance.max(0.0).sqrt() }
    }
}

/// Where the free numbers stand: all players but the reference, then the side.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Slots {
    players: usize,
    reference: usize,
    side: bool,
}

impl Slots {
    fn count(&self) -> usize {
        self.players - 1 + usize::from(self.side)
    }

    fn row(&self, attacker: usize, defender: usize, side: bool) -> Vec<f64> {
        let mut row = vec![0.0; self.count()];
        for (player, sign) in [(attacker, 1.0), (defender, -1.0)] {
            if player != self.reference {
                row[player - usize::from(player > self.reference)] += sign;
            }
        }
        if side {
            row[self.players - 1] = 1.0;
        }
        row
    }
}

/// One pairing as the likelihood sees it.
struct Term {
    row: Vec<f64>,
    games: f64,
    won: f64,
}

/// The strengths of `players` players by their games, the `reference` at 0.
///
/// # Errors
/// When the games do not connect the players, or do not tell players from sides.
pub fn strengths(
    players: usize,
    pairings: &[Pairing],
    reference: usize,
    side: SideTerm,
) -> Result<Strengths, NoStrengths> {
    let unknown = |p: &Pairing| p.attacker >= players || p.defender >= players;
    if reference >= players || pairings.iter().any(unknown) {
        return Err(NoStrengths::Unknown);
    }
    let slots = Slots { players, reference, side: side == SideTerm::Attacker };
    let mut played: Vec<Pairing> =
        pairings.iter().copied().filter(|p| p.wins + p.draws + p.losses > 0).collect();
    let added = u32::from(!win_graph::has_maximum(players, &arrows(&played), slots.side));
    played.iter_mut().for_each(|p| p.draws += u64::from(added));
    if added > 0 && !win_graph::has_maximum(players, &arrows(&played), slots.side) {
        let met: Vec<(usize, usize)> = played.iter().map(|p| (p.attacker, p.defender)).collect();
        let groups = win_graph::groups(players, &met);
        return Err(if groups.len() > 1 { NoStrengths::Apart(groups) } else { NoStrengths::Sides });
    }
    let terms: Vec<Term> = played.iter().map(|p| term(&slots, p)).collect();
    let (values, covariance) = top(&terms, slots.count()).ok_or(NoStrengths::Beyond)?;
    let deviance = terms.iter().map(|t| deviance(t, &values)).sum();
    let df = terms.len().saturating_sub(slots.count());
    Ok(Strengths { slots, values, covariance, deviance, df, added })
}

fn arrows(played: &[Pairing]) -> Vec<Arrow> {
    let of = |p: &Pairing| {
        let won = Arrow { winner: p.attacker, loser: p.defender, attacking: true };
        let lost = Arrow { winner: p.defender, loser: p.attacker, attacking: false };
        [(p.wins + p.draws > 0).then_some(won), (p.losses + p.draws > 0).then_some(lost)]
    };
    played.iter().flat_map(of).flatten().collect()
}

fn term(slots: &Slots, p: &Pairing) -> Term {
    Term {
        row: slots.row(p.attacker, p.defender, slots.side),
        games: (p.wins + p.draws + p.losses) as f64,
        won: p.wins as f64 + p.draws as f64 / 2.0,
    }
}

/// Newton steps before giving up, and the step that counts as none.
const STEPS: (usize, f64) = (200, 1e-11);

/// The top of the likelihood and the inverse of the information there.
fn top(terms: &[Term], free: usize) -> Option<(Vec<f64>, Matrix)> {
    let mut at = vec![0.0; free];
    for _ in 0..STEPS.0 {
        let (slope, information) = slope_and_information(terms, &at);
        let covariance = inverse(&information)?;
        let step: Vec<f64> = covariance.iter().map(|line| dot(line, &slope)).collect();
        if step.iter().all(|s| s.abs() < STEPS.1) {
            return Some((at, covariance));
        }
        at = uphill(terms, &at, &step);
    }
    None
}

/// `at` moved by the step, or by the largest half of a half of it that does not lead downhill.
fn uphill(terms: &[Term], at: &[f64], step: &[f64]) -> Vec<f64> {
    let height = log_likelihood(terms, at);
    let moved =
        |part: f64| -> Vec<f64> { at.iter().zip(step).map(|(a, s)| a + part * s).collect() };
    let mut part = 1.0;
    // Near the top, rounding alone may seem to lead down.
    while part > 1e-6 && log_likelihood(terms, &moved(part)) < height - 1e-9 * height.abs() {
        part /= 2.0;
    }
    moved(part)
}

fn log_likelihood(terms: &[Term], at: &[f64]) -> f64 {
    let log_chance = |x: f64| if x > 0.0 { -(-x).exp().ln_1p() } else { x - x.exp().ln_1p() };
    let of = |t: &Term| {
        let odds = dot(&t.row, at);
        t.won * log_chance(odds) + (t.games - t.won) * log_chance(-odds)
    };
    terms.iter().map(of).sum()
}

fn slope_and_information(terms: &[Term], at: &[f64]) -> (Vec<f64>, Matrix) {
    let free = at.len();
    let (mut slope, mut information) = (vec![0.0; free], vec![vec![0.0; free]; free]);
    for t in terms {
        let p = chance(dot(&t.row, at));
        let (left, weight) = (t.won - t.games * p, t.games * p * (1.0 - p));
        for (i, ri) in t.row.iter().enumerate() {
            slope[i] += ri * left;
            for (j, rj) in t.row.iter().enumerate() {
                information[i][j] += ri * rj * weight;
            }
        }
    }
    (slope, information)
}

fn deviance(t: &Term, values: &[f64]) -> f64 {
    let p = chance(dot(&t.row, values));
    let part = |seen: f64, expected: f64| {
        if seen > 0.0 { 2.0 * seen * (seen / expected).ln() } else { 0.0 }
    };
    part(t.won, t.games * p) + part(t.games - t.won, t.games * (1.0 - p))
}

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Sparse results of four players: most pairings not played or won by one side alone.
    fn sparse() -> impl Strategy<Value = Vec<Pairing>> {
        let count = || prop_oneof![3 => Just(0_u64), 1 => 1..4_u64];
        proptest::collection::vec((count(), count(), count()), 16).prop_map(|cells| {
            let pairing = |(n, (wins, draws, losses))| Pairing {
                attacker: n / 4,
                defender: n % 4,
                wins,
                draws: draws / 3,
                losses,
            };
            let played = |p: &Pairing| p.wins + p.draws + p.losses > 0;
            cells.into_iter().enumerate().map(pairing).filter(played).collect()
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        /// Walking uphill ends somewhere just when the round trips of the win graph say so.
        #[test]
        fn the_likelihood_has_a_top_just_when_the_graph_says_so(
            games in sparse(),
            side in any::<bool>(),
        ) {
            let slots = Slots { players: 4, reference: 0, side };
            let terms: Vec<Term> = games.iter().map(|p| term(&slots, p)).collect();
            let exists = win_graph::has_maximum(4, &arrows(&games), side);
            prop_assert_eq!(top(&terms, slots.count()).is_some(), exists);
        }
    }
}
