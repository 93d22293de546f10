//! Running a hunt and reading it back.

use std::fs::{self, File};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};

use ruleshift_record::{GameRow, HuntPlan, HuntSummary, RunRecord, Ticket, read_games};
use tempfile::TempDir;

use crate::support::{Done, ruleshift_in};

/// A hunt in a folder of its own, whose relative paths are the same wherever it is.
pub(super) struct Hunt {
    folder: TempDir,
    pub(super) done: Done,
}

impl Hunt {
    /// `hunt` with these arguments, parted by blanks; scripts are copied beside the run.
    pub(super) fn start(args: &str, scripts: &[(&str, &str)]) -> Hunt {
        Hunt::start_of("hunt", args, scripts)
    }

    /// Another command that makes the run of a hunt.
    pub(super) fn start_of(command: &str, args: &str, files: &[(&str, &str)]) -> Hunt {
        let mut hunt = Hunt::none(files);
        let all = [command, "--out", "run"].into_iter().chain(args.split_whitespace());
        hunt.done = ruleshift_in(hunt.folder.path(), all);
        hunt
    }

    /// As [`Hunt::start_of`], and it must succeed.
    #[track_caller]
    pub(super) fn of(command: &str, args: &str, files: &[(&str, &str)]) -> Hunt {
        let mut hunt = Hunt::start_of(command, args, files);
        hunt.done = hunt.done.fine();
        hunt
    }

    /// A folder without a hunt.
    pub(super) fn none(files: &[(&str, &str)]) -> Hunt {
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        for (name, text) in files {
            fs::write(folder.path().join(name), text).expect("a file can be written");
        }
        Hunt { folder, done: Done::default() }
    }

    /// As [`Hunt::start`], quietly, and it must succeed.
    #[track_caller]
    pub(super) fn fine(args: &str, scripts: &[(&str, &str)]) -> Hunt {
        Hunt::of("hunt", &format!("{args} --quiet"), scripts)
    }

    pub(super) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join("run").join(name)
    }

    #[track_caller]
    pub(super) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    pub(super) fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap_or_else(|e| panic!("{name}: {e}"))
    }

    pub(super) fn plan(&self) -> HuntPlan {
        HuntPlan::from_ron(&self.text("plan.ron")).expect("the plan can be read back")
    }

    pub(super) fn summary(&self) -> HuntSummary {
        serde_json::from_str(&self.text("summary.json")).expect("the summary can be read back")
    }

    /// The games that judge, read back as the plan and the style found say they must be.
    pub(super) fn run(&self) -> RunRecord {
        let (hunt, found) = (self.plan(), self.summary().trail.found);
        let plan = hunt.with(&[found], hunt.judged.games_per_arm, hunt.judged.seed);
        let games =
            read_games(&plan, File::open(self.path("games.parquet")).expect("there are games"));
        RunRecord { games: games.expect("the games can be read").into(), plan, faults: vec![] }
    }

    /// The program in the same folder, begun and not waited for.
    pub(super) fn begin(&self, args: &str) -> Child {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
        command.args(args.split_whitespace()).current_dir(self.folder.path());
        command.stderr(Stdio::piped()).spawn().expect("the program can be begun")
    }

    /// The program again, in the same folder.
    pub(super) fn again(&self, args: &[&str]) -> Done {
        ruleshift_in(self.folder.path(), args)
    }
}

/// The game of a ticket.
#[track_caller]
pub(super) fn game(run: &RunRecord, ticket: &str) -> (GameRow, Ticket) {
    let ticket: Ticket = ticket.parse().unwrap();
    let known = |game: &&GameRow| run.ticket(game) == ticket;
    (
        run.games.rows().iter().find(known).expect("the ticket is of a game that judges").clone(),
        ticket,
    )
}
