//! How sure a published value is.

use serde::Deserialize;

/// Whether a value was read in its source or comes from memory. Only values that were read may
/// carry a check that a release depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Confidence {
    /// Read in the source named.
    Seen,
    /// From memory, sure of it; the source named is where it should be found.
    FromMemoryHigh,
    /// From memory, likely; sources may differ by a few parts in a hundred.
    FromMemoryMedium,
    /// From memory, a plausible value.
    FromMemoryLow,
    /// Not published: chosen for the game.
    OurChoice,
}

impl Confidence {
    /// The words for a reader.
    pub const fn label(self) -> &'static str {
        match self {
            Confidence::Seen => "read in the source",
            Confidence::FromMemoryHigh => "from memory, high confidence",
            Confidence::FromMemoryMedium => "from memory, medium confidence",
            Confidence::FromMemoryLow => "from memory, low confidence",
            Confidence::OurChoice => "our choice",
        }
    }
}
