//! What a sketch says about itself.

use super::forces::Force;
use super::words::{Mission, Terrain};

/// The title of a sketch at an invented place.
pub(crate) fn title(mission: Mission, place: &str) -> String {
    let what = match mission {
        Mission::Attack => "Attack on",
        Mission::Meeting => "Meeting engagement at",
        Mission::Prepared => "The trenches before",
        Mission::Delay => "Rearguard at",
        Mission::Probe => "Probe towards",
        Mission::Village => "Village fight at",
    };
    format!("{what} {place}")
}

/// What it is about, in one sentence.
pub(crate) fn about(mission: Mission, terrain: Terrain, forces: [&Force; 2]) -> String {
    let [attacker, defender] = forces.map(|force| force.sections);
    let land = match terrain {
        Terrain::Open => "Open land",
        Terrain::Mixed => "Mixed land",
        Terrain::Close => "Close land",
    };
    format!("{land}, {attacker} sections against {defender}: {}.", mission.about())
}

/// What the attacker's force is called.
pub(crate) fn force(mission: Mission, of: &str) -> String {
    let what = match mission {
        Mission::Meeting => "Column",
        Mission::Delay => "Advance party",
        Mission::Probe => "Patrol",
        _ => "Company",
    };
    format!("{what} of the {of}")
}

/// What the defender's force is called.
pub(crate) fn garrison(mission: Mission, of: &str) -> String {
    let what = match mission {
        Mission::Meeting => "Advance guard",
        Mission::Delay => "Rearguard",
        Mission::Probe => "Picket",
        Mission::Prepared | Mission::Village => "Garrison",
        Mission::Attack => "Outpost",
    };
    format!("{what} of the {of}")
}
