//! Setting up: forces under markers, markers on their spots (RULES 4.1).

use crate::event::Event;
use crate::forces::{Start, UnitSetup};
use crate::game::Game;
use crate::happening::Happening;
use crate::kinds::{BySide, Side};
use crate::luck::{Purpose, Stream};

use crate::state::{Battery, GroupId, Marker, Place, State, Unit};

/// Keys the luck that deals features, apart from that of spots.
const HIDDEN: u16 = 0x1000;
/// Numbers of features and reserves as spots of their markers, beyond those of real spots.
pub(crate) const FEATURES: u8 = 0x80;
pub(crate) const RESERVES: u8 = 0xc0;

impl Game<'_> {
    /// Puts forces under their markers and markers on their spots (RULES 4.1).
    pub(crate) fn set_up(&mut self) {
        for &side in Side::ALL {
            let first_marker = self.state.marker_count;
            self.enlist(side);
            self.mark(side, |start| *start == Start::Spot);
            self.add_dummies(side);
            self.deal_spots(side, first_marker);
            self.hide_in_features(side);
            self.keep_reserves(side);
        }
        for (n, objective) in self.table.arena.objectives().iter().enumerate() {
            self.state.holders[n] = objective.holder;
        }
        for (side, setup) in self.table.arena.batteries() {
            let battery = Battery { side, missions: setup.missions, call: None };
            self.state.batteries[self.state.battery_count as usize] = battery;
            self.state.battery_count += 1;
        }
        self.state.points = BySide([0, 1].map(|n| self.table.arena.setup().sides.0[n].points));
        for marker in 0..self.state.marker_count {
            if self.state.markers[marker as usize].shows() {
                let at = self.state.markers[marker as usize].at;
                self.emit(Event::MarkerPlaced { marker, at });
            }
        }
        self.happen(Happening::GameStart {});
    }

    /// Adds a marker for each group of the side that starts so.
    fn mark(&mut self, side: Side, wanted: impl Fn(&Start) -> bool) {
        for group in 0..self.state.group_count {
            let starts = self.table.arena.group(group).is_some_and(|setup| wanted(&setup.start));
            if self.state.groups[group as usize].side == side && starts {
                add_marker(&mut self.state, side, Some(group));
            }
        }
    }

    /// Deals the side's features to the groups that start in them (RULES 15.1).
    fn hide_in_features(&mut self, side: Side) {
        let first = self.state.marker_count;
        self.mark(side, |start| *start == Start::Feature);
        let features = &self.table.arena.setup().sides[side].features;
        let mut taken = 0u128;
        for marker in &mut self.state.markers[first as usize..self.state.marker_count as usize] {
            let key = HIDDEN | u16::from(side as u8) << 8;
            let Some(n) = deal(self.state.seed, key, features.len(), &mut taken) else { return };
            (marker.at, marker.spot) = (features[n].at, FEATURES + n as u8);
            marker.first_at = marker.at;
            marker.feature = Some(n as u8);
        }
    }

    /// Reserves wait off the table with their markers (RULES 15.6).
    fn keep_reserves(&mut self, side: Side) {
        let first = self.state.marker_count;
        self.mark(side, |start| matches!(start, Start::Reserve { .. }));
        for id in first..self.state.marker_count {
            let marker = &mut self.state.markers[id as usize];
            (marker.on_table, marker.spot) = (false, RESERVES + (id - first));
        }
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
                state.units[state.unit_count as usize] = Unit::enlisted(unit, side, id);
                state.unit_count += 1;
            }
            if let Start::Reserve { turn, .. } = setup.start {
                state.groups[id as usize].due = turn;
            }
            state.group_count += 1;
        }
    }

    fn add_dummies(&mut self, side: Side) {
        let setup = &self.table.arena.setup().sides[side];
        let taken = setup.groups.iter().filter(|group| group.start == Start::Spot).count();
        let room = setup.spots.len() - taken;
        let wanted = self.table.rules.dummy_markers(side, setup.dummies) as usize;
        for _ in 0..wanted.min(room) {
            add_marker(&mut self.state, side, None);
        }
    }

    /// Deals the side's spots to its markers by keyed priorities.
    fn deal_spots(&mut self, side: Side, first: u8) {
        let spots = &self.table.arena.setup().sides[side].spots;
        let mut taken = 0u128;
        for marker in &mut self.state.markers[first as usize..self.state.marker_count as usize] {
            let key = (side as u16) << 8;
            let Some(spot) = deal(self.state.seed, key, spots.len(), &mut taken) else { return };
            (marker.at, marker.spot) = (spots[spot], spot as u8);
            marker.first_at = marker.at;
        }
        // Numbers in the order of the table, not of the list: the enemy sees them.
        self.state.markers[first as usize..self.state.marker_count as usize]
            .sort_by_key(|marker| marker.at.index());
    }
}

impl Unit {
    /// A unit as the scenario lists it, hidden yet.
    pub(crate) fn enlisted(listed: &UnitSetup, side: Side, group: GroupId) -> Unit {
        Unit {
            side,
            group,
            kind: listed.kind,
            quality: listed.quality,
            grade: listed.grade,
            men: listed.men,
            first_men: listed.men,
            place: Place::Hidden,
            armour: listed.armour,
            gun: listed.gun,
            ..Unit::EMPTY
        }
    }
}

/// The place of the highest priority among those not taken, which is taken now.
fn deal(seed: u64, key: u16, places: usize, taken: &mut u128) -> Option<usize> {
    let priority = |n: usize| Stream::keyed(seed, Purpose::Setup, 0, key | n as u16, 0).next();
    let free = (0..places).filter(|&n| *taken >> n & 1 == 0);
    let place = free.min_by_key(|&n| priority(n))?;
    *taken |= 1 << place;
    Some(place)
}

fn add_marker(state: &mut State, side: Side, group: Option<u8>) {
    let empty = state.markers[state.marker_count as usize];
    state.markers[state.marker_count as usize] = Marker { side, group, on_table: true, ..empty };
    state.marker_count += 1;
}
