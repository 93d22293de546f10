//! The form of a scenario file, just as it is written.

use serde::{Deserialize, Serialize};

/// A point of the table in whole inches.
pub(crate) type Point = (i32, i32);

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum GroundName {
    Open,
    Road,
    Crops,
    Scrub,
    Wood,
    Hedge,
    Wall,
    Stream,
    Ford,
    Bridge,
    Building,
    Rubble,
    Hill,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum KindName {
    Section,
    LightGun,
    TripodGun,
    LightMortar,
    Leader,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum QualityName {
    Green,
    #[default]
    Regular,
    Veteran,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum SideName {
    Attacker,
    Defender,
}

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
    pub(crate) holder: Option<SideName>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct UnitForm {
    #[serde(default)]
    pub(crate) name: String,
    pub(crate) kind: KindName,
    #[serde(default)]
    pub(crate) quality: QualityName,
    pub(crate) men: u8,
    #[serde(default)]
    pub(crate) grade: u8,
    #[serde(default = "one")]
    pub(crate) count: i32,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroupForm {
    pub(crate) name: String,
    pub(crate) units: Vec<UnitForm>,
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
    pub(crate) spots: Vec<Point>,
    pub(crate) groups: Vec<GroupForm>,
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

fn one() -> i32 {
    1
}
