//! States that one side cannot tell apart: what the enemy hides, dealt anew.

use crate::arena::Arena;
use crate::kinds::{Kind, Quality, Side};
use crate::limits::MAX_MEN;
use crate::luck::Stream;
use crate::state::{MarkerId, Place, State, Unit};

impl State {
    /// A state that `side` cannot tell from this one: the enemy's markers change what they hide
    /// among themselves, and his hidden units are of other kinds, men and quality. By `seed`.
    #[must_use]
    pub fn disguised(&self, arena: &Arena, side: Side, seed: u64) -> State {
        let mut luck = Stream::new(seed);
        let mut state = *self;
        state.deal_hidden_groups(side.other(), &mut luck);
        state.deal_features(arena, side.other(), &mut luck);
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

    /// Groups hidden in features are in any of those that nobody has searched.
    fn deal_features(&mut self, arena: &Arena, side: Side, luck: &mut Stream) {
        let features = &arena.setup().sides[side].features;
        let mut open: Vec<u8> =
            (0..features.len() as u8).filter(|&n| !self.searched(side, n)).collect();
        for marker in self.markers.iter_mut() {
            if marker.on_table && marker.side == side && marker.feature.is_some() {
                let feature = open.swap_remove(luck.below(open.len() as u32) as usize);
                (marker.feature, marker.at) = (Some(feature), features[feature as usize].at);
            }
        }
    }

    fn deal_hidden_groups(&mut self, side: Side, luck: &mut Stream) {
        let on_table = |id: &MarkerId| {
            let marker = &self.markers[*id as usize];
            marker.shows() && marker.side == side
        };
        let markers: Vec<MarkerId> = (0..self.marker_count).filter(on_table).collect();
        for last in (1..markers.len()).rev() {
            let other = luck.below(last as u32 + 1) as usize;
            let (one, two) = (markers[last] as usize, markers[other] as usize);
            let kept = self.markers[one].group;
            self.markers[one].group = self.markers[two].group;
            self.markers[two].group = kept;
        }
    }
}
