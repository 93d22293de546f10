//! `ruleshift hunt`: searches for a style that abuses a variant, judges it, writes the run.

use ruleshift_record::{HuntPlan, HuntSearch, HuntSummary, HuntTrail, RunRecord, Seat};
use ruleshift_reports as reports;

use super::compare::{cores, keep, together};
use crate::answer::Answer;
use crate::args::{HuntArgs, Side};
use crate::bars::Bars;
use crate::conduct::stopped;
use crate::exit::Failure;
use crate::folder::{Folder, plain};
use crate::hunt::games::{Games, games_in_all, stage_seed};
use crate::hunt::search::{Found, Stage, search};
use crate::hunt::style::Space;
use crate::wire::{Seated, Setting};
use crate::{resolve, screen};

/// The style that every other one is measured against, and from which a search starts.
const USUAL: &str = "steady";
/// Styles that are played again before one is chosen, and how many times the games each then gets.
const FINALISTS: (u32, u32) = (6, 4);

pub(crate) fn run(args: &HuntArgs) -> Result<(), Failure> {
    let (setting, seats) = setting(args)?;
    let hunt = plan(args, &setting, seats);
    let space =
        Space::around(&resolve::doctrine(USUAL, &[])?).expect("the usual style has weights");
    let stem = plain(&format!("hunt-{}", file_stem(&hunt.judged.arms[1].name)));
    let folder = Folder::make(args.run.out.as_deref(), &stem, &hunt.to_ron())?;
    let threads = args.run.show.threads.map_or_else(cores, usize::from);
    let bars = Bars::new(games_in_all(&hunt, space.start().len()), args.run.show.quiet);
    let games = Games::new((&hunt, &setting), &space, (&folder, &bars), threads)?;

    let found = search(&space, &hunt.search, &mut |stage, styles| games.worth(stage, styles));
    let judged = found.and_then(|found| {
        let about = format!("Found by a hunt over {}.", hunt.judged.arms[1].name);
        let (seated, run) = games.judge(&found.style, &about)?;
        Ok((trail(&space, found, &seated), run))
    });
    bars.finish();
    let (trail, run) = judged?;
    let summary = reports::judge(&hunt, &run, &trail);
    let summary = summary.ok_or_else(|| {
        let ends: Vec<String> = stopped(&run).collect();
        Failure::Check(format!("too few games were played to judge\n{}", ends.join("\n")))
    })?;
    show(args, &hunt, &summary, &run, &folder)?;
    let ends: Vec<String> = interrupted(&hunt, &summary, &run).chain(stopped(&run)).collect();
    if ends.is_empty() { Ok(()) } else { Err(Failure::Check(ends.join("\n"))) }
}

/// Writes the files and prints the answer.
fn show(
    args: &HuntArgs,
    hunt: &HuntPlan,
    summary: &HuntSummary,
    run: &RunRecord,
    folder: &Folder,
) -> Result<(), Failure> {
    let report = reports::build_hunt(hunt, summary);
    let answer = Answer { json: reports::json(summary), report };
    folder.fill(run, &answer)?;
    if args.run.show.json {
        screen::show(&answer.json);
    } else if !args.run.show.quiet {
        screen::show(&reports::terminal(&answer.report, screen::width(), screen::colour()));
        let path = folder.path();
        screen::show(&format!(
            "\nWritten to {0}; read {0}/report.html; the style is {1}\n",
            path.display(),
            summary.trail.found.name
        ));
    }
    Ok(())
}

/// A judgement that was interrupted rests on the games that were played.
fn interrupted(
    hunt: &HuntPlan,
    summary: &HuntSummary,
    run: &RunRecord,
) -> impl Iterator<Item = String> {
    let (played, planned) = (summary.whole.seeds, hunt.judged.games_per_arm);
    let short = run.faults.is_empty() && played < planned;
    let message = format!("interrupted: {played} of {planned} seeds that judge were played");
    short.then_some(message).into_iter()
}

fn trail(space: &Space, found: Found, seated: &Seated) -> HuntTrail {
    HuntTrail {
        tried: found.tried,
        rounds: found.rounds,
        finalists: found.finalists,
        weights: space.weights(&found.style),
        found: seated.named(),
    }
}

fn plan(args: &HuntArgs, setting: &Setting, seats: Vec<Seat>) -> HuntPlan {
    let strata = (setting.scenarios.len() * setting.pairings.len()) as u32;
    let even = |games: u32| games.next_multiple_of(strata);
    let games = even(args.games);
    let (finalists, times) = FINALISTS;
    HuntPlan {
        judged: setting.plan(even(args.judge), stage_seed(args.run.seed, Stage::Judgement)),
        seats,
        search: HuntSearch {
            budget: args.budget,
            games,
            finalists,
            finalist_games: games.saturating_mul(times),
            seed: args.run.seed,
        },
        gain: f64::from(args.gain) / 100.0,
    }
}

/// Everything that was typed, with all that is wrong with it at once; and the side of the styles in
/// each pairing.
fn setting(args: &HuntArgs) -> Result<(Setting, Vec<Seat>), Failure> {
    let mut faults = Vec::new();
    let stacks: Vec<_> = [&args.base, &args.variant]
        .into_iter()
        .filter_map(|typed| keep(resolve::stack(typed), &mut faults))
        .collect();
    let scenarios = keep(resolve::scenarios(&args.scenarios), &mut faults);
    let against: Vec<Seated> =
        args.against.iter().filter_map(|typed| keep(resolve::player(typed), &mut faults)).collect();
    let usual = keep(resolve::player(USUAL), &mut faults);
    let (Some(scenarios), Some(usual), true) = (scenarios, usual, faults.is_empty()) else {
        return Err(together(faults));
    };
    let (mut pairings, mut seats) = (vec![], vec![]);
    for opponent in &against {
        for side in sides(args.side) {
            let (usual, opponent) = (usual.clone(), opponent.clone());
            pairings.push(match side {
                Seat::Attacker => [usual, opponent],
                Seat::Defender => [opponent, usual],
            });
            seats.push(*side);
        }
    }
    Ok((Setting { stacks, scenarios, pairings, ..Setting::default() }, seats))
}

fn sides(side: Option<Side>) -> &'static [Seat] {
    match side {
        Some(Side::Attacker) => &[Seat::Attacker],
        Some(Side::Defender) => &[Seat::Defender],
        None => &[Seat::Attacker, Seat::Defender],
    }
}

/// The name of a stack without the folders and ending of a script.
fn file_stem(stack: &str) -> String {
    let path = std::path::Path::new(stack).with_extension("");
    path.file_name().map_or_else(|| stack.to_owned(), |name| name.to_string_lossy().into_owned())
}
