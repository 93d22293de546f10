//! Tells whether two files hold the same games.

use std::fmt::Write as _;
use std::io::{self, Write};

use sha2::{Digest, Sha256};

use crate::GameRow;

/// A hash over games in their order: SHA-256 of every number that a game's row holds, so that two
/// seals are alike when the games are, to the bit, and else never.
#[derive(Clone, Debug, Default)]
pub struct Seal(Sha256);

impl Seal {
    /// Takes the next game in.
    pub fn take(&mut self, row: &GameRow) {
        for number in [row.arm as u64, row.scenario as u64, row.game.into(), row.seed, row.digest] {
            self.0.update(number.to_le_bytes());
        }
        for value in row.values {
            self.0.update(value.to_bits().to_le_bytes());
        }
        self.0.update((row.margins.len() as u64).to_le_bytes());
        for margin in &row.margins {
            self.0.update(margin.to_le_bytes());
        }
    }

    /// The seal of all games taken in, in 64 hexadecimal digits.
    pub fn text(&self) -> String {
        hexadecimal(&self.0.clone().finalize())
    }
}

/// SHA-256 of some bytes, in 64 hexadecimal digits.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// Bytes as hexadecimal digits.
fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").expect("a string takes all that is written");
        text
    })
}

/// A writer that knows the SHA-256 of all that went through it.
pub(crate) struct Hashed<W> {
    to: W,
    hash: Sha256,
}

impl<W> Hashed<W> {
    pub(crate) fn new(to: W) -> Hashed<W> {
        Hashed { to, hash: Sha256::default() }
    }

    /// The writer, and the hash in 64 hexadecimal digits.
    pub(crate) fn into_parts(self) -> (W, String) {
        (self.to, hexadecimal(&self.hash.finalize()))
    }
}

impl<W: Write> Write for Hashed<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.to.write(bytes)?;
        self.hash.update(&bytes[..written]);
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}
