//! The games of a hunt: styles beside the usual one, under both rules, with the same luck.

use ruleshift_batch::{ArmCast, Cast, Leg, Progress, Seat, Ways};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Rules, Side};
use ruleshift_hooks::Stack;
use ruleshift_record::{HuntPlan, RunRecord, Seat as StyleSeat};

use super::search::{Stage, rounds, styles_in_round};
use super::style::{Space, Style};
use crate::bars::Bars;
use crate::conduct::{no_threads, out_of_room};
use crate::exit::Failure;
use crate::folder::Folder;
use crate::wire::{Seated, Setting, arm_cast, script_maker};

/// The file of the style that was found.
pub(super) const FOUND: &str = "found.ron";

/// Everything that the games of a hunt are played with.
pub(super) struct Games<'a> {
    hunt: &'a HuntPlan,
    setting: &'a Setting,
    space: &'a Space,
    folder: &'a Folder,
    bars: &'a Bars,
    threads: usize,
    rules: Vec<Rules>,
    ways: Ways,
}

/// The games that judge.
pub(super) struct Judgement {
    /// What was played of them.
    pub(super) run: RunRecord,
    /// Whether that is all of them.
    pub(super) whole: bool,
}

/// The seed of the games of a stage: one of its own for each.
pub(super) fn stage_seed(seed: u64, stage: Stage) -> u64 {
    match stage {
        Stage::Round(round) => game_seed(seed, 1, round),
        Stage::Choice => game_seed(seed, 2, 0),
        Stage::Judgement => game_seed(seed, 3, 0),
    }
}

/// Games that a whole hunt plays.
pub(super) fn games_in_all(hunt: &HuntPlan, weights: usize) -> u64 {
    let search = &hunt.search;
    let round = games_in_stage(hunt, Stage::Round(0), styles_in_round(search, weights));
    let choice = games_in_stage(hunt, Stage::Choice, search.finalists);
    let judged = games_in_stage(hunt, Stage::Judgement, 1);
    u64::from(rounds(search, weights)) * round + choice + judged
}

/// Games that a stage plays: of so many styles and of the usual one, under both rules.
pub(super) fn games_in_stage(hunt: &HuntPlan, stage: Stage, styles: u32) -> u64 {
    let games = match stage {
        Stage::Round(_) => hunt.search.games,
        Stage::Choice => hunt.search.finalist_games,
        Stage::Judgement => hunt.judged.games_per_arm,
    };
    2 * u64::from(styles + 1) * u64::from(games)
}

impl<'a> Games<'a> {
    /// Makes ready to play.
    ///
    /// # Errors
    /// Faults that come about only because one variant of a stack follows another.
    pub(super) fn new(
        (hunt, setting): (&'a HuntPlan, &'a Setting),
        space: &'a Space,
        (folder, bars): (&'a Folder, &'a Bars),
        threads: usize,
    ) -> Result<Games<'a>, Failure> {
        let arms = setting.stacks.iter().map(arm_cast).collect::<Result<Vec<_>, _>>()?;
        let rules = arms.into_iter().map(|arm| arm.rules).collect();
        let ways = Ways::default();
        let mut games = Games { hunt, setting, space, folder, bars, threads, rules, ways };
        let made = Ways::make(&games.cast(&[]), threads).map_err(no_threads)?;
        games.ways = made;
        Ok(games)
    }

    /// What each style seems to gain from the variant in the games of a stage of the search.
    ///
    /// # Errors
    /// A rule that failed in a game, with its ticket; that the hunt was interrupted.
    pub(super) fn worth(&self, stage: Stage, styles: &[Style]) -> Result<Vec<f64>, Failure> {
        let games = match stage {
            Stage::Round(_) => self.hunt.search.games,
            _ => self.hunt.search.finalist_games,
        };
        let run = self.play(stage, styles, games)?;
        if self.bars.stopped() {
            let folder = self.folder.path().display();
            return Err(Failure::Check(format!(
                "interrupted while it searched: no style was judged\n  go on by `ruleshift resume {folder}`"
            )));
        }
        if let Some(fault) = run.faults.first() {
            return Err(Failure::Check(format!(
                "the hunt stopped, since a rule failed in a game: {}\n  ticket: {}",
                fault.message, fault.ticket
            )));
        }
        let gain = |style| ruleshift_reports::seeming_gain(self.hunt, &run, style + 1);
        Ok((0..styles.len()).map(gain).collect())
    }

    /// Counts the games of a stage that another run has played.
    pub(super) fn found(&self, stage: Stage, styles: usize) {
        self.bars.found(games_in_stage(self.hunt, stage, styles as u32));
    }

    /// The games that judge a style, which is kept as a file before they begin; those that are kept
    /// already are not played again.
    ///
    /// # Errors
    /// When the file cannot be written, or games cannot be kept.
    pub(super) fn judge(&self, style: &Style, about: &str) -> Result<(Seated, Judgement), Failure> {
        let name = FOUND.trim_end_matches(".ron");
        self.folder.write(FOUND, &self.space.ron(style, name, about))?;
        let seated = self.space.seated(style)?;
        let judged = &self.hunt.judged;
        let plan = self.hunt.with(&[seated.named()], judged.games_per_arm, judged.seed);
        let cast = self.cast(std::slice::from_ref(&seated));
        let ways = self.ways.with(&cast, self.threads).map_err(no_threads)?;
        let mut log = self.folder.games(&plan)?;
        self.bars.found_in(&plan, &log);
        let end = plan.blocks(plan.rounds()).len();
        let leg = Leg { end, arms: &vec![true; plan.arms.len()] };
        ruleshift_batch::play(&ways, &plan, &cast, &leg, self.threads, self.bars, &mut log)
            .map_err(|error| out_of_room(self.folder, &error))?;
        let whole = log.kept() == end;
        drop(cast);
        Ok((seated, Judgement { run: log.into(), whole }))
    }

    fn play(&self, stage: Stage, styles: &[Style], games: u32) -> Result<RunRecord, Failure> {
        let seated = styles.iter().map(|style| self.space.seated(style));
        let seated: Vec<Seated> = seated.collect::<Result<_, _>>()?;
        let named: Vec<_> = seated.iter().map(Seated::named).collect();
        let plan = self.hunt.with(&named, games, stage_seed(self.hunt.search.seed, stage));
        let cast = self.cast(&seated);
        ruleshift_batch::run_on(&self.ways, &plan, &cast, self.threads, self.bars)
            .map_err(no_threads)
    }

    /// The usual style and those beside it, each in two arms.
    fn cast<'b>(&'b self, styles: &'b [Seated]) -> Cast<'b> {
        let arm = |(rules, stack): (&Rules, &Stack)| ArmCast {
            rules: rules.clone(),
            script: script_maker(stack),
        };
        let both = || self.rules.iter().zip(&self.setting.stacks).map(arm);
        Cast {
            arenas: self.setting.scenarios.iter().map(|scenario| &scenario.arena).collect(),
            arms: (0..=styles.len()).flat_map(|_| both()).collect(),
            player: Box::new(move |seat, arm| {
                self.seated(seat, styles).strategy.player(&arm.rules, arm.make())
            }),
        }
    }

    /// Who sits in a seat: the style of the arm on the side of the styles, an opponent on the other.
    fn seated<'b>(&'b self, seat: Seat, styles: &'b [Seated]) -> &'b Seated {
        let of_styles = match self.hunt.seats[seat.pairing] {
            StyleSeat::Attacker => Side::Attacker,
            StyleSeat::Defender => Side::Defender,
        };
        match HuntPlan::style(seat.arm).0.checked_sub(1) {
            Some(style) if seat.side == of_styles => &styles[style],
            _ => &self.setting.pairings[seat.pairing][seat.side as usize],
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// The games of a search, of the choice and of the judgement share no seed.
    #[test]
    fn every_stage_has_seeds_of_its_own() {
        let rounds = (0..100).map(Stage::Round);
        let stages = rounds.chain([Stage::Choice, Stage::Judgement]);
        let (mut seeds, mut games) = (BTreeSet::new(), 0);
        for stage in stages {
            for (scenario, game) in (0..8).flat_map(|s| (0..200).map(move |g| (s, g))) {
                seeds.insert(game_seed(stage_seed(7, stage), scenario, game));
                games += 1;
            }
        }
        assert_eq!(seeds.len(), games);
    }
}
