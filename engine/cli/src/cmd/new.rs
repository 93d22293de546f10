//! `ruleshift new`: files to start from.

use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

use ruleshift_scenarios::Sketch;

use crate::args::{New, NewArgs, NewScenarioArgs};
use crate::exit::Failure;
use crate::screen;

pub(crate) fn run(args: &NewArgs) -> Result<(), Failure> {
    match &args.what {
        New::Scenario(args) => scenario(args),
    }
}

fn scenario(args: &NewScenarioArgs) -> Result<(), Failure> {
    let out = args.out.as_deref();
    out.map_or(Ok(()), must_be_ron)?;
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

/// `--scenario` takes names with that ending for paths.
fn must_be_ron(path: &Path) -> Result<(), Failure> {
    if path.extension().is_some_and(|ending| ending == "ron") {
        return Ok(());
    }
    let path = path.display();
    Err(Failure::Input(format!("--out is `{path}`, expected a name that ends in .ron")))
}

/// Writes a file that is not there yet: somebody may have worked on one that is.
fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
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
