//! Finding shards, and telling what is wrong with them.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use ruleshift_record::{GamesError, Plan, Shard, ShardName};

use super::SHARDS;
use crate::exit::Failure;

/// A shard whose bytes are whole.
#[derive(Debug)]
pub(crate) struct Found {
    pub(crate) path: PathBuf,
    pub(crate) name: ShardName,
    /// Digest of its plan.
    pub(crate) plan: String,
    /// Seal of its games.
    pub(crate) seal: String,
}

/// What there is in some folders.
#[derive(Debug, Default)]
pub(crate) struct Search {
    pub(crate) shards: Vec<Found>,
    /// Files that are named as shards and are not whole, each with what is wrong.
    pub(crate) damaged: Vec<(PathBuf, String)>,
}

impl Search {
    /// Says of every damaged file what is wrong with it.
    pub(crate) fn complaints(&self) -> impl Iterator<Item = String> {
        self.damaged.iter().map(|(path, why)| format!("{}: {why}", path.display()))
    }
}

/// The shards in these folders, and in `shards` of each, that are `wanted` by name; by folder, then
/// name.
///
/// # Errors
/// A folder or file that cannot be read; a folder that is not there holds nothing.
pub(crate) fn find<'a>(
    folders: impl IntoIterator<Item = &'a Path>,
    wanted: impl Fn(&ShardName) -> bool,
) -> Result<Search, Failure> {
    let mut search = Search::default();
    for folder in folders {
        for folder in [folder.to_owned(), folder.join(SHARDS)] {
            for (name, path) in named(&folder)?.into_iter().filter(|(name, _)| wanted(name)) {
                let read = |e: io::Error| Failure::file(&path, "read", &e);
                let fits = File::open(&path).and_then(|file| name.fits(file)).map_err(read)?;
                let opened = fits.then(|| open(&path)).transpose().map_err(read)?;
                match opened {
                    None => search
                        .damaged
                        .push((path, "its bytes are not those its name tells".to_owned())),
                    Some(Err(error)) => search.damaged.push((path, error.to_string())),
                    Some(Ok((plan, seal))) => search.shards.push(Found { path, name, plan, seal }),
                }
            }
        }
    }
    Ok(search)
}

/// The files of a folder that are named as shards, by name.
fn named(folder: &Path) -> Result<Vec<(ShardName, PathBuf)>, Failure> {
    let named = entries(folder)?.into_iter().filter_map(|entry| {
        let name = entry.file_name().to_str()?.parse().ok()?;
        Some((name, entry.path()))
    });
    let mut named: Vec<_> = named.collect();
    named.sort();
    Ok(named)
}

/// What is in a folder; nothing when it is not there.
///
/// # Errors
/// When it cannot be read.
pub(crate) fn entries(folder: &Path) -> Result<Vec<fs::DirEntry>, Failure> {
    let read = match fs::read_dir(folder) {
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(vec![]),
        read => read.and_then(Iterator::collect),
    };
    read.map_err(|e| Failure::file(folder, "read", &e))
}

/// Digest of the plan and seal of a shard whose bytes are whole.
fn open(path: &Path) -> io::Result<Result<(String, String), GamesError>> {
    let file = File::open(path)?;
    Ok(Shard::open(file).and_then(|shard| Ok((shard.plan()?.to_owned(), shard.seal()?.to_owned()))))
}

/// Whether all shards are of a plan.
///
/// # Errors
/// The first one that is not.
pub(crate) fn check_plan(plan: &Plan, shards: &[Found]) -> Result<(), Failure> {
    let digest = plan.digest();
    let Some(foreign) = shards.iter().find(|found| found.plan != digest) else { return Ok(()) };
    Err(Failure::Foreign(format!(
        "{} is of another plan: the digest of its plan is {:.16}, and here it is {:.16}\n  take it \
         away, or name the folder of its own run",
        foreign.path.display(),
        foreign.plan,
        digest
    )))
}
