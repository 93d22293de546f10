//! The command line: arguments, terminal, files, exit codes.
use std::process::ExitCode;

/// Runs the program with the arguments of the process.
pub fn main() -> ExitCode {
    ExitCode::SUCCESS
}
