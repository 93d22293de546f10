//! The command line: arguments, terminal, files, exit codes.
//!
//! The only crate that knows arguments, prints, reads and writes files or exits. It joins house
//! rules, players, scenarios, runs and reports; it decides nothing that a result depends on.

mod account;
mod again;
mod answer;
mod args;
mod bars;
mod begin;
mod board;
mod check;
mod cmd;
mod conduct;
mod diverge;
mod exit;
mod field;
mod film;
mod folder;
mod hunt;
mod nearest;
mod odds;
mod page;
mod planned;
mod probes;
mod resolve;
mod screen;
mod seating;
mod shards;
mod span;
mod store;
mod story;
mod target;
mod text;
#[cfg(test)]
mod trial;
mod why;
mod wire;

use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches};

use args::{Args, Command};

/// The arguments of the process.
///
/// # Errors
/// How the process ends at once: after `--help`, or since something is typed wrongly.
fn parsed() -> Result<Args, ExitCode> {
    let mut command = Args::command().term_width(screen::width());
    let parsed = command.clone().try_get_matches().and_then(|mut matches| {
        Args::from_arg_matches_mut(&mut matches).map_err(|e| e.format(&mut command))
    });
    parsed.map_err(|error| {
        if error.use_stderr() && !screen::complaint_colour() {
            screen::remark(error.render().to_string().trim_end());
        } else {
            // Nothing is lost if it cannot be printed.
            let _ = error.print();
        }
        ExitCode::from(error.exit_code() as u8)
    })
}

/// Runs the program with the arguments of the process.
pub fn main() -> ExitCode {
    screen::keep_panics_quiet();
    let args = match parsed() {
        Ok(args) => args,
        Err(code) => return code,
    };
    let done = match args.command {
        Command::Compare(args) => cmd::compare::run(&args),
        Command::Handicap(args) => cmd::handicap::run(&args),
        Command::Hunt(args) => cmd::hunt::run(&args),
        Command::Ladder(args) => cmd::ladder::run(&args),
        Command::Sweep(args) => cmd::sweep::run(&args),
        Command::Cross(args) => cmd::cross::run(&args),
        Command::Tune(args) => cmd::tune::run(&args),
        Command::Run(args) => cmd::run::run(&args),
        Command::Resume(args) => cmd::resume::run(&args),
        Command::Shard(args) => cmd::shard::run(&args),
        Command::Missing(args) => cmd::missing::run(&args),
        Command::Merge(args) => cmd::merge::run(&args),
        Command::Clean(args) => cmd::clean::run(&args),
        Command::Cluster(args) => cmd::cluster::run(&args),
        Command::Replay(args) => cmd::replay::run(&args),
        Command::Diverge(args) => cmd::diverge::run(&args),
        Command::Check(args) => cmd::check::run(&args),
        Command::Explain(args) => cmd::explain::run(&args),
        Command::List(args) => cmd::list::run(&args),
        Command::Odds(args) => cmd::odds::run(&args),
        Command::New(args) => cmd::new::run(&args),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            screen::complain(&failure.to_string());
            failure.code()
        }
    }
}
