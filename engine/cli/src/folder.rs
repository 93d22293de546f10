//! The folder of a run: made before the first game, filled as it is played, complete in the end.
//!
//! `plan.ron` comes first. While the run is played its games go to `games.part`, from which it can be
//! resumed whatever happens. In the end `games.parquet`, the answer and the report are written, each under
//! another name until it is whole, and `games.part` goes: a folder without it is finished. A hunt keeps
//! its search in `search.part` in the same way.

use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use ruleshift_record::{GamesError, HuntPlan, Log, Plan, RunRecord, write_csv, write_games};

use crate::answer::Answer;
use crate::exit::Failure;
use crate::store::FileStore;

/// The games of a run that is not finished.
const PART: &str = "games.part";
/// What the search of a hunt that is not finished has come to.
const SEARCH: &str = "search.part";
/// The plan of a run.
const PLAN: &str = "plan.ron";
/// Behind the name of a file that is not yet whole.
const HALF: &str = ".half";
/// The file that is written last.
const LAST: &str = "report.html";

/// A folder that takes one run.
pub(crate) struct Folder(PathBuf);

impl Folder {
    /// Makes the folder and writes the plan into it, so that a run that could not be kept never
    /// starts. Without a wish, the first free name under `runs` that begins with `stem` is taken.
    ///
    /// # Errors
    /// When the folder holds something already or cannot be written.
    pub(crate) fn make(wish: Option<&Path>, stem: &str, plan: &str) -> Result<Folder, Failure> {
        let path = wish.map_or_else(|| free_name(stem), Path::to_path_buf);
        let folder = Folder(path);
        folder.free()?;
        fs::create_dir_all(&folder.0).map_err(|e| Failure::file(&folder.0, "made", &e))?;
        folder.write(PLAN, plan)?;
        Ok(folder)
    }

    /// A folder that holds a run already.
    pub(crate) fn of(path: &Path) -> Folder {
        Folder(path.to_path_buf())
    }

    /// Whether the folder is new or empty. The beginning of a plan does not count: a run that was killed
    /// while it wrote one has played nothing.
    fn free(&self) -> Result<(), Failure> {
        let begun = format!("{PLAN}{HALF}");
        let counts = |entry: io::Result<fs::DirEntry>| {
            entry.is_ok_and(|entry| entry.file_name() != OsStr::new(&begun))
        };
        let taken = fs::read_dir(&self.0).is_ok_and(|mut entries| entries.any(counts));
        if !taken {
            return Ok(());
        }
        let path = self.0.display();
        let holds = match (self.0.join(PLAN).exists(), self.finished()) {
            (true, false) => {
                return Err(Failure::Input(format!(
                    "{path} holds a run that is not finished: go on with it by \
                     `ruleshift resume {path}`, choose another folder with --out, or remove it first"
                )));
            }
            (true, true) => "an earlier run",
            (false, _) => "other files",
        };
        Err(Failure::Input(format!(
            "{path} already holds {holds}: choose another folder with --out, or remove it first"
        )))
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    /// The text of its plan.
    ///
    /// # Errors
    /// When there is none, or it cannot be read.
    pub(crate) fn plan(&self) -> Result<String, Failure> {
        let path = self.0.join(PLAN);
        fs::read_to_string(&path).map_err(|e| match e.kind() {
            io::ErrorKind::NotFound => Failure::Input(format!(
                "{} holds no run: it has no {PLAN}; a run's folder is named when the run ends, and \
                 lies under `runs` without --out",
                self.0.display()
            )),
            _ => Failure::file(&path, "read", &e),
        })
    }

    /// Whether its run is finished.
    pub(crate) fn finished(&self) -> bool {
        self.0.join(LAST).exists() && !self.0.join(PART).exists()
    }

    /// The games of `plan` as far as they are kept here.
    ///
    /// # Errors
    /// When they cannot be read, or are of another plan.
    pub(crate) fn games(&self, plan: &Plan) -> Result<Log, Failure> {
        let path = self.0.join(PART);
        let (store, length) =
            FileStore::open(&path).map_err(|e| Failure::file(&path, "written", &e))?;
        Log::open(plan, Box::new(store), length).map_err(|e| Failure::file(&path, "used", &e))
    }

    /// Writes the games, as text too if that is wished, and the answer: everything but the plan.
    ///
    /// # Errors
    /// The first file that cannot be written; those before it are kept.
    pub(crate) fn fill(&self, run: &RunRecord, answer: &Answer, csv: bool) -> Result<(), Failure> {
        let other = |e: GamesError| io::Error::other(e.to_string());
        self.place("games.parquet", |to| write_games(run, BufWriter::new(to)).map_err(other))?;
        if csv {
            self.place("games.csv", |to| write_csv(run, BufWriter::new(to)).map_err(other))?;
        }
        self.write("summary.json", &answer.json)?;
        self.write("report.md", &ruleshift_reports::markdown(&answer.report))?;
        answer.pages.iter().try_for_each(|(name, text)| self.write(name, text))?;
        self.write(LAST, &ruleshift_reports::html(&answer.report))
    }

    /// Says that the run is finished.
    ///
    /// # Errors
    /// When what it was resumed from cannot be removed.
    pub(crate) fn finish(&self) -> Result<(), Failure> {
        [SEARCH, PART].iter().try_for_each(|name| {
            let path = self.0.join(name);
            match fs::remove_file(&path) {
                Err(e) if e.kind() != io::ErrorKind::NotFound => {
                    Err(Failure::file(&path, "removed", &e))
                }
                _ => Ok(()),
            }
        })
    }

    /// What the search of its hunt had come to; nothing when it had not begun.
    pub(crate) fn search(&self) -> String {
        // A text that cannot be read is as good as none: the search begins again.
        fs::read_to_string(self.0.join(SEARCH)).unwrap_or_default()
    }

    /// Keeps what the search of its hunt has come to.
    ///
    /// # Errors
    /// When it cannot be written.
    pub(crate) fn keep_search(&self, text: &str) -> Result<(), Failure> {
        self.write(SEARCH, text)
    }

    /// Writes one file.
    ///
    /// # Errors
    /// When it cannot be written.
    pub(crate) fn write(&self, name: &str, text: &str) -> Result<(), Failure> {
        self.place(name, |to| to.write_all(text.as_bytes()))
    }

    /// Writes one file under another name, and gives it its own when it is whole.
    fn place(
        &self,
        name: &str,
        write: impl FnOnce(&mut File) -> io::Result<()>,
    ) -> Result<(), Failure> {
        let (path, half) = (self.0.join(name), self.0.join(format!("{name}{HALF}")));
        let whole = File::create(&half).and_then(|mut file| {
            write(&mut file)?;
            file.sync_data()
        });
        let placed = whole.and_then(|()| fs::rename(&half, &path));
        placed.map_err(|e| {
            // What is left of it is of no use to anyone; it may not even be there.
            let _ = fs::remove_file(&half);
            Failure::file(&path, "written", &e)
        })
    }
}

/// Longest name of a folder, without its number.
const LONGEST: usize = 60;

/// `VARIANT,VARIANT`, as far as names of folders may go.
pub(crate) fn stem(plan: &Plan) -> String {
    let names: Vec<String> =
        plan.compared().skip(1).filter_map(|arm| short(&plan.arms[arm].name)).collect();
    plain(&names.join(","))
}

/// `hunt-VARIANT`, as far as names of folders may go.
pub(crate) fn hunt_stem(hunt: &HuntPlan) -> String {
    let variant = hunt.judged.arms.get(1).and_then(|arm| short(&arm.name)).unwrap_or_default();
    plain(&format!("hunt-{variant}"))
}

/// The name of an arm without the folders and ending of a script.
pub(crate) fn short(arm: &str) -> Option<String> {
    let path = Path::new(arm).with_extension("");
    path.file_name().map(|name| name.to_string_lossy().into_owned())
}

/// A text as far as names of folders may go.
pub(crate) fn plain(text: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() || "-_+=,".contains(c) { c } else { '-' };
    text.chars().map(plain).take(LONGEST).collect()
}

/// That name under `runs`, then with `-2` behind it and so on: the first that does not exist.
fn free_name(stem: &str) -> PathBuf {
    let numbered = |n: u32| if n == 1 { stem.to_owned() } else { format!("{stem}-{n}") };
    let free = |path: &PathBuf| !path.exists();
    (1..)
        .map(|n| Path::new("runs").join(numbered(n)))
        .find(free)
        .unwrap_or_else(|| Path::new("runs").join(stem))
}
