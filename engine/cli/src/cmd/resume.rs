//! `ruleshift resume`: goes on with a run that is not finished.

use crate::args::ResumeArgs;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::{planned, screen};

pub(crate) fn run(args: &ResumeArgs) -> Result<(), Failure> {
    let folder = Folder::of(&args.folder);
    let text = folder.plan()?;
    if folder.finished() {
        let path = args.folder.display();
        screen::show(&format!("{path} is finished; read {path}/report.html\n"));
        return Ok(());
    }
    let (setting, plan) = planned::read(&args.folder.join("plan.ron"), &text)?;
    plan.conduct(&setting, &folder, &args.show)
}
