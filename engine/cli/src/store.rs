//! A file that grows at its end and can be read anywhere: where a run keeps its games.

use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use ruleshift_record::Store;

/// An open file.
pub(crate) struct FileStore(Mutex<File>);

impl FileStore {
    /// Opens the file at `path`, made when it is not there, and says how long it is.
    ///
    /// # Errors
    /// What opening says.
    pub(crate) fn open(path: &Path) -> io::Result<(FileStore, u64)> {
        let options =
            OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)?;
        let length = options.metadata()?.len();
        Ok((FileStore(Mutex::new(options)), length))
    }

    fn file(&self) -> MutexGuard<'_, File> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Store for FileStore {
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()> {
        let mut file = self.file();
        file.seek(SeekFrom::Start(offset))?;
        file.read_exact(bytes)
    }

    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut file = self.file();
        file.seek(SeekFrom::End(0))?;
        file.write_all(bytes)
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.file().set_len(length)
    }
}
