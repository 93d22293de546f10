//! What is hidden comes to light: markers revealed, troops placed, looking, reserves.

use ruleshift_game::{Cell, Event, GroupId, RevealCause, State, UnitId};

use super::Story;
use super::words::{capital, marker, square};

impl Story<'_> {
    pub(super) fn revealed(&self, event: &Event, state: &State) -> String {
        let Event::MarkerRevealed { marker: id, group, cause } = *event else {
            return String::new();
        };
        let why = match cause {
            RevealCause::Spotted => "is spotted",
            RevealCause::PlainSight => "is in plain sight",
            RevealCause::Contact => "is touched by the enemy",
            RevealCause::OpenedFire => "is given up to open fire",
        };
        let what = group.map_or_else(|| "a dummy".to_owned(), |group| self.group(group));
        format!("    {} {why}: {what}", capital(marker(id, state)))
    }

    pub(super) fn unit_placed(&self, unit: UnitId, at: Cell) -> String {
        format!("      {} is at {}", self.unit(unit), square(at))
    }

    pub(super) fn spot_tried(&self, event: &Event, state: &State) -> String {
        let Event::SpotTried { unit, by, marker: id, rolled, needed } = *event else {
            return String::new();
        };
        let found = if rolled >= needed { "finds it" } else { "sees nothing" };
        let (looker, marker) = (self.looker(unit, by, state), marker(id, state));
        format!("    {looker} looks for {marker}: {rolled}, {needed} needed, {found}")
    }

    pub(super) fn searched(&self, event: &Event, state: &State) -> String {
        let Event::Searched { side, feature, unit, by, rolled, needed, empty } = *event else {
            return String::new();
        };
        let found = match (rolled >= needed, empty) {
            (false, _) => "sees nothing",
            (true, true) => "nobody is there",
            (true, false) => "finds troops",
        };
        let (looker, feature) = (self.looker(unit, by, state), self.feature(side, feature));
        format!("    {looker} searches {feature}: {rolled}, {needed} needed, {found}")
    }

    pub(super) fn reserve(&self, group: GroupId, rolled: u8, needed: u8) -> String {
        let comes = if rolled >= needed { "it comes" } else { "not yet" };
        format!("    Reserve, {}: {rolled}, {needed} needed, {comes}", self.group(group))
    }
}
