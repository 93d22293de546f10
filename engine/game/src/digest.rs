//! A stable 64-bit digest of a stream of words: the same on every platform and in every build.

use crate::luck::finalise;

/// A digest in the making. Not cryptographic: it guards against mistakes, not against forgery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Digest(u64);

impl Default for Digest {
    fn default() -> Self {
        Digest::new()
    }
}

impl Digest {
    /// The digest of nothing.
    pub const fn new() -> Digest {
        Digest(0x243f_6a88_85a3_08d3)
    }

    /// Adds one word.
    #[inline]
    pub const fn word(&mut self, word: u64) {
        self.0 = (self.0 ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15).rotate_left(29);
    }

    /// Adds a text: its length and its bytes.
    pub fn text(&mut self, text: &str) {
        self.word(text.len() as u64);
        for chunk in text.as_bytes().chunks(8) {
            let mut bytes = [0; 8];
            bytes[..chunk.len()].copy_from_slice(chunk);
            self.word(u64::from_le_bytes(bytes));
        }
    }

    /// The digest of all words so far.
    pub const fn value(self) -> u64 {
        finalise(self.0)
    }

    /// The high half of the digest as 8 hexadecimal digits, for names in tickets.
    pub fn short(self) -> String {
        format!("{:08x}", self.value() >> 32)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn digest(words: &[u64]) -> u64 {
        let mut digest = Digest::new();
        words.iter().for_each(|&word| digest.word(word));
        digest.value()
    }

    #[test]
    fn order_and_length_count() {
        assert_ne!(digest(&[1, 2]), digest(&[2, 1]));
        assert_ne!(digest(&[0]), digest(&[0, 0]));
        assert_ne!(digest(&[]), digest(&[0]));
    }

    #[test]
    fn the_digest_is_pinned() {
        let mut text = Digest::new();
        text.text("the same on every platform");
        assert_eq!(
            (digest(&[1, 2, 3]), text.short().as_str()),
            (6_589_680_290_733_787_190, "d98d967f")
        );
    }
}
