//! A whole run: every game of every arm, on any number of threads.
//!
//! Work is cut into blocks of games of one scenario and pairing of players; a block plays its games
//! in all arms. Results
//! are put back in the order of the plan, so neither threads nor their luck can show in a record.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use rayon::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Arena, EventScript, Paths, Player, Side, Table};
use ruleshift_record::{ArmFault, GameKey, GameRow, Plan, RunRecord};

use crate::cast::{ArmCast, Cast, Progress, Seat};
use crate::collect::Collector;
use crate::play::{GameEnd, GameId, play_one};

/// Games in a block: enough to share the making of players and event hooks.
const BLOCK: u32 = 64;

/// Plays all games of `plan` on `threads` threads. An arm whose rules fail in a game stops there,
/// in the order of its games, whatever else was played; the other arms go on. A run that `progress`
/// stops keeps every block of games that all arms have finished.
///
/// # Errors
/// When the threads cannot be started.
pub fn run(
    plan: &Plan,
    cast: &Cast<'_>,
    threads: usize,
    progress: &dyn Progress,
) -> Result<RunRecord, String> {
    run_on(&Ways::default(), plan, cast, threads, progress)
}

/// As [`run`], over ways that are known already: only those that are not are made.
///
/// # Errors
/// When the threads cannot be started.
pub fn run_on(
    known: &Ways,
    plan: &Plan,
    cast: &Cast<'_>,
    threads: usize,
    progress: &dyn Progress,
) -> Result<RunRecord, String> {
    let pool = pool(threads)?;
    let Ways(ways) = pool.install(|| known.of(cast));
    let runner = Runner { plan, cast, ways: &ways, faults: &first_faults(plan), progress };
    let blocks = blocks(plan);
    let parts: Vec<Part> =
        pool.install(|| blocks.par_iter().map(|&block| runner.block(block)).collect());
    Ok(gather(plan, parts))
}

fn pool(threads: usize) -> Result<ThreadPool, String> {
    ThreadPoolBuilder::new().num_threads(threads).build().map_err(|e| e.to_string())
}

/// The ways over each scenario under each arm, by scenario, then arm. Making them takes longer than
/// a hundred games, so many short runs over the same ground share them.
#[derive(Default)]
pub struct Ways(Vec<Vec<Arc<Paths>>>);

impl Ways {
    /// The ways of a cast, made on `threads` threads.
    ///
    /// # Errors
    /// When the threads cannot be started.
    pub fn make(cast: &Cast<'_>, threads: usize) -> Result<Ways, String> {
        Ok(pool(threads)?.install(|| Ways::default().of(cast)))
    }

    /// The ways of a cast, those that are known as they are; arms that pay the same costs share
    /// them.
    fn of(&self, cast: &Cast<'_>) -> Ways {
        let by_arm = |(scenario, arena): (usize, &&Arena)| {
            let mut made: Vec<Arc<Paths>> = Vec::new();
            for ArmCast { rules, .. } in &cast.arms {
                let known = self.0.get(scenario).into_iter().flatten().chain(&made);
                let known = known.into_iter().find(|ways| ways.serve(arena, rules)).cloned();
                made.push(known.unwrap_or_else(|| Arc::new(Paths::new(arena, rules))));
            }
            made
        };
        Ways(cast.arenas.par_iter().enumerate().map(by_arm).collect())
    }
}

/// For each arm the place of its first fault known so far: games behind it need not be played.
fn first_faults(plan: &Plan) -> Vec<AtomicU64> {
    plan.arms.iter().map(|_| AtomicU64::new(u64::MAX)).collect()
}

#[derive(Clone, Copy)]
struct Block {
    scenario: usize,
    pairing: usize,
    /// The first game, the one behind the last, and how far apart they are.
    games: (u32, u32),
    step: u32,
}

impl Block {
    fn games(&self) -> impl Iterator<Item = u32> + use<> {
        (self.games.0..self.games.1).step_by(self.step as usize)
    }
}

/// All blocks, those of all scenarios and pairings side by side: an arm that stops has played them
/// all alike.
fn blocks(plan: &Plan) -> Vec<Block> {
    let step = plan.pairings.len() as u32;
    let starts = (0..plan.games_in_scenario(0)).step_by((BLOCK * step) as usize);
    let places = |start: u32| {
        (0..plan.scenarios.len()).flat_map(move |scenario| {
            (0..step).map(move |pairing| {
                let end = plan.games_in_scenario(scenario).min(start + BLOCK * step);
                Block { scenario, pairing: pairing as usize, games: (start + pairing, end), step }
            })
        })
    };
    starts.flat_map(places).filter(|block| block.games.0 < block.games.1).collect()
}

/// What one block gave: games and faults.
#[derive(Default)]
struct Part {
    games: Vec<GameRow>,
    faults: Vec<(u64, ArmFault)>,
}

struct Runner<'a> {
    plan: &'a Plan,
    cast: &'a Cast<'a>,
    ways: &'a [Vec<Arc<Paths>>],
    faults: &'a [AtomicU64],
    progress: &'a dyn Progress,
}

/// Players and event hooks of one arm, for one block.
struct Crew {
    attacker: Box<dyn Player>,
    defender: Box<dyn Player>,
    script: Option<Box<dyn EventScript>>,
}

impl Runner<'_> {
    fn block(&self, block: Block) -> Part {
        let mut part = Part::default();
        if self.progress.stopped() {
            return part;
        }
        for arm in 0..self.cast.arms.len() {
            let mut crew = self.crew(arm, block.pairing);
            let end = self.plan.games_of(arm, block.scenario);
            let games = || block.games().take_while(|game| *game < end);
            for game in games() {
                if self.place(block.scenario, game) <= self.faults[arm].load(Ordering::Relaxed) {
                    let key = GameKey { arm, scenario: block.scenario, game };
                    self.game(key, &mut crew, &mut part);
                }
            }
            self.progress.played(games().count() as u64);
        }
        part
    }

    fn crew(&self, arm: usize, pairing: usize) -> Crew {
        let cast = &self.cast.arms[arm];
        let player = |side| (self.cast.player)(Seat { arm, pairing, side }, cast);
        Crew {
            attacker: player(Side::Attacker),
            defender: player(Side::Defender),
            script: cast.script.as_ref().map(|make| make()),
        }
    }

    /// Place of a game in the order in which an arm keeps its games.
    fn place(&self, scenario: usize, game: u32) -> u64 {
        place(self.plan, scenario, game)
    }

    fn game(&self, key: GameKey, crew: &mut Crew, part: &mut Part) {
        let GameKey { arm, scenario, game } = key;
        let rules = &self.cast.arms[arm].rules;
        let table =
            Table { arena: self.cast.arenas[scenario], rules, paths: &self.ways[scenario][arm] };
        let seed = game_seed(self.plan.seed, scenario as u32, game);
        let mut collector = Collector::new(&self.plan.timing, table);
        let script: Option<&mut dyn EventScript> = match &mut crew.script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        let id = GameId { table, seed };
        match play_one(id, script, &mut *crew.attacker, &mut *crew.defender, &mut collector) {
            GameEnd::Finished(digest) => {
                part.games.push(GameRow {
                    arm,
                    scenario,
                    game,
                    seed,
                    digest,
                    values: *collector.values(),
                });
            }
            GameEnd::Faulted { fault, digest } => {
                let place = self.place(scenario, game);
                self.faults[arm].fetch_min(place, Ordering::Relaxed);
                let ticket = self.plan.ticket(key, seed, digest).to_string();
                part.faults.push((place, ArmFault { arm, message: fault.message, ticket }));
                // A panic may have left players and hooks in any state.
                *crew = self.crew(arm, self.plan.pairing(game));
            }
        }
    }
}

fn place(plan: &Plan, scenario: usize, game: u32) -> u64 {
    u64::from(game) * plan.scenarios.len() as u64 + scenario as u64
}

/// Puts the parts together: games in the order of the plan, each arm's up to its first fault.
fn gather(plan: &Plan, parts: Vec<Part>) -> RunRecord {
    let mut games = Vec::new();
    let mut faults: Vec<Option<(u64, ArmFault)>> = plan.arms.iter().map(|_| None).collect();
    for part in parts {
        games.extend(part.games);
        for (place, fault) in part.faults {
            let first = &mut faults[fault.arm];
            if first.as_ref().is_none_or(|(known, _)| place < *known) {
                *first = Some((place, fault));
            }
        }
    }
    games.retain(|row: &GameRow| {
        faults[row.arm]
            .as_ref()
            .is_none_or(|(first, _)| place(plan, row.scenario, row.game) < *first)
    });
    games.sort_by_key(|row| (row.arm, row.scenario, row.game));
    RunRecord {
        plan: plan.clone(),
        games,
        faults: faults.into_iter().flatten().map(|(_, fault)| fault).collect(),
    }
}
