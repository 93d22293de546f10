//! Moving: roll first, then choose where on the way to stop (RULES 4.3, 5.3-5.6).

use crate::cell::Cell;
use crate::choice::Heading;
use crate::event::{Event, RevealCause};
use crate::game::Game;
use crate::kinds::Side;
use crate::luck::Purpose;
use crate::stage::{Mover, Moving};
use crate::state::{MarkerId, Who};

impl Game<'_> {
    /// Rolls the dice of a move and works out how far along its way they reach.
    pub(crate) fn begin_move(&mut self, mover: Mover, heading: Heading) {
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
        let (mut at, side) = self.mover(mover);
        let marker = matches!(mover, Mover::Marker(_));
        let contact = self.table.rules.contact_distance() as u8;
        let (mut left, mut steps) = (u16::from(inches) * 100, 0);
        while let Some((next, cost)) = self.table.paths.step(at, heading, marker) {
            if cost > left || (!marker && self.enemy_within(side, next, contact)) {
                break;
            }
            (at, left, steps) = (next, left - cost, steps + 1);
        }
        steps
    }

    fn mover(&self, mover: Mover) -> (Cell, Side) {
        match mover {
            Mover::Unit(id) => {
                (self.state.units[id as usize].at, self.state.units[id as usize].side)
            }
            Mover::Marker(id) => {
                (self.state.markers[id as usize].at, self.state.markers[id as usize].side)
            }
        }
    }

    fn enemy_within(&self, side: Side, cell: Cell, distance: u8) -> bool {
        self.state.on_table().any(|(_, unit)| unit.side != side && unit.at.range(cell) <= distance)
    }

    /// Moves along the way, as far as chosen or until something is revealed.
    pub(crate) fn stop_move(&mut self, steps: u8) {
        let Some(moving) = self.state.doing.moving.take() else { return };
        let marker = matches!(moving.mover, Mover::Marker(_));
        for _ in 0..steps {
            let (at, side) = self.mover(moving.mover);
            let Some((next, _)) = self.table.paths.step(at, moving.heading, marker) else { break };
            match moving.mover {
                Mover::Unit(id) => self.state.units[id as usize].at = next,
                Mover::Marker(id) => self.state.markers[id as usize].at = next,
            }
            if self.meets(moving.mover, side, next) {
                break;
            }
        }
        self.report_move(moving);
        self.reveal_met(moving.mover);
    }

    pub(crate) fn report_move(&mut self, moving: Moving) {
        let (to, _) = self.mover(moving.mover);
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
            && self.table.arena.sight().sees(from, marker)
    }

    /// How the enemy reveals a marker of `side` that stands in `cell`, if at all.
    fn marker_exposed(&self, side: Side, cell: Cell) -> Option<RevealCause> {
        let contact = self.table.rules.contact_distance() as u8;
        if self.enemy_within(side, cell, contact) {
            return Some(RevealCause::Contact);
        }
        let seen = |(_, unit): (u8, &crate::state::Unit)| {
            unit.side != side && self.surely_spots(unit.at, cell)
        };
        self.state.on_table().any(seen).then_some(RevealCause::PlainSight)
    }

    /// Reveals what the mover has met where it stopped.
    fn reveal_met(&mut self, mover: Mover) {
        let (at, side) = self.mover(mover);
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
