//! Vehicles and guns: turning, sticking, mines, carrying (RULES 13.1-13.4, 13.9, 16.3).

use crate::cell::Cell;
use crate::event::Event;
use crate::game::Game;
use crate::kinds::Ground;
use crate::luck::Purpose;
use crate::paths::STEPS;
use crate::state::{Place, UnitId, Who};

impl Game<'_> {
    /// A vehicle or gun turns where it stands.
    pub(crate) fn turn_unit(&mut self, way: u8) {
        let Some(id) = self.state.doing.unit else { return };
        self.spend_action(id);
        self.state.units[id as usize].facing = way;
        self.emit(Event::UnitTurned { unit: id, way });
    }

    /// A vehicle or gun just placed faces the nearest of the enemy, or else the middle of the
    /// table (RULES 13.1).
    pub(crate) fn face_enemy(&mut self, id: UnitId) {
        let unit = self.state.units[id as usize];
        let units = self.state.on_table().filter(|(_, foe)| foe.side != unit.side);
        let markers = self.state.markers().iter().filter(|m| m.shows() && m.side != unit.side);
        let places = units.map(|(_, foe)| foe.at).chain(markers.map(|marker| marker.at));
        let nearest = places.min_by_key(|at| at.range(unit.at));
        let middle = Cell { x: crate::cell::WIDTH / 2, y: crate::cell::HEIGHT / 2 };
        let way = unit.at.way_to(nearest.unwrap_or(middle));
        self.state.units[id as usize].facing = way;
    }

    /// A stuck vehicle spends its move on getting free (RULES 13.4).
    pub(crate) fn try_to_get_free(&mut self, id: UnitId) {
        self.spend_action(id);
        let rolled = self.state.roll(Purpose::Bog, Who::Unit(id), 1).die();
        let needed = self.table.rules.bog_free_number() as u8;
        self.state.units[id as usize].bogged = rolled < needed;
        self.emit(Event::BogTried { unit: id, rolled, needed });
    }

    /// Whether the square a unit has entered stops it: it sticks, or steps on a mine.
    pub(crate) fn ground_stops(&mut self, id: UnitId) -> bool {
        let (rules, unit) = (self.table.rules, &self.state.units[id as usize]);
        let ground = self.table.arena.ground(unit.at);
        if ground == Ground::Minefield {
            let rolled = self.state.roll(Purpose::Mine, Who::Unit(id), 1).die();
            return i32::from(rolled) >= rules.mine_number();
        }
        let sticks = if unit.kind.is_vehicle() { rules.bog_number(ground) } else { 0 };
        sticks > 0 && i32::from(self.state.roll(Purpose::Bog, Who::Unit(id), 1).die()) <= sticks
    }

    /// What the ground does to a unit it has stopped.
    pub(crate) fn ground_strikes(&mut self, id: UnitId) {
        let unit = &mut self.state.units[id as usize];
        let vehicle = unit.kind.is_vehicle();
        if self.table.arena.ground(unit.at) == Ground::Minefield {
            unit.immobile |= vehicle;
            self.emit(Event::MineStruck { unit: id });
            self.suffer(id, 1, u8::from(!vehicle));
        } else {
            unit.bogged = true;
            self.emit(Event::Bogged { unit: id });
        }
    }

    /// The unit that acts gets into a vehicle or is hooked to it (RULES 13.9).
    pub(crate) fn mount(&mut self, carrier: UnitId) {
        let Some(id) = self.state.doing.unit else { return };
        self.spend_mounting(id);
        let at = self.state.units[carrier as usize].at;
        let unit = &mut self.state.units[id as usize];
        (unit.place, unit.carrier, unit.at) = (Place::Carried, Some(carrier), at);
        (unit.dug, unit.dug_in) = (0, false);
        self.emit(Event::Mounted { unit: id, carrier });
    }

    /// The unit that acts gets out.
    pub(crate) fn dismount(&mut self, way: u8) {
        let Some(id) = self.state.doing.unit else { return };
        self.spend_mounting(id);
        let (dx, dy) = STEPS[way as usize % STEPS.len()];
        let at = self.carrier_cell(id);
        self.put_down(id, at.step(dx, dy).unwrap_or(at));
        self.reveal_around(id);
    }

    fn spend_mounting(&mut self, id: UnitId) {
        let unit = &mut self.state.units[id as usize];
        let cost = self.table.rules.mounting_actions(unit.kind) as u8;
        unit.actions = unit.actions.saturating_sub(cost);
        unit.moved = true;
    }

    fn carrier_cell(&self, id: UnitId) -> Cell {
        let carrier = self.state.units[id as usize].carrier.unwrap_or(id);
        self.state.units[carrier as usize].at
    }

    fn put_down(&mut self, id: UnitId, at: Cell) {
        let unit = &mut self.state.units[id as usize];
        (unit.place, unit.carrier, unit.at) = (Place::Table, None, at);
        self.emit(Event::Dismounted { unit: id, at });
    }

    /// Troops carried by a vehicle go where it goes.
    pub(crate) fn carry_along(&mut self, vehicle: UnitId) {
        let at = self.state.units[vehicle as usize].at;
        for unit in &mut self.state.units[..self.state.unit_count as usize] {
            if unit.place == Place::Carried && unit.carrier == Some(vehicle) {
                unit.at = at;
            }
        }
    }

    /// Everyone gets out of a vehicle that is no more, with pins when it was knocked out.
    pub(crate) fn empty_wreck(&mut self, vehicle: UnitId, pins: u8) {
        for id in 0..self.state.unit_count {
            let unit = &self.state.units[id as usize];
            if unit.place == Place::Carried && unit.carrier == Some(vehicle) {
                let at = self.carrier_cell(id);
                let around = STEPS.iter().filter_map(|&(dx, dy)| at.step(dx, dy));
                let free = |cell: &Cell| self.state.free(id, *cell);
                let to = std::iter::once(at).chain(around).find(free).unwrap_or(at);
                self.put_down(id, to);
                if pins > 0 {
                    self.add_pins(id, pins);
                }
            }
        }
    }
}
