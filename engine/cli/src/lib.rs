//! The command line: arguments, terminal, files, exit codes.
//!
//! The only crate that knows arguments, prints, reads and writes files or exits. It joins house
//! rules, players, scenarios, runs and reports; it decides nothing that a result depends on.

mod account;
mod again;
mod answer;
mod args;
mod bars;
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
mod span;
mod store;
mod story;
mod target;
#[cfg(test)]
mod trial;
mod why;
mod wire;

use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches};

use args::{Args, Command};

/// The arguments of the process; what is typed wrongly, and `--help`, end it here.
fn parsed() -> Args {
    let mut command = Args::command().term_width(screen::width());
    let mut matches = command.clone().get_matches();
    Args::from_arg_matches_mut(&mut matches).unwrap_or_else(|e| e.format(&mut command).exit())
}

/// Runs the program with the arguments of the process.
pub fn main() -> ExitCode {
    screen::keep_panics_quiet();
    let args = parsed();
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
