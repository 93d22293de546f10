//! A run that was killed, interrupted or out of room goes on to the same bytes. The signals and the
//! limit are those of Unix.
#![cfg(unix)]

use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::thread::sleep;
use std::time::Duration;

use tempfile::{TempDir, tempdir, tempdir_in};

use super::{CHECK, FILE, INPUT};
use crate::support::{Run, repository, ruleshift};

/// Looks at the file, 5 ms apart, before the test gives up.
const LOOKS: u32 = 20_000;
/// A run of some seconds.
const RUN: &str = "compare no-late-fire two-turn-end-cards --scenario hasty-attack,delaying-action \
                   --players steady,bold --games 2400 --quiet";

/// The folder of the run without any disturbance, played once for all tests.
fn undisturbed() -> &'static Path {
    static RUNS: OnceLock<TempDir> = OnceLock::new();
    RUNS.get_or_init(|| {
        // Nothing that is static is dropped: the folder lies where it is in nobody's way.
        let folder = tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
        let out = folder.path().join("run");
        ruleshift(RUN.split(' ').chain(["--threads", "1", "--out", out.to_str().unwrap()])).fine();
        folder
    })
    .path()
}

fn begin(out: &Path) -> Child {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
    command.args(RUN.split(' ')).args(["--threads", "2", "--out"]).arg(out);
    command.current_dir(repository::root()).stderr(Stdio::piped()).spawn().unwrap()
}

/// Waits until so many bytes of games are kept, and no file is there that is written in the end.
fn wait_for(out: &Path, bytes: u64) {
    let part = out.join("games.part");
    let length = || fs::metadata(&part).map_or(0, |file| file.len());
    let come = (0..LOOKS).any(|_| {
        sleep(Duration::from_millis(5));
        length() >= bytes
    });
    assert!(come, "no games are kept");
    assert!(!out.join("games.parquet").exists(), "the run is over before it is disturbed");
}

fn resume(out: &Path) {
    ruleshift(["resume", out.to_str().unwrap(), "--quiet"]).fine();
}

#[track_caller]
fn same(one: &Path, other: &Path) {
    let names = |folder: &Path| {
        let mut names: Vec<_> =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        names.sort();
        names
    };
    assert_eq!(names(one), names(other));
    for name in names(one) {
        let read = |folder: &Path| fs::read(folder.join(&name)).unwrap();
        assert!(read(one) == read(other), "{} differs", name.display());
    }
}

/// Killed at three moments of the same run, resumed after each, and finished.
#[test]
fn a_run_that_is_killed_again_and_again_ends_in_the_same_bytes() {
    let whole = undisturbed();
    let folder = tempdir().unwrap();
    let out = folder.path().join("run");
    let mut child = begin(&out);
    for time in 1..=3 {
        wait_for(&out, time * 500_000);
        child.kill().unwrap();
        child.wait().unwrap();
        if time == 2 {
            // The last entry is torn, as it may be when the machine goes down.
            let part = fs::OpenOptions::new().write(true).open(out.join("games.part")).unwrap();
            part.set_len(part.metadata().unwrap().len() - 1000).unwrap();
        }
        let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
        command.arg("resume").arg(&out).arg("--quiet").current_dir(repository::root());
        child = command.spawn().unwrap();
    }
    assert!(child.wait().unwrap().success());
    same(&whole.join("run"), &out);
}

#[test]
fn a_run_that_is_interrupted_has_an_answer_and_goes_on() {
    let whole = undisturbed();
    let folder = tempdir().unwrap();
    let out = folder.path().join("run");
    let child = begin(&out);
    wait_for(&out, 300_000);
    Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(CHECK), "{said}");
    assert!(said.contains(&format!("ruleshift resume {}", out.display())), "{said}");
    for name in ["games.parquet", "summary.json", "report.md", "report.html", "games.part"] {
        assert!(out.join(name).exists(), "{name}");
    }
    let again = ruleshift(
        [&RUN.split(' ').collect::<Vec<_>>()[..], &["--out", out.to_str().unwrap()]].concat(),
    );
    again.fails(INPUT, &["is not finished", "ruleshift resume"]);
    resume(&out);
    same(&whole.join("run"), &out);
}

/// A limit on the size of files stands for a disk that is full.
#[test]
fn a_run_without_room_keeps_what_it_has_and_goes_on() {
    let whole = undisturbed();
    for kilobytes in [300, 3_000] {
        let folder = tempdir().unwrap();
        let out = folder.path().join("run");
        let limited = format!("ulimit -f {kilobytes}; trap '' XFSZ; exec \"$@\"");
        let mut command = Command::new("bash");
        command.args(["-c", &limited, "bash", env!("CARGO_BIN_EXE_ruleshift-under-test")]);
        command.args(RUN.split(' ')).arg("--out").arg(&out).current_dir(repository::root());
        let output = command.output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(FILE), "{kilobytes}: {said}");
        for part in ["make room", &format!("ruleshift resume {}", out.display())] {
            assert!(said.contains(part), "{part} is not in:\n{said}");
        }
        assert!(fs::metadata(out.join("games.part")).unwrap().len() <= kilobytes * 1024);
        resume(&out);
        same(&whole.join("run"), &out);
    }
}

#[test]
fn what_cannot_be_resumed_is_told() {
    let folder = tempdir().unwrap();
    let path = folder.path().to_str().unwrap();
    ruleshift(["resume", path]).fails(INPUT, &["holds no run", "plan.ron"]);
    let run = Run::fine("no-late-fire --games 20");
    let done = run.path("");
    let told = ruleshift(["resume", done.to_str().unwrap()]).fine();
    assert!(told.out.contains("is finished"), "{}", told.out);
    // The games of another plan.
    fs::write(run.path("games.part"), b"nothing").unwrap();
    ruleshift(["resume", done.to_str().unwrap(), "--quiet"]).fine();
    let other = run.text("plan.ron").replace("seed: 1,", "seed: 2,");
    let log = folder.path().join("run");
    ruleshift([
        "compare",
        "no-late-fire",
        "--games",
        "20",
        "--quiet",
        "--out",
        log.to_str().unwrap(),
    ])
    .fine();
    fs::write(log.join("plan.ron"), other).unwrap();
    fs::write(log.join("games.part"), b"").unwrap();
    resume(&log);
    assert_ne!(
        fs::read(log.join("games.parquet")).unwrap(),
        fs::read(run.path("games.parquet")).unwrap()
    );
}
