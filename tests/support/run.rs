//! A run made by the program, read back from its folder.

use std::fs::{self, File};
use std::path::PathBuf;

use ruleshift_record::{GameRow, Metric, Plan, RunRecord, Summary, read_games};
use tempfile::TempDir;

use crate::support::{Done, ruleshift};

/// One run in a folder that goes away with it.
pub(crate) struct Run {
    folder: TempDir,
    /// What the program printed.
    pub(crate) done: Done,
}

impl Run {
    /// `compare` with these arguments, parted by blanks, into a new folder.
    pub(crate) fn start(args: &str) -> Run {
        Run::with(args.split_whitespace())
    }

    /// `compare` with these arguments into a new folder.
    pub(crate) fn with<'a>(args: impl IntoIterator<Item = &'a str>) -> Run {
        Run::of("compare", args)
    }

    /// A command that makes a run, with these arguments, into a new folder.
    pub(crate) fn of<'a>(command: &str, args: impl IntoIterator<Item = &'a str>) -> Run {
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        let out = folder.path().join("run").to_string_lossy().into_owned();
        let all = [command, "--out", &out].into_iter().map(str::to_owned);
        let done = ruleshift(all.chain(args.into_iter().map(str::to_owned)));
        Run { folder, done }
    }

    /// As [`Run::start`], quietly, and it must succeed.
    #[track_caller]
    pub(crate) fn fine(args: &str) -> Run {
        let mut run = Run::start(&format!("{args} --quiet"));
        run.done = run.done.fine();
        run
    }

    /// The path of one of its files.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join("run").join(name)
    }

    /// The text of one of its files.
    #[track_caller]
    pub(crate) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    /// The bytes of one of its files.
    #[track_caller]
    pub(crate) fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    /// One of its files, open.
    #[track_caller]
    pub(crate) fn file(&self, name: &str) -> File {
        File::open(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    /// Its plan.
    pub(crate) fn plan(&self) -> Plan {
        Plan::from_ron(&self.text("plan.ron")).expect("the plan can be read back")
    }

    /// Its games.
    pub(crate) fn games(&self) -> Vec<GameRow> {
        read_games(&self.plan(), self.file("games.parquet")).expect("the games can be read")
    }

    /// Its games of one arm, by scenario, then number.
    pub(crate) fn arm(&self, arm: usize) -> Vec<GameRow> {
        self.games().into_iter().filter(|game| game.arm == arm).collect()
    }

    /// The tickets of its games, in the order of its table of games.
    pub(crate) fn tickets(&self) -> Vec<String> {
        let record = RunRecord { plan: self.plan(), games: vec![].into(), faults: vec![] };
        self.games().iter().map(|game| record.ticket(game).to_string()).collect()
    }

    /// Its summary.
    pub(crate) fn summary(&self) -> Summary {
        serde_json::from_str(&self.text("summary.json")).expect("the summary can be read back")
    }
}

/// The mean of one metric over games.
pub(crate) fn mean(games: &[GameRow], metric: Metric) -> f64 {
    games.iter().map(|game| game.get(metric)).sum::<f64>() / games.len() as f64
}
