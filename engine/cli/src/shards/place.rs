//! Writing files so that nobody ever finds a part of one, whoever else writes there.
#![allow(clippy::disallowed_types, reason = "when a shard was written reaches no result")]

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use gethostname::gethostname;
use ruleshift_record::{Plan, ShardName};
use serde_json::{Value, json};
use tempfile::{Builder, TempPath};

use super::SHARDS;
use crate::exit::Failure;

/// How the names of half-written files begin.
pub(crate) const HALF: &str = ".half-";

/// A file under a name that nobody else uses, in the folder in which it will stay. It goes away
/// unless it is placed.
pub(crate) struct Half(TempPath);

impl Half {
    /// Begins a file in a folder.
    ///
    /// # Errors
    /// What making it says.
    pub(crate) fn begin(folder: &Path) -> io::Result<(File, Half)> {
        // Two machines may draw the same letters at the same time, but not under two names.
        let owner = format!("-{}-{}", host(), std::process::id());
        let (file, path) =
            Builder::new().prefix(HALF).suffix(&owner).tempfile_in(folder)?.into_parts();
        Ok((file, Half(path)))
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    /// Gives it its name, once all of it is on the disk. Another file of that name is replaced.
    ///
    /// # Errors
    /// What the disk says: nothing has that name then, or what had it before.
    pub(crate) fn place(self, file: &File, path: &Path) -> io::Result<()> {
        file.sync_all()?;
        self.0.persist(path).map_err(|e| e.error)?;
        sync_folder_of(path)
    }
}

/// Puts the name of a file on the disk, too.
#[cfg(unix)]
fn sync_folder_of(path: &Path) -> io::Result<()> {
    path.parent().map_or(Ok(()), |folder| File::open(folder)?.sync_all())
}

/// Elsewhere a folder cannot be opened, and renaming is as lasting as it gets.
#[cfg(not(unix))]
fn sync_folder_of(_: &Path) -> io::Result<()> {
    Ok(())
}

/// Makes the folder of a run whose parts are played apart: its plan, and the folder of its shards.
///
/// # Errors
/// When it cannot be made, or holds another plan.
pub(crate) fn settle(folder: &Path, plan: &Plan) -> Result<PathBuf, Failure> {
    let shards = folder.join(SHARDS);
    fs::create_dir_all(&shards).map_err(|e| Failure::file(&shards, "made", &e))?;
    let (path, text) = (folder.join("plan.ron"), plan.to_ron());
    let written = |e: io::Error| Failure::file(&path, "written", &e);
    if !path.exists() {
        let (mut file, half) = Half::begin(folder).map_err(written)?;
        file.write_all(text.as_bytes()).map_err(written)?;
        // Others may do the same at this moment: they write the same bytes, or are told below.
        half.place(&file, &path).map_err(written)?;
    }
    let there = fs::read_to_string(&path).map_err(|e| Failure::file(&path, "read", &e))?;
    if there == text {
        return Ok(shards);
    }
    Err(Failure::Foreign(format!(
        "{} is another plan: name another folder with --out",
        path.display()
    )))
}

/// Notes beside a shard who has played it. Nothing depends on it: when it cannot be written, nothing
/// is said.
pub(crate) fn note_owner(shards: &Path, name: &ShardName) {
    let time = SystemTime::UNIX_EPOCH.elapsed().map_or(0, |time| time.as_secs());
    let owner = json!({
        "host": host(),
        "process": std::process::id(),
        "finished_unix_seconds": time,
        "program": env!("CARGO_PKG_VERSION"),
    });
    let _ = fs::write(beside(&shards.join(name.to_string())), format!("{owner}\n"));
}

/// The host that has played a shard, when that was noted.
pub(crate) fn host_of(shard: &Path) -> Option<String> {
    let text = fs::read_to_string(beside(shard)).ok()?;
    let owner: Value = serde_json::from_str(&text).ok()?;
    owner["host"].as_str().map(str::to_owned)
}

/// The file beside a shard that tells who has played it.
pub(crate) fn beside(shard: &Path) -> PathBuf {
    shard.with_extension("json")
}

/// The name of this machine, as far as names of files may go.
fn host() -> String {
    crate::folder::plain(&gethostname().to_string_lossy())
}
