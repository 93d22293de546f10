//! Running the program as a user does.

use std::ffi::OsStr;
use std::path::Path;
use std::process::Command;

use crate::support::repository;

/// What one call of the program left.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Done {
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
    /// Exit code.
    pub(crate) code: i32,
}

/// Runs the program from the root of the repository.
pub(crate) fn ruleshift<I: IntoIterator<Item: AsRef<OsStr>>>(args: I) -> Done {
    ruleshift_in(&repository::root(), args)
}

/// Runs the program from a folder.
pub(crate) fn ruleshift_in<I: IntoIterator<Item: AsRef<OsStr>>>(folder: &Path, args: I) -> Done {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
    command.args(args).current_dir(folder);
    let output = command.output().expect("the program under test can be started");
    let text = |bytes| String::from_utf8(bytes).expect("the program prints UTF-8");
    let done = Done {
        out: text(output.stdout),
        err: text(output.stderr),
        code: output.status.code().expect("no signal ends the program"),
    };
    assert!(!done.err.contains("panicked"), "{command:?}: {}", done.err);
    done
}

/// A text with one blank wherever it has blanks and ends of lines.
pub(crate) fn unfolded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Done {
    /// Asserts that it succeeded in silence on standard error.
    #[track_caller]
    pub(crate) fn fine(self) -> Done {
        assert_eq!((self.code, self.err.as_str()), (0, ""), "{}", self.out);
        self
    }

    /// Asserts that it failed with `code` and said all of `parts` on standard error, wherever the lines
    /// are folded.
    #[track_caller]
    pub(crate) fn fails(self, code: i32, parts: &[&str]) -> Done {
        assert_eq!(self.code, code, "{}{}", self.out, self.err);
        let said = unfolded(&self.err);
        for part in parts {
            assert!(said.contains(&unfolded(part)), "`{part}` is not said in:\n{}", self.err);
        }
        self
    }
}
