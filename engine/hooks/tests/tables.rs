//! Tables of changes say the same as the rules they are made of, case by case.

use ruleshift_game::{Domain, Hook, Rules};
use ruleshift_hooks::{Grid, changes};

/// Whether a label of some values of a domain holds one of them; none when it does not name all.
fn holds(domain: Domain, label: &str, value: i32) -> Option<bool> {
    if label == "any" {
        return Some(true);
    }
    if label.ends_with(" more") {
        return None;
    }
    let shown = domain.show(value);
    if let Some(absent) = label.strip_prefix("all but ") {
        return Some(absent.split(", ").all(|name| name != shown));
    }
    let holds = |part: &str| match domain {
        Domain::Int(..) => {
            let (low, high) =
                part.split_once(" to ").or(part.split_once('-')).unwrap_or((part, part));
            // A number below zero alone.
            let low = if low.is_empty() { part } else { low };
            let high = if low == part { part } else { high };
            (low.parse().unwrap()..=high.parse().unwrap()).contains(&value)
        }
        _ => part == shown,
    };
    Some(label.split(", ").any(holds))
}

/// The text for one case in a table; `None` when it is nowhere in it.
fn looked_up<'a>(hook: Hook, grid: &'a Grid, arguments: &[i32]) -> Option<&'a str> {
    let spec = hook.spec();
    let at = |name: &str| spec.args.iter().position(|arg| arg.name == name).unwrap();
    let holds = |name: &str, label: &str| {
        let n = at(name);
        holds(spec.args[n].domain, label, arguments[n]).expect("the label names its values")
    };
    let row = |row: &&ruleshift_hooks::GridRow| {
        grid.rows_by.iter().zip(&row.values).all(|(name, label)| holds(name, label))
    };
    let rows: Vec<_> = grid.rows.iter().filter(row).collect();
    assert!(rows.len() <= 1, "{}: a case is in several rows", spec.name);
    let column = match grid.columns_by {
        None => 0,
        Some(name) => grid.columns.iter().position(|label| holds(name, label))?,
    };
    Some(&rows.first()?.cells[column].text)
}

/// What a table must say of one case.
fn wanted(hook: Hook, shifts: bool, before: i16, after: i16) -> String {
    let show = |answer: i16| hook.spec().result.show(answer.into());
    match (shifts, after - before) {
        (true, 0) => "same".to_owned(),
        (true, by @ 1..) => format!("{by} more"),
        (true, by) => format!("{} less", -by),
        (false, 0) => show(before),
        (false, _) => format!("{} -> {}", show(before), show(after)),
    }
}

fn names_all(grid: &Grid) -> bool {
    let labels = grid.rows.iter().flat_map(|row| &row.values).chain(&grid.columns);
    labels.into_iter().all(|label| !label.ends_with(" more"))
}

/// Compares the table of one changed hook with the rules; tells whether there was one to compare.
fn compare(hook: Hook, rule: &dyn Fn(i32, &[i32]) -> i32) -> bool {
    let (spec, before, mut after) = (hook.spec(), Rules::base(), Rules::base());
    let low = spec.result.lowest();
    let high = low + spec.result.len() as i32 - 1;
    let answer = |now: i32, args: &[i32]| Ok::<_, ()>(i64::from(rule(now, args).clamp(low, high)));
    after.change(hook, answer).unwrap().unwrap();
    let [change] = changes(&before, &after, &[hook]).try_into().unwrap();
    let Some(grid) = change.table.filter(names_all) else { return false };
    let mut elsewhere = 0;
    for (cell, (&old, &new)) in before.table(hook).iter().zip(after.table(hook)).enumerate() {
        match looked_up(hook, &grid, &spec.arguments(cell)) {
            Some(text) => assert_eq!(text, wanted(hook, grid.shifts, old, new), "{}", spec.name),
            None => {
                assert_eq!(old, new, "{}: a change is in no row", spec.name);
                elsewhere += 1;
            }
        }
    }
    assert_eq!(elsewhere, grid.unchanged_elsewhere, "{}", spec.name);
    true
}

#[test]
fn every_case_of_every_hook_is_told_as_it_is() {
    type Rule = fn(i32, &[i32]) -> i32;
    let rules: [Rule; 5] = [
        |now, _| now + 1,
        |now, args| if args.last().is_some_and(|last| *last < 2) { now - 1 } else { now },
        |now, args| if args.first().is_some_and(|first| *first > 2) { now + 2 } else { now },
        |now, args| now / 2 + args.iter().sum::<i32>().rem_euclid(2),
        |now, args| if args.iter().all(|arg| *arg <= 1) { 1 - now.min(1) } else { now },
    ];
    let compared = |rule: &Rule| Hook::ALL.iter().filter(|&&hook| compare(hook, rule)).count();
    let compared: Vec<usize> = rules.iter().map(compared).collect();
    assert!(compared.iter().all(|count| *count > 20), "{compared:?}");
}
