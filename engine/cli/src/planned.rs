//! From the text of a plan to what it names, with everything that is wrong with it at once.

mod hunt;

use std::path::Path;

use ruleshift_game::RULES_VERSION;
use ruleshift_hooks::Stack;
use ruleshift_players::Behaviour;
use ruleshift_record::{Arm, Experiment, HuntPlan, Pairing, Plan, PlayerRef, Probe, Stop};

use crate::args::ShowArgs;
use crate::conduct::conduct;
use crate::exit::{Failure, keep};
use crate::folder::{self, Folder};
use crate::resolve;
use crate::seating::{each_against_each, named};
use crate::wire::{Probing, Seated, Setting};

/// The players of a plan that names none.
const USUAL: &str = "steady";
/// Games in each arm at most, as on the command line.
const MOST: u32 = 10_000_000;

/// What a file of a plan asks for.
pub(crate) enum Planned {
    /// Games of arms that are known.
    Run(Box<Plan>),
    /// A search for a style first.
    Hunt(Box<HuntPlan>),
}

impl Planned {
    /// The plan of games whose arms are known.
    pub(crate) fn run(plan: Plan) -> Planned {
        Planned::Run(Box::new(plan))
    }

    /// The plan as it is written then.
    pub(crate) fn to_ron(&self) -> String {
        match self {
            Planned::Run(plan) => plan.to_ron(),
            Planned::Hunt(hunt) => hunt.to_ron(),
        }
    }

    /// Beginning of the name of its folder.
    pub(crate) fn stem(&self) -> String {
        match self {
            Planned::Run(plan) => folder::stem(plan),
            Planned::Hunt(hunt) => folder::hunt_stem(hunt),
        }
    }

    /// Plays what is not yet kept in the folder, writes everything and shows the answer.
    ///
    /// # Errors
    /// Those of playing.
    pub(crate) fn conduct(
        &self,
        setting: &Setting,
        folder: &Folder,
        show: &ShowArgs,
    ) -> Result<(), Failure> {
        match self {
            Planned::Run(plan) => conduct(setting, plan, folder, show),
            Planned::Hunt(hunt) => crate::hunt::conduct(setting, hunt, folder, show),
        }
    }
}

/// Reads the plan of the file at `path`: what it is played with, and the plan as it is written then.
///
/// # Errors
/// Where the text is no plan; or else everything that is wrong with it: names that are not known,
/// numbers out of range, files that have changed since it was written.
pub(crate) fn read(path: &Path, text: &str) -> Result<(Setting, Planned), Failure> {
    let read = if text.trim_start().starts_with("HuntPlan") {
        hunt::read(text).map(|(setting, hunt)| (setting, Planned::Hunt(Box::new(hunt))))
    } else {
        run(text).map(|(setting, plan)| (setting, Planned::Run(Box::new(plan))))
    };
    read.map_err(|faults| {
        let lines: Vec<String> =
            faults.iter().map(|f| f.to_string().replace('\n', "\n  ")).collect();
        let text = format!("plan {} cannot be played:\n  {}", path.display(), lines.join("\n  "));
        if faults.iter().all(|f| matches!(f, Failure::File(_))) {
            Failure::File(text)
        } else {
            Failure::Input(text)
        }
    })
}

/// Reads the plan of a run; or all its faults, of which there is at least one.
fn run(text: &str) -> Result<(Setting, Plan), Vec<Failure>> {
    let written = Plan::from_ron(text).map_err(|fault| vec![Failure::Input(fault)])?;
    resolved(&written, vec![])
}

/// What a plan names, and the plan as it is written then; or what is wrong beside `faults`.
fn resolved(written: &Plan, mut faults: Vec<Failure>) -> Result<(Setting, Plan), Vec<Failure>> {
    faults.extend(numbers(written));
    let setting = setting(written, &mut faults);
    let Some(setting) = setting.filter(|_| faults.is_empty()) else { return Err(faults) };
    let plan = setting.plan(written.games_per_arm, written.seed);
    let changed = changes(written, &plan);
    if changed.is_empty() { Ok((setting, plan)) } else { Err(changed) }
}

/// Numbers that no plan may have.
fn numbers(plan: &Plan) -> Vec<Failure> {
    let mut faults = vec![];
    let mut fault = |text: String| faults.push(Failure::Input(text));
    if plan.rules != 0 && plan.rules != RULES_VERSION {
        fault(format!(
            "it was written for rules version {}, and this program plays version {RULES_VERSION}: \
             other games would come of it. Play it with the program of its time, or leave out \
             `rules` and all digests to play it under the rules of today",
            plan.rules
        ));
    }
    if plan.games_per_arm == 0 || plan.games_per_arm > MOST {
        fault(format!("games_per_arm is {}: it must be from 1 to {MOST}", plan.games_per_arm));
    }
    for (name, size) in &plan.notice {
        if !(size.is_finite() && *size > 0.0) {
            fault(format!(
                "notice of {name} is {size}: the smallest shift worth noticing is above 0"
            ));
        }
    }
    match plan.stop {
        Some(Stop::Clear { looks: 0 }) => fault("stop: it must look at least once".to_owned()),
        Some(Stop::Precision { half_width }) if !(half_width > 0.0 && half_width <= 0.5) => {
            fault(format!("stop: half_width is {half_width}: it must be above 0 and at most 0.5"));
        }
        _ => {}
    }
    if let Some(arms) = arms(&plan.experiment).filter(|arms| *arms != compared(plan)) {
        fault(format!("its experiment has {arms} arms, and {} are listed", compared(plan)));
    }
    let asked = metrics(&plan.experiment);
    for metric in plan.headline.iter().chain(plan.notice.keys()).chain(&asked) {
        faults.extend(resolve::metric(metric).err());
    }
    faults
}

fn compared(plan: &Plan) -> usize {
    plan.arms.iter().filter(|arm| arm.probe.is_none()).count()
}

/// Arms that an experiment must have; none when it may have any number.
fn arms(experiment: &Experiment) -> Option<usize> {
    match experiment {
        Experiment::Compare => None,
        Experiment::Ladder | Experiment::Handicap(_) => Some(1),
        Experiment::Sweep(sweep) => Some(sweep.arms()),
        Experiment::Cross(cross) => Some(cross.arms.len()),
        Experiment::Tune(tune) => Some(tune.values.len()),
    }
}

/// Metrics that an experiment names.
fn metrics(experiment: &Experiment) -> Vec<String> {
    match experiment {
        Experiment::Sweep(sweep) => {
            let targets = sweep.targets.iter().map(|target| target.metric.clone());
            sweep.metrics.iter().cloned().chain(targets).collect()
        }
        Experiment::Tune(tune) => vec![tune.metric.clone()],
        _ => vec![],
    }
}

fn setting(plan: &Plan, faults: &mut Vec<Failure>) -> Option<Setting> {
    let compared = plan.arms.iter().filter(|arm| arm.probe.is_none());
    if compared.clone().count() < 1 {
        faults.push(Failure::Input(
            "it has no arms: name at least one, as in arms: [\"base\"]".into(),
        ));
    }
    let stacks: Vec<Stack> =
        compared.filter_map(|arm| keep(resolve::stack(&typed(arm)), faults)).collect();
    let names: Vec<String> = plan.scenarios.iter().map(|scenario| scenario.name.clone()).collect();
    let scenarios = keep(resolve::scenarios(&names), faults);
    let (pairings, roster) = pairings(plan, faults)?;
    let probes = plan.arms.iter().filter_map(|arm| arm.probe.as_ref());
    let probes = probes.filter_map(|probe| probing(probe, stacks.len(), faults)).collect();
    Some(Setting {
        experiment: plan.experiment.clone(),
        stacks,
        scenarios: scenarios?,
        pairings,
        roster,
        restricted: plan.restricted.clone(),
        probes,
        headline: plan.headline.clone(),
        notice: plan.notice.clone(),
        stop: plan.stop,
        timing: plan.timing.clone(),
    })
}

/// The rule stack of an arm as it is typed.
fn typed(arm: &Arm) -> String {
    if !arm.stack.is_empty() {
        return arm.stack.iter().map(|variant| variant.name.as_str()).collect::<Vec<_>>().join("+");
    }
    // An arm that has the stack of another has a number behind its name.
    let number = |(_, number): &(&str, &str)| number.bytes().all(|digit| digit.is_ascii_digit());
    arm.name.rsplit_once('#').filter(number).map_or(&*arm.name, |(stack, _)| stack).to_owned()
}

/// Who plays whom; and the names of those of whom each meets each.
fn pairings(plan: &Plan, faults: &mut Vec<Failure>) -> Option<(Vec<[Seated; 2]>, Vec<String>)> {
    if plan.pairings.is_empty() && !plan.roster.is_empty() {
        let players = named(&plan.roster, faults)?;
        let names = players.iter().map(|player| player.spec.to_string()).collect();
        return Some((each_against_each(&players), names));
    }
    let known = faults.len();
    let usual = || PlayerRef { name: USUAL.to_owned(), digest: String::new() };
    let alone = [Pairing { attacker: usual(), defender: usual() }];
    let written = if plan.pairings.is_empty() { &alone[..] } else { &plan.pairings };
    let mut player = |player: &PlayerRef| keep(resolve::player(&player.name), faults);
    let both = |pairing: &Pairing| Some([player(&pairing.attacker)?, player(&pairing.defender)?]);
    let pairings: Vec<[Seated; 2]> = written.iter().filter_map(both).collect();
    (faults.len() == known).then(|| (pairings, plan.roster.clone()))
}

fn probing(probe: &Probe, stacks: usize, faults: &mut Vec<Failure>) -> Option<Probing> {
    if probe.of >= stacks {
        faults.push(Failure::Input(format!("a probe is of arm {}, which is not there", probe.of)));
        return None;
    }
    let behaviour = keep(Behaviour::by_word(&probe.without).map_err(Failure::Input), faults)?;
    Some(Probing { of: probe.of, side: probe.side, behaviour, games: probe.games })
}

/// What is no longer as it was when the plan was written; a digest that is not written is not
/// looked at.
fn changes(written: &Plan, plan: &Plan) -> Vec<Failure> {
    let mut changed = vec![];
    let mut look = |what: &str, name: &str, before: &str, now: &str| {
        if !before.is_empty() && before != now {
            changed.push(Failure::Input(format!(
                "{what} {name} has changed since the plan was written: its digest was {before} and is \
                 {now}. Bring back what it was, or leave out the digest to play it as it is"
            )));
        }
    };
    for (before, now) in written.arms.iter().zip(&plan.arms) {
        for (before, now) in before.stack.iter().zip(&now.stack) {
            look("variant", &now.name, &before.digest, &now.digest);
        }
    }
    for (before, now) in written.scenarios.iter().zip(&plan.scenarios) {
        look("scenario", &now.name, &before.digest, &now.digest);
    }
    for (before, now) in written.pairings.iter().zip(&plan.pairings) {
        look("player", &now.attacker.name, &before.attacker.digest, &now.attacker.digest);
        look("player", &now.defender.name, &before.defender.digest, &now.defender.digest);
    }
    changed.dedup_by(|a, b| a.to_string() == b.to_string());
    changed
}
