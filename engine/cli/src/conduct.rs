//! Plays a plan into its folder, from wherever it has come to, and shows the answer.

use std::num::NonZero;
use std::thread::available_parallelism;

use ruleshift_batch::{Leg, Ways};
use ruleshift_record::{Log, Plan, RunRecord};
use ruleshift_reports::{self as reports, Next};

use crate::answer::Answer;
use crate::args::ShowArgs;
use crate::bars::Bars;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::screen;
use crate::wire::Setting;

/// Plays what is not yet kept in the folder, writes everything and shows the answer.
///
/// # Errors
/// A file that cannot be written; that the run was interrupted, or that arms have stopped. Whatever
/// was played is kept.
pub(crate) fn conduct(
    setting: &Setting,
    plan: &Plan,
    folder: &Folder,
    show: &ShowArgs,
) -> Result<(), Failure> {
    let cast = setting.cast()?;
    let threads = show.threads.map_or_else(cores, usize::from);
    let bars = Bars::new(plan.games(), show.quiet);
    let ways = Ways::make(&cast, threads).map_err(no_threads)?;
    let mut log = folder.games(plan)?;
    bars.found_in(plan, &log);
    let (mut rounds, mut over) = (0, true);
    loop {
        let (next, shown) = after(log, rounds)?;
        log = shown;
        let Some(next) = next else { break };
        let leg = Leg { end: plan.blocks(next.rounds).len(), arms: &next.arms };
        let played = ruleshift_batch::play(&ways, plan, &cast, &leg, threads, &bars, &mut log);
        if let Err(error) = played {
            bars.finish();
            return Err(out_of_room(folder, &error));
        }
        if log.kept() < leg.end {
            over = false;
            break;
        }
        rounds = next.rounds;
    }
    bars.finish();
    conclude(RunRecord::from(log), over, folder, show)
}

/// Writes everything that follows from the games of a run and shows the answer. The run is finished
/// when it is `over`.
///
/// # Errors
/// A file that cannot be written; that the run was interrupted, or that arms have stopped.
pub(crate) fn conclude(
    run: RunRecord,
    over: bool,
    folder: &Folder,
    show: &ShowArgs,
) -> Result<(), Failure> {
    let answer = Answer::of(&run)?;
    folder.fill(&run, &answer, show.csv).map_err(|failure| unfinished(folder, &failure))?;
    let interrupted = (!over).then(|| interrupted(&run, folder));
    let ends: Vec<String> = interrupted.iter().cloned().chain(stopped(&run)).collect();
    drop(run);
    if interrupted.is_none() {
        folder.finish()?;
    }
    tell(&answer, folder, show);
    if ends.is_empty() { Ok(()) } else { Err(Failure::Check(ends.join("\n"))) }
}

/// Shows the answer as was asked.
pub(crate) fn tell(answer: &Answer, folder: &Folder, show: &ShowArgs) {
    if show.json {
        screen::show(&answer.json);
    } else if !show.quiet {
        screen::show(&reports::terminal(&answer.report, screen::width(), screen::colour()));
        screen::show(&format!("\nWritten to {0}; read {0}/report.html\n", folder.path().display()));
    }
}

pub(crate) fn no_threads(error: String) -> Failure {
    Failure::File(format!("threads cannot be started: {error}"))
}

pub(crate) fn out_of_room(folder: &Folder, error: &str) -> Failure {
    let path = folder.path().display();
    Failure::File(format!(
        "the games cannot be kept in {path}: {error}\nWhat was kept before is whole: make room, then go \
         on by `ruleshift resume {path}`"
    ))
}

pub(crate) fn unfinished(folder: &Folder, failure: &Failure) -> Failure {
    let path = folder.path().display();
    Failure::File(format!(
        "{failure}\nAll games are kept: make room, then go on by `ruleshift resume {path}`"
    ))
}

/// What comes after so many rounds of a run, which may have more of them already.
fn after(mut log: Log, rounds: u32) -> Result<(Option<Next>, Log), Failure> {
    log.show(log.plan().blocks(rounds).len());
    let run = RunRecord::from(log);
    let next = reports::next(&run, rounds);
    if let Some(failure) = run.games.failure() {
        return Err(Failure::File(format!("the games cannot be read: {failure}")));
    }
    let mut log = run.games.into_log().expect("the games came from a log");
    log.show(usize::MAX);
    Ok((next, log))
}

/// What to say of a run that was interrupted.
pub(crate) fn interrupted(run: &RunRecord, folder: &Folder) -> String {
    let planned = run.plan.games();
    let played: usize = (0..run.plan.arms.len()).map(|arm| run.games.count(arm)).sum();
    let path = folder.path().display();
    format!(
        "interrupted: {played} of {planned} games were played, and all of them are kept\n  \
         go on by `ruleshift resume {path}`"
    )
}

/// Arms that stopped are told last, after everything that was played has been kept.
pub(crate) fn stopped(run: &RunRecord) -> impl Iterator<Item = String> {
    run.faults.iter().map(|fault| {
        let name = &run.plan.arms[fault.arm].name;
        let played = run.games.count(fault.arm);
        format!(
            "arm `{name}` stopped after {played} games: {}\n  ticket: {}",
            fault.message, fault.ticket
        )
    })
}

/// Threads when nobody says how many.
pub(crate) fn cores() -> usize {
    available_parallelism().map_or(1, NonZero::get)
}
