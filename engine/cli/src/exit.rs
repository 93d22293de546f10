//! How the program ends when it does not succeed: every way in which it can fail, with its code.

use std::fmt;
use std::path::Path;
use std::process::ExitCode;

/// The codes, for `--help`.
pub(crate) const CODES: &str = "Exit codes:\n   \
    0  done\n   \
    1  a check failed: faults in a script, a replay that differs, an arm that\n      \
       stopped early, a run that was interrupted\n   \
    2  something typed is wrong: an option, a name, a script, a scenario, a\n      \
       ticket\n   \
    3  a file or folder cannot be read or written\n   \
    4  shards are missing, or damaged\n   \
    5  shards overlap\n   \
    6  a shard is of another plan\n   \
    7  two shards have different results for the same games\n  \
    75  a shard was stopped, or out of room: try again";

/// Code of what may succeed when it is tried again.
pub(crate) const AGAIN: u8 = 75;

/// Why the program stops.
#[derive(Debug)]
pub(crate) enum Failure {
    /// What was to be checked is not as it should be. Code 1.
    Check(String),
    /// Something the user typed, or a file the user named, is wrong. Code 2.
    Input(String),
    /// A file or folder cannot be read or written. Code 3.
    File(String),
    /// Shards that are needed are not there. Code 4.
    Missing(String),
    /// Shards that share games and are not the same. Code 5.
    Overlap(String),
    /// A shard of another plan. Code 6.
    Foreign(String),
    /// Two results for the same games. Code 7.
    Differ(String),
    /// A shard that was stopped, or out of room: trying again may help. Code 75, which schedulers
    /// know as a failure that passes (`EX_TEMPFAIL` of the BSD header sysexits.h).
    Again(String),
}

impl Failure {
    pub(crate) fn code(&self) -> ExitCode {
        ExitCode::from(match self {
            Failure::Check(_) => 1,
            Failure::Input(_) => 2,
            Failure::File(_) => 3,
            Failure::Missing(_) => 4,
            Failure::Overlap(_) => 5,
            Failure::Foreign(_) => 6,
            Failure::Differ(_) => 7,
            Failure::Again(_) => AGAIN,
        })
    }

    /// A file that could not be `done` (read, written).
    pub(crate) fn file(path: &Path, done: &str, error: &dyn fmt::Display) -> Failure {
        Failure::File(format!("{} cannot be {done}: {error}", path.display()))
    }
}

/// A word that was typed wrongly.
impl From<String> for Failure {
    fn from(message: String) -> Failure {
        Failure::Input(message)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Failure::Check(message)
            | Failure::Input(message)
            | Failure::File(message)
            | Failure::Missing(message)
            | Failure::Overlap(message)
            | Failure::Foreign(message)
            | Failure::Differ(message)
            | Failure::Again(message) => f.write_str(message),
        }
    }
}

/// What came of looking something up; what is wrong with it joins the other faults.
pub(crate) fn keep<T>(result: Result<T, Failure>, faults: &mut Vec<Failure>) -> Option<T> {
    result.map_err(|failure| faults.push(failure)).ok()
}

/// One failure out of several: what was typed wrongly weighs more than what cannot be read.
pub(crate) fn together(mut faults: Vec<Failure>) -> Failure {
    if faults.len() == 1 {
        return faults.remove(0);
    }
    let text = faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    if faults.iter().all(|f| matches!(f, Failure::File(_))) {
        Failure::File(text)
    } else {
        Failure::Input(text)
    }
}
