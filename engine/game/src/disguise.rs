//! States that one side cannot tell apart: what the enemy hides, dealt anew.

use crate::kinds::{Kind, Quality, Side};
use crate::limits::MAX_MEN;
use crate::luck::Stream;
use crate::state::{MarkerId, Place, State, Unit};

impl State {
    /// A state that `side` cannot tell from this one: the enemy's markers change what they hide
    /// among themselves, and his hidden units are of other kinds, men and quality. By `seed`.
    #[must_use]
    pub fn disguised(&self, side: Side, seed: u64) -> State {
        let mut luck = Stream::new(seed);
        let mut state = *self;
        state.deal_hidden_groups(side.other(), &mut luck);
        let hidden = |unit: &&mut Unit| unit.side != side && unit.place == Place::Hidden;
        for unit in state.units[..self.unit_count as usize].iter_mut().filter(hidden) {
            unit.kind = Kind::ALL[luck.below(Kind::ALL.len() as u32) as usize];
            unit.quality = Quality::ALL[luck.below(Quality::ALL.len() as u32) as usize];
            unit.grade = if unit.kind == Kind::Leader { 1 + luck.below(3) as u8 } else { 0 };
            unit.first_men = 1 + luck.below(MAX_MEN.into()) as u8;
            unit.men = unit.first_men;
        }
        state
    }

    fn deal_hidden_groups(&mut self, side: Side, luck: &mut Stream) {
        let on_table = |id: &MarkerId| {
            let marker = &self.markers[*id as usize];
            marker.on_table && marker.side == side
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
