//! Plays a hunt into its folder, from wherever it has come to, and shows the answer.

use ruleshift_record::{HuntPlan, HuntSearch, HuntTrail, Seat};
use ruleshift_reports as reports;

use super::USUAL;
use super::games::{FOUND, Games, Judgement, games_in_all, stage_seed};
use super::recall::Recall;
use super::search::{Found, Stage, search};
use super::style::Space;
use crate::answer::Answer;
use crate::args::ShowArgs;
use crate::bars::Bars;
use crate::conduct::{cores, interrupted, stopped, tell, unfinished};
use crate::exit::Failure;
use crate::folder::Folder;
use crate::wire::{Seated, Setting};
use crate::{resolve, screen};

/// Styles that are played again before one is chosen, and how many times the games each then gets.
const FINALISTS: (u32, u32) = (6, 4);

/// The plan of a hunt that tries `budget` styles by `games` games each, and judges by `judge` seeds;
/// games are in even shares of scenarios and pairings.
pub(crate) fn new_plan(
    setting: &Setting,
    seats: Vec<Seat>,
    (budget, games, judge): (u32, u32, u32),
    seed: u64,
    gain: f64,
) -> HuntPlan {
    let strata = (setting.scenarios.len() * setting.pairings.len()) as u32;
    let even = |games: u32| games.next_multiple_of(strata);
    let games = even(games);
    let (finalists, times) = FINALISTS;
    let finalist_games = games.saturating_mul(times);
    HuntPlan {
        judged: setting.plan(even(judge), stage_seed(seed, Stage::Judgement)),
        seats,
        search: HuntSearch { budget, games, finalists, finalist_games, seed },
        gain,
    }
}

/// Searches and judges as far as that is not yet kept in the folder, writes everything and shows the
/// answer.
///
/// # Errors
/// A file that cannot be written; a rule that failed; that the hunt was interrupted, or that arms
/// have stopped. Whatever was played is kept.
pub(crate) fn conduct(
    setting: &Setting,
    hunt: &HuntPlan,
    folder: &Folder,
    show: &ShowArgs,
) -> Result<(), Failure> {
    let space =
        Space::around(&resolve::doctrine(USUAL, &[])?).expect("the usual style has weights");
    let threads = show.threads.map_or_else(cores, usize::from);
    let bars = Bars::new(games_in_all(hunt, space.start().len()), show.quiet);
    let games = Games::new((hunt, setting), &space, (folder, &bars), threads)?;
    let judged = find(&games, &space, hunt, folder).and_then(|found| {
        let about = format!("Found by a hunt over {}.", hunt.judged.arms[1].name);
        let (seated, judgement) = games.judge(&found.style, &about)?;
        Ok((trail(&space, found, &seated), judgement))
    });
    bars.finish();
    let (trail, Judgement { run, whole }) = judged?;
    let mut ends: Vec<String> = stopped(&run).collect();
    if !whole {
        ends.insert(0, interrupted(&run, folder));
    }
    let Some(summary) = reports::judge(hunt, &run, &trail) else {
        let ends = ends.join("\n");
        return Err(Failure::Check(format!("too few games were played to judge\n{ends}")));
    };
    let answer = Answer {
        json: reports::json(&summary),
        report: reports::build_hunt(hunt, &summary),
        pages: vec![],
    };
    folder.fill(&run, &answer, show.csv).map_err(|failure| unfinished(folder, &failure))?;
    drop(run);
    if whole {
        folder.finish()?;
    }
    tell(&answer, folder, show);
    if !show.json && !show.quiet {
        screen::show(&format!("The style is {}\n", folder.path().join(FOUND).display()));
    }
    if ends.is_empty() { Ok(()) } else { Err(Failure::Check(ends.join("\n"))) }
}

/// Searches, from wherever the search has come to.
fn find(games: &Games, space: &Space, hunt: &HuntPlan, folder: &Folder) -> Result<Found, Failure> {
    let mut recall = Recall::of(&folder.search());
    search(space, &hunt.search, &mut |stage, styles| {
        let (gains, new) = recall.next(styles.len(), || games.worth(stage, styles))?;
        match new {
            Some(text) => folder.keep_search(text)?,
            None => games.found(stage, styles.len()),
        }
        Ok(gains)
    })
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
