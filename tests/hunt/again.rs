//! A hunt played by its plan, and one that was cut off: both end in the same bytes.

use std::fs;
use std::path::Path;

use ruleshift_record::HuntPlan;

use super::harness::Hunt;

/// Three rounds of styles, and some seconds of games that judge them.
const HUNT: &str = "quick-feet --scenario first-evening --games 24 --budget 36 --judge 96";

/// The names of the files of a hunt, and what is in them.
fn files(hunt: &Hunt) -> Vec<(String, Vec<u8>)> {
    let name = |entry: fs::DirEntry| entry.file_name().to_string_lossy().into_owned();
    let names = fs::read_dir(hunt.path("")).unwrap().map(|entry| name(entry.unwrap()));
    let mut names: Vec<String> = names.collect();
    names.sort();
    names.into_iter().map(|name| (name.clone(), fs::read(hunt.path(&name)).unwrap())).collect()
}

#[track_caller]
fn same(one: &Hunt, other: &Hunt) {
    for (one, other) in files(one).iter().zip(&files(other)) {
        assert_eq!(one.0, other.0);
        assert!(one.1 == other.1, "{} differs", one.0);
    }
    assert_eq!(files(one).len(), files(other).len());
}

#[test]
fn the_plan_of_a_hunt_is_repeated_to_the_byte() {
    let hunt = Hunt::fine(HUNT, &[]);
    let text = hunt.text("plan.ron");
    let plan: &[_] = &[("wanted.ron", &*text)];
    same(&hunt, &Hunt::of("run", "wanted.ron --threads 1 --quiet", plan));
    // Nor does it matter what the folder is called.
    hunt.again(&["run", "run", "--out", "other", "--quiet"]).fine();
    for (name, bytes) in files(&hunt) {
        let other = hunt.path("").with_file_name("other").join(&name);
        assert!(fs::read(other).unwrap() == bytes, "{name} differs");
    }
    // What a reader may leave out: digests, titles, and all that is as usual.
    let bare = HuntPlan::from_ron(&text).unwrap();
    let without = text.replace(&bare.judged.arms[1].stack[0].digest, "");
    let without = without.replace(&bare.judged.scenarios[0].digest, "");
    same(&hunt, &Hunt::of("run", "wanted.ron --quiet", &[("wanted.ron", &without)]));
}

#[test]
fn all_faults_of_the_plan_of_a_hunt_are_told_at_once() {
    let text = Hunt::fine(HUNT, &[]).text("plan.ron");
    let wrong = text
        .replace("budget: 36", "budget: 3")
        .replace("gain: 0.05", "gain: 5.0")
        .replacen("        attacker,", "        defender,", 1)
        .replace("\"first-evening\"", "\"first-evenin\"");
    let hunt = Hunt::start_of("run", "wanted.ron", &[("wanted.ron", &wrong)]);
    let parts =
        ["budget is 3", "gain is 5", "pairing 1 the defender is", "`steady`", "`first-evening`"];
    assert!(!hunt.path("").exists());
    hunt.done.fails(2, &parts);
    let unread = Hunt::start_of("run", "x.ron", &[("x.ron", "HuntPlan(\n  judge: 4,\n)")]);
    unread.done.fails(2, &["line 2:", "`judged`"]);
    let changed = text.replace("rules: ", "rules: 9");
    let hunt = Hunt::start_of("run", "wanted.ron", &[("wanted.ron", &changed)]);
    hunt.done.fails(2, &["written for rules version 9"]);
}

#[cfg(unix)]
mod cut_off {
    use std::thread::sleep;
    use std::time::Duration;

    use super::*;

    /// Looks, 2 ms apart, before the test gives up.
    const LOOKS: u32 = 60_000;

    fn length(path: &Path) -> u64 {
        fs::metadata(path).map_or(0, |file| file.len())
    }

    /// Plays on until a file of the hunt is as long as that, then kills.
    #[track_caller]
    fn kill_at(hunt: &Hunt, args: &str, file: &str, bytes: u64) {
        let mut child = hunt.begin(args);
        let come = (0..LOOKS).any(|_| {
            sleep(Duration::from_millis(2));
            length(&hunt.path(file)) >= bytes
        });
        child.kill().unwrap();
        child.wait().unwrap();
        assert!(come, "{file} does not grow");
        assert!(!hunt.path("report.html").exists(), "the hunt is over before it is disturbed");
    }

    /// Killed in its search, then while the style found is judged; finished after each.
    #[test]
    fn a_hunt_that_is_killed_goes_on_to_the_same_bytes() {
        const LONG: &str =
            "quick-feet --scenario first-evening --games 24 --budget 36 --judge 9600";
        let whole = Hunt::fine(LONG, &[]);
        let hunt = Hunt::none(&[]);
        kill_at(&hunt, &format!("hunt {LONG} --out run --quiet"), "search.part", 1);
        assert!(!hunt.path("games.part").exists(), "it still searches");
        hunt.again(&["hunt", "quick-feet", "--out", "run"]).fails(2, &["ruleshift resume run"]);

        kill_at(&hunt, "resume run --quiet", "games.part", 500_000);
        let part = fs::OpenOptions::new().write(true).open(hunt.path("games.part")).unwrap();
        part.set_len(part.metadata().unwrap().len() - 1000).unwrap();
        hunt.again(&["resume", "run", "--quiet"]).fine();
        same(&whole, &hunt);
    }

    /// What is kept of a search is not played again: where it is another, another search goes on.
    #[test]
    fn what_a_search_has_come_to_is_believed() {
        let hunt = Hunt::none(&[]);
        kill_at(&hunt, &format!("hunt {HUNT} --out run --quiet"), "search.part", 1);
        let kept = hunt.text("search.part");
        let styles = kept.lines().next().unwrap().split(' ').count();
        let quarter = format!("{:016x}", 0.25f64.to_bits());
        fs::write(hunt.path("search.part"), vec![quarter; styles].join(" ") + "\n").unwrap();
        hunt.again(&["resume", "run", "--quiet"]).fine();
        assert_eq!(hunt.summary().trail.rounds[0], (0.25, 0.25));
        assert!(!hunt.path("search.part").exists());
    }

    /// Interrupted while it judges: there is an answer, and it says that more was planned.
    #[test]
    fn a_hunt_that_is_interrupted_goes_on() {
        const LONG: &str = "quick-feet --scenario first-evening --games 12 --budget 4 --judge 9600";
        let whole = Hunt::fine(LONG, &[]);
        let mut hunt = Hunt::none(&[]);
        let child = hunt.begin(&format!("hunt {LONG} --out run --quiet"));
        let come = (0..LOOKS).any(|_| {
            sleep(Duration::from_millis(2));
            length(&hunt.path("games.part")) >= 200_000
        });
        std::process::Command::new("kill")
            .args(["-INT", &child.id().to_string()])
            .status()
            .unwrap();
        let said = String::from_utf8(child.wait_with_output().unwrap().stderr).unwrap();
        assert!(come && said.contains("interrupted: "), "{said}");
        assert!(said.contains("ruleshift resume run"), "{said}");
        assert!(hunt.summary().whole.seeds < 9600);
        hunt.done = hunt.again(&["resume", "run"]);
        // A slow machine says how far it is.
        assert_eq!(hunt.done.code, 0, "{}", hunt.done.err);
        assert!(hunt.done.out.contains("The style is run/found.ron"), "{}", hunt.done.out);
        same(&whole, &hunt);
    }
}
