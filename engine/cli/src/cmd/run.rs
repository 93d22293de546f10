//! `ruleshift run`: plays a plan.

use crate::args::PlanArgs;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::planned;
use crate::text;

pub(crate) fn run(args: &PlanArgs) -> Result<(), Failure> {
    let folder = args.plan.is_dir();
    let path = if folder { args.plan.join("plan.ron") } else { args.plan.clone() };
    let text = text::read(&path)?;
    let (setting, plan) = planned::read(&path, &text)?;
    let folder = Folder::make(args.out.as_deref(), &plan.stem(), &plan.to_ron())?;
    plan.conduct(&setting, &folder, &args.show)
}
