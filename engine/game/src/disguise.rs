//! States that one side cannot tell apart: what the enemy hides, dealt anew.
//!
//! A side knows the enemy's order of battle, for it stands in the scenario, and what has happened on
//! the table. Which group is under which marker, which features hide anyone, what hidden troops have
//! suffered, what batteries were told and what luck will bring, it does not know.

use crate::arena::Arena;
use crate::forces::Start;
use crate::kinds::{Kind, Quality, Side};
use crate::limits::{MAX_MARKERS, MAX_MEN};
use crate::luck::{Stream, finalise};
use crate::pieces::Origin;
use crate::setup::FEATURES;
use crate::state::{Group, GroupId, MarkerId, Place, State, Unit};

impl State {
    /// A state that `side` cannot tell from this one, drawn by `seed`: as it may well be, by the
    /// order of battle of the scenario, with luck of its own from here on.
    ///
    /// It follows from what the side knows alone: of states that differ in hidden things it makes
    /// the same.
    pub(crate) fn imagined(&self, arena: &Arena, side: Side, seed: u64) -> State {
        let mut luck = Stream::new(seed);
        let mut state = *self;
        state.deal_hidden(arena, side.other(), &mut luck);
        state.forget_calls(side.other());
        state.seed = finalise(luck.next());
        state.forget_rolls();
        state.deck.shuffle_left(state.seed, state.turn);
        state
    }

    /// A state that `side` cannot tell from this one, by `seed`: the enemy's groups change their
    /// markers and features, hidden units are whole, and his batteries were told nothing. For tests
    /// of secrecy.
    #[must_use]
    pub fn dealt_anew(&self, arena: &Arena, side: Side, seed: u64) -> State {
        let mut state = *self;
        state.deal_hidden(arena, side.other(), &mut Stream::new(seed));
        state.forget_calls(side.other());
        state
    }

    /// The same, and the enemy's hidden units are of kinds, men and quality that the scenario may not
    /// even know: to be looked at and not to be played on from.
    #[must_use]
    pub fn disguised(&self, arena: &Arena, side: Side, seed: u64) -> State {
        let mut state = self.dealt_anew(arena, side, seed);
        let mut luck = Stream::new(finalise(seed));
        let hidden = |unit: &&mut Unit| unit.side != side && unit.place == Place::Hidden;
        for unit in state.units[..self.unit_count as usize].iter_mut().filter(hidden) {
            // All kinds but the last, which never is a unit.
            unit.kind = Kind::ALL[luck.below(Kind::ALL.len() as u32 - 1) as usize];
            (unit.armour, unit.gun) = ([0; 3], None);
            unit.quality = Quality::ALL[luck.below(Quality::ALL.len() as u32) as usize];
            unit.grade = if unit.kind == Kind::Leader { 1 + luck.below(3) as u8 } else { 0 };
            unit.first_men = 1 + luck.below(MAX_MEN.into()) as u8;
            unit.men = unit.first_men;
        }
        state
    }

    /// Deals the hidden groups of a side to the markers they may be under, and makes their units
    /// whole: what has struck them there is known to their owner alone.
    fn deal_hidden(&mut self, arena: &Arena, side: Side, luck: &mut Stream) {
        self.restore_hidden(arena, side);
        for origin in Origin::ALL {
            self.deal_origin(arena, side, origin, luck);
        }
        self.deal_features(arena, side, luck);
    }

    /// Deals the groups that started in one way to the markers that did.
    fn deal_origin(&mut self, arena: &Arena, side: Side, origin: Origin, luck: &mut Stream) {
        let mut markers = [0; MAX_MARKERS];
        let mut count = 0;
        let of_origin = |id: &MarkerId| {
            let marker = &self.markers[*id as usize];
            marker.on_table && marker.side == side && marker.origin() == origin
        };
        for id in (0..self.marker_count).filter(of_origin) {
            (markers[count], count) = (id, count + 1);
        }
        let markers = &mut markers[..count];
        for last in (1..markers.len()).rev() {
            markers.swap(last, luck.below(last as u32 + 1) as usize);
        }
        for &id in &*markers {
            self.markers[id as usize].group = None;
        }
        let waits = |id: &GroupId| {
            let group = &self.groups[*id as usize];
            group.hidden(side) && group.due == 0 && started(arena, *id) == Some(origin)
        };
        for (id, &marker) in (0..self.group_count).filter(waits).zip(&*markers) {
            self.markers[marker as usize].group = Some(id);
        }
    }

    /// Whoever is still in a feature is in any that nobody has searched or come out of.
    fn deal_features(&mut self, arena: &Arena, side: Side, luck: &mut Stream) {
        let features = &arena.setup().sides[side].features;
        let left = self.markers[..self.marker_count as usize]
            .iter()
            .filter(|m| m.side == side && m.origin() == Origin::Feature && m.feature.is_none())
            .fold(0u64, |left, marker| left | 1 << (marker.spot - FEATURES));
        let closed = |n: u8| self.searched(side, n) || left >> n & 1 != 0;
        let mut open =
            (0..features.len() as u8).filter(|&n| !closed(n)).fold(0u64, |open, n| open | 1 << n);
        for marker in self.markers[..self.marker_count as usize].iter_mut() {
            if marker.on_table && marker.side == side && marker.feature.is_some() && open != 0 {
                let nth = luck.below(open.count_ones());
                let feature = (0..64u8).filter(|n| open >> n & 1 != 0).nth(nth as usize);
                let feature = feature.unwrap_or_default();
                open &= !(1 << feature);
                (marker.feature, marker.at) = (Some(feature), features[feature as usize].at);
                (marker.spot, marker.first_at) = (FEATURES + feature, marker.at);
            }
        }
    }

    /// Units that the other side has never seen are as the scenario lists them.
    fn restore_hidden(&mut self, arena: &Arena, side: Side) {
        for id in 0..self.group_count {
            let group = self.groups[id as usize];
            let Some(setup) = arena.group(id).filter(|_| group.side == side) else { continue };
            let hidden = group.hidden(side);
            self.groups[id as usize].lost_men &= !hidden;
            for (unit, listed) in self.members(id).zip(&setup.units) {
                // Of a group that is being placed, some units show and others not yet.
                let unit = &mut self.units[unit as usize];
                if hidden || unit.place == Place::Hidden {
                    *unit = Unit::enlisted(listed, side, id);
                }
            }
        }
    }

    /// What a battery was told is known to its side until it has fired.
    fn forget_calls(&mut self, side: Side) {
        let batteries = self.batteries[..self.battery_count as usize].iter_mut();
        for battery in batteries.filter(|battery| battery.side == side) {
            battery.call = battery.call.filter(|call| call.fired);
        }
    }
}

impl Group {
    /// Whether it is a group of `side` that the other side has never seen.
    fn hidden(&self, side: Side) -> bool {
        self.side == side && self.placed_in == 0 && !self.gone
    }
}

/// How a group started.
fn started(arena: &Arena, group: GroupId) -> Option<Origin> {
    arena.group(group).map(|setup| match setup.start {
        Start::Spot => Origin::Spot,
        Start::Feature => Origin::Feature,
        Start::Reserve { .. } => Origin::Reserve,
    })
}
