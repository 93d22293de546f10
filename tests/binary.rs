//! The program under test: the same entry point as the shipped binary.
use std::process::ExitCode;

fn main() -> ExitCode {
    ruleshift::main()
}
