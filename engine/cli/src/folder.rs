//! The folder of a run: made before the first game, filled after the last.

use std::fs;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use ruleshift_record::{Arm, Plan, RunRecord, Summary, write_games};
use ruleshift_reports::Report;

use crate::exit::Failure;

/// A folder that takes one run.
pub(crate) struct Folder(PathBuf);

impl Folder {
    /// Makes the folder and writes the plan into it, so that a run that could not be kept never
    /// starts. Without a wish, the first free name under `runs` is taken.
    ///
    /// # Errors
    /// When the folder holds something already or cannot be written.
    pub(crate) fn make(wish: Option<&Path>, plan: &Plan) -> Result<Folder, Failure> {
        Folder::named(wish, &stem(plan), plan)
    }

    /// As [`Folder::make`], but of another name without a wish.
    pub(crate) fn named(wish: Option<&Path>, stem: &str, plan: &Plan) -> Result<Folder, Failure> {
        Folder::with(wish, stem, &plan.to_ron())
    }

    /// As [`Folder::named`], for any plan.
    ///
    /// # Errors
    /// When the folder holds something already or cannot be written.
    pub(crate) fn with(wish: Option<&Path>, stem: &str, plan: &str) -> Result<Folder, Failure> {
        let path = wish.map_or_else(|| free_name(stem), Path::to_path_buf);
        let taken = fs::read_dir(&path).is_ok_and(|mut entries| entries.next().is_some());
        if taken {
            let plan = path.join("plan.ron").exists();
            let holds = if plan { "an earlier run" } else { "other files" };
            return Err(Failure::Input(format!(
                "{} already holds {holds}: choose another folder with --out, or remove it first",
                path.display()
            )));
        }
        fs::create_dir_all(&path).map_err(|e| Failure::file(&path, "made", &e))?;
        let folder = Folder(path);
        folder.write("plan.ron", plan)?;
        Ok(folder)
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    /// Writes everything but the plan.
    ///
    /// # Errors
    /// The first file that cannot be written; those before it are kept.
    pub(crate) fn fill(&self, run: &RunRecord, summary: &Summary) -> Result<(), Failure> {
        let report = ruleshift_reports::build(summary, run);
        self.keep(run, &ruleshift_reports::json(summary), &report)
    }

    /// Writes the games, the answer as JSON and the report.
    ///
    /// # Errors
    /// The first file that cannot be written; those before it are kept.
    pub(crate) fn keep(&self, run: &RunRecord, json: &str, report: &Report) -> Result<(), Failure> {
        let path = self.0.join("games.csv");
        let games = fs::File::create(&path).map_err(|e| Failure::file(&path, "written", &e))?;
        write_games(run, BufWriter::new(games)).map_err(|e| Failure::file(&path, "written", &e))?;
        self.write("summary.json", json)?;
        self.write("report.md", &ruleshift_reports::markdown(report))?;
        self.write("report.html", &ruleshift_reports::html(report))
    }

    /// Writes one file.
    ///
    /// # Errors
    /// When it cannot be written.
    pub(crate) fn write(&self, name: &str, text: &str) -> Result<(), Failure> {
        let path = self.0.join(name);
        let written = fs::File::create(&path).and_then(|mut file| file.write_all(text.as_bytes()));
        written.map_err(|e| Failure::file(&path, "written", &e))
    }
}

/// Longest name of a folder, without its number.
const LONGEST: usize = 60;

/// `VARIANT,VARIANT`, as far as names of folders may go.
fn stem(plan: &Plan) -> String {
    let stem = |arm: &Arm| {
        Path::new(&arm.name)
            .with_extension("")
            .file_name()
            .map(|s| s.to_string_lossy().into_owned())
    };
    let names: Vec<String> =
        plan.compared().skip(1).filter_map(|arm| stem(&plan.arms[arm])).collect();
    plain(&names.join(","))
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
