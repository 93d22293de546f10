//! `ruleshift check`: the faults of house rules, and what they change.

use std::cell::OnceCell;

use crate::args::CheckArgs;
use crate::check::{Document, Finding, TrialGround, explain_line, find, text};
use crate::exit::Failure;
use crate::screen;

pub(crate) fn run(args: &CheckArgs) -> Result<(), Failure> {
    let ground = OnceCell::new();
    let mut findings = Vec::new();
    for typed in &args.files {
        let finding = find(typed, || ground_for(args, &ground))?;
        if !args.json && finding.faults.is_empty() {
            let gap = if findings.is_empty() { "" } else { "\n" };
            screen::show(&format!("{gap}{}", text(&finding, screen::width(), screen::colour())));
        }
        findings.push(finding);
    }
    let document = Document::new(findings);
    if args.json {
        let json = serde_json::to_string_pretty(&document);
        let json = json.map_err(|e| Failure::Check(format!("no JSON can be written: {e}")))?;
        screen::show(&format!("{json}\n"));
    }
    if document.sound { Ok(()) } else { Err(faults(&document.stacks, args.json)) }
}

/// The scenarios for trial games, loaded when the first sound stack needs them.
fn ground_for<'a>(
    args: &CheckArgs,
    ground: &'a OnceCell<TrialGround>,
) -> Result<Option<&'a TrialGround>, Failure> {
    if args.no_games {
        return Ok(None);
    }
    if ground.get().is_none() {
        let _ = ground.set(TrialGround::load()?);
    }
    Ok(ground.get())
}

fn faults(findings: &[Finding], json: bool) -> Failure {
    let faults = || findings.iter().flat_map(|finding| &finding.faults);
    if json {
        return Failure::Check("the check has found faults, which the document holds".to_owned());
    }
    let told: Vec<String> = faults().map(ToString::to_string).collect();
    let more = explain_line(faults()).map(|line| format!("\n\n{line}")).unwrap_or_default();
    Failure::Check(format!("{}{more}", told.join("\n\n")))
}
