//! An answer takes nearly the same memory for few and for many games: they lie in a file, and are read
//! a column at a time.
//!
//! Bytes are those asked of the allocator by this thread, so that the same run counts the same.

#[allow(dead_code, reason = "tests of the suite use the rest of it")]
mod made;

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::sync::Mutex;

use made::{BASE, CARDS};
use ruleshift_record::{GameRow, Games, Log, Played, RunRecord, Store, write_games};
use ruleshift_reports::{build, html, summarise};

/// A file that goes away by itself.
struct Disk(Mutex<File>);

impl Store for Disk {
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()> {
        let mut file = self.0.lock().unwrap();
        file.seek(SeekFrom::Start(offset))?;
        file.read_exact(bytes)
    }

    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        let file = self.0.get_mut().unwrap();
        file.seek(SeekFrom::End(0))?;
        file.write_all(bytes)
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.0.get_mut().unwrap().set_len(length)
    }
}

/// A made run of `games` in each arm whose games lie in a file.
fn kept(games: u32) -> RunRecord {
    let arms = [BASE, CARDS];
    let plan = made::plan(&arms, games);
    let mut log =
        Log::begin(&plan, Box::new(Disk(Mutex::new(tempfile::tempfile().unwrap())))).unwrap();
    for block in plan.blocks(plan.rounds()) {
        let game = |(arm, made), number| made::game(arm, made, block.scenario, number);
        let of = |arm| block.games().map(move |number| game(arm, number));
        let rows: Vec<GameRow> = arms.iter().enumerate().flat_map(of).collect();
        log.keep(&Played { games: rows, faults: vec![] }).unwrap();
    }
    RunRecord { plan, games: Games::from(log), faults: vec![] }
}

/// The most bytes held at once while something is done with the games.
fn held(work: impl FnOnce()) -> u64 {
    allocation_counter::measure(work).bytes_max
}

/// Prints what was measured, for whoever runs with `--nocapture`.
#[expect(clippy::print_stdout, reason = "figures for whoever asks for them")]
fn told(what: &str, few: (u32, u64), many: (u32, u64)) {
    let each = (many.1 as f64 - few.1 as f64) / f64::from(many.0 - few.0);
    println!(
        "{what}: {} bytes of {} games, {} of {}: {each:.1} for each game more",
        few.1, few.0, many.1, many.0
    );
}

/// Whether so many more games take `each` bytes more for each at most.
#[track_caller]
fn flat(what: &str, [few, many]: [u32; 2], each: u64, measure: impl Fn(&RunRecord) -> u64) {
    let [small, large] = [few, many].map(|games| measure(&kept(games)));
    told(what, (few, small), (many, large));
    let limit = small + u64::from(many - few) * each;
    assert!(large <= limit, "{what}: {large} bytes after {small}, more than {limit}");
}

/// For each further game of an arm: two columns as pairs, where in them each value is found, and a few
/// bytes more. Two more columns of all games at once are too much.
#[test]
fn ten_times_the_games_take_a_few_bytes_more_for_each() {
    flat("the answer", [2_000, 20_000], 40, |run| held(|| drop(summarise(run))));
    flat("its page", [2_000, 20_000], 40, |run| {
        let summary = summarise(run);
        held(|| drop(html(&build(&summary, run))))
    });
}

/// A table holds one row group and no more, of which there is more than one here; further games take but
/// a few bytes that say where their row groups and blocks lie.
#[test]
fn a_table_of_games_holds_one_row_group() {
    let write = |run: &RunRecord| held(|| write_games(run, io::sink()).unwrap());
    flat("the table of games", [20_000, 40_000], 1, write);
}
