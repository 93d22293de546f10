//! `ruleshift compare`: plays the arms, writes the run, prints the answer.

use std::num::NonZero;
use std::thread::available_parallelism;

use ruleshift_batch::Progress;
use ruleshift_reports as reports;

use crate::args::CompareArgs;
use crate::bars::Bars;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::wire::Setting;
use crate::{resolve, screen, seating};

pub(crate) fn run(args: &CompareArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    let cast = setting.cast()?;
    let plan = setting.plan(args.games, args.run.seed);
    let folder = Folder::make(args.run.out.as_deref(), &plan)?;
    let threads = args.run.threads.map_or_else(cores, usize::from);
    if let Some(cost) = seating::cost(&plan).filter(|_| !args.run.quiet) {
        screen::remark(&cost);
    }

    let bars = Bars::new(plan.games(), args.run.quiet);
    let run = ruleshift_batch::run(&plan, &cast, threads, &bars);
    bars.finish();
    let run = run.map_err(|e| Failure::File(format!("threads cannot be started: {e}")))?;

    let summary = reports::summarise(&run);
    folder.fill(&run, &summary)?;
    if args.run.json {
        screen::show(&reports::json(&summary));
    } else if !args.run.quiet {
        let report = reports::build(&summary, &run);
        screen::show(&reports::terminal(&report, screen::width(), screen::colour()));
        let path = folder.path();
        screen::show(&format!("\nWritten to {0}; read {0}/report.html\n", path.display()));
    }
    let ends: Vec<String> =
        interrupted(bars.stopped(), &run).into_iter().chain(stopped(&run)).collect();
    if ends.is_empty() { Ok(()) } else { Err(Failure::Check(ends.join("\n"))) }
}

/// A run that was interrupted has kept what all arms had played.
pub(crate) fn interrupted(stopped: bool, run: &ruleshift_record::RunRecord) -> Option<String> {
    let (played, planned) = (run.games.len(), run.plan.games());
    (stopped && (played as u64) < planned).then(|| {
        format!("interrupted: {played} of {planned} games were played, and all of them are kept")
    })
}

/// Everything that was typed, with all that is wrong with it at once.
fn setting(args: &CompareArgs) -> Result<Setting, Failure> {
    let mut faults = Vec::new();
    let stacks: Vec<_> = std::iter::once(&args.base)
        .chain(&args.variants)
        .filter_map(|typed| keep(resolve::stack(typed), &mut faults))
        .collect();
    let scenarios = keep(resolve::scenarios(&args.scenarios), &mut faults);
    let seating = seating::seating(args, &mut faults);
    for name in &args.metrics {
        keep(resolve::metric(name), &mut faults);
    }
    match (scenarios, seating) {
        (Some(scenarios), Some(seating)) if faults.is_empty() => Ok(Setting {
            probes: seating.probes(args, stacks.len()),
            stacks,
            scenarios,
            pairings: seating.pairings,
            roster: seating.roster,
            restricted: seating.restricted,
            headline: args.metrics.clone(),
        }),
        _ => Err(together(faults)),
    }
}

/// What came of looking something up; what is wrong with it joins the other faults.
pub(crate) fn keep<T>(result: Result<T, Failure>, faults: &mut Vec<Failure>) -> Option<T> {
    result.map_err(|failure| faults.push(failure)).ok()
}

/// One failure out of several: what was typed wrongly weighs more than what cannot be read.
pub(crate) fn together(mut faults: Vec<Failure>) -> Failure {
    if faults.len() == 1 {
        return faults.remove(0);
    }
    let text = faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    if faults.iter().all(|f| matches!(f, Failure::File(_))) {
        Failure::File(text)
    } else {
        Failure::Input(text)
    }
}

pub(crate) fn cores() -> usize {
    available_parallelism().map_or(1, NonZero::get)
}

/// Arms that stopped are told last, after everything that was played has been kept.
pub(crate) fn stopped(run: &ruleshift_record::RunRecord) -> impl Iterator<Item = String> {
    run.faults.iter().map(|fault| {
        let name = &run.plan.arms[fault.arm].name;
        let played = run.games.iter().filter(|game| game.arm == fault.arm).count();
        format!(
            "arm `{name}` stopped after {played} games: {}\n  ticket: {}",
            fault.message, fault.ticket
        )
    })
}
