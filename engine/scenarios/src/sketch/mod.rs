//! Sketches: scenarios made from a seed, a mission and a terrain.
//!
//! A sketch is drawn, written as a file, and read back as any file is. One that cannot be played as
//! it should is drawn again, from the next stream of its seed. The same name gives the same text.

mod board;
mod built;
mod draft;
mod draw;
mod forces;
mod land;
mod mission;
mod name;
mod names;
mod nations;
mod pieces;
mod placing;
mod playable;
mod portion;
mod sites;
#[cfg(test)]
mod tests;
mod title;
mod words;
mod write;

use std::fmt;

use crate::library::Library;
use crate::load::{Loading, Scenario};

pub(crate) use board::{Board, point, range};
pub use name::{MOST_SKETCHES, named, several};
pub use playable::Rejection;
pub(crate) use portion::{mains, support as part_of_list};
pub use words::{Mission, Terrain};

use draft::draft;
use draw::Draw;
use playable::check;
use write::write;

/// Tries for one sketch.
const TRIES: u32 = 64;

/// What a sketch is made from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sketch {
    /// Seed of everything that is drawn.
    pub seed: u64,
    /// What the attacker is there to do.
    pub mission: Mission,
    /// How much there is on the table.
    pub terrain: Terrain,
}

/// A sketch as it came out.
#[derive(Clone)]
pub struct Sketched {
    /// The text of its scenario file.
    pub text: String,
    /// The scenario that the text gives.
    pub scenario: Scenario,
    /// Why the tries before this one were thrown away.
    pub rejected: Vec<Rejection>,
}

/// None of the tries could be played.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SketchError {
    /// What was asked for.
    pub sketch: Sketch,
    /// Why the last try was thrown away.
    pub last: Option<Rejection>,
}

impl fmt::Display for SketchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{TRIES} tries gave no {} that can be played", self.sketch)?;
        if let Some(last) = &self.last {
            write!(f, "; the last one: {last}")?;
        }
        f.write_str("\n  Another seed will do.")
    }
}

impl std::error::Error for SketchError {}

impl fmt::Display for Sketch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "sketch-{}-{}-{}", self.seed, self.mission, self.terrain)
    }
}

impl Sketch {
    /// The sketch of a seed; what is not given is drawn.
    pub fn new(seed: u64, mission: Option<Mission>, terrain: Option<Terrain>) -> Sketch {
        let mut draw = Draw::of_seed(seed);
        let (drawn, lie) = (draw.pick(Mission::ALL), draw.pick(Terrain::ALL));
        Sketch { seed, mission: mission.unwrap_or(drawn), terrain: terrain.unwrap_or(lie) }
    }

    /// Draws it until it can be played. Its scenario is called `name`.
    ///
    /// # Errors
    /// When none of the tries can be played.
    pub fn draw(self, name: &str) -> Result<Sketched, SketchError> {
        let mut rejected = vec![];
        for attempt in 0..TRIES {
            let text = self.text(attempt);
            match read(name, &text) {
                Ok(scenario) => return Ok(Sketched { text, scenario, rejected }),
                Err(rejection) => rejected.push(rejection),
            }
        }
        Err(SketchError { sketch: self, last: rejected.pop() })
    }

    /// The file of one try.
    fn text(self, attempt: u32) -> String {
        let draw = Draw::of_try(self.seed, self.mission, self.terrain, attempt);
        let form = draft(self.mission, self.terrain, draw);
        let comment = [
            format!("Drawn as {self}: {}.", self.mission.about()),
            "Places and forces are invented; the platoons are those of published tables."
                .to_owned(),
        ];
        write(&form, &comment)
    }
}

/// Reads and checks a text; lines of sight, which cost most, are worked out last and once.
fn read(name: &str, text: &str) -> Result<Scenario, Rejection> {
    let loading = Loading::read(Library::shipped(), name, text);
    let loading = loading.map_err(|error| Rejection::Faults(error.faults))?;
    check(&loading.setup)?;
    loading.finish().map_err(|error| Rejection::Faults(error.faults))
}
