//! Guns and vehicles by name.

use ruleshift_game::{Gun, Kind};
use serde::Deserialize;

use crate::names::kind;
use crate::nearest::unknown;
use crate::origin::Confidence;

/// All guns and vehicles that a scenario may name.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Armoury {
    /// Guns and hand-held weapons against armour.
    pub guns: Vec<GunEntry>,
    /// Vehicles.
    pub vehicles: Vec<VehicleClass>,
}

/// A gun, or a weapon that a man carries, and how much armour it goes through.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GunEntry {
    /// Name for scenarios and readers.
    pub name: String,
    /// Plate in millimetres at 100, 500 and 1000 m; see [`Gun::penetration`].
    pub penetration: [u16; 3],
    /// Whether it fires shaped charges.
    #[serde(default)]
    pub shaped: bool,
    /// Whether men carry it: a weapon of anti-tank teams, not of guns on wheels.
    #[serde(default)]
    pub hand_held: bool,
    /// Where the values are from.
    pub source: String,
    /// How sure they are.
    pub confidence: Confidence,
}

impl GunEntry {
    /// The gun as the game has it.
    pub fn gun(&self) -> Gun {
        Gun { name: self.name.clone(), penetration: self.penetration, shaped: self.shaped }
    }
}

/// A class of vehicles.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VehicleClass {
    /// Name for scenarios and readers.
    pub name: String,
    /// What it is.
    #[serde(deserialize_with = "kind")]
    pub kind: Kind,
    /// Men of its crew.
    pub crew: u8,
    /// Its gun against armour, by name.
    #[serde(default)]
    pub gun: Option<String>,
    /// Armour along the line of fire in millimetres: front, flank, rear; 0 for none.
    #[serde(default)]
    pub armour: [u8; 3],
    /// Where the values are from.
    pub source: String,
    /// How sure those of front and flank are.
    pub confidence: Confidence,
    /// How sure that of the rear is.
    pub rear: Confidence,
}

impl Armoury {
    /// The gun of that name, held by hand or not.
    ///
    /// # Errors
    /// The nearest name, and all that fit.
    pub(crate) fn gun(&self, name: &str, hand_held: bool) -> Result<&GunEntry, String> {
        let mut fitting = self.guns.iter().filter(|gun| gun.hand_held == hand_held);
        let names = fitting.clone().map(|gun| gun.name.as_str());
        let what = if hand_held { "hand-held weapon" } else { "gun" };
        fitting.find(|gun| gun.name == name).ok_or_else(|| unknown(what, name, names))
    }

    /// The class of vehicles of that name.
    ///
    /// # Errors
    /// The nearest name, and all there are.
    pub(crate) fn vehicle(&self, name: &str) -> Result<&VehicleClass, String> {
        let names = self.vehicles.iter().map(|vehicle| vehicle.name.as_str());
        let found = self.vehicles.iter().find(|vehicle| vehicle.name == name);
        found.ok_or_else(|| unknown("vehicle", name, names))
    }
}
