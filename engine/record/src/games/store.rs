//! Where the bytes of a log lie.

use std::io;

/// Bytes that grow at their end and can be read anywhere.
pub trait Store: Send + Sync {
    /// Fills `bytes` from `offset` on.
    ///
    /// # Errors
    /// What reading says; an end before all bytes are filled.
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()>;

    /// Puts bytes at the end.
    ///
    /// # Errors
    /// What writing says; some of the bytes may be there then.
    fn append(&mut self, bytes: &[u8]) -> io::Result<()>;

    /// Cuts everything from `length` on.
    ///
    /// # Errors
    /// What cutting says.
    fn cut(&mut self, length: u64) -> io::Result<()>;
}

/// A store in memory.
#[derive(Debug, Default)]
pub struct Memory(Vec<u8>);

impl Store for Memory {
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()> {
        let from = usize::try_from(offset).ok().and_then(|offset| self.0.get(offset..));
        let from = from.and_then(|rest| rest.get(..bytes.len()));
        bytes.copy_from_slice(from.ok_or(io::ErrorKind::UnexpectedEof)?);
        Ok(())
    }

    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.0.extend(bytes);
        Ok(())
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.0.truncate(usize::try_from(length).unwrap_or(usize::MAX));
        Ok(())
    }
}
