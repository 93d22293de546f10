//! A log gives back what was kept in it, whatever happens to its end.

use std::io;
use std::sync::{Arc, Mutex};

use super::*;
use crate::plan::tests::{pairing, plan};
use crate::{ArmFault, GameKey, Plan, RunRecord};

/// Bytes that are shared, and may have little room.
#[derive(Clone, Default)]
struct Disk(Arc<Mutex<Vec<u8>>>, Option<usize>);

impl Store for Disk {
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()> {
        let all = self.0.lock().unwrap();
        let from = all.get(offset as usize..).and_then(|rest| rest.get(..bytes.len()));
        bytes.copy_from_slice(from.ok_or(io::ErrorKind::UnexpectedEof)?);
        Ok(())
    }

    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut all = self.0.lock().unwrap();
        let room = self.1.map_or(bytes.len(), |most| bytes.len().min(most - all.len()));
        all.extend(&bytes[..room]);
        if room < bytes.len() { Err(io::ErrorKind::StorageFull.into()) } else { Ok(()) }
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.0.lock().unwrap().truncate(length as usize);
        Ok(())
    }
}

impl Disk {
    fn length(&self) -> u64 {
        self.0.lock().unwrap().len() as u64
    }
}

/// Two arms, two scenarios, two pairings, 300 games an arm: two rounds, the second not full.
pub(crate) fn three_hundred() -> Plan {
    Plan {
        games_per_arm: 300,
        pairings: vec![pairing("steady", "steady"), pairing("bold", "steady")],
        ..plan()
    }
}

fn row(GameKey { arm, scenario, game }: GameKey) -> GameRow {
    let value = |n: usize| (n + arm) as f64 / 3.0 + f64::from(game) * 7.0 + scenario as f64;
    let seed = u64::from(game) * 77 + scenario as u64;
    // Some games end sooner than others, and margins have either sign.
    let margin = |turn: u32| (turn * (game + 3) % 41) as i16 - 20 + arm as i16;
    let margins = (0..game % 9 + scenario as u32).map(margin).collect();
    let values = std::array::from_fn(value);
    GameRow { arm, scenario, game, seed, digest: seed ^ 5, values, margins }
}

pub(crate) fn played(plan: &Plan) -> Vec<Played> {
    let block = |block: crate::Block| {
        let of = |arm| {
            let key = move |game| GameKey { arm, scenario: block.scenario, game };
            block.games().map(move |game| row(key(game)))
        };
        Played { games: (0..plan.arms.len()).flat_map(of).collect(), faults: vec![] }
    };
    plan.blocks(plan.rounds()).into_iter().map(block).collect()
}

fn kept(plan: &Plan, blocks: &[Played], memory: &Disk) -> Log {
    let mut log = Log::begin(plan, Box::new(memory.clone())).unwrap();
    blocks.iter().for_each(|block| log.keep(block).unwrap());
    log
}

fn open(plan: &Plan, memory: &Disk) -> Log {
    Log::open(plan, Box::new(memory.clone()), memory.length()).unwrap()
}

/// The same games, held.
fn held(blocks: &[Played]) -> Games {
    blocks.iter().flat_map(|block| block.games.clone()).collect::<Vec<_>>().into()
}

/// The margins by turn of every game of an arm, sorted: in which order they come is not said.
fn courses(games: &Games, arm: usize) -> Vec<Vec<i16>> {
    let mut courses = Vec::new();
    games.margins(arm, &mut |margins| courses.push(margins.to_vec()));
    courses.sort();
    courses
}

#[track_caller]
fn same(kept: &Games, held: &Games) {
    assert_eq!(kept.rows(), held.rows());
    for arm in 0..2 {
        assert_eq!(kept.count(arm), held.count(arm));
        assert!(kept.keys(arm).eq(held.keys(arm)));
        assert_eq!(kept.spans(arm), held.spans(arm));
        assert_eq!(courses(kept, arm), courses(held, arm));
        for metric in [Metric::AttackerWins, Metric::Margin, Metric::Decisions] {
            assert_eq!(kept.column(arm, metric), held.column(arm, metric));
        }
        for (scenario, game) in [(0, 0), (1, 149), (0, 128), (1, 7), (1, 300)] {
            assert_eq!(kept.row(arm, scenario, game), held.row(arm, scenario, game));
        }
    }
    assert_eq!(kept.failure(), None);
}

#[test]
fn games_come_back_in_order_from_any_beginning_of_a_run() {
    let plan = three_hundred();
    let all = played(&plan);
    assert_eq!(all.len(), 8);
    for blocks in 0..=all.len() {
        let memory = Disk::default();
        let log = kept(&plan, &all[..blocks], &memory);
        same(&log.into(), &held(&all[..blocks]));
        let again = open(&plan, &memory);
        assert_eq!(again.kept(), blocks);
        same(&again.into(), &held(&all[..blocks]));
    }
}

#[test]
fn readers_may_be_shown_a_beginning_of_what_is_kept() {
    let plan = three_hundred();
    let mut all = played(&plan);
    let fault = ArmFault { arm: 0, message: "late".into(), ticket: String::new() };
    all[5].faults.push(StoppedArm { place: plan.place(0, 100), fault });
    let mut log = kept(&plan, &all, &Disk::default());
    assert_eq!(log.faults().count(), 1);
    log.show(3);
    assert_eq!((log.kept(), log.faults().count()), (8, 0));
    same(&log.into(), &held(&all[..3]));
}

/// However many bytes are missing at the end, the whole blocks before are kept, and the log goes on
/// from there to the same bytes.
#[test]
fn a_torn_end_is_cut_off_and_played_again() {
    let plan = Plan { games_per_arm: 6, ..three_hundred() };
    let all = played(&plan);
    let whole = Disk::default();
    kept(&plan, &all, &whole);
    for length in 0..whole.length() {
        let memory =
            Disk(Arc::new(Mutex::new(whole.0.lock().unwrap()[..length as usize].to_vec())), None);
        let mut log = open(&plan, &memory);
        let blocks = log.kept();
        assert!(blocks < all.len());
        all[blocks..].iter().for_each(|block| log.keep(block).unwrap());
        assert!(*memory.0.lock().unwrap() == *whole.0.lock().unwrap(), "cut at {length}");
    }
}

#[test]
fn a_changed_byte_ends_what_is_trusted() {
    let plan = Plan { games_per_arm: 6, ..three_hundred() };
    let all = played(&plan);
    let memory = Disk::default();
    kept(&plan, &all, &memory);
    let middle = memory.length() as usize * 3 / 4;
    memory.0.lock().unwrap()[middle] ^= 1;
    assert_eq!(open(&plan, &memory).kept(), 2);
}

#[test]
fn a_full_disk_leaves_a_log_that_goes_on() {
    let plan = three_hundred();
    let all = played(&plan);
    let whole = Disk::default();
    kept(&plan, &all, &whole);
    let memory = Disk(Arc::default(), Some(whole.length() as usize * 2 / 3));
    let mut log = Log::begin(&plan, Box::new(memory.clone())).unwrap();
    let fits = all.iter().take_while(|block| log.keep(block).is_ok()).count();
    assert!(0 < fits && fits < all.len());
    same(&log.into(), &held(&all[..fits]));
    let mut log = open(&plan, &Disk(memory.0.clone(), None));
    all[fits..].iter().for_each(|block| log.keep(block).unwrap());
    assert!(*memory.0.lock().unwrap() == *whole.0.lock().unwrap());
}

#[test]
fn the_games_of_another_plan_are_refused() {
    let plan = three_hundred();
    let memory = Disk::default();
    kept(&plan, &[], &memory);
    let other = Plan { seed: 2, ..plan };
    let error = Log::open(&other, Box::new(memory.clone()), memory.length()).unwrap_err();
    assert_eq!(error.to_string(), "its games are of another plan or version");
}

/// Games of an arm behind its first fault do not count, whatever was played of them.
#[test]
fn a_fault_ends_its_arm_at_its_place() {
    let plan = three_hundred();
    let mut all = played(&plan);
    let stopped = |scenario, game| StoppedArm {
        place: plan.place(scenario, game),
        fault: ArmFault { arm: 1, message: format!("game {game}"), ticket: String::new() },
    };
    all[6].faults.push(stopped(1, 140));
    all[3].faults.push(stopped(1, 77));
    let log = kept(&plan, &all, &Disk::default());
    assert_eq!(log.faults().map(|f| &*f.fault.message).collect::<Vec<_>>(), ["game 77"]);
    let games = Games::from(log);
    let key = |row: &GameRow| (row.scenario, row.game);
    let expected =
        |row: &&GameRow| row.arm == 1 && plan.place(row.scenario, row.game) < plan.place(1, 77);
    let all = held(&all);
    let expected: Vec<_> = all.rows().iter().filter(expected).map(key).collect();
    assert_eq!((games.keys(1).collect(), games.count(0)), (expected, 300));
    assert_eq!(games.keys(1).count(), 78 + 77);
}

#[test]
fn the_table_of_kept_games_is_that_of_held_ones() {
    let plan = three_hundred();
    let all = played(&plan);
    let text = |games: Games| {
        let mut text = Vec::new();
        write_games(&RunRecord { plan: plan.clone(), games, faults: vec![] }, &mut text).unwrap();
        text
    };
    let log = kept(&plan, &all, &Disk::default());
    assert!(text(log.into()) == text(held(&all)));
}

#[test]
fn a_file_that_is_gone_is_a_failure_and_no_panic() {
    let plan = three_hundred();
    let memory = Disk::default();
    let games = Games::from(kept(&plan, &played(&plan), &memory));
    memory.0.lock().unwrap().clear();
    assert!(games.column(0, Metric::Margin).is_empty());
    assert!(courses(&games, 0).is_empty());
    assert!(games.failure().unwrap().contains("end"), "{:?}", games.failure());
}
