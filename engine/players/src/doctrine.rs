//! Doctrines: the style of a computer player, as data.

use std::fmt;

use ruleshift_game::Digest;
use serde::{Deserialize, Serialize};

/// How much a player cares about each thing; whole numbers from 0, compared with each other.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weights {
    /// For each inch nearer to an objective it does not hold.
    pub advance: i32,
    /// For each inch nearer to an objective it holds.
    pub hold: i32,
    /// For each step of cover.
    pub cover: i32,
    /// Against each point of harm it expects to suffer in a place.
    pub caution: i32,
    /// For each point of harm it expects to do.
    pub shoot: i32,
    /// For a marker surely spotted.
    pub spot: i32,
    /// For each pin taken off.
    pub rally: i32,
    /// Harm it wants to do before it gives up a marker by opening fire.
    pub open_fire: i32,
    /// How much of `advance` weapons teams and leaders feel, in tenths.
    pub support: i32,
    /// How readily it goes for the enemy with grenade and bayonet, in tenths of what the odds say.
    pub assault: i32,
    /// For each action spent digging where it means to stay.
    pub dig: i32,
}

/// A named style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doctrine {
    /// Name, as users type it.
    pub name: String,
    /// The style in one sentence.
    pub about: String,
    /// The weights; none for the player that leaves all to chance.
    pub weights: Option<Weights>,
}

/// Name of the doctrine that leaves all to chance.
pub const CHANCE: &str = "chance";

/// The form of a doctrine's file.
#[derive(Deserialize)]
#[serde(rename = "Doctrine", deny_unknown_fields)]
struct Form {
    name: String,
    about: String,
    weights: Weights,
}

/// Why a doctrine's file cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoctrineError(String);

impl fmt::Display for DoctrineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for DoctrineError {}

impl Doctrine {
    /// Reads a doctrine from RON text.
    ///
    /// # Errors
    /// Where the text is not a doctrine, or which weight is out of range.
    pub fn from_ron(text: &str) -> Result<Doctrine, DoctrineError> {
        let Form { name, about, weights } =
            ron::from_str(text).map_err(|e| DoctrineError(e.to_string()))?;
        let faults: Vec<String> = weights
            .named()
            .iter()
            .filter(|(_, value)| !(0..=1000).contains(value))
            .map(|(weight, value)| format!("{weight} is {value}, expected 0 to 1000"))
            .collect();
        if faults.is_empty() {
            Ok(Doctrine { name, about, weights: Some(weights) })
        } else {
            Err(DoctrineError(faults.join("; ")))
        }
    }
}

impl Doctrine {
    /// Adds all that decides its choices.
    pub(crate) fn digest(&self, digest: &mut Digest) {
        digest.word(self.weights.is_some().into());
        for (name, value) in self.weights.iter().flat_map(Weights::named) {
            digest.text(name);
            digest.word(value as u64);
        }
    }
}

impl Weights {
    /// Every weight with its name.
    pub fn named(&self) -> [(&'static str, i32); 11] {
        [
            ("advance", self.advance),
            ("hold", self.hold),
            ("cover", self.cover),
            ("caution", self.caution),
            ("shoot", self.shoot),
            ("spot", self.spot),
            ("rally", self.rally),
            ("open_fire", self.open_fire),
            ("support", self.support),
            ("assault", self.assault),
            ("dig", self.dig),
        ]
    }
}

/// The shipped doctrines, weakest first.
pub fn shipped() -> Vec<Doctrine> {
    let chance = Doctrine {
        name: CHANCE.to_owned(),
        about: "Any legal choice, each as likely: the yardstick at the bottom.".to_owned(),
        weights: None,
    };
    let files = [
        include_str!("../doctrines/cautious.ron"),
        include_str!("../doctrines/steady.ron"),
        include_str!("../doctrines/bold.ron"),
    ];
    let read = |text: &&str| Doctrine::from_ron(text).expect("shipped doctrines are tested");
    std::iter::once(chance).chain(files.iter().map(read)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shipped_doctrines_are_read_under_their_names() {
        let names: Vec<String> = shipped().into_iter().map(|d| d.name).collect();
        assert_eq!(names, ["chance", "cautious", "steady", "bold"]);
    }

    #[test]
    fn a_faulty_doctrine_is_refused_with_every_weight_named() {
        let text = include_str!("../doctrines/bold.ron")
            .replace("caution: ", "caution: -")
            .replace("rally: ", "rally: 50");
        let error = Doctrine::from_ron(&text).unwrap_err().to_string();
        assert_eq!(error, "caution is -2, expected 0 to 1000; rally is 5035, expected 0 to 1000");
    }
}
