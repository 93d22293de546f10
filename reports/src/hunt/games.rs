//! The games of a hunt, brought together by seed.

use std::collections::BTreeMap;

use ruleshift_record::{GameRow, HuntPlan, Metric, Seat};

/// The number of the usual style in a plan of a hunt, and of the one found in the games that judge.
pub(super) const USUAL: usize = 0;
pub(super) const FOUND: usize = 1;

/// One seed, played by two styles under two rules.
#[derive(Clone, Copy, Debug)]
pub(super) struct Four<'a> {
    pub(super) scenario: usize,
    /// The side of both styles.
    pub(super) seat: Seat,
    /// By style, the usual one first, then rules, the base rules first.
    games: [[&'a GameRow; 2]; 2],
}

impl<'a> Four<'a> {
    /// The game of a style, 0 or 1, under the base rules or the variant.
    pub(super) fn game(&self, style: usize, variant: bool) -> &'a GameRow {
        self.games[style][usize::from(variant)]
    }

    /// What a style wins: a draw is half a win.
    pub(super) fn score(&self, style: usize, variant: bool) -> f64 {
        let game = self.game(style, variant);
        let attacker = game.get(Metric::AttackerWins) + game.get(Metric::Drawn) / 2.0;
        match self.seat {
            Seat::Attacker => attacker,
            Seat::Defender => 1.0 - attacker,
        }
    }

    /// What the other style wins more than the usual one.
    pub(super) fn edge(&self, variant: bool) -> f64 {
        self.score(FOUND, variant) - self.score(USUAL, variant)
    }

    /// How much more under the variant than under the base rules.
    pub(super) fn surplus(&self) -> f64 {
        self.edge(true) - self.edge(false)
    }
}

/// The seeds that style number `style` has played four times with the usual one, in order.
pub(super) fn fours<'a>(hunt: &HuntPlan, games: &'a [GameRow], style: usize) -> Vec<Four<'a>> {
    let mut seeds: BTreeMap<(usize, u32), [[Option<&GameRow>; 2]; 2]> = BTreeMap::new();
    for game in games {
        let (number, variant) = HuntPlan::style(game.arm);
        if number == USUAL || number == style {
            let four = seeds.entry((game.scenario, game.game)).or_default();
            four[usize::from(number == style)][usize::from(variant)] = Some(game);
        }
    }
    let whole = |((scenario, game), four): ((usize, u32), [[Option<&'a GameRow>; 2]; 2])| {
        let [[a, b], [c, d]] = four;
        let games = [[a?, b?], [c?, d?]];
        Some(Four { scenario, seat: hunt.seats[hunt.judged.pairing(game)], games })
    };
    seeds.into_iter().filter_map(whole).collect()
}

/// Values of `fours` by scenario and seat.
pub(super) fn strata(fours: &[&Four], value: impl Fn(&Four) -> f64) -> Vec<Vec<f64>> {
    let mut strata: BTreeMap<(usize, bool), Vec<f64>> = BTreeMap::new();
    for four in fours {
        let stratum = (four.scenario, four.seat == Seat::Defender);
        strata.entry(stratum).or_default().push(value(four));
    }
    strata.into_values().filter(|values| values.iter().all(|v| v.is_finite())).collect()
}
