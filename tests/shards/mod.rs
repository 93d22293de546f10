//! One plan played in parts, on as many machines as one likes, is the same run to the byte. The signals
//! are those of Unix.
#![cfg(unix)]

mod cut;
mod kill;
mod many;
mod refuse;
mod room;
mod stop;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use tempfile::{TempDir, tempdir, tempdir_in};

use crate::support::{Done, repository, ruleshift};

/// A comparison of a second or two, cut into 32 blocks.
const COMPARE: &str =
    "compare steady-nerves --scenario first-evening --players steady,bold --games 2000";

/// What is the same for all tests: the plan, and its run without shards.
pub(crate) struct Whole {
    folder: TempDir,
}

impl Whole {
    fn get() -> &'static Whole {
        static WHOLE: OnceLock<Whole> = OnceLock::new();
        WHOLE.get_or_init(|| {
            // Nothing that is static is dropped: the folder lies where it is in nobody's way.
            let folder = tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
            let whole = Whole { folder };
            let plan = whole.plan();
            let write = COMPARE.split(' ').chain(["--plan-only", plan.to_str().unwrap()]);
            let said = ruleshift(write).fine().out;
            assert!(said.contains("play it by `ruleshift run"), "{said}");
            let out = whole.run();
            ruleshift(["run", plan.to_str().unwrap(), "--quiet", "--out", out.to_str().unwrap()])
                .fine();
            whole
        })
    }

    /// The plan.
    fn plan(&self) -> PathBuf {
        self.folder.path().join("plan.ron")
    }

    /// The folder of its run.
    fn run(&self) -> PathBuf {
        self.folder.path().join("whole")
    }
}

/// A folder in which the plan is played in parts.
struct Parts {
    _folder: TempDir,
    out: PathBuf,
    whole: &'static Whole,
}

impl Parts {
    fn new() -> Parts {
        let folder = tempdir().unwrap();
        Parts { out: folder.path().join("run"), _folder: folder, whole: Whole::get() }
    }

    /// A command of the program on this folder, begun from the root of the repository.
    fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
        command.args(words).current_dir(repository::root());
        command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// `shard` of that part into this folder, with more words.
    fn shard_command(&self, part: &str, more: &[&str]) -> Command {
        let (plan, out) = (self.whole.plan(), self.out.clone());
        let words =
            ["shard", part, "--plan", plan.to_str().unwrap(), "--out", out.to_str().unwrap()];
        self.command(&[&words[..], more].concat())
    }

    fn shard(&self, part: &str) -> Done {
        let plan = self.whole.plan();
        let words =
            ["shard", part, "--plan", plan.to_str().unwrap(), "--out", self.out.to_str().unwrap()];
        ruleshift(words)
    }

    /// Plays all of `n` parts.
    fn shards(&self, n: u32) {
        for k in 0..n {
            self.shard(&format!("{k}/{n}")).fine();
        }
    }

    /// A command that takes the folder first.
    fn on(&self, command: &str, more: &[&str]) -> Done {
        ruleshift([&[command, self.out.to_str().unwrap()], more].concat())
    }

    fn merge(&self) -> Done {
        self.on("merge", &["--quiet"])
    }

    /// The files of the shards, in order.
    fn files(&self) -> Vec<PathBuf> {
        let mut files = listed(&self.out.join("shards"));
        files.retain(|path| path.extension().is_some_and(|kind| kind == "parquet"));
        files
    }

    /// Merges and cleans, and the folder must be that of the whole run to the byte.
    #[track_caller]
    fn come_to_the_whole(&self) {
        self.merge().fine();
        self.on("clean", &["--now"]).fine();
        same(&self.whole.run(), &self.out);
    }
}

/// The files of a folder in order; none when it is not there.
fn listed(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

#[track_caller]
fn same(one: &Path, other: &Path) {
    let names = |folder: &Path| {
        let name = |path: PathBuf| path.file_name().unwrap().to_owned();
        listed(folder).into_iter().map(name).collect::<Vec<_>>()
    };
    assert_eq!(names(one), names(other));
    for name in names(one) {
        let read = |folder: &Path| fs::read(folder.join(&name)).unwrap();
        assert!(read(one) == read(other), "{} differs", name.display());
    }
}
