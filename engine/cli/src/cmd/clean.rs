//! `ruleshift clean`: removes what shards have left behind.
#![allow(clippy::disallowed_types, reason = "how old a half-written file is reaches no result")]

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::args::CleanArgs;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::screen;
use crate::shards::{HALF, SHARDS, beside, entries, find};

/// A half-written file that nobody has touched for so long is nobody's.
const OLD: Duration = Duration::from_secs(3600);

pub(crate) fn run(args: &CleanArgs) -> Result<(), Failure> {
    let folder = Folder::of(&args.folder);
    folder.plan()?;
    let shards = args.folder.join(SHARDS);
    let mut old = half_written(&args.folder, args.now)?;
    old.extend(half_written(&shards, args.now)?);
    let search = find([&*args.folder], |_| true)?;
    old.extend(search.damaged.into_iter().flat_map(|(path, _)| [beside(&path), path]));
    if folder.finished() {
        old.extend(search.shards.into_iter().flat_map(|found| [beside(&found.path), found.path]));
    }
    let mut removed = 0;
    for path in old {
        removed += usize::from(remove(&path)?);
    }
    // Only when nothing is in it.
    let _ = fs::remove_dir(&shards);
    screen::show(&match removed {
        0 => "There is nothing to remove\n".to_owned(),
        1 => "1 file is removed\n".to_owned(),
        _ => format!("{removed} files are removed\n"),
    });
    Ok(())
}

/// Files of a folder that were never finished.
fn half_written(folder: &Path, now: bool) -> Result<Vec<PathBuf>, Failure> {
    let half = |entry: &fs::DirEntry| {
        entry.file_name().to_str().is_some_and(|name| name.starts_with(HALF))
    };
    let old = entries(folder)?.into_iter().filter(|entry| half(entry) && (now || is_old(entry)));
    Ok(old.map(|entry| entry.path()).collect())
}

/// A file of the future is none: clocks of several machines differ.
fn is_old(entry: &fs::DirEntry) -> bool {
    let touched = entry.metadata().and_then(|file| file.modified());
    touched
        .is_ok_and(|touched| SystemTime::now().duration_since(touched).is_ok_and(|age| age >= OLD))
}

/// Whether a file was there to be removed.
fn remove(path: &Path) -> Result<bool, Failure> {
    match fs::remove_file(path) {
        Ok(()) => Ok(true),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(e) => Err(Failure::file(path, "removed", &e)),
    }
}
