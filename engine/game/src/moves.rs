//! Moving: roll first, then choose where on the way to stop (RULES 4.3, 5.3-5.6).

use crate::cell::Cell;
use crate::choice::Heading;
use crate::event::{Event, RevealCause};
use crate::game::Game;
use crate::kinds::Side;
use crate::luck::Purpose;
use crate::paths::Gait;
use crate::stage::{Mover, Moving};
use crate::state::{MarkerId, Place, UnitId, Who};
use crate::walk::Walker;

impl Game<'_> {
    /// Rolls the dice of a move and works out how far along its way they reach.
    pub(crate) fn begin_move(&mut self, mover: Mover, heading: Heading) {
        if let Mover::Unit(id) = mover
            && self.state.units[id as usize].bogged
        {
            return self.try_to_get_free(id);
        }
        let rules = self.table.rules;
        let (dice, who) = match mover {
            Mover::Unit(id) => (rules.move_dice(self.state.units[id as usize].kind), Who::Unit(id)),
            Mover::Marker(id) => (rules.marker_move_dice(), Who::Marker(id)),
        };
        let rolled = self.state.roll(Purpose::Move, who, dice as u8).dice(dice as u8);
        let inches = match mover {
            Mover::Unit(id) => {
                self.spend_action(id);
                let unit = &mut self.state.units[id as usize];
                unit.moved = true;
                rules.pinned_move(i32::from(rolled), unit.pins) as u8
            }
            Mover::Marker(id) => {
                let marker = &mut self.state.markers[id as usize];
                marker.spend();
                marker.moved = true;
                marker.moves = marker.moves.saturating_add(marker.shows().into());
                rolled as u8
            }
        };
        let steps = self.reachable(mover, heading, inches);
        let moving = Moving { mover, heading, inches, steps };
        if steps == 0 {
            self.report_move(moving);
        } else {
            self.state.doing.moving = Some(moving);
        }
    }

    /// Squares along the way that the inches reach, short of where the enemy stands (RULES 5.6).
    fn reachable(&self, mover: Mover, heading: Heading, inches: u8) -> u8 {
        let Walker { mut at, side, gait } = self.state.mover(mover);
        let contact = self.table.rules.contact_distance() as u8;
        let (mut left, mut steps) = (u16::from(inches) * 100, 0);
        while let Some((next, cost)) = self.table.paths.step(at, heading, gait) {
            let held_up = gait != Gait::Marker && self.state.enemy_within(side, next, contact);
            if cost > left || held_up {
                break;
            }
            (at, left, steps) = (next, left - cost, steps + 1);
        }
        steps
    }

    /// Moves along the way, as far as chosen or until something stops it.
    pub(crate) fn stop_move(&mut self, steps: u8) {
        let Some(moving) = self.state.doing.moving.take() else { return };
        let mut struck = false;
        for _ in 0..steps {
            let Walker { at, side, gait } = self.state.mover(moving.mover);
            let Some((next, _)) = self.table.paths.step(at, moving.heading, gait) else { break };
            match moving.mover {
                Mover::Unit(id) => {
                    self.step_unit(id, next);
                    struck = self.ground_stops(id);
                }
                Mover::Marker(id) => {
                    let marker = &mut self.state.markers[id as usize];
                    if marker.feature.take().is_some() {
                        (marker.since, marker.moves) = (self.state.turn, 1);
                    }
                    marker.at = next;
                }
            }
            if struck || self.meets(moving.mover, side, next) {
                break;
            }
        }
        if let Mover::Unit(id) = moving.mover {
            self.carry_along(id);
        }
        self.report_move(moving);
        if struck && let Mover::Unit(id) = moving.mover {
            self.ground_strikes(id);
        }
        self.reveal_met(moving.mover);
        if let Mover::Unit(id) = moving.mover {
            self.let_react(id);
        }
    }

    /// Puts a unit in the next square: it faces the way it goes and leaves its hole.
    pub(crate) fn step_unit(&mut self, id: UnitId, to: Cell) {
        let unit = &mut self.state.units[id as usize];
        unit.facing = unit.at.way_to(to);
        (unit.at, unit.dug, unit.dug_in) = (to, 0, false);
    }

    pub(crate) fn report_move(&mut self, moving: Moving) {
        let Walker { at: to, .. } = self.state.mover(moving.mover);
        let Moving { heading, inches, .. } = moving;
        self.emit(match moving.mover {
            Mover::Unit(unit) => Event::UnitMoved { unit, heading, inches, to },
            Mover::Marker(marker) => Event::MarkerMoved { marker, heading, inches, to },
        });
    }

    /// Whether coming to `cell` reveals a marker.
    fn meets(&self, mover: Mover, side: Side, cell: Cell) -> bool {
        self.touched(side, cell).is_some()
            || match mover {
                Mover::Unit(_) => self.plainly_seen(side, cell).is_some(),
                Mover::Marker(_) => self.marker_exposed(side, cell).is_some(),
            }
    }

    /// An enemy marker that something in `cell` touches (RULES 4.6).
    fn touched(&self, side: Side, cell: Cell) -> Option<MarkerId> {
        let contact = self.table.rules.contact_distance() as u8;
        let near =
            |m: &crate::state::Marker| m.on_table && m.side != side && m.at.range(cell) <= contact;
        self.state.markers().iter().position(near).map(|n| n as u8)
    }

    /// An enemy marker that a unit in `cell` sees within the sure-spotting distance (RULES 4.5).
    fn plainly_seen(&self, side: Side, cell: Cell) -> Option<MarkerId> {
        let plain = |m: &crate::state::Marker| {
            m.on_table && m.side != side && self.surely_spots(cell, m.at)
        };
        self.state.markers().iter().position(plain).map(|n| n as u8)
    }

    fn surely_spots(&self, from: Cell, marker: Cell) -> bool {
        let range = i32::from(from.range(marker));
        range <= self.table.rules.sure_spotting(self.table.arena.cover(marker))
            && self.state.sees(self.table.arena, from, marker)
    }

    /// How the enemy reveals a marker of `side` that stands in `cell`, if at all.
    fn marker_exposed(&self, side: Side, cell: Cell) -> Option<RevealCause> {
        let contact = self.table.rules.contact_distance() as u8;
        if self.state.enemy_within(side, cell, contact) {
            return Some(RevealCause::Contact);
        }
        let seen = |(_, unit): (u8, &crate::state::Unit)| {
            unit.side != side && self.surely_spots(unit.at, cell)
        };
        self.state.on_table().any(seen).then_some(RevealCause::PlainSight)
    }

    /// Reveals what the mover has met where it stopped.
    pub(crate) fn reveal_met(&mut self, mover: Mover) {
        if matches!(mover, Mover::Unit(id) if self.state.units[id as usize].place != Place::Table) {
            return;
        }
        let Walker { at, side, .. } = self.state.mover(mover);
        while let Some(marker) = self.touched(side, at) {
            if let Mover::Marker(own) = mover {
                self.reveal(own, RevealCause::Contact);
            }
            self.reveal(marker, RevealCause::Contact);
        }
        match mover {
            Mover::Unit(_) => {
                while let Some(marker) = self.plainly_seen(side, at) {
                    self.reveal(marker, RevealCause::PlainSight);
                }
            }
            Mover::Marker(own) => {
                if let Some(cause) = self.marker_exposed(side, at) {
                    self.reveal(own, cause);
                }
            }
        }
    }

    /// Markers next to troops just placed are revealed as if those troops had come there.
    pub(crate) fn reveal_around(&mut self, unit: u8) {
        self.reveal_met(Mover::Unit(unit));
    }

    /// Takes one action off a unit, or one order off the leader who moves himself.
    pub(crate) fn spend_action(&mut self, id: u8) {
        match &mut self.state.doing.leader {
            Some((leader, orders)) if *leader == id && self.state.doing.unit.is_none() => {
                *orders -= 1;
            }
            _ => {
                let unit = &mut self.state.units[id as usize];
                unit.actions = unit.actions.saturating_sub(1);
            }
        }
    }
}
