//! `ruleshift new`: files to start from.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::Path;

use clap::CommandFactory;
use clap_complete::Shell;
use ruleshift_hooks::skeleton;
use ruleshift_record::Timing;
use ruleshift_scenarios::Sketch;

use crate::args::{
    Args, New, NewArgs, NewManualArgs, NewScenarioArgs, NewScriptArgs, NewTimingArgs,
};
use crate::exit::Failure;
use crate::screen;

pub(crate) fn run(args: &NewArgs) -> Result<(), Failure> {
    match &args.what {
        New::Scenario(args) => scenario(args),
        New::Script(args) => script(args),
        New::Timing(args) => timing(args),
        New::Completions(args) => completions(args.shell),
        New::Manual(args) => manual(args),
    }
}

/// The command under which it is installed, whatever the file is called that is run.
const NAME: &str = "ruleshift";

fn completions(shell: Shell) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), NAME, &mut script);
    screen::show(&String::from_utf8_lossy(&script));
    Ok(())
}

fn manual(args: &NewManualArgs) -> Result<(), Failure> {
    let folder = args.out.as_path();
    fs::create_dir_all(folder).map_err(|error| Failure::file(folder, "made", &error))?;
    let mut files = fs::read_dir(folder).map_err(|error| Failure::file(folder, "read", &error))?;
    let shown = folder.display();
    if files.next().is_some() {
        return Err(Failure::Input(format!("--out is `{shown}`, expected a new or empty folder")));
    }
    clap_mangen::generate_to(Args::command(), folder)
        .map_err(|error| Failure::file(folder, "written", &error))?;
    screen::show(&format!("{shown}: read the first page with `man -l {shown}/{NAME}.1`\n"));
    Ok(())
}

fn timing(args: &NewTimingArgs) -> Result<(), Failure> {
    let Some(path) = args.out.as_deref() else {
        screen::show(Timing::FILE);
        return Ok(());
    };
    must_end_in(path, "ron")?;
    write_new(path, Timing::FILE)?;
    screen::show(&format!("{}: put in the seconds of your own table\n", path.display()));
    Ok(())
}

fn scenario(args: &NewScenarioArgs) -> Result<(), Failure> {
    let out = args.out.as_deref();
    out.map_or(Ok(()), |path| must_end_in(path, "ron"))?;
    let sketch = Sketch::new(args.seed, args.mission, args.terrain);
    let drawn = sketch.draw(&sketch.to_string()).map_err(|e| Failure::Input(e.to_string()))?;
    let Some(path) = out else {
        screen::show(&drawn.text);
        return Ok(());
    };
    write_new(path, &drawn.text)?;
    let (title, about) = (drawn.scenario.title(), &drawn.scenario.about);
    screen::show(&format!("{}: {title}. {about}\n", path.display()));
    Ok(())
}

fn script(args: &NewScriptArgs) -> Result<(), Failure> {
    let out = args.out.as_deref();
    let mut faults: Vec<String> = Vec::new();
    if !args.name.chars().any(char::is_alphanumeric) || !args.name.chars().all(of_a_name) {
        let name = &args.name;
        faults.push(format!("the name is `{name}`, expected letters, digits and `-`: `my-rule`"));
    }
    faults.extend(out.and_then(|path| must_end_in(path, "rhai").err()).map(|e| e.to_string()));
    if args.hooks.is_empty() {
        faults.push(format!(
            "a script needs a hook: write `ruleshift new script {} --hook marker_actions`\n  \
             `ruleshift list hooks` shows all hooks, each with what it is about",
            args.name
        ));
    }
    let text = skeleton(&args.name, &args.hooks).unwrap_or_else(|wrong| {
        faults.extend(wrong);
        String::new()
    });
    if !faults.is_empty() {
        return Err(Failure::Input(faults.join("\n")));
    }
    let Some(path) = out else {
        screen::show(&text);
        return Ok(());
    };
    write_new(path, &text)?;
    let path = path.display();
    screen::show(&format!("{path}: change what you like, then `ruleshift check {path}`\n"));
    Ok(())
}

fn of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '-' || letter == '_'
}

/// Names with that ending are taken for paths wherever one may be typed.
fn must_end_in(path: &Path, ending: &str) -> Result<(), Failure> {
    if path.extension().is_some_and(|found| found == ending) {
        return Ok(());
    }
    let path = path.display();
    Err(Failure::Input(format!("--out is `{path}`, expected a name that ends in .{ending}")))
}

/// Writes a file that is not there yet: somebody may have worked on one that is.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let file = OpenOptions::new().write(true).create_new(true).open(path);
    let written = file.and_then(|mut file| file.write_all(text.as_bytes()));
    written.map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => {
            let path = path.display();
            Failure::Input(format!("{path} is there already and is left alone: name a new file"))
        }
        _ => Failure::file(path, "written", &error),
    })
}
