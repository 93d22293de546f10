//! A whole run: every game of every arm, on any number of threads.
//!
//! Work is cut into the blocks of the plan. They are begun in order, and handed on in order as they
//! are finished, so neither threads nor their luck can show in a record, and what was handed on is
//! at any time a beginning of the run.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use rayon::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Arena, EventScript, Paths, Player, Side, Table};
use ruleshift_record::{
    ArmFault, Block, GameKey, GameRow, Keep, Log, Memory, Plan, Played, RunRecord, StoppedArm,
};

use crate::cast::{ArmCast, Cast, Progress, Seat};
use crate::collect::Collector;
use crate::play::{GameEnd, GameId, play_one};

/// Plays all games of `plan` on `threads` threads and holds them. An arm whose rules fail in a game
/// stops there, in the order of its games, whatever else was played; the other arms go on. A run that
/// `progress` stops keeps every block of games that was begun.
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
    let mut log = Log::begin(plan, Box::new(Memory::default())).map_err(|e| e.to_string())?;
    let ways = known.with(cast, threads)?;
    let leg = Leg { end: usize::MAX, arms: &vec![true; plan.arms.len()] };
    play(&ways, plan, cast, &leg, threads, progress, &mut log)?;
    Ok(log.into())
}

/// A part of a run: from what is kept already to a block.
pub struct Leg<'a> {
    /// The number of the block before which it is over; all blocks are played when there are fewer.
    pub end: usize,
    /// Whether each arm plays.
    pub arms: &'a [bool],
}

/// Plays a part of a run, and keeps every block as soon as all before it are kept. The ways must be
/// those of the cast.
///
/// # Errors
/// When a block cannot be kept: those before it are.
pub fn play(
    ways: &Ways,
    plan: &Plan,
    cast: &Cast<'_>,
    leg: &Leg<'_>,
    threads: usize,
    progress: &dyn Progress,
    keep: &mut dyn Keep,
) -> Result<(), String> {
    let faults = first_faults(plan, &keep.stopped());
    let runner = Runner { plan, cast, ways, faults: &faults, leg, progress };
    let mut blocks = plan.blocks(plan.rounds());
    blocks.truncate(leg.end);
    let next = keep.next();
    let queue = Mutex::new(Queue { next, waiting: BTreeMap::new(), keep, error: None });
    let work = || {
        while let Some(n) = begin(&queue, blocks.len(), progress) {
            let played = runner.block(blocks[n]);
            hand_on(&queue, n, played);
        }
    };
    thread::scope(|scope| {
        for _ in 0..threads.clamp(1, blocks.len().max(1)) {
            scope.spawn(work);
        }
    });
    let queue = queue.into_inner().unwrap_or_else(PoisonError::into_inner);
    queue.error.map_or(Ok(()), Err)
}

/// Which block is next, and those that wait for one before them.
struct Queue<'a> {
    next: usize,
    waiting: BTreeMap<usize, Played>,
    keep: &'a mut dyn Keep,
    error: Option<String>,
}

/// The next block to play; none when all are begun or the run is to stop.
fn begin(queue: &Mutex<Queue>, blocks: usize, progress: &dyn Progress) -> Option<usize> {
    let mut queue = queue.lock().unwrap_or_else(PoisonError::into_inner);
    if queue.next >= blocks || queue.error.is_some() || progress.stopped() {
        return None;
    }
    queue.next += 1;
    Some(queue.next - 1)
}

/// Keeps a block and those that waited for it.
fn hand_on(queue: &Mutex<Queue>, n: usize, played: Played) {
    let mut queue = queue.lock().unwrap_or_else(PoisonError::into_inner);
    queue.waiting.insert(n, played);
    while queue.error.is_none() {
        let next = queue.keep.next();
        let Some(played) = queue.waiting.remove(&next) else { break };
        queue.error = queue.keep.keep(&played).err();
    }
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
        Ways::default().with(cast, threads)
    }

    /// The ways of another cast: of these, those that serve it, and new ones where none does.
    ///
    /// # Errors
    /// When the threads cannot be started.
    pub fn with(&self, cast: &Cast<'_>, threads: usize) -> Result<Ways, String> {
        Ok(pool(threads)?.install(|| self.of(cast)))
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
fn first_faults(plan: &Plan, known: &[StoppedArm]) -> Vec<AtomicU64> {
    let own = |arm| known.iter().filter(move |stopped| stopped.fault.arm == arm);
    let place = |arm| own(arm).map(|stopped| stopped.place).min().unwrap_or(u64::MAX);
    (0..plan.arms.len()).map(|arm| AtomicU64::new(place(arm))).collect()
}

struct Runner<'a> {
    plan: &'a Plan,
    cast: &'a Cast<'a>,
    ways: &'a Ways,
    faults: &'a [AtomicU64],
    leg: &'a Leg<'a>,
    progress: &'a dyn Progress,
}

/// Players and event hooks of one arm, for one block.
struct Crew {
    attacker: Box<dyn Player>,
    defender: Box<dyn Player>,
    script: Option<Box<dyn EventScript>>,
}

impl Runner<'_> {
    fn block(&self, block: Block) -> Played {
        let mut part = Played::default();
        for arm in (0..self.cast.arms.len()).filter(|arm| self.leg.arms[*arm]) {
            let mut crew = self.crew(arm, block.pairing);
            let end = self.plan.games_of(arm, block.scenario);
            let games = || block.games().take_while(|game| *game < end);
            for game in games() {
                if self.plan.place(block.scenario, game) <= self.faults[arm].load(Ordering::Relaxed)
                {
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

    fn game(&self, key: GameKey, crew: &mut Crew, part: &mut Played) {
        let GameKey { arm, scenario, game } = key;
        let rules = &self.cast.arms[arm].rules;
        let table =
            Table { arena: self.cast.arenas[scenario], rules, paths: &self.ways.0[scenario][arm] };
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
                    margins: collector.margins().to_vec(),
                });
            }
            GameEnd::Faulted { fault, digest } => {
                let place = self.plan.place(scenario, game);
                self.faults[arm].fetch_min(place, Ordering::Relaxed);
                let ticket = self.plan.ticket(key, seed, digest).to_string();
                let fault = ArmFault { arm, message: fault.message, ticket };
                part.faults.push(StoppedArm { place, fault });
                // A panic may have left players and hooks in any state.
                *crew = self.crew(arm, self.plan.pairing(game));
            }
        }
    }
}
