//! An observer that holds a game to what no rule may change.

use ruleshift_game::limits::{MAX_PINS, MAX_TURNS};
use ruleshift_game::{Card, Cell, Event, Observer, Place, State, Unit};

/// Panics when a law is broken, in one game after another.
#[derive(Default)]
pub(crate) struct Laws {
    before: Option<State>,
    drawn: Vec<Card>,
    /// Events seen.
    pub(crate) events: u32,
    /// Times somebody was seen riding.
    pub(crate) riding: u32,
}

/// How far a unit has come on its way out of the game.
fn stage(place: Place) -> u8 {
    match place {
        Place::Hidden => 0,
        Place::Table | Place::Carried => 1,
        Place::Lost | Place::Fled | Place::Captured | Place::Left => 2,
    }
}

fn unit_laws(before: &Unit, now: &Unit, event: &Event) {
    let brought = matches!(event, Event::MenChanged { by: 1.., .. });
    assert!(now.men <= before.men || brought, "men never rise of themselves");
    assert!(now.men <= now.first_men, "nor beyond the first strength");
    assert_eq!(now.first_men, before.first_men);
    assert_eq!((now.side, now.group, now.kind), (before.side, before.group, before.kind));
    assert!(stage(now.place) >= stage(before.place), "nobody comes back: {before:?} {now:?}");
    assert!(stage(before.place) < 2 || now.place == before.place, "gone is gone");
    assert!(now.pins <= MAX_PINS);
    assert!(Cell::new(now.at.x.into(), now.at.y.into()).is_some());
}

/// Everybody is in one place, and those who ride are where their vehicle is.
fn places(now: &State) -> u32 {
    let mut riding = 0;
    for unit in now.units() {
        let vehicle = unit.carrier.map(|id| &now.units()[id as usize]);
        if unit.place == Place::Carried {
            let vehicle = vehicle.expect("a rider rides in something");
            assert_eq!((vehicle.place, vehicle.at), (Place::Table, unit.at), "{unit:?}");
            assert!(vehicle.side == unit.side && vehicle.kind.carries() && !unit.kind.carries());
            riding += 1;
        }
    }
    for marker in now.markers() {
        let hidden = |unit: &&Unit| unit.place == Place::Hidden;
        if let Some(group) = marker.group.filter(|_| marker.on_table) {
            // Shells may have killed some of them under it.
            let mut units = now.units().iter().filter(|unit| unit.group == group);
            assert!(units.all(|u| hidden(&u) || u.place == Place::Lost), "on the table twice");
        }
    }
    for battery in now.batteries() {
        assert!(battery.missions > 0 || battery.call.is_none_or(|call| call.fired));
    }
    riding
}

impl Observer for Laws {
    fn event(&mut self, event: &Event, now: &State) {
        self.events += 1;
        match *event {
            Event::TurnStarted { turn, .. } => {
                assert!(turn <= MAX_TURNS);
                self.drawn.clear();
            }
            Event::CardDrawn { card } => {
                assert!(!self.drawn.contains(&card), "{card:?} drawn twice in a turn");
                self.drawn.push(card);
                let dead = |(_, unit): (u8, &Unit)| unit.men == 0;
                assert!(!now.on_table().any(dead), "units without men are taken off");
                self.riding += places(now);
            }
            Event::CardPutBack { card } => self.drawn.retain(|&other| other != card),
            _ => {}
        }
        let before = self.before.get_or_insert(*now);
        let reserves = before.groups();
        for (before, now) in before.units().iter().zip(now.units()) {
            unit_laws(before, now, event);
        }
        for (before, now) in before.batteries().iter().zip(now.batteries()) {
            assert!(now.missions <= before.missions);
        }
        for (before, now) in before.markers().iter().zip(now.markers()) {
            let waits = before.group.is_some_and(|group| reserves[group as usize].due > 0);
            let comes = waits && matches!(event, Event::MarkerPlaced { .. });
            assert!(before.on_table || !now.on_table || comes, "a marker that is off stays off");
            assert!(before.feature.is_some() || now.feature.is_none(), "nobody hides again");
            assert_eq!((before.side, before.group), (now.side, now.group));
        }
        for (before, now) in before.groups().iter().zip(now.groups()) {
            assert!(now.gone || !before.gone);
        }
        assert_eq!(before.units().len(), now.units().len());
        assert_eq!(before.markers().len(), now.markers().len());
        *before = *now;
        if matches!(event, Event::GameEnded { .. }) {
            self.before = None;
        }
    }
}
