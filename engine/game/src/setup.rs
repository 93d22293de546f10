//! Setting up: forces under markers, markers on their spots (RULES 4.1).

use crate::event::Event;
use crate::game::Game;
use crate::kinds::{BySide, Side};
use crate::luck::{Purpose, Stream};
use crate::script::Happening;
use crate::state::{Marker, Place, State, Unit};

impl Game<'_> {
    /// Puts forces under their markers and markers on their spots (RULES 4.1).
    pub(crate) fn set_up(&mut self) {
        for &side in Side::ALL {
            let first_marker = self.state.marker_count;
            self.enlist(side);
            self.add_dummies(side);
            self.deal_spots(side, first_marker);
        }
        for (n, objective) in self.table.arena.objectives().iter().enumerate() {
            self.state.holders[n] = objective.holder;
        }
        self.state.points = BySide([0, 1].map(|n| self.table.arena.setup().sides.0[n].points));
        for marker in 0..self.state.marker_count {
            self.emit(Event::MarkerPlaced { marker, at: self.state.markers[marker as usize].at });
        }
        self.happen(Happening::GameStart);
    }

    fn enlist(&mut self, side: Side) {
        for setup in &self.table.arena.setup().sides[side].groups {
            let state = &mut self.state;
            let id = state.group_count;
            let group = &mut state.groups[id as usize];
            group.side = side;
            group.first_unit = state.unit_count;
            group.units = setup.units.len() as u8;
            group.first_men = setup.units.iter().map(|unit| u16::from(unit.men)).sum();
            for unit in &setup.units {
                let empty = state.units[state.unit_count as usize];
                state.units[state.unit_count as usize] = Unit {
                    side,
                    group: id,
                    kind: unit.kind,
                    quality: unit.quality,
                    grade: unit.grade,
                    men: unit.men,
                    first_men: unit.men,
                    place: Place::Hidden,
                    ..empty
                };
                state.unit_count += 1;
            }
            state.group_count += 1;
            add_marker(state, side, Some(id));
        }
    }

    fn add_dummies(&mut self, side: Side) {
        let setup = &self.table.arena.setup().sides[side];
        let room = setup.spots.len() - setup.groups.len();
        let wanted = self.table.rules.dummy_markers(side, setup.dummies) as usize;
        for _ in 0..wanted.min(room) {
            add_marker(&mut self.state, side, None);
        }
    }

    /// Deals the side's spots to its markers by keyed priorities.
    fn deal_spots(&mut self, side: Side, first: u8) {
        let spots = &self.table.arena.setup().sides[side].spots;
        let seed = self.state.seed;
        let priority = |n: usize| {
            Stream::keyed(seed, Purpose::Setup, 0, (side as u16) << 8 | n as u16, 0).next()
        };
        let mut taken = 0u128;
        for marker in &mut self.state.markers[first as usize..self.state.marker_count as usize] {
            let free = (0..spots.len()).filter(|&n| taken >> n & 1 == 0);
            let Some(spot) = free.min_by_key(|&n| priority(n)) else { return };
            taken |= 1 << spot;
            (marker.at, marker.spot) = (spots[spot], spot as u8);
        }
        // Numbers in the order of the table, not of the list: the enemy sees them.
        self.state.markers[first as usize..self.state.marker_count as usize]
            .sort_by_key(|marker| marker.at.index());
    }
}

fn add_marker(state: &mut State, side: Side, group: Option<u8>) {
    let empty = state.markers[state.marker_count as usize];
    state.markers[state.marker_count as usize] = Marker { side, group, on_table: true, ..empty };
    state.marker_count += 1;
}
