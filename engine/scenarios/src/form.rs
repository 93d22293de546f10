//! The form of a scenario file, just as it is written.

use serde::{Deserialize, Serialize};

use crate::names::{GroundName, KindName, QualityName, SideName};

/// A point of the table in whole inches.
pub(crate) type Point = (i32, i32);

/// A piece of terrain: the inside of a polygon, or a strip along a line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PieceForm {
    pub(crate) kind: GroundName,
    #[serde(default)]
    pub(crate) area: Vec<Point>,
    #[serde(default)]
    pub(crate) line: Vec<Point>,
    #[serde(default = "one")]
    pub(crate) width: i32,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PointsForm {
    #[serde(default)]
    pub(crate) attacker: u8,
    #[serde(default)]
    pub(crate) defender: u8,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ObjectiveForm {
    pub(crate) name: String,
    pub(crate) at: Point,
    #[serde(default)]
    pub(crate) each_turn: PointsForm,
    #[serde(default)]
    pub(crate) at_end: PointsForm,
    #[serde(default)]
    pub(crate) leaving: PointsForm,
    #[serde(default)]
    pub(crate) holder: Option<SideName>,
}

/// One line of units alike, in a scenario or a force list. A vehicle brings its kind, its crew, its
/// armour and its gun; other units say what they are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct UnitForm {
    #[serde(default)]
    pub(crate) name: String,
    #[serde(default)]
    pub(crate) kind: Option<KindName>,
    #[serde(default)]
    pub(crate) quality: Option<QualityName>,
    #[serde(default)]
    pub(crate) men: Option<u8>,
    #[serde(default)]
    pub(crate) grade: u8,
    #[serde(default = "one")]
    pub(crate) count: i32,
    #[serde(default)]
    pub(crate) vehicle: Option<String>,
    #[serde(default)]
    pub(crate) gun: Option<String>,
}

/// Where a group starts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(crate) enum StartForm {
    #[default]
    Spot,
    Feature,
    Reserve {
        turn: u8,
        entries: Vec<Point>,
    },
}

/// A group: units from a list, less those it goes `without`, and units of its own.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroupForm {
    pub(crate) name: String,
    #[serde(default)]
    pub(crate) list: Option<String>,
    #[serde(default)]
    pub(crate) quality: Option<QualityName>,
    #[serde(default)]
    pub(crate) without: Vec<String>,
    #[serde(default)]
    pub(crate) units: Vec<UnitForm>,
    #[serde(default)]
    pub(crate) start: StartForm,
}

/// A place that may hide troops.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FeatureForm {
    pub(crate) name: String,
    pub(crate) at: Point,
}

/// Guns off the table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BatteryForm {
    pub(crate) name: String,
    pub(crate) response: u8,
    pub(crate) missions: u8,
    #[serde(default)]
    pub(crate) smoke: bool,
    #[serde(default)]
    pub(crate) registered: Vec<Point>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SideForm {
    pub(crate) name: String,
    pub(crate) break_point: u8,
    #[serde(default)]
    pub(crate) dummies: u8,
    #[serde(default)]
    pub(crate) points: i16,
    #[serde(default)]
    pub(crate) spots: Vec<Point>,
    #[serde(default)]
    pub(crate) features: Vec<FeatureForm>,
    pub(crate) groups: Vec<GroupForm>,
    #[serde(default)]
    pub(crate) batteries: Vec<BatteryForm>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Scenario", deny_unknown_fields)]
pub(crate) struct ScenarioForm {
    pub(crate) title: String,
    pub(crate) about: String,
    pub(crate) turns: u8,
    pub(crate) terrain: Vec<PieceForm>,
    pub(crate) objectives: Vec<ObjectiveForm>,
    pub(crate) attacker: SideForm,
    pub(crate) defender: SideForm,
}

pub(crate) fn one() -> i32 {
    1
}
