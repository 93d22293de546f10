//! Sweeps, crossed variants, tunings and comparisons that stop early, through the program.

use std::fs;
use std::path::Path;
use std::process::Command;

use ruleshift_record::{
    CrossSummary, CrossWord, Metric, SweepSummary, TuneAnswer, TuneSummary, Verdict,
};
use serde::de::DeserializeOwned;
use tempfile::tempdir;

use crate::support::{Run, repository, ruleshift};

const INPUT: i32 = 2;

fn fine(command: &str, args: &str) -> Run {
    let mut run = Run::of(command, args.split_whitespace().chain(["--quiet"]));
    run.done = run.done.fine();
    run
}

fn answer<T: DeserializeOwned>(run: &Run) -> T {
    serde_json::from_str(&run.text("summary.json")).expect("the answer can be read back")
}

/// The same files with the same bytes.
#[track_caller]
fn same(one: &Path, other: &Path) {
    for name in ["plan.ron", "games.parquet", "summary.json", "report.md", "report.html"] {
        let read = |folder: &Path| fs::read(folder.join(name)).unwrap();
        assert!(read(one) == read(other), "{name} differs");
    }
}

#[track_caller]
fn plays_again(run: &Run) {
    let again = fine("run", run.path("plan.ron").to_str().unwrap());
    same(&run.path(""), &again.path(""));
}

/// Turn-end cards make turns shorter, whatever else they do: the more of them, the fewer cards are
/// drawn, j n / (k + 1) of n when the first of k ends the turn.
#[test]
fn a_sweep_shows_what_more_turn_end_cards_do() {
    let run = fine(
        "sweep",
        "first-of-two-turn-end-cards:cards=2..4 --scenario first-evening --games 600 --metric \
         cards_per_turn,attacker_wins --target cards_per_turn=0.8",
    );
    let summary: SweepSummary = answer(&run);
    let curve = summary.curves.iter().find(|c| c.metric == "cards_per_turn").unwrap();
    let means: Vec<f64> = curve.means.iter().map(|mean| mean.mean).collect();
    assert!(means.is_sorted_by(|a, b| a > b), "{means:?}");
    assert_eq!(
        (curve.values.as_slice(), curve.trend.verdict),
        (&[2, 3, 4][..], Verdict::ClearShift)
    );
    let names: Vec<String> = run.plan().arms.iter().map(|arm| arm.name.clone()).collect();
    assert_eq!(names[0], "base");
    assert_eq!(names[3], "first-of-two-turn-end-cards:cards=4");
    plays_again(&run);
}

#[test]
fn a_grid_is_swept_with_two_options() {
    let run = fine(
        "sweep",
        "two-turn-end-cards:cards=1,2 tougher-sides:more=0,20 --scenario first-evening --games 64",
    );
    let summary: SweepSummary = answer(&run);
    assert_eq!((run.plan().arms.len(), summary.grids[0].means.len()), (5, 2));
    plays_again(&run);
}

/// Two scripts that take each other's change back: alone each shifts, together nothing does.
#[test]
fn tweaks_that_cancel_are_said_to_cancel() {
    let folder = tempdir().unwrap();
    let script = |name: &str, body: &str| {
        let path = folder.path().join(name);
        let head = format!("fn about() {{ #{{ title: \"{name}\", summary: \"S.\" }} }}");
        fs::write(&path, format!("{head}\n{body}\n")).unwrap();
        path.display().to_string()
    };
    let more = script("eager.rhai", "fn marker_actions(now) { now + 2 }");
    let fewer = script("tardy.rhai", "fn marker_actions(now) { now - 2 }");
    let args = format!(
        "{more} {fewer} --scenario hasty-attack --games 1200 --metric first_contact,attacker_wins"
    );
    let run = fine("cross", &args);
    let summary: CrossSummary = answer(&run);
    let contact = summary.pairs.iter().find(|pair| pair.metric == "first_contact").unwrap();
    assert_eq!(contact.word, CrossWord::Cancel, "{contact:?}");
    assert_eq!(
        (contact.together.value, contact.together.low, contact.together.high),
        (0.0, 0.0, 0.0)
    );
    assert!(contact.first.value < 0.0 && contact.second.value > 0.0);
    assert!(summary.headline.iter().any(|line| line.contains("cancel")), "{:?}", summary.headline);
    plays_again(&run);
}

#[test]
fn a_fraction_is_played_with_its_generator() {
    let variants = "no-late-fire quick-feet halved-pins no-dummies";
    let run =
        fine("cross", &format!("{variants} --fraction half --scenario first-evening --games 64"));
    let summary: CrossSummary = answer(&run);
    assert_eq!((run.plan().arms.len(), summary.plan.generators), (8, vec!["D = ABC".to_owned()]));
    plays_again(&run);
    let three = "no-late-fire quick-feet halved-pins --fraction half --games 9";
    let done = Run::of("cross", three.split_whitespace()).done;
    done.fails(INPUT, &["four to six variants, not of 3", "leave out --fraction"]);
}

const TUNE: &str = "first-of-two-turn-end-cards:cards=2..4 --target cards_per_turn=0.7 --notice \
                    cards_per_turn=0.1 --scenario first-evening --games 6000";

/// The answer of a tuning is that of the means of all games, played plainly.
#[test]
fn a_tuning_finds_the_value_that_all_games_would_name() {
    let run = fine("tune", TUNE);
    let summary: TuneSummary = answer(&run);
    let played = fine(
        "sweep",
        "first-of-two-turn-end-cards:cards=2..4 --metric cards_per_turn --scenario first-evening \
         --games 3000 --seed 77",
    );
    let whole: SweepSummary = answer(&played);
    let curve = whole.curves.iter().find(|c| c.metric == "cards_per_turn").unwrap();
    for setting in summary.settings.iter().filter(|s| s.value.fract() == 0.0) {
        let mean = curve.means[setting.value as usize - 2];
        let (low, high) = setting.interval.unwrap();
        assert!(low < mean.high && mean.low < high, "{setting:?} {mean:?}");
    }
    let named = match summary.answer {
        TuneAnswer::Found { value } => value,
        TuneAnswer::Between { nearest } => nearest,
        other => panic!("{other:?}"),
    };
    let away = |value: f64| {
        let mean = |value: f64| curve.means[value as usize - 2].mean;
        (f64::midpoint(mean(value.floor()), mean(value.ceil())) - 0.7).abs()
    };
    assert!(away(named) < 0.1, "{named}: {}", away(named));
    assert!(summary.games < 3 * 6000, "values that are far off get fewer games");
    plays_again(&run);
}

#[test]
fn what_no_value_reaches_is_an_answer_through_the_program() {
    let args =
        "two-turn-end-cards:cards=1..2 --target minutes=400 --scenario first-evening --games 600";
    let summary: TuneSummary = answer(&fine("tune", args));
    assert!(matches!(summary.answer, TuneAnswer::NoneReaches { below: true, .. }));
}

/// Killed between its legs and within them, a tuning goes on to the same bytes.
#[test]
#[cfg(unix)]
fn a_tuning_that_is_killed_goes_on_to_the_same_answer() {
    let whole = fine("tune", TUNE);
    let folder = tempdir().unwrap();
    let out = folder.path().join("run");
    let mut kills = 0;
    for bytes in [100_000, 300_000, 600_000] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
        if kills == 0 {
            command.arg("tune").args(TUNE.split_whitespace()).arg("--out").arg(&out);
        } else {
            command.arg("resume").arg(&out);
        }
        let mut child = command.arg("--quiet").current_dir(repository::root()).spawn().unwrap();
        let part = out.join("games.part");
        let length = || fs::metadata(&part).map_or(0, |file| file.len());
        while length() < bytes && child.try_wait().unwrap().is_none() {
            std::thread::sleep(std::time::Duration::from_millis(2));
        }
        kills += u32::from(child.try_wait().unwrap().is_none());
        child.kill().unwrap();
        child.wait().unwrap();
    }
    assert!(kills > 0, "the tuning was over before it was killed");
    ruleshift(["resume", out.to_str().unwrap(), "--quiet"]);
    same(&whole.path(""), &out);
}

#[test]
fn a_comparison_stops_when_all_is_clear() {
    let run =
        fine("compare", "two-turn-end-cards --until clear --scenario first-evening --games 20000");
    let summary = run.summary();
    let looks = summary.looks.as_ref().expect("it was looked at");
    assert_eq!(looks.planned.last(), Some(&20_000));
    let played = looks.planned[looks.done as usize - 1];
    assert_eq!(summary.arms[1].games, played, "it ends at a look");
    let headline = summary.metrics.iter().filter(|m| m.headline);
    let open = headline.filter(|m| m.verdict == Verdict::Undecided).count();
    assert_eq!(open == 0, looks.all_decided);
    assert!(looks.all_decided || looks.done as usize == looks.planned.len());
    assert!(looks.spent <= 0.05);
    for page in ["report.md", "report.html"] {
        let look = format!("look {} of {}", looks.done, looks.planned.len());
        let text = run.text(page);
        assert!(text.contains("looks") && text.contains(&look), "{page} says how often it looked");
    }
    plays_again(&run);
    // Each rule that changes nothing is decided at once, and still within the cap.
    let null = fine("compare", "base --until clear --scenario first-evening --games 20000");
    assert!(null.summary().arms[1].games < 20_000);
}

#[test]
fn a_comparison_stops_when_the_interval_is_narrow() {
    let run = fine("compare", "quick-feet --precision 3% --scenario first-evening --games 20000");
    let summary = run.summary();
    let wins = Metric::AttackerWins.spec().name;
    let shift = summary.metrics.iter().find(|m| m.metric == wins).unwrap();
    assert!((shift.high - shift.low) / 2.0 <= 0.03, "{} to {}", shift.low, shift.high);
    assert!(summary.arms[1].games < 20_000 && summary.arms[1].games >= 200);
    plays_again(&run);
}

#[test]
fn all_faults_of_a_question_are_told_at_once() {
    let typed =
        "two-turn-end-cards:card=1..3 --target minits=3 --scenario first-evning --notice turns=0";
    let done = Run::of("sweep", typed.split_whitespace()).done;
    done.fails(
        INPUT,
        &["did you mean `cards`?", "did you mean `minutes`?", "`first-evening`", "above 0"],
    );
    let typed = "quick-feet --precision 80%";
    Run::of("compare", typed.split_whitespace()).done.fails(INPUT, &["up to 50 %"]);
}

/// The timing table of a file is that of the run, and changes the time at the table alone.
#[test]
fn the_timing_table_of_a_file_counts() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("club.ron");
    ruleshift(["new", "timing", "--out", path.to_str().unwrap()]).fine();
    let text = fs::read_to_string(&path).unwrap();
    let args = "quick-feet --scenario first-evening --games 64";
    let usual = fine("compare", args);
    let timed = |text: &str| {
        fs::write(&path, text).unwrap();
        Run::with(args.split_whitespace().chain(["--quiet", "--timing", path.to_str().unwrap()]))
    };
    assert_eq!(timed(&text).games(), usual.games());
    let mut faulty = timed("(cart: 3.0, turn: -1.0)");
    faulty.done = faulty.done.fails(INPUT, &["club.ron", "`card`", "turn"]);
    let slow = timed("(turn: 1000.0)");
    let minutes = |run: &Run| run.games().iter().map(|g| g.get(Metric::Minutes)).sum::<f64>();
    assert!(minutes(&slow) > 1.5 * minutes(&usual));
    let turns = |run: &Run| run.games().iter().map(|g| g.get(Metric::Turns)).sum::<f64>();
    assert_eq!(turns(&slow), turns(&usual));
}
