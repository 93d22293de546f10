//! The scenarios that come with the program.

use crate::load::Scenario;

/// Name and text of each shipped scenario.
pub const SHIPPED: [(&str, &str); 8] = [
    ("first-evening", include_str!("../files/first-evening.ron")),
    ("first-tanks", include_str!("../files/first-tanks.ron")),
    ("hasty-attack", include_str!("../files/hasty-attack.ron")),
    ("meeting-engagement", include_str!("../files/meeting-engagement.ron")),
    ("prepared-position", include_str!("../files/prepared-position.ron")),
    ("delaying-action", include_str!("../files/delaying-action.ron")),
    ("probe", include_str!("../files/probe.ron")),
    ("village-fight", include_str!("../files/village-fight.ron")),
];

/// The shipped scenario of that name.
pub fn shipped(name: &str) -> Option<Scenario> {
    let (name, text) = SHIPPED.iter().find(|(shipped, _)| *shipped == name)?;
    Some(Scenario::from_ron(name, text).expect("shipped scenarios are tested"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shipped_scenarios_can_be_played() {
        for (name, text) in SHIPPED {
            if let Err(error) = Scenario::from_ron(name, text) {
                panic!("{error}");
            }
        }
        assert!(shipped("no-such-place").is_none());
    }
}
