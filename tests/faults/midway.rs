//! Rules that fail in the middle of games: the arm stops alone.

use super::{CHECK, script};
use crate::support::{Run, ruleshift, unfolded};

/// Divides by zero when a leader's card is the ninth of turn 4: in a few games of a hundred.
const ZERO: &str = r"
fn on_card_drawn(game, card, owner) {
    if card == LEADER_CARD && game.turn == 4 && game.cards_drawn == 9 { let share = 6 / (game.turn - game.turn); }
}";

/// Names a unit that no scenario has, in turn 3.
const ILLEGAL: &str = "fn on_turn_end(game, turn) { if turn == 3 { game.add_pins(95, 1); } }";

struct Faulty {
    _folder: tempfile::TempDir,
    path: String,
}

fn faulty(body: &str) -> Faulty {
    let folder = tempfile::tempdir().unwrap();
    let path = script(folder.path(), "faulty.rhai", body);
    ruleshift(["check", "--no-games", &path]).fine();
    Faulty { path, _folder: folder }
}

#[test]
fn the_arm_stops_alone_and_everything_played_is_written() {
    let rule = faulty(ZERO);
    let run = Run::with(["three-marker-actions", &rule.path, "no-late-fire", "--games", "300"]);
    let done = &run.done;
    assert_eq!(done.code, CHECK);
    for part in ["faulty.rhai` stopped after", "turn ", "faulty.rhai:4:", "zero", "ticket: rs"] {
        assert!(unfolded(&done.err).contains(part), "{part} is not in:\n{}", done.err);
    }
    for name in ["report.md", "report.html"] {
        assert!(run.text(name).contains("stopped"), "{name} says so");
    }
    let played = |arm| run.arm(arm).len();
    assert_eq!([played(0), played(1), played(3)], [300, 300, 300], "the other arms finish");
    assert!(played(2) < 300);
    let summary = run.summary();
    assert_eq!(summary.faults.len(), 1);
    assert_eq!((summary.faults[0].arm, summary.arms[2].games as usize), (2, played(2)));
    assert!(summary.caveats.iter().any(|caveat| caveat.contains("stopped")));
}

#[test]
fn games_before_the_fault_are_those_of_a_shorter_run() {
    let rule = faulty(ZERO);
    let run = Run::with([&rule.path, "--games", "300", "--quiet"]);
    let kept = run.arm(1);
    assert!(!kept.is_empty(), "the seed gives some games before the fault");
    assert!(kept.iter().all(|game| run.arm(0).iter().any(|other| other.seed == game.seed)));
    for shift in run.summary().metrics {
        assert_eq!(shift.pairs as usize, kept.len(), "only pairs are compared");
    }
}

#[test]
fn the_ticket_of_a_fault_reproduces_it() {
    for (body, said) in [(ZERO, "zero"), (ILLEGAL, "there is no unit 95")] {
        let rule = faulty(body);
        let run = Run::with([&rule.path, "--games", "200", "--quiet"]);
        assert_eq!(run.done.code, CHECK);
        let fault = &run.summary().faults[0];
        assert!(fault.message.contains(said), "{}", fault.message);
        let told = ruleshift(["replay", &fault.ticket, "--no-board"]);
        assert!(told.out.contains("The game stopped: turn "), "{}", told.err);
        assert!(told.out.contains(said), "{}", told.out);
        let turn = fault.message.split(':').next().unwrap();
        assert!(told.out.contains(turn), "{turn}, and no other");
    }
}

#[test]
fn where_an_arm_stops_does_not_depend_on_threads() {
    let rule = faulty(ZERO);
    let run = |threads: &str| {
        let args = [&rule.path, "no-late-fire", "--games", "400", "--quiet", "--threads", threads];
        Run::with(args)
    };
    let one = run("1");
    for threads in ["2", "8"] {
        let other = run(threads);
        assert_eq!(one.done, other.done);
        for name in ["games.parquet", "summary.json", "report.md", "report.html"] {
            assert!(one.bytes(name) == other.bytes(name), "{name} differs on {threads} threads");
        }
    }
}

/// The reference may fail as well: then there is nothing to compare with, and that is said.
#[test]
fn a_reference_that_fails_leaves_a_run_that_says_so() {
    let rule = faulty("fn on_game_start(game) { game.add_pins(0, 1); }");
    let run = Run::with(["no-late-fire", "--base", &rule.path, "--games", "20"]);
    assert_eq!(run.done.code, CHECK);
    assert!(run.done.err.contains("stopped after 0 games"), "{}", run.done.err);
    assert_eq!(run.arm(1).len(), 20);
    assert!(run.text("report.md").contains("stopped"));
}

/// Divides by zero at the end of turn 3 when the dice of the script make a certain number: in one
/// game of 1,296, and with the usual seed first some 700 games in. Script dice depend on nothing
/// else, so no change of the rules moves this.
const LATE: &str = "
fn on_turn_end(game, turn) {
    if turn == 3 {
        let dice = 0;
        for die in 0..4 { dice = dice * 6 + game.roll() - 1; }
        let share = 6 / (dice - 136);
    }
}";
/// Where the division stands in the file.
const PLACE: &str = "faulty.rhai:7:23";

/// A fault deep in a run: the other arms finish, everything is written, and the ticket of the
/// game tells it up to the fault, which has its place in the script.
#[test]
fn a_fault_in_a_late_game_is_told_with_its_place() {
    let rule = faulty(LATE);
    let run = Run::with(["no-late-fire", &rule.path, "three-marker-actions", "--games", "1000"]);
    assert_eq!(run.done.code, CHECK);
    let played = |arm| run.arm(arm).len();
    assert_eq!([played(0), played(1), played(3)], [1000, 1000, 1000], "the other arms finish");
    assert!((600..800).contains(&played(2)), "{} games before the fault", played(2));
    let summary = run.summary();
    let [fault] = &summary.faults[..] else { panic!("{} faults", summary.faults.len()) };
    for name in ["plan.ron", "games.parquet", "report.md", "report.html"] {
        assert!(!run.bytes(name).is_empty(), "{name}");
    }
    let stopped = format!("stopped after {} games", played(2));
    for part in [PLACE, "turn 3: ", "division by zero", &stopped, &fault.ticket] {
        assert!(unfolded(&run.done.err).contains(part), "{part} is not in:\n{}", run.done.err);
    }
    assert!(fault.message.contains(PLACE), "{}", fault.message);
    let told = ruleshift(["replay", &fault.ticket, "--no-board"]).fine();
    let turns = ["\nTurn 1: ", "\nTurn 2: ", "\nTurn 3: "].map(|turn| told.out.find(turn));
    assert!(turns.is_sorted() && turns[0].is_some(), "the game is told up to there: {turns:?}");
    assert!(!told.out.contains("\nTurn 4: "), "and no further");
    let end = told.out.split("The game stopped: turn 3: ").nth(1).expect("it says that it stopped");
    assert!(end.contains(PLACE) && end.contains("division by zero"), "{end}");
}
