//! How the margin goes over the turns of all games.
//!
//! Only counts are held: how many games had which margin at the end of which turn.

use std::collections::BTreeMap;

use ruleshift_record::{Course, CourseTurn, RunRecord};

use crate::stats::Landmark;

/// Games by margin.
type Margins = BTreeMap<i16, u32>;

/// The games that played a turn.
#[derive(Default)]
struct Turn {
    /// Those that go on, by the margin at its end.
    going: Margins,
    /// Those that it ended, by their last margin.
    ended: Margins,
}

/// One course for each arm that has games with margins, the reference first.
pub(super) fn courses(run: &RunRecord) -> Vec<Course> {
    let counted = |arm: usize| (arm, counts(run, arm));
    let arms: Vec<(usize, Vec<Turn>)> = run.plan.compared().map(counted).collect();
    let last = arms.iter().map(|(_, turns)| turns.len()).max().unwrap_or(0);
    let course = |(arm, turns): (usize, Vec<Turn>)| {
        let turns = points(turns, last)?;
        let games = turns.first()?.going;
        Some(Course { arm: run.plan.arms[arm].name.clone(), games, turns })
    };
    arms.into_iter().filter_map(course).collect()
}

fn counts(run: &RunRecord, arm: usize) -> Vec<Turn> {
    let mut turns: Vec<Turn> = Vec::new();
    run.games.margins(arm, &mut |margins| {
        while turns.len() < margins.len() {
            turns.push(Turn::default());
        }
        let Some((last, before)) = margins.split_last() else { return };
        for (turn, margin) in turns.iter_mut().zip(before) {
            *turn.going.entry(*margin).or_default() += 1;
        }
        *turns[before.len()].ended.entry(*last).or_default() += 1;
    });
    turns
}

/// Each turn up to the `last` of any arm; `None` without games.
fn points(mut turns: Vec<Turn>, last: usize) -> Option<Vec<CourseTurn>> {
    turns.resize_with(last, Turn::default);
    let mut over = Margins::new();
    let point = |(number, turn): (u32, &Turn)| {
        let going = turn.going.values().chain(turn.ended.values()).sum();
        add(&mut over, &turn.ended);
        let mut all = over.clone();
        add(&mut all, &turn.going);
        place(number, going, &all)
    };
    (1..).zip(&turns).map(point).collect()
}

fn add(to: &mut Margins, more: &Margins) {
    more.iter().for_each(|(margin, count)| *to.entry(*margin).or_default() += count);
}

/// The bands of one turn: a median, and where the middle half and the middle nine tenths begin and end.
fn place(turn: u32, going: u32, all: &Margins) -> Option<CourseTurn> {
    let counts: Vec<(f64, f64)> = all.iter().map(|(&m, &n)| (m.into(), n.into())).collect();
    let at = |share| Landmark::Quantile(share).counted(&counts);
    Some(CourseTurn {
        turn,
        going,
        outer_low: at(0.05)?,
        inner_low: at(0.25)?,
        median: at(0.5)?,
        inner_high: at(0.75)?,
        outer_high: at(0.95)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    /// The courses of two arms whose games have those margins.
    fn of(arms: [&[&[i16]]; 2]) -> Vec<Course> {
        let games = |n: usize| (0..n as u32).map(|game| (0, game, 1.0)).collect();
        let mut run = sample::run(&arms.map(|games_of| games(games_of.len())));
        run.games = run.games.changed(|rows| {
            for row in rows {
                row.margins = arms[row.arm][row.game as usize].to_vec();
            }
        });
        courses(&run)
    }

    #[test]
    fn a_game_that_has_ended_keeps_its_last_margin() {
        let found = of([&[&[1, 5], &[-3], &[2, 0, 0]], &[&[4]]]);
        let going: Vec<u32> = found[0].turns.iter().map(|t| t.going).collect();
        let medians: Vec<f64> = found[0].turns.iter().map(|t| t.median).collect();
        assert_eq!((found[0].games, going), (3, vec![3, 2, 1]));
        // Of -3, 1, 2; of -3, 5, 0; and of the same again.
        assert_eq!(medians, [1.0, 0.0, 0.0]);
        // The other arm goes on as long with what it has.
        let flat: Vec<(u32, f64)> =
            found[1].turns.iter().map(|t| (t.going, t.outer_high)).collect();
        assert_eq!(flat, [(1, 4.0), (0, 4.0), (0, 4.0)]);
    }

    #[test]
    fn bands_hold_the_middle_half_and_the_middle_nine_tenths() {
        let games: Vec<[i16; 1]> = (1..=100).map(|margin| [margin]).collect();
        let games: Vec<&[i16]> = games.iter().map(|game| &game[..]).collect();
        let found = of([&games, &[]]);
        assert_eq!(found.len(), 1, "an arm without games has no course");
        let turn = found[0].turns[0];
        // Number n of a hundred different values stands at the share n - 1/2 in a hundred.
        let bands = [turn.outer_low, turn.inner_low, turn.median, turn.inner_high, turn.outer_high];
        for (found, expected) in bands.into_iter().zip([5.5, 25.5, 50.5, 75.5, 95.5]) {
            assert!((found - expected).abs() < 1e-9, "{bands:?}");
        }
    }

    #[test]
    fn games_without_margins_are_left_out() {
        assert_eq!(of([&[&[], &[]], &[&[]]]), []);
        let some = of([&[&[], &[3]], &[&[1]]]);
        assert_eq!((some[0].games, some[0].turns[0].median), (1, 3.0));
    }
}
