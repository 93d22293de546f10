//! Games of two arms that share their luck, brought together.

use std::cell::OnceCell;

use ruleshift_record::{GameRow, Metric, RunRecord};

/// A game that both arms have finished, and its place among the games of each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pair {
    pub(crate) scenario: usize,
    pub(crate) game: u32,
    reference: usize,
    arm: usize,
}

/// A pair and those that follow it game by game in both arms: nearly always all of a scenario.
struct Span {
    first: Pair,
    count: u32,
}

impl Span {
    fn pairs(&self) -> impl Iterator<Item = Pair> + use<> {
        let Pair { scenario, game, reference, arm } = self.first;
        (0..self.count).map(move |n| Pair {
            scenario,
            game: game + n,
            reference: reference + n as usize,
            arm: arm + n as usize,
        })
    }

    fn goes_on(&self, pair: &Pair) -> bool {
        let Pair { scenario, game, reference, arm } = self.first;
        let (n, places) = (self.count, self.count as usize);
        *pair == Pair { scenario, game: game + n, reference: reference + places, arm: arm + places }
    }
}

/// The pairs of one arm, by scenario and then game number.
///
/// A stratum is a scenario with a pairing of players; strata stand in that order, the pairings of
/// one scenario together.
pub(crate) struct Pairs<'a> {
    run: &'a RunRecord,
    reference: usize,
    pub(crate) arm: usize,
    spans: Vec<Span>,
    /// Whether both games of each pair say the same in every metric, once that was asked.
    alike: OnceCell<Vec<bool>>,
}

impl<'a> Pairs<'a> {
    /// Pairs the games of `arm` with those of arm 0; games that lack their partner are left out.
    pub(crate) fn of(run: &'a RunRecord, arm: usize) -> Pairs<'a> {
        Pairs::between(run, 0, arm)
    }

    /// Pairs the games of two arms; games that lack their partner are left out, and those of a
    /// scenario the plan lacks.
    pub(crate) fn between(run: &'a RunRecord, reference: usize, arm: usize) -> Pairs<'a> {
        let mut spans: Vec<Span> = Vec::new();
        let mut left = run.games.keys(reference).enumerate().peekable();
        for (place, key) in run.games.keys(arm).enumerate() {
            while left.next_if(|(_, other)| *other < key).is_some() {}
            let same = left.next_if(|(_, other)| *other == key);
            let Some((reference, _)) = same.filter(|_| key.0 < run.plan.scenarios.len()) else {
                continue;
            };
            let pair = Pair { scenario: key.0, game: key.1, reference, arm: place };
            match spans.last_mut().filter(|last| last.goes_on(&pair)) {
                Some(last) => last.count += 1,
                None => spans.push(Span { first: pair, count: 1 }),
            }
        }
        Pairs { run, reference, arm, spans, alike: OnceCell::new() }
    }

    /// All pairs in order.
    pub(crate) fn all(&self) -> impl Iterator<Item = Pair> {
        self.spans.iter().flat_map(Span::pairs)
    }

    /// How many pairs there are.
    pub(crate) fn count(&self) -> u32 {
        self.spans.iter().fold(0, |count, span| count.saturating_add(span.count))
    }

    /// How many scenarios the plan has.
    pub(crate) fn scenarios(&self) -> usize {
        self.run.plan.scenarios.len()
    }

    /// Whether there is a pair of that scenario.
    pub(crate) fn has(&self, scenario: usize) -> bool {
        self.spans.iter().any(|span| span.first.scenario == scenario)
    }

    /// Whether every pair says the same in every metric.
    pub(crate) fn alike(&self) -> bool {
        self.all_alike().iter().all(|&alike| alike)
    }

    /// Whether the pairs that are `chosen` say the same in every metric.
    pub(crate) fn alike_where(&self, chosen: impl Fn(&Pair) -> bool) -> bool {
        self.all().zip(self.all_alike()).all(|(pair, &alike)| alike || !chosen(&pair))
    }

    /// Whether both games of each pair say the same in every metric, in order.
    pub(crate) fn all_alike(&self) -> &[bool] {
        self.alike.get_or_init(|| {
            let mut alike = vec![true; self.count() as usize];
            for &metric in Metric::ALL {
                if !alike.contains(&true) {
                    break;
                }
                for (alike, (reference, arm)) in alike.iter_mut().zip(self.both(metric)) {
                    *alike &= reference == arm;
                }
            }
            alike
        })
    }

    /// Reference and arm value of `metric` in every pair, in order.
    pub(crate) fn both(&self, metric: Metric) -> impl Iterator<Item = (f64, f64)> {
        self.reference_values(metric).zip(self.arm_values(metric))
    }

    /// A value of every pair as a list, which gets no more room than it needs.
    pub(crate) fn listed<T>(&self, values: impl Iterator<Item = T>) -> Vec<T> {
        let mut list = Vec::with_capacity(self.count() as usize);
        list.extend(values);
        list
    }

    /// The value of `metric` in the reference game of every pair, in order.
    pub(crate) fn reference_values(&self, metric: Metric) -> impl Iterator<Item = f64> {
        let column = self.run.games.column(self.reference, metric);
        self.all().map(move |pair| value(&column, pair.reference))
    }

    /// The value of `metric` in the arm's game of every pair, in order.
    pub(crate) fn arm_values(&self, metric: Metric) -> impl Iterator<Item = f64> {
        let column = self.run.games.column(self.arm, metric);
        self.all().map(move |pair| value(&column, pair.arm))
    }

    /// What the attacker got in both games of every pair: 1 for a win, a half for a draw.
    pub(crate) fn points(&self) -> Vec<(f64, f64)> {
        let (won, drawn) = (self.both(Metric::AttackerWins), self.both(Metric::Drawn));
        let points =
            |(won, drawn): ((f64, f64), (f64, f64))| (won.0 + 0.5 * drawn.0, won.1 + 0.5 * drawn.1);
        self.listed(won.zip(drawn).map(points))
    }

    /// Whether the events of both games of every pair are the same, in order.
    pub(crate) fn same_events(&self) -> Vec<bool> {
        let (one, other) =
            (self.run.games.digests(self.reference), self.run.games.digests(self.arm));
        self.listed(self.all().map(|p| one.get(p.reference) == other.get(p.arm)))
    }

    /// Both games of a pair, that of the reference first.
    pub(crate) fn games(&self, pair: &Pair) -> Option<[GameRow; 2]> {
        let row = |arm| self.run.games.row(arm, pair.scenario, pair.game);
        Some([row(self.reference)?, row(self.arm)?])
    }

    /// Pairings of players.
    pub(crate) fn pairings(&self) -> usize {
        self.run.plan.pairings.len().max(1)
    }

    fn stratum(&self, pair: &Pair) -> usize {
        pair.scenario * self.pairings() + pair.game as usize % self.pairings()
    }

    /// Values of the pairs, in order, by stratum; a pair whose value is none is left out.
    pub(crate) fn strata<T>(&self, values: impl IntoIterator<Item = Option<T>>) -> Vec<Vec<T>> {
        // Strata that grew would need up to three times their room.
        let mut sizes = vec![0; self.scenarios() * self.pairings()];
        self.all().for_each(|pair| sizes[self.stratum(&pair)] += 1);
        let mut strata: Vec<Vec<T>> = sizes.into_iter().map(Vec::with_capacity).collect();
        for (pair, value) in self.all().zip(values) {
            strata[self.stratum(&pair)].extend(value);
        }
        strata
    }

    /// Reference and arm value of `metric` in every pair, by stratum; a pair that lacks a number
    /// is left out.
    pub(crate) fn values(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        let mut strata = self.all_values(metric);
        let number = |&(reference, arm): &(f64, f64)| reference.is_finite() && arm.is_finite();
        strata.iter_mut().for_each(|stratum| stratum.retain(number));
        strata
    }

    /// As [`Pairs::values`], those that are no numbers among them.
    pub(crate) fn all_values(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        // One arm after the other, so that only one column stands beside them.
        let reference = self.reference_values(metric);
        let mut strata = self.strata(reference.map(|value| Some((value, f64::NAN))));
        let mut places = vec![0; strata.len()];
        for (pair, value) in self.all().zip(self.arm_values(metric)) {
            let stratum = self.stratum(&pair);
            strata[stratum][places[stratum]].1 = value;
            places[stratum] += 1;
        }
        strata
    }
}

/// A column that could not be read is empty, which the run remembers.
fn value(column: &[f64], place: usize) -> f64 {
    column.get(place).copied().unwrap_or(f64::NAN)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn an_arm_without_games_has_no_pairs() {
        let run = sample::run(&[vec![(0, 0, 1.0)], vec![]]);
        assert_eq!(Pairs::of(&run, 1).count(), 0);
    }

    #[test]
    fn only_games_played_in_both_arms_pair_up() {
        let run = sample::run(&[
            vec![(0, 0, 1.0), (0, 1, 2.0), (1, 0, 3.0)],
            vec![(1, 1, 9.0), (1, 0, 5.0), (0, 1, 2.0), (7, 0, 4.0)],
        ]);
        let pairs = Pairs::of(&run, 1);
        let margins = pairs.both(Metric::Margin);
        let shifts: Vec<f64> = margins.map(|(reference, arm)| arm - reference).collect();
        assert_eq!(shifts, [0.0, 2.0]);
        assert!(!pairs.alike());
    }

    #[test]
    fn strata_are_scenarios_with_pairings() {
        let games = vec![(0, 0, 1.0), (0, 1, 2.0), (0, 2, 3.0), (1, 0, 4.0)];
        let mut run = sample::run(&[games.clone(), games]);
        run.plan.pairings = vec![sample::pairing("bold", "bold"), sample::pairing("bold", "rash")];
        let strata = Pairs::of(&run, 1).values(Metric::Margin);
        let firsts: Vec<Vec<f64>> =
            strata.iter().map(|s| s.iter().map(|v| v.0).collect()).collect();
        assert_eq!(firsts, [vec![1.0, 3.0], vec![2.0], vec![4.0], vec![]]);
    }

    #[test]
    fn values_that_are_no_numbers_are_left_out() {
        let run =
            sample::run(&[vec![(0, 0, f64::NAN), (0, 1, 2.0)], vec![(0, 0, 1.0), (0, 1, 5.0)]]);
        assert_eq!(Pairs::of(&run, 1).values(Metric::Margin), [vec![(2.0, 5.0)], vec![]]);
    }
}
