use parquet::file::reader::ChunkReader;

use super::*;
use crate::plan::tests::{pairing, plan};

fn game(arm: usize, scenario: usize, game: u32) -> GameRow {
    GameRow {
        arm,
        scenario,
        game,
        seed: u64::from(game).wrapping_mul(0x9e37_79b9_7f4a_7c15),
        digest: u64::MAX - u64::from(game),
        values: std::array::from_fn(|n| n as f64 / 3.0 - f64::from(game % 7)),
        margins: (0..game as i16 % 4).map(|turn| turn - game as i16 % 90).collect(),
    }
}

/// A few games of two arms and two scenarios.
pub(in crate::games) fn run() -> RunRecord {
    let games = vec![game(0, 0, 0), game(0, 1, 3), game(1, 1, 1), game(1, 1, 2)];
    RunRecord { plan: plan(), games: games.into(), faults: vec![] }
}

fn bytes(run: &RunRecord) -> Vec<u8> {
    let mut bytes = Vec::new();
    write_games(run, &mut bytes).unwrap();
    bytes
}

/// Bytes as a file that can be read.
fn file(bytes: Vec<u8>) -> impl ChunkReader + 'static {
    bytes::Bytes::from(bytes)
}

#[test]
fn games_come_back_to_the_bit() {
    let mut run = run();
    run.games = run.games.changed(|rows| {
        rows[0].values[0] = f64::MIN_POSITIVE;
        rows[1].values[0] = -0.0;
        rows[1].margins = vec![i16::MIN, 0, i16::MAX];
    });
    let rows = read_games(&run.plan, file(bytes(&run))).unwrap();
    assert_eq!(rows, *run.games.rows());
    assert_eq!(rows[1].values[0].to_bits(), (-0.0_f64).to_bits());
}

#[test]
fn no_games_are_a_table_too() {
    let run = RunRecord { games: vec![].into(), ..run() };
    assert_eq!(read_games(&run.plan, file(bytes(&run))).unwrap(), []);
}

/// More than two row groups: what a group holds does not depend on where another ends.
#[test]
fn games_of_several_row_groups_come_back() {
    let games: Vec<GameRow> = (0..2 * GROUP as u32 + 5).map(|n| game(1, 0, n)).collect();
    let run = RunRecord { games: games.into(), ..run() };
    let file = file(bytes(&run));
    assert_eq!(read_games(&run.plan, file).unwrap(), *run.games.rows());
}

#[test]
fn games_of_another_plan_are_refused_by_row() {
    let other = |change: fn(&mut Plan)| {
        let mut plan = plan();
        change(&mut plan);
        read_games(&plan, file(bytes(&run()))).unwrap_err().to_string()
    };
    let arm = other(|plan| plan.arms[1].name = "elsewhere".to_owned());
    assert_eq!(arm, "row 3: the plan has no arm `no-late-fire`");
    let scenario = other(|plan| plan.scenarios[1].name = "elsewhere".to_owned());
    assert_eq!(scenario, "row 2: the plan has no scenario `meeting-engagement`");
    let players = other(|plan| plan.pairings = vec![pairing("rash", "rash")]);
    assert!(players.starts_with("row 1: its ticket is rs1~hasty-attack"), "{players}");
}

#[test]
fn what_is_no_table_of_games_is_refused() {
    let refused = |bytes: Vec<u8>| read_games(&plan(), file(bytes)).unwrap_err().to_string();
    assert!(refused(vec![]).contains("Parquet"));
    assert!(refused(b"arm,scenario\nbase,probe\n".to_vec()).contains("Parquet"));
    let whole = bytes(&run());
    for length in (0..whole.len()).step_by(97) {
        assert!(!refused(whole[..length].to_vec()).is_empty(), "cut at {length}");
    }
}
