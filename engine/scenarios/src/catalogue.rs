//! The force lists for a reader.

use crate::library::Library;
use crate::lists::ForceList;

/// What a force list is, in one row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ForceSummary {
    /// Name for scenarios.
    pub name: String,
    /// Whose it is.
    pub nation: String,
    /// What it is, in a few words.
    pub about: String,
    /// All its men.
    pub men: u16,
    /// Men of those who come on the table.
    pub on_table: u16,
    /// Units on the table.
    pub units: u16,
    /// Whether one group can be made of it; a larger list names its parts.
    pub one_group: bool,
}

/// The heads of the columns of [`ForceSummary::row`].
pub const FORCE_HEADS: [&str; 5] = ["list", "units", "men", "on table", "about"];

impl ForceSummary {
    /// The row of a plain table, a text for each of [`FORCE_HEADS`].
    pub fn row(&self) -> [String; FORCE_HEADS.len()] {
        let numbers = [self.units, self.men, self.on_table].map(|number| number.to_string());
        let [units, men, on_table] = numbers;
        [self.name.clone(), units, men, on_table, self.about.clone()]
    }
}

/// All force lists, nation by nation.
pub fn force_lists() -> Vec<ForceSummary> {
    let library = Library::shipped();
    library.lists.iter().map(|list| summary(library, list)).collect()
}

/// The force list of that name, with its sources.
pub fn force_list(name: &str) -> Option<&'static ForceList> {
    Library::shipped().list(name).ok()
}

fn summary(library: &Library, list: &ForceList) -> ForceSummary {
    let tally = library.tally(list);
    ForceSummary {
        name: list.name.clone(),
        nation: list.nation.clone(),
        about: list.about.clone(),
        men: tally.on_table + tally.others,
        on_table: tally.on_table,
        units: tally.units,
        one_group: list.parts.is_empty(),
    }
}
