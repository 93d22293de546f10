//! Troops that do not show: looking for them in features, reserves on their way (RULES 15).

use crate::event::{Event, RevealCause};
use crate::forces::Start;
use crate::game::Game;
use crate::luck::{Purpose, Stream};
use crate::stage::Mover;
use crate::state::{Marker, Who};

impl Game<'_> {
    /// The unit or marker that acts looks for troops in a feature of the enemy (RULES 15.4).
    pub(crate) fn search(&mut self, feature: u8) {
        let Some((from, side, who)) = self.looker() else { return };
        let enemy = side.other();
        let Some(place) = self.table.arena.setup().sides[enemy].features.get(feature as usize)
        else {
            return;
        };
        let rules = self.table.rules;
        let band = rules.spot_band(from.range(place.at));
        let needed = rules.search_number(band, self.table.arena.cover(place.at)) as u8;
        let rolled = self.state.roll(Purpose::Spot, who, 2).dice(2) as u8;
        let hides = |m: &Marker| m.on_table && m.side == enemy && m.feature == Some(feature);
        let hidden = self.state.markers().iter().position(hides);
        let found = rolled >= needed;
        let (unit, by) = who.unit_or_marker();
        let empty = found && hidden.is_none();
        self.emit(Event::Searched { side: enemy, feature, unit, by, rolled, needed, empty });
        if found {
            self.state.searched[enemy] |= 1 << feature;
            if let Some(marker) = hidden {
                self.reveal(marker as u8, RevealCause::Spotted);
            }
        }
    }

    /// Reserves that are due may come (RULES 15.6, 15.7).
    pub(crate) fn bring_reserves(&mut self) {
        for id in 0..self.state.group_count {
            let group = self.state.groups[id as usize];
            if group.due == 0 || self.state.turn < u16::from(group.due) || group.gone {
                continue;
            }
            let waited = (self.state.turn - u16::from(group.due)).min(30);
            let mut luck = self.state.roll(Purpose::Reserve, Who::Group(id), 1);
            let rolled = luck.die();
            let needed = self.table.rules.reserve_number(i32::from(waited)) as u8;
            self.emit(Event::ReserveTested { group: id, rolled, needed });
            if rolled >= needed {
                self.bring_reserve(id, luck);
            }
        }
    }

    /// A reserve's marker comes on the table at one of its squares, by luck.
    pub(crate) fn bring_reserve(&mut self, id: u8, mut luck: Stream) {
        self.state.groups[id as usize].due = 0;
        let Some(Start::Reserve { entries, .. }) = self.table.arena.group(id).map(|g| &g.start)
        else {
            return;
        };
        let at = entries[luck.below(entries.len() as u32) as usize];
        let own = |m: &Marker| m.group == Some(id);
        let Some(marker) = self.state.markers().iter().position(own) else { return };
        let state = &mut self.state.markers[marker];
        (state.on_table, state.at, state.first_at) = (true, at, at);
        state.since = self.state.turn;
        let marker = marker as u8;
        self.emit(Event::MarkerPlaced { marker, at });
        self.reveal_met(Mover::Marker(marker));
    }
}
