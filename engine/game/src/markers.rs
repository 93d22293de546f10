//! Markers: revealing, placing troops, spotting (RULES 4, 6).

use crate::cell::Cell;
use crate::event::{Event, RevealCause};
use crate::game::Game;
use crate::kinds::Side;
use crate::luck::Purpose;
use crate::state::{MarkerId, Place, Who};

impl Game<'_> {
    /// Takes a marker off the table; its troops, if any, are to be placed next (RULES 4.5-4.8).
    pub(crate) fn reveal(&mut self, id: MarkerId, cause: RevealCause) {
        let marker = &mut self.state.markers[id as usize];
        if !marker.on_table {
            return;
        }
        marker.on_table = false;
        let (hidden, used, at) = (marker.group, marker.used, marker.at);
        if let Some(feature) = marker.feature.take() {
            let side = marker.side;
            self.state.searched[side] |= 1 << feature;
        }
        if let Some(group) = hidden {
            let turn = self.state.turn;
            let group_state = &mut self.state.groups[group as usize];
            (group_state.used, group_state.placed_at, group_state.placed_in) = (used, at, turn);
            self.state.doing.placing |= 1 << group;
        }
        if self.state.doing.marker == Some(id) {
            self.state.doing.marker = None;
        }
        self.emit(Event::MarkerRevealed { marker: id, group: hidden, cause });
    }

    /// Places the next hidden unit of the group being placed.
    pub(crate) fn place_unit(&mut self, at: Cell) {
        let group = self.state.doing.placing.trailing_zeros() as u8;
        let hidden = |&u: &u8| self.state.units[u as usize].place == Place::Hidden;
        let Some(id) = self.state.members(group).find(hidden) else { return };
        let unit = &mut self.state.units[id as usize];
        unit.place = Place::Table;
        unit.at = at;
        if unit.kind.has_facing() {
            self.face_enemy(id);
        }
        self.emit(Event::UnitPlaced { unit: id, at });
        self.reveal_around(id);
    }

    /// The owner of the marker that acts has its troops open fire (RULES 4.7).
    pub(crate) fn open_fire(&mut self) {
        if let Some(marker) = self.state.doing.marker {
            self.reveal(marker, RevealCause::OpenedFire);
        }
    }

    /// The unit or marker that acts spends an action on looking: from where, whose, who rolls.
    pub(crate) fn looker(&mut self) -> Option<(Cell, Side, Who)> {
        match (self.state.doing.unit, self.state.doing.marker) {
            (Some(id), _) => {
                let unit = &mut self.state.units[id as usize];
                unit.actions -= 1;
                Some((unit.at, unit.side, Who::Unit(id)))
            }
            (None, Some(id)) => {
                let marker = &mut self.state.markers[id as usize];
                marker.spend();
                marker.looks = marker.looks.saturating_add(marker.shows().into());
                Some((marker.at, marker.side, Who::Marker(id)))
            }
            (None, None) => None,
        }
    }

    /// The unit or marker that acts tries to spot a marker (RULES 6).
    pub(crate) fn spot(&mut self, target: MarkerId) {
        let marker = self.state.markers[target as usize];
        let Some((from, _, who)) = self.looker() else { return };
        let rules = self.table.rules;
        let band = rules.spot_band(from.range(marker.at));
        let needed =
            rules.spotting_number(band, self.table.arena.cover(marker.at), marker.moved) as u8;
        let rolled = self.state.roll(Purpose::Spot, who, 2).dice(2) as u8;
        let (unit, by) = who.unit_or_marker();
        self.emit(Event::SpotTried { unit, by, marker: target, rolled, needed });
        if rolled >= needed {
            self.reveal(target, RevealCause::Spotted);
        }
    }
}
