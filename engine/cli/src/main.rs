//! The binary `ruleshift`.
use std::process::ExitCode;

fn main() -> ExitCode {
    ruleshift::main()
}
