//! `ruleshift missing`: tells which parts of a plan are not there.

use std::ops::Range;

use ruleshift_record::{share, uncovered};

use crate::args::{Format, MissingArgs};
use crate::exit::Failure;
use crate::screen;
use crate::shards::{check_plan, find, no_plan, planned_in};

pub(crate) fn run(args: &MissingArgs) -> Result<(), Failure> {
    if args.plan.is_none() && !args.folder.join("plan.ron").exists() {
        return Err(no_plan(&args.folder));
    }
    let (_, plan) = planned_in(args.plan.as_deref().unwrap_or(&args.folder))?;
    let search = find(args.folders(), |_| true)?;
    search.complaints().for_each(|complaint| screen::remark(&complaint));
    check_plan(&plan, &search.shards)?;
    let blocks = plan.blocks(plan.rounds()).len();
    let there: Vec<Range<usize>> = search.shards.iter().map(|found| found.name.blocks()).collect();
    let gaps = uncovered(&there, blocks);
    let Some(n) = args.of else {
        let lines = gaps.iter().map(|gap| format!("{}..{}\n", gap.start, gap.end));
        screen::show(&lines.collect::<String>());
        return Ok(());
    };
    let parts = parts(&gaps, n.get(), blocks)?;
    screen::show(&match args.format {
        Format::Text => parts.iter().map(|k| format!("{k}/{n}\n")).collect(),
        Format::Parallel => parts.iter().map(|k| format!("{k}\n")).collect::<String>(),
        Format::Slurm | Format::Hq => listed(&parts),
    });
    Ok(())
}

/// The parts of `n` that are not there.
fn parts(gaps: &[Range<usize>], n: u64, blocks: usize) -> Result<Vec<u64>, Failure> {
    let missing = |own: &Range<usize>| -> usize {
        gaps.iter().map(|gap| own.end.min(gap.end).saturating_sub(own.start.max(gap.start))).sum()
    };
    let mut parts = Vec::new();
    for k in 0..n {
        let own = share(k, n, blocks);
        match missing(&own) {
            0 => {}
            all if all == own.len() => parts.push(k),
            _ => {
                return Err(Failure::Overlap(format!(
                    "of part {k}/{n}, which are the blocks {}..{}, some are there, from another number of parts\n  \
                 leave out --of, and play the blocks that `missing` lists then",
                    own.start, own.end
                )));
            }
        }
    }
    Ok(parts)
}

/// Numbers as schedulers take them: `3,17,40-44`, and a line's end.
fn listed(parts: &[u64]) -> String {
    let runs = parts.chunk_by(|a, b| a + 1 == *b).map(|run| match run {
        [one] => one.to_string(),
        _ => format!("{}-{}", run[0], run[run.len() - 1]),
    });
    let runs: Vec<String> = runs.collect();
    if runs.is_empty() { String::new() } else { format!("{}\n", runs.join(",")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_follow_each_other_are_a_run() {
        assert_eq!(listed(&[3, 17, 40, 41, 42, 43, 44]), "3,17,40-44\n");
        assert_eq!((listed(&[0, 1]), listed(&[])), ("0-1\n".to_owned(), String::new()));
    }

    #[test]
    fn a_part_is_missing_as_a_whole_or_not_at_all() {
        assert_eq!(parts(&[0..2, 6..8], 4, 8).unwrap(), [0, 3]);
        assert_eq!(parts(&[], 4, 8).unwrap(), [0; 0]);
        // More parts than blocks: those without any are not missing.
        assert_eq!(parts(&[0..1, 1..2], 8, 2).unwrap(), [3, 7]);
        let some = parts(&[1..2, 4..8], 4, 8).unwrap_err().to_string();
        assert!(some.contains("part 0/4") && some.contains("0..2"), "{some}");
    }
}
