//! The closed lists of the game by the names that files use: `kind: light_gun`.

use ruleshift_game::{Ground, Kind, Quality, Side};
use serde::{Deserialize, Deserializer, Serialize};

/// A list of names with a function to the game's list of the same names.
macro_rules! names {
    ($name:ident => $list:ident { $($value:ident),* $(,)? }) => {
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub(crate) enum $name { $($value),* }

        impl From<$name> for $list {
            fn from(name: $name) -> $list {
                match name { $($name::$value => $list::$value),* }
            }
        }
    };
}

names! {
    GroundName => Ground {
        Open, Road, Crops, Scrub, Wood, Hedge, Wall, Stream, Ford, Bridge, Building, Rubble, Hill,
        Trench, Wire, Minefield,
    }
}

names! {
    KindName => Kind {
        Section, AssaultSection, LightGun, TripodGun, LightMortar, MediumMortar, AntiTankTeam,
        FlameTeam, Leader, Observer, AntiTankGun, Tank, AssaultGun, Carrier, Truck, Battery,
    }
}

names! { QualityName => Quality { Green, Regular, Veteran } }

names! { SideName => Side { Attacker, Defender } }

/// Reads a kind by its name.
pub(crate) fn kind<'de, D: Deserializer<'de>>(from: D) -> Result<Kind, D::Error> {
    KindName::deserialize(from).map(Kind::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Files and scripts use the same words: `light_gun` and `LIGHT_GUN`.
    #[test]
    fn every_value_of_the_game_has_its_name() {
        for (kind, name) in Kind::ALL.iter().zip(Kind::CONSTANTS) {
            let read: KindName = ron::from_str(&name.to_lowercase()).unwrap();
            assert_eq!(Kind::from(read), *kind);
        }
        for (ground, name) in Ground::ALL.iter().zip(Ground::CONSTANTS) {
            let name = name.trim_start_matches("GROUND_").to_lowercase();
            let read: GroundName = ron::from_str(&name).unwrap();
            assert_eq!(Ground::from(read), *ground);
        }
        for (quality, name) in Quality::ALL.iter().zip(Quality::CONSTANTS) {
            let read: QualityName = ron::from_str(&name.to_lowercase()).unwrap();
            assert_eq!(Quality::from(read), *quality);
        }
    }
}
