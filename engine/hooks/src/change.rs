//! What one set of rules changes in another, hook by hook.

use ruleshift_game::{Hook, Rules};
use serde::Serialize;

use crate::grid::{Grid, GridCell, grid};
use crate::shift::{self, cases};

/// What happens to the answers of one hook.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// Name of the hook.
    pub hook: &'static str,
    /// What the answer is.
    pub about: &'static str,
    /// The base rule in one line.
    pub base_rule: &'static str,
    /// How many answers differ.
    pub changed: usize,
    /// How many answers there are.
    pub answers: usize,
    /// How they differ, in words: `in 30 of 36 cases (true -> false)`.
    pub words: String,
    /// The answer before and after, when it is the same in every case.
    pub always: Option<GridCell>,
    /// The answers before and after; none when nothing changes or `always` says it all.
    pub table: Option<Grid>,
}

/// What `after` changes in `before`, for each of `hooks`, also those where nothing changes.
pub fn changes(before: &Rules, after: &Rules, hooks: &[Hook]) -> Vec<Change> {
    hooks.iter().map(|&hook| change(before, after, hook)).collect()
}

fn change(before: &Rules, after: &Rules, hook: Hook) -> Change {
    let spec = hook.spec();
    let (old, new) = (before.table(hook), after.table(hook));
    let same = old != new && shift::one_pair(old, new);
    Change {
        hook: spec.name,
        about: spec.about,
        base_rule: spec.base_rule,
        changed: cases(old, new).count(),
        answers: old.len(),
        words: shift::words(spec.result, old, new),
        always: same.then(|| GridCell::of(spec, (old[0], new[0]))),
        table: grid(spec, old, new),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(hook: Hook, answer: impl Fn(i32, &[i32]) -> i64) -> Change {
        let mut after = Rules::base();
        after.change(hook, |now, args| Ok::<_, ()>(answer(now, args))).unwrap().unwrap();
        change(&Rules::base(), &after, hook)
    }

    /// The table as lines: heads, then rows.
    fn lines(change: &Change) -> Vec<String> {
        let grid = change.table.as_ref().expect("there is a table");
        let head = [grid.rows_by.join(" | "), grid.columns_by.unwrap_or("answer").to_owned()];
        let head = format!("{} | {} {}", head[0], head[1], grid.columns.join(" | "));
        let row = |row: &crate::GridRow| {
            let cells = row.cells.iter().map(|cell| cell.text.clone());
            row.values.iter().cloned().chain(cells).collect::<Vec<_>>().join(" | ")
        };
        let end = format!("unchanged elsewhere: {}", grid.unchanged_elsewhere);
        [head].into_iter().chain(grid.rows.iter().map(row)).chain([end]).collect()
    }

    #[test]
    fn a_change_that_is_the_same_everywhere_needs_no_table() {
        let change = told(Hook::MarkerActions, |now, _| i64::from(now) - 1);
        assert_eq!((change.words.as_str(), change.table), ("always (4 -> 3)", None));
        let change = told(Hook::LateFireAllowed, |_, _| 0);
        assert_eq!((change.words.as_str(), change.table), ("always (true -> false)", None));
        assert_eq!(change.always.unwrap().text, "true -> false");
        let change = told(Hook::MarkerActions, |now, _| now.into());
        assert_eq!((change.always, change.changed), (None, 0));
    }

    /// `pins` matters neither before nor after; equal values share a row.
    #[test]
    fn only_arguments_that_matter_become_axes() {
        let change = told(Hook::PinsRecovered, |now, args| i64::from(now + args[3]));
        assert_eq!(change.words, "in 372 of 744 cases (1 more)");
        insta::assert_snapshot!(lines(&change).join("\n"), @r#"
        quality | cover | led false | true
        GREEN, REGULAR | OPEN, LIGHT | 1 | 2 -> 3
        GREEN, REGULAR | HARD, DUG_IN | 2 | 3 -> 4
        VETERAN | OPEN, LIGHT | 2 | 3 -> 4
        VETERAN | HARD, DUG_IN | 3 | 4 -> 5
        unchanged elsewhere: 0
        "#);
    }

    /// Where a table would be long, only the changed rows and columns are in it.
    #[test]
    fn a_long_table_has_only_what_changes() {
        let tank =
            |now: i32, args: &[i32]| i64::from(now) + i64::from(args[0] == 11 && args[2] > 2);
        let change = told(Hook::FireDice, tank);
        insta::assert_snapshot!(lines(&change).join("\n"), @r#"
        kind | pins 3-4 | 5-6 | 7-8 | 9-30
        TANK | 3 -> 4 | 2 -> 3 | 1 -> 2 | 0 -> 1
        unchanged elsewhere: 6084
        "#);
    }

    /// A number more everywhere is one number, however many answers there are.
    #[test]
    fn a_long_table_says_by_how_much_answers_shift() {
        let odd = |now: i32, args: &[i32]| i64::from((now - args[2] % 2).max(0));
        insta::assert_snapshot!(lines(&told(Hook::HitsKept, odd)).join("\n"), @r#"
        kind | cover | hits 1 | 3, 5, 7, 9, 11 and 6 more
        SECTION, ASSAULT_SECTION, LIGHT_GUN, TRIPOD_GUN, LIGHT_MORTAR, ANTI_TANK_TEAM, LEADER, OBSERVER, ANTI_TANK_GUN, CARRIER, TRUCK, BATTERY | OPEN, LIGHT | 1 less | 1 less
        SECTION, ASSAULT_SECTION, LIGHT_GUN, TRIPOD_GUN, LIGHT_MORTAR, ANTI_TANK_TEAM, LEADER, OBSERVER, ANTI_TANK_GUN, CARRIER, TRUCK, BATTERY | HARD, DUG_IN | same | 1 less
        MEDIUM_MORTAR, TANK, ASSAULT_GUN | all but DUG_IN | 1 less | 1 less
        MEDIUM_MORTAR, TANK, ASSAULT_GUN | DUG_IN | same | 1 less
        FLAME_TEAM | any | 1 less | 1 less
        unchanged elsewhere: 832
        "#);
    }

    #[test]
    fn one_argument_makes_a_list() {
        let change = told(Hook::SightLimit, |now, args| if args[0] > 4 { 40 } else { now.into() });
        insta::assert_snapshot!(lines(&change).join("\n"), @r#"
        turn | answer 
        1-4 | 86
        5-40 | 86 -> 40
        unchanged elsewhere: 0
        "#);
    }

    /// Every case is in a row or counted as unchanged, and says what the rules say.
    #[test]
    fn a_table_has_every_case_once() {
        let rule =
            |now: i32, args: &[i32]| i64::from(now / 2 + args.iter().sum::<i32>().rem_euclid(2));
        for &hook in Hook::ALL {
            let (spec, mut after) = (hook.spec(), Rules::base());
            let clamped = |now: i32, args: &[i32]| {
                let low = i64::from(spec.result.lowest());
                rule(now, args).clamp(low, low + spec.result.len() as i64 - 1)
            };
            after.change(hook, |now, args| Ok::<_, ()>(clamped(now, args))).unwrap().unwrap();
            let change = change(&Rules::base(), &after, hook);
            let Some(grid) = change.table else { continue };
            let rows: usize = grid.rows.iter().map(|row| row.cases).sum();
            assert_eq!(rows + grid.unchanged_elsewhere, change.answers, "{}", spec.name);
            let one = grid.rows.iter().flat_map(|row| &row.cells).any(|cell| cell.changed);
            assert!(one, "{}: a change is to be seen", spec.name);
        }
    }
}
