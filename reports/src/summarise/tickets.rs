//! Games worth a look: a typical one, the largest shift, one where the winner changed, and the closest
//! finish.

use ruleshift_record::{GameRow, Metric, MetricShift, RunRecord, TicketNote};

use super::pairs::Pairs;
use super::shifts_of;
use crate::format::Scale;
use crate::stats::Moments;

/// The notes for the arm of `pairs`; of a shift both games, the arm's first.
pub(super) fn worth_a_look(
    run: &RunRecord,
    pairs: &Pairs,
    metrics: &[MetricShift],
) -> Vec<TicketNote> {
    let games = |place: usize| pairs.games(&pairs.all().nth(place)?);
    // One metric at a time: all together would be most of what an answer holds.
    let headline: Vec<Metric> =
        Metric::ALL.iter().copied().filter(|&metric| run.plan.is_headline(metric)).collect();
    let usual = typical(pairs, &headline);
    let mut notes: Vec<TicketNote> = usual
        .and_then(games)
        .map(|[_, game]| note(run, &game, &format!("Typical game: {}", end(&game))))
        .into_iter()
        .collect();
    let compared = shifts_of(run, pairs, metrics).any(|m| m.headline);
    let largest = largest(run, pairs, &headline).filter(|_| compared);
    if let Some(pair) = largest.and_then(games) {
        notes.extend(both(run, &pair, &format!("Largest shift: {}", difference(&pair))));
    }
    let upset = upset(pairs, largest);
    if let Some(pair) = upset.and_then(games) {
        notes.extend(both(run, &pair, &format!("The winner changed: {}", difference(&pair))));
    }
    let taken = [usual, largest, upset];
    if let Some([_, game]) = closest(pairs, &taken).and_then(games) {
        notes.push(note(run, &game, &format!("Closest finish: {}", end(&game))));
    }
    notes
}

/// The place of the arm's game with the smallest lead at its end, of equals the one whose lead changed
/// sides most often; none of those that are `taken`.
fn closest(pairs: &Pairs, taken: &[Option<usize>]) -> Option<usize> {
    let margins = pairs.listed(pairs.arm_values(Metric::Margin));
    let changes = pairs.listed(pairs.arm_values(Metric::LeadChanges));
    let key = |place: &usize| (margins[*place].abs(), -changes[*place]);
    let best = |a: &usize, b: &usize| {
        let ((lead, often), (other_lead, other_often)) = (key(a), key(b));
        lead.total_cmp(&other_lead).then(often.total_cmp(&other_often))
    };
    (0..margins.len()).filter(|place| !taken.contains(&Some(*place))).min_by(best)
}

/// The place of the arm's game with the smallest distance to the means, each metric in standard
/// deviations.
fn typical(pairs: &Pairs, headline: &[Metric]) -> Option<usize> {
    let mut distance = vec![0.0; pairs.count() as usize];
    for &metric in headline {
        let values = pairs.listed(pairs.arm_values(metric));
        let Some((mean, variance)) =
            Moments::of(&values).and_then(|m| Some((m.mean, m.variance()?)))
        else {
            continue;
        };
        if variance > 0.0 {
            distance.iter_mut().zip(&values).for_each(|(d, v)| *d += (v - mean).powi(2) / variance);
        }
    }
    (0..distance.len()).min_by(|a, b| distance[*a].total_cmp(&distance[*b]))
}

/// The place of the pair furthest apart over the headline metrics, each in multiples of what is
/// noticed; `None` when no pair differs.
fn largest(run: &RunRecord, pairs: &Pairs, headline: &[Metric]) -> Option<usize> {
    let mut size = vec![0.0; pairs.count() as usize];
    for &metric in headline {
        let notice = run.plan.notice(metric);
        let shift = |(reference, arm): (f64, f64)| ((arm - reference) / notice).abs();
        let shifts = pairs.both(metric).map(shift);
        size.iter_mut().zip(shifts).filter(|(_, s)| s.is_finite()).for_each(|(d, s)| *d += s);
    }
    first_largest(size.into_iter().enumerate())
}

/// The place of the pair with another winner whose margin swings most, other than `taken`.
fn upset(pairs: &Pairs, taken: Option<usize>) -> Option<usize> {
    let won = pairs.both(Metric::AttackerWins);
    let changed = pairs.listed(won.map(|(one, other)| (one - other).abs() == 1.0));
    let swings = pairs.both(Metric::Margin).map(|(reference, arm)| (arm - reference).abs());
    let free = swings.enumerate().filter(|(place, _)| changed[*place] && taken != Some(*place));
    first_largest(free)
}

/// The first place of the largest positive size.
fn first_largest(sizes: impl Iterator<Item = (usize, f64)>) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (place, size) in sizes {
        if size > best.map_or(0.0, |(_, largest)| largest) {
            best = Some((place, size));
        }
    }
    best.map(|(place, _)| place)
}

/// What the two games of a pair say about margin and length.
fn difference([reference, arm]: &[GameRow; 2]) -> String {
    format!("{}, instead of {}", end(arm), end(reference))
}

/// How a game ended.
fn end(game: &GameRow) -> String {
    let (whole, turns) = (Scale::new("turns", 10.0), game.get(Metric::Turns));
    format!("margin {} after {}", whole.signed(game.get(Metric::Margin)), whole.amount(turns))
}

fn both(run: &RunRecord, [reference, arm]: &[GameRow; 2], why: &str) -> [TicketNote; 2] {
    [note(run, arm, why), note(run, reference, "The same game in the reference")]
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
    fn games_that_never_differ_leave_the_typical_one_and_the_closest() {
        let games = [(0, 0, 1.0), (0, 1, 5.0), (0, 2, 6.0)];
        let notes = notes(&games, &games);
        let seeds: Vec<u64> = notes.iter().map(seed).collect();
        assert_eq!(seeds, [sample::seed(0, 1), sample::seed(0, 0)]);
        assert_eq!(notes[1].why, "Closest finish: margin +1 after 8 turns");
    }

    #[test]
    fn the_largest_shift_and_another_winner_are_found_with_their_pairs() {
        let notes = notes(
            &[(0, 0, 9.0), (0, 1, -1.0), (0, 2, 5.0), (0, 3, -2.0)],
            &[(0, 0, 1.0), (0, 1, 4.0), (0, 2, 5.0), (0, 3, 1.0)],
        );
        let seeds: Vec<u64> = notes[1..].iter().map(seed).collect();
        let (largest, upset) = (sample::seed(0, 1), sample::seed(0, 3));
        assert_eq!(seeds, [largest, largest, upset, upset, sample::seed(0, 0)]);
        assert_eq!([&*notes[1].arm, &*notes[2].arm], ["arm-1", "base"]);
        assert_eq!(
            notes[1].why,
            "Largest shift: margin +4 after 8 turns, instead of margin −1 after 8 turns"
        );
    }
}
