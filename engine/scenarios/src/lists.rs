//! The form of a force list: a platoon, a company or a piece of support from published tables.

use serde::Deserialize;

use crate::form::{UnitForm, one};
use crate::origin::Confidence;

/// The force lists of one nation, as a file has them.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ForceFile {
    pub(crate) nation: String,
    pub(crate) lists: Vec<ForceList>,
}

/// A force list. Its men are those of its units, who come on the table, and the others, who do not,
/// or those of its parts; they add up to the published total.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ForceList {
    /// Name for scenarios, such as `us-rifle-platoon`.
    pub name: String,
    /// What it is, in a few words.
    pub about: String,
    /// Whose it is; the file says it once.
    #[serde(skip)]
    pub nation: String,
    /// The total that the tables give.
    pub published: Published,
    /// Officers and non-commissioned officers among the men, where the tables give them.
    #[serde(default)]
    pub leaders: Option<u16>,
    /// Where the published total is from.
    pub source: String,
    /// How sure it is.
    pub confidence: Confidence,
    /// What comes on the table.
    #[serde(default)]
    pub(crate) units: Vec<UnitForm>,
    /// Men who stay off it.
    #[serde(default)]
    pub others: Vec<Others>,
    /// The lists it is made of, when it is too large for one group.
    #[serde(default)]
    pub parts: Vec<Part>,
}

/// What a published total counts, and the least and the most that it allows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Published {
    /// All men.
    Men(u16, u16),
    /// Vehicles.
    Vehicles(u16, u16),
    /// Guns, mortars, machine guns or hand-held weapons with crews of their own.
    Weapons(u16, u16),
}

/// Men of a list who do not fight on the table.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Others {
    /// Who they are.
    pub what: String,
    /// How many.
    pub men: u16,
}

/// A list inside another.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Its name.
    pub list: String,
    /// How many of it.
    #[serde(default = "one")]
    pub count: i32,
}
