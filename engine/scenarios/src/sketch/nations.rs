//! Which force lists a side draws on.

use super::draw::Draw;

/// The force lists of one nation by what they are good for; see `forces/` for their sources.
#[derive(Debug)]
pub(crate) struct Nation {
    /// Platoons that may fight as riflemen.
    pub(crate) rifles: &'static [&'static str],
    /// Platoons for fighting at short range, or riflemen where there are none.
    pub(crate) assault: &'static [&'static str],
    /// Machine guns on tripods.
    pub(crate) guns: &'static str,
    /// Medium mortars.
    pub(crate) mortars: &'static str,
    /// Guns against armour.
    pub(crate) anti_tank: &'static [&'static str],
    /// Armour that may carry an attack.
    pub(crate) tanks: &'static [&'static str],
    /// Armour that may come to help a defender.
    pub(crate) reserve_armour: &'static [&'static str],
}

const GERMAN: Nation = Nation {
    rifles: &["german-rifle-platoon"],
    assault: &["german-assault-platoon"],
    guns: "german-machine-gun-section",
    mortars: "german-mortar-section",
    anti_tank: &["german-anti-tank-platoon"],
    tanks: &["german-medium-tank-platoon", "german-assault-gun-platoon", "german-panther-platoon"],
    reserve_armour: &["german-assault-gun-platoon", "german-medium-tank-platoon"],
};

const BRITISH: Nation = Nation {
    rifles: &["british-rifle-platoon"],
    assault: &["british-rifle-platoon"],
    guns: "british-machine-gun-platoon",
    mortars: "british-mortar-section",
    anti_tank: &["british-anti-tank-section", "british-17-pounder-troop"],
    tanks: &["british-armoured-troop", "british-cruiser-troop", "british-infantry-tank-troop"],
    reserve_armour: &["british-armoured-troop", "british-cruiser-troop"],
};

const UNITED_STATES: Nation = Nation {
    rifles: &["us-rifle-platoon"],
    assault: &["us-rifle-platoon"],
    guns: "us-machine-gun-section",
    mortars: "us-mortar-section",
    anti_tank: &["us-anti-tank-platoon"],
    tanks: &["us-medium-tank-platoon", "us-medium-tank-platoon", "us-tank-destroyer-platoon"],
    reserve_armour: &["us-tank-destroyer-platoon", "us-medium-tank-platoon"],
};

const SOVIET: Nation = Nation {
    rifles: &["soviet-rifle-platoon", "soviet-sub-machine-gun-platoon"],
    assault: &["soviet-sub-machine-gun-platoon"],
    guns: "soviet-machine-gun-platoon",
    mortars: "soviet-mortar-platoon",
    anti_tank: &["soviet-anti-tank-platoon"],
    tanks: &["soviet-medium-tank-platoon", "soviet-assault-gun-battery"],
    reserve_armour: &["soviet-assault-gun-battery", "soviet-medium-tank-platoon"],
};

/// The nations that may meet a German force.
const OPPONENTS: [&Nation; 3] = [&BRITISH, &UNITED_STATES, &SOVIET];

/// The nations of attacker and defender.
pub(crate) fn pair(draw: &mut Draw) -> [&'static Nation; 2] {
    let mut pair = [&GERMAN, draw.pick(&OPPONENTS)];
    draw.shuffle(&mut pair);
    pair
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::library::Library;

    #[test]
    fn every_list_of_a_nation_is_one_group() {
        for nation in OPPONENTS.into_iter().chain([&GERMAN]) {
            let several = [
                nation.rifles,
                nation.assault,
                nation.anti_tank,
                nation.tanks,
                nation.reserve_armour,
            ];
            for name in several.concat().into_iter().chain([nation.guns, nation.mortars]) {
                let list = Library::shipped().list(name).unwrap_or_else(|e| panic!("{e}"));
                assert!(list.parts.is_empty(), "{name}");
            }
        }
    }
}
