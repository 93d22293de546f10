//! Games worth a look: a typical one, the largest shift, and one where the winner changed.

use ruleshift_record::{GameRow, Metric, MetricShift, RunRecord, TicketNote};

use super::pairs::{Pair, Pairs};
use super::shifts_of;
use crate::format::Scale;
use crate::stats::Moments;

/// The notes for the arm of `pairs`; of a shift both games, the arm's first.
pub(super) fn worth_a_look(
    run: &RunRecord,
    pairs: &Pairs,
    metrics: &[MetricShift],
) -> Vec<TicketNote> {
    let all: Vec<&Pair> = pairs.all().collect();
    let mut notes: Vec<TicketNote> = typical(run, &all)
        .map(|game| note(run, game, &format!("Typical game: {}", end(game))))
        .into_iter()
        .collect();
    let largest = largest(run, &all, shifts_of(run, pairs, metrics).filter(|m| m.headline).count());
    if let Some(pair) = largest {
        notes.extend(both(run, pair, &format!("Largest shift: {}", difference(pair))));
    }
    let upset = upset(&all, largest);
    if let Some(pair) = upset {
        notes.extend(both(run, pair, &format!("The winner changed: {}", difference(pair))));
    }
    notes
}

fn headline(run: &RunRecord) -> impl Iterator<Item = Metric> {
    Metric::ALL.iter().copied().filter(|&m| run.plan.is_headline(m))
}

/// The arm's game with the smallest distance to the means, each metric in standard deviations.
fn typical<'a>(run: &RunRecord, pairs: &[&Pair<'a>]) -> Option<&'a GameRow> {
    let mut distance = vec![0.0; pairs.len()];
    for metric in headline(run) {
        let values: Vec<f64> = pairs.iter().map(|p| p.arm.get(metric)).collect();
        let Some((mean, variance)) =
            Moments::of(&values).and_then(|m| Some((m.mean, m.variance()?)))
        else {
            continue;
        };
        if variance > 0.0 {
            distance.iter_mut().zip(&values).for_each(|(d, v)| *d += (v - mean).powi(2) / variance);
        }
    }
    let nearest = pairs.iter().zip(&distance).min_by(|a, b| a.1.total_cmp(b.1))?;
    Some(nearest.0.arm)
}

/// The pair furthest apart over the headline metrics, each in multiples of what is noticed; `None`
/// when no pair differs or nothing was compared.
fn largest<'p, 'a>(
    run: &RunRecord,
    pairs: &[&'p Pair<'a>],
    compared: usize,
) -> Option<&'p Pair<'a>> {
    let size = |p: &Pair| -> f64 {
        headline(run).map(|m| (p.shift(m) / m.spec().notice).abs()).filter(|s| s.is_finite()).sum()
    };
    first_largest(pairs.iter().copied(), size).filter(|_| compared > 0)
}

/// The pair with another winner whose margin swings most, other than `taken`.
fn upset<'p, 'a>(pairs: &[&'p Pair<'a>], taken: Option<&Pair>) -> Option<&'p Pair<'a>> {
    let changed = |p: &&Pair| p.shift(Metric::AttackerWins).abs() == 1.0;
    let free = |p: &&Pair| taken.is_none_or(|t| !std::ptr::eq(t, *p));
    let swing = |p: &Pair| p.shift(Metric::Margin).abs();
    first_largest(pairs.iter().copied().filter(changed).filter(free), swing)
}

/// The first pair of the largest positive `size`.
fn first_largest<'p, 'a>(
    pairs: impl Iterator<Item = &'p Pair<'a>>,
    size: impl Fn(&Pair) -> f64,
) -> Option<&'p Pair<'a>> {
    let mut best: Option<(&Pair, f64)> = None;
    for pair in pairs {
        let size = size(pair);
        if size > best.map_or(0.0, |(_, largest)| largest) {
            best = Some((pair, size));
        }
    }
    best.map(|(pair, _)| pair)
}

/// What the two games of a pair say about margin and length.
fn difference(pair: &Pair) -> String {
    format!("{}, instead of {}", end(pair.arm), end(pair.reference))
}

/// How a game ended.
fn end(game: &GameRow) -> String {
    let (whole, turns) = (Scale::new("turns", 10.0), game.get(Metric::Turns));
    format!("margin {} after {}", whole.signed(game.get(Metric::Margin)), whole.amount(turns))
}

fn both(run: &RunRecord, pair: &Pair, why: &str) -> [TicketNote; 2] {
    [note(run, pair.arm, why), note(run, pair.reference, "The same game in the reference")]
}

fn note(run: &RunRecord, game: &GameRow, why: &str) -> TicketNote {
    TicketNote {
        why: why.to_owned(),
        arm: run.plan.arms[game.arm].name.clone(),
        ticket: run.ticket(game).to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    fn notes(reference: &[(usize, u32, f64)], arm: &[(usize, u32, f64)]) -> Vec<TicketNote> {
        summarise(&sample::run(&[reference.to_vec(), arm.to_vec()])).tickets
    }

    fn seed(note: &TicketNote) -> u64 {
        note.ticket.parse::<ruleshift_record::Ticket>().unwrap().seed
    }

    #[test]
    fn games_that_never_differ_leave_the_typical_one() {
        let games = [(0, 0, 1.0), (0, 1, 5.0), (0, 2, 6.0)];
        let notes = notes(&games, &games);
        assert_eq!((notes.len(), seed(&notes[0])), (1, sample::seed(0, 1)));
    }

    #[test]
    fn the_largest_shift_and_another_winner_are_found_with_their_pairs() {
        let notes = notes(
            &[(0, 0, 9.0), (0, 1, -1.0), (0, 2, 5.0), (0, 3, -2.0)],
            &[(0, 0, 1.0), (0, 1, 4.0), (0, 2, 5.0), (0, 3, 1.0)],
        );
        let seeds: Vec<u64> = notes[1..].iter().map(seed).collect();
        let (largest, upset) = (sample::seed(0, 1), sample::seed(0, 3));
        assert_eq!(seeds, [largest, largest, upset, upset]);
        assert_eq!([&*notes[1].arm, &*notes[2].arm], ["arm-1", "base"]);
        assert_eq!(
            notes[1].why,
            "Largest shift: margin +4 after 8 turns, instead of margin −1 after 8 turns"
        );
    }
}
