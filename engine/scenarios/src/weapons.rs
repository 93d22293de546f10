//! The weapons behind each kind of unit, and where their ranges are from.

use std::sync::OnceLock;

use ruleshift_game::Kind;
use serde::Deserialize;

use crate::names::kind;
use crate::origin::Confidence;
use crate::text::read;

/// Weapons by kind of unit.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeaponTable {
    /// Fire, a row for each kind.
    pub fire: Vec<FireRow>,
    /// Close assault against armour; kinds without a row have nothing against it.
    pub assault: Vec<AssaultRow>,
}

/// What a kind of unit fires with.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FireRow {
    /// The kind.
    #[serde(deserialize_with = "kind")]
    pub kind: Kind,
    /// What it stands for.
    pub weapons: String,
    /// Least range in inches.
    #[serde(default)]
    pub least: i32,
    /// Ends of the near, middle and far band in inches; missing for a kind that does not fire.
    #[serde(default)]
    pub bands: Option<[i32; 3]>,
    /// Men of a full crew.
    pub men: i32,
    /// Dice of a full crew without pins.
    pub dice: i32,
    /// Where ranges are from.
    pub source: String,
    /// How sure they are.
    pub confidence: Confidence,
}

/// What a kind of unit has against armour when it assaults.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AssaultRow {
    /// The kind.
    #[serde(deserialize_with = "kind")]
    pub kind: Kind,
    /// What it stands for.
    pub weapons: String,
    /// Plate it goes through in millimetres.
    pub penetration: i32,
    /// Where it is from.
    pub source: String,
    /// How sure it is.
    pub confidence: Confidence,
}

/// The table of weapons. It tells where the numbers of the base rules are from; the rules
/// themselves do not read it, and a test holds the two together.
pub fn weapons() -> &'static WeaponTable {
    static TABLE: OnceLock<WeaponTable> = OnceLock::new();
    let text = include_str!("../forces/weapons.ron");
    TABLE.get_or_init(|| read(text).expect("the table of weapons is tested"))
}
