//! What does the middle game look like, and what the longest tenth?
//!
//! Quantiles are mid-distribution quantiles (Ma, Genton & Parzen 2011, Annals of the Institute of
//! Statistical Mathematics 63:227-243): each different value stands at the share of values below it
//! and half of those equal to it; between neighbours, straight lines. Without ties this is the
//! definition of Hazen, number 5 of Hyndman & Fan (1996, The American Statistician 50:361-365). The
//! usual definitions (number 7 among them) give one of the whole numbers of turns, nearly always
//! the same one: they do not move until the half way mark itself crosses to the next turn and then
//! move by a whole turn, so neither shifts of less than a turn nor their chance can be read off
//! them. A mid-distribution quantile of 7.4 turns moves with every game.
//!
//! The mean of the upper tail takes the largest values up to the share asked for, of the value at its
//! edge just the part that is needed (Acerbi & Tasche 2002, Journal of Banking & Finance
//! 26:1487-1503), so it too moves smoothly.

mod grouped;

pub use grouped::grouped_landmark_shifts;

use super::{CountedPairs, Resampled, Resampling, bootstrap};

/// A number that says something of a whole distribution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Landmark {
    /// The mid-distribution quantile at this share, from 0 to 1 (Ma, Genton & Parzen 2011); 0.5 is
    /// the median.
    Quantile(f64),
    /// The mean of the largest values that make up this share, above 0 and at most 1 (Acerbi &
    /// Tasche 2002).
    UpperTail(f64),
}

impl Landmark {
    /// The landmark of `values`, in any order; `None` without values.
    pub fn of(&self, values: &[f64]) -> Option<f64> {
        let column = Column::of(values.iter().copied());
        let found = self.read(&column.weighed(&vec![1.0; values.len()]), values.len() as f64);
        found.is_finite().then_some(found)
    }

    /// The landmark of different values in rising order, each with how often it came; `None` when
    /// none came.
    pub fn counted(&self, counts: &[(f64, f64)]) -> Option<f64> {
        let found = self.read(counts, counts.iter().map(|(_, count)| count).sum());
        found.is_finite().then_some(found)
    }

    /// The landmark of different values with their weights, in order, and the sum of these; not a
    /// number without weight.
    fn read(&self, weighed: &[(f64, f64)], total: f64) -> f64 {
        match *self {
            Landmark::Quantile(p) => quantile(weighed, p * total),
            Landmark::UpperTail(share) => upper_tail(weighed, share * total),
        }
    }
}

/// How a landmark moves from the reference to the arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LandmarkShift {
    /// Under the reference.
    pub reference: f64,
    /// Under the arm.
    pub arm: f64,
    /// Arm less reference with its BCa interval; `None` when no resample differs.
    pub shift: Option<Resampled>,
}

/// The shifts of some landmarks over `strata` of pairs of reference and arm, every pair counting
/// alike: BCa intervals (Efron 1987) from pairs resampled within strata. `None` without pairs.
pub fn landmark_shifts(
    strata: &[Vec<(f64, f64)>],
    landmarks: &[Landmark],
    how: &Resampling,
) -> Option<Vec<LandmarkShift>> {
    let pairs = CountedPairs::of(strata);
    if pairs.count() == 0 {
        return None;
    }
    let reference = Column::of(pairs.different().iter().map(|pair| pair.0));
    let arm = Column::of(pairs.different().iter().map(|pair| pair.1));
    let read = |column: &Column, weights: &[f64]| -> Vec<f64> {
        let (weighed, total) = (column.weighed(weights), weights.iter().sum());
        landmarks.iter().map(|landmark| landmark.read(&weighed, total)).collect()
    };
    let shifts = bootstrap(&pairs, how, |weights| {
        let both = read(&arm, weights).into_iter().zip(read(&reference, weights));
        both.map(|(arm, reference)| arm - reference).collect()
    });
    let weights = pairs.weights();
    let both = read(&reference, &weights).into_iter().zip(read(&arm, &weights));
    let whole = both.zip(shifts);
    Some(whole.map(|((reference, arm), shift)| LandmarkShift { reference, arm, shift }).collect())
}

/// One side of the pairs: its different values in order, and which of them each pair has.
struct Column {
    values: Vec<f64>,
    slots: Vec<u32>,
}

/// Values that are sorted at a time: few differ, so that a list of all is seldom needed.
const SORTED: usize = 4096;

impl Column {
    fn of(side: impl Iterator<Item = f64> + Clone) -> Column {
        let (mut values, mut most, mut count) = (Vec::new(), SORTED, 0);
        for value in side.clone() {
            values.push(value);
            count += 1;
            if values.len() == most {
                sort(&mut values);
                most = SORTED + 2 * values.len();
            }
        }
        sort(&mut values);
        let mut slots = Vec::with_capacity(count);
        slots.extend(side.map(|v| values.partition_point(|w| w.total_cmp(&v).is_lt()) as u32));
        Column { values, slots }
    }

    /// The values with the weights of their pairs.
    fn weighed(&self, weights: &[f64]) -> Vec<(f64, f64)> {
        let mut weighed: Vec<(f64, f64)> = self.values.iter().map(|v| (*v, 0.0)).collect();
        for (slot, weight) in self.slots.iter().zip(weights) {
            weighed[*slot as usize].1 += weight;
        }
        weighed
    }
}

/// The different values in order.
fn sort(values: &mut Vec<f64>) {
    values.sort_by(f64::total_cmp);
    // By the order that finds them again, which tells zero from minus zero.
    values.dedup_by(|a, b| a.total_cmp(b).is_eq());
}

/// The value at the place `wanted` of the summed weights.
fn quantile(weighed: &[(f64, f64)], wanted: f64) -> f64 {
    let (mut below, mut last) = (0.0, None);
    for &(value, weight) in weighed.iter().filter(|(_, weight)| *weight > 0.0) {
        let place = below + weight / 2.0;
        if wanted <= place {
            return match last {
                Some((before, at)) => before + (value - before) * (wanted - at) / (place - at),
                None => value,
            };
        }
        below += weight;
        last = Some((value, place));
    }
    last.map_or(f64::NAN, |(value, _)| value)
}

/// The mean of the largest values whose weights sum to `wanted`.
fn upper_tail(weighed: &[(f64, f64)], wanted: f64) -> f64 {
    let Some(&(largest, _)) = weighed.last() else { return f64::NAN };
    let (mut left, mut sum) = (wanted, 0.0);
    for &(value, weight) in weighed.iter().rev() {
        if left <= 0.0 {
            break;
        }
        let taken = left.min(weight);
        sum += taken * (value - largest);
        left -= taken;
    }
    largest + sum / wanted
}

#[cfg(test)]
mod tests {
    use super::*;

    const MEDIAN: Landmark = Landmark::Quantile(0.5);

    #[test]
    fn zero_and_minus_zero_are_both_found_again() {
        let column = Column::of([0.0, -0.0, 1.0].into_iter());
        assert_eq!(column.slots, [1, 0, 2]);
        assert_eq!(column.values.len(), 3);
    }

    #[test]
    fn nothing_has_no_landmark() {
        let how = Resampling { resamples: 10, seed: 1, confidence: 0.95 };
        assert_eq!((MEDIAN.of(&[]), Landmark::UpperTail(0.1).of(&[])), (None, None));
        assert_eq!(landmark_shifts(&[vec![]], &[MEDIAN], &how), None);
    }

    #[test]
    fn one_value_is_every_landmark() {
        for landmark in [Landmark::Quantile(0.0), MEDIAN, Landmark::UpperTail(0.1)] {
            assert_eq!(landmark.of(&[7.0, 7.0, 7.0]), Some(7.0));
        }
    }

    /// Definition 5 of Hyndman & Fan: value k of n at (k - 1/2) / n.
    #[test]
    fn without_ties_quantiles_are_those_of_hazen() {
        let values = [30.0, 10.0, 20.0, 50.0];
        assert_eq!(MEDIAN.of(&values), Some(25.0));
        assert_eq!(Landmark::Quantile(0.25).of(&values), Some(15.0));
        assert_eq!(Landmark::Quantile(0.125).of(&values), Some(10.0));
        assert_eq!(Landmark::Quantile(0.95).of(&values), Some(50.0));
    }

    #[test]
    fn ties_share_their_place() {
        // 6 stands at 1/8, 7 at 1/2, 8 at 7/8: a quarter is a third of the way from 6 to 7.
        let turns = [6.0, 7.0, 7.0, 8.0];
        assert_eq!(MEDIAN.of(&turns), Some(7.0));
        let quarter = Landmark::Quantile(0.25).of(&turns).unwrap();
        assert!((quarter - (6.0 + 1.0 / 3.0)).abs() < 1e-12, "{quarter}");
        // One game more of 8 turns moves the median by 1/10 / 2/5 of a turn.
        let longer = MEDIAN.of(&[6.0, 7.0, 7.0, 8.0, 8.0]).unwrap();
        assert!((longer - 7.25).abs() < 1e-12, "{longer}");
    }

    #[test]
    fn the_upper_tail_takes_a_part_of_the_value_at_its_edge() {
        let turns = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0];
        assert_eq!(Landmark::UpperTail(0.1).of(&turns), Some(10.0));
        // 10 and half of a 9.
        let tail = Landmark::UpperTail(0.15).of(&turns).unwrap();
        assert!((tail - 14.5 / 1.5).abs() < 1e-12, "{tail}");
        assert!((Landmark::UpperTail(1.0).of(&turns).unwrap() - 5.5).abs() < 1e-12);
    }

    #[test]
    fn a_turn_more_in_every_game_is_a_sure_shift_of_one_turn() {
        let how = Resampling { resamples: 100, seed: 1, confidence: 0.95 };
        let games: Vec<(f64, f64)> =
            (0..50).map(|n| (f64::from(n % 5), f64::from(n % 5) + 1.0)).collect();
        let found = landmark_shifts(&[games], &[MEDIAN, Landmark::UpperTail(0.2)], &how).unwrap();
        assert_eq!((found[0].reference, found[0].arm, found[0].shift), (2.0, 3.0, None));
        assert_eq!((found[1].reference, found[1].arm), (4.0, 5.0));
    }
}
