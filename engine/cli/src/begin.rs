//! From a plan that was typed to its run.

use std::path::Path;

use crate::args::RunArgs;
use crate::cmd::new::write_new;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::planned::Planned;
use crate::screen;
use crate::wire::Setting;

/// Plays a plan into a new folder whose name begins with `stem`, or writes it alone if that is asked.
///
/// # Errors
/// Those of making the folder or the file, and of playing.
pub(crate) fn begin(
    setting: &Setting,
    planned: &Planned,
    stem: &str,
    run: &RunArgs,
) -> Result<(), Failure> {
    if let Some(file) = &run.plan_only {
        return note_down(file, &planned.to_ron());
    }
    let folder = Folder::make(run.out.as_deref(), stem, &planned.to_ron())?;
    planned.conduct(setting, &folder, &run.show)
}

fn note_down(file: &Path, plan: &str) -> Result<(), Failure> {
    // Names with that ending are taken for paths wherever one may be typed.
    if file.extension().is_none_or(|ending| ending != "ron") {
        let file = file.display();
        return Err(Failure::Input(format!(
            "--plan-only is `{file}`, expected a name that ends in .ron"
        )));
    }
    write_new(file, plan)?;
    screen::show(&format!("{0}: play it by `ruleshift run {0}`\n", file.display()));
    Ok(())
}
