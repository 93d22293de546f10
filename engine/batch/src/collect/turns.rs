//! Cards, markers and the ends of turns: who waits, who is idle, who leads.

use ruleshift_game::{Card, Event, MarkerId, RevealCause, State};
use ruleshift_record::Metric;

use super::Collector;

impl Collector<'_> {
    pub(super) fn turns(&mut self, event: &Event, state: &State) {
        match *event {
            Event::TurnStarted { turn, .. } => {
                self.late = false;
                if turn == 1 {
                    self.note_hidden(state);
                }
            }
            Event::CardDrawn { card } => self.card(card, state),
            Event::MarkerMoved { marker, .. } => self.marker_moved(marker, state),
            Event::MarkerRevealed { marker, cause, .. } => self.reveal(marker, cause),
            Event::Scored { attacker, defender } => {
                self.leads[state.turn() as usize] = (attacker - defender).signum() as i8;
            }
            Event::TurnEnded { .. } => self.turn_end(state),
            _ => {}
        }
    }

    /// Once revealed, a marker does not say any more where it hid.
    fn note_hidden(&mut self, state: &State) {
        for (id, marker) in state.markers().iter().enumerate() {
            self.in_features |= u64::from(marker.feature.is_some()) << id;
        }
    }

    /// A marker that has rolled too little to leave its feature is still hidden there.
    fn marker_moved(&mut self, marker: MarkerId, state: &State) {
        if state.markers()[marker as usize].feature.is_none() {
            self.in_features &= !(1 << marker);
        }
    }

    fn reveal(&mut self, marker: MarkerId, cause: RevealCause) {
        self.revealed[cause as usize] += 1;
        let hidden = self.in_features >> marker & 1 != 0;
        self.add(Metric::Ambushes, (hidden && cause == RevealCause::OpenedFire).into());
    }

    fn card(&mut self, card: Card, state: &State) {
        let owner = match card {
            Card::TurnEnd(_) | Card::Shortage(..) | Card::Extra(..) => return,
            Card::Marker(side, _) => side,
            Card::Battery(id, _) => state.batteries()[id as usize].side,
            Card::Group(group, _) => state.groups()[group as usize].side,
            Card::Leader(unit, _) => state.units()[unit as usize].side,
        };
        self.cards += 1;
        self.card_runs[owner as usize] = 0;
        let run = &mut self.card_runs[owner.other() as usize];
        *run += 1;
        let run = f64::from(*run);
        let longest = self.get(Metric::PlayerWait).max(run);
        self.set(Metric::PlayerWait, longest);
    }

    fn turn_end(&mut self, state: &State) {
        for (id, unit) in state.on_table() {
            let idle = !unit.activated && state.groups()[unit.group as usize].used == 0;
            self.unit_turns += 1;
            self.idle += u32::from(idle);
            self.pins += u32::from(unit.pins);
            self.suppressed += u32::from(unit.suppressed(self.rules));
            self.dug_in += u32::from(unit.dug_in);
            let wait = &mut self.waits[id as usize];
            *wait = if idle { *wait + 1 } else { 0 };
            let wait = f64::from(*wait);
            let longest = self.get(Metric::LongestWait).max(wait);
            self.set(Metric::LongestWait, longest);
        }
    }
}
