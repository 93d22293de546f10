//! Close assault: the rush, the rounds, who falls back and who is taken (RULES 12).

use crate::cell::Cell;
use crate::event::Event;
use crate::game::Game;
use crate::kinds::{Cover, Face};
use crate::luck::Purpose;
use crate::paths::{Gait, STEPS};
use crate::stage::Mover;
use crate::state::{Place, Unit, UnitId, Who};

/// Ways to fall back in, as eighths of a turn off the way straight back, in order of preference.
const BACK: [u8; 5] = [0, 1, 7, 2, 6];

impl Game<'_> {
    /// The unit that acts rushes at an enemy and fights him if it gets there (RULES 12.2).
    pub(crate) fn assault(&mut self, target: UnitId) {
        let Some(id) = self.state.doing.unit else { return };
        let kind = self.state.units[id as usize].kind;
        let dice = self.table.rules.charge_dice(kind) as u8;
        let rolled = self.state.roll(Purpose::Move, Who::Unit(id), dice).dice(dice);
        let unit = &mut self.state.units[id as usize];
        (unit.actions, unit.moved) = (0, true);
        let inches = self.table.rules.pinned_move(i32::from(rolled), unit.pins) as u8;
        self.rush(id, target, inches);
        let (at, enemy) = (self.state.units[id as usize].at, self.state.units[target as usize].at);
        let reached = at.range(enemy) <= self.table.rules.contact_distance() as u8;
        self.emit(Event::Charged { unit: id, target, inches, to: at, reached });
        if reached {
            self.fight(id, target);
        }
        self.reveal_met(Mover::Unit(id));
    }

    /// Runs straight at the enemy as far as the inches reach, to the last free square.
    fn rush(&mut self, id: UnitId, target: UnitId, inches: u8) {
        let (from, to) = (self.state.units[id as usize].at, self.state.units[target as usize].at);
        let contact = self.table.rules.contact_distance() as u8;
        let (mut left, mut at, mut stop) = (u32::from(inches) * 100, from, from);
        for next in from.line_to(to) {
            let slant = at.x != next.x && at.y != next.y;
            let cost = u32::from(self.table.paths.cost(next, Gait::Foot));
            let cost = if slant { cost * 141 / 100 } else { cost };
            if at.range(to) <= contact || cost > left || next == to {
                break;
            }
            (left, at) = (left - cost, next);
            if self.state.free(id, at) {
                stop = at;
            }
        }
        if stop != from {
            self.step_unit(id, stop);
        }
    }

    fn fight(&mut self, id: UnitId, target: UnitId) {
        self.state.units[target as usize].under_fire = true;
        if self.state.units[target as usize].armoured() {
            self.fight_vehicle(id, target);
        } else {
            self.fight_rounds(id, target);
        }
    }

    /// Rounds until one side has hit more, or nobody is left to go on (RULES 12.3-12.7).
    fn fight_rounds(&mut self, id: UnitId, target: UnitId) {
        let enemy = self.state.units[target as usize];
        let cover = self.state.cover(self.table.arena, &enemy);
        if enemy.suppressed(self.table.rules) {
            let led = self.led(&enemy);
            let difference = self.table.rules.suppressed_difference(enemy.quality, led);
            if difference > 0 {
                self.beaten(target, id, difference as u8);
                return self.pursue(id, enemy.at);
            }
        }
        for _ in 0..self.table.rules.assault_rounds(cover) {
            let (hits, enemy_hits) = self.fight_round(id, target, cover);
            let standing = |unit: UnitId| self.state.units[unit as usize].place == Place::Table;
            if !standing(id) {
                return;
            }
            if !standing(target) {
                return self.pursue(id, enemy.at);
            }
            if hits > enemy_hits {
                self.beaten(target, id, hits - enemy_hits);
                return self.pursue(id, enemy.at);
            }
            if enemy_hits > hits {
                return self.beaten(id, target, enemy_hits - hits);
            }
        }
        self.fall_back(id, target);
    }

    fn fight_round(&mut self, id: UnitId, target: UnitId, cover: Cover) -> (u8, u8) {
        let (dice, hits) = self.assault_roll(id, cover, true);
        let (enemy_dice, enemy_hits) = self.assault_roll(target, Cover::None, false);
        self.emit(Event::AssaultFought { unit: id, target, dice, hits, enemy_dice, enemy_hits });
        // Both strike at once: the dice of the one count though the other's hits take his men.
        for (unit, men) in [(target, hits), (id, enemy_hits)] {
            let men = men.min(self.state.units[unit as usize].men);
            if men > 0 && self.state.units[unit as usize].place == Place::Table {
                self.lose_men(unit, men);
            }
        }
        (hits, enemy_hits)
    }

    /// Dice and hits of one side (RULES 12.4, 12.5).
    fn assault_roll(&mut self, id: UnitId, cover: Cover, charging: bool) -> (u8, u8) {
        let (rules, unit) = (self.table.rules, self.state.units[id as usize]);
        let mut dice = rules.assault_dice(unit.kind, unit.men, unit.pins);
        if dice > 0 && self.led(&unit) {
            dice += rules.assault_led();
        }
        let needed = rules.assault_number(unit.quality, cover, charging) as u8;
        let dice = dice.min(24) as u8;
        let mut luck = self.state.roll(Purpose::Assault, Who::Unit(id), dice);
        (dice, (0..dice).filter(|_| luck.die() >= needed).count() as u8)
    }

    /// Men on foot against armour: each hit strikes the flank (RULES 12.9).
    fn fight_vehicle(&mut self, id: UnitId, target: UnitId) {
        let place = self.state.units[target as usize].at;
        let (dice, hits) = self.assault_roll(id, Cover::None, true);
        let penetration = self.table.rules.assault_penetration(self.state.units[id as usize].kind);
        for _ in 0..hits {
            if penetration > 0 && self.state.units[target as usize].place == Place::Table {
                self.strike(id, target, Face::Flank, penetration);
            }
        }
        // Whoever is left in the vehicle and not suppressed by now strikes back.
        let crew = &self.state.units[target as usize];
        let able = crew.place == Place::Table && !crew.suppressed(self.table.rules);
        let (enemy_dice, enemy_hits) =
            if able { self.assault_roll(target, Cover::None, false) } else { (0, 0) };
        self.emit(Event::AssaultFought { unit: id, target, dice, hits, enemy_dice, enemy_hits });
        let men = enemy_hits.min(self.state.units[id as usize].men);
        if men > 0 {
            self.lose_men(id, men);
        }
        if self.state.units[id as usize].place == Place::Table {
            if self.state.units[target as usize].place == Place::Table {
                self.fall_back(id, target);
            } else {
                self.pursue(id, place);
            }
        }
    }

    /// The loser is taken prisoner, or pinned and thrown back (RULES 12.7, 12.8).
    fn beaten(&mut self, loser: UnitId, winner: UnitId, difference: u8) {
        let unit = self.state.units[loser as usize];
        let difference = difference.min(26);
        if self.table.rules.surrenders(difference, self.led(&unit)) {
            return self.capture(loser, winner);
        }
        let pins = self.table.rules.loser_pins(difference) as u8;
        if pins > 0 {
            self.suffer(loser, pins, 0);
        }
        if self.state.units[loser as usize].place == Place::Table {
            self.fall_back(loser, winner);
        }
    }

    fn capture(&mut self, id: UnitId, by: UnitId) {
        let unit = &mut self.state.units[id as usize];
        unit.place = Place::Captured;
        let (men, group) = (unit.men, unit.group);
        self.state.groups[group as usize].lost_men = true;
        self.emit(Event::Captured { unit: id, men, by });
        self.empty_wreck(id, 0);
        self.note_group_gone(group);
    }

    /// A unit goes back from the enemy it has fought; with nowhere to go it is taken.
    fn fall_back(&mut self, id: UnitId, from: UnitId) {
        let unit = self.state.units[id as usize];
        let back = self.state.units[from as usize].at.way_to(unit.at);
        let mut ways = BACK.iter().filter(|_| !unit.immobile && !unit.bogged);
        match ways.find_map(|turn| self.retreat(&unit, id, (back + turn) % 8)) {
            Some(to) => {
                self.step_unit(id, to);
                self.carry_along(id);
                self.emit(Event::FellBack { unit: id, to });
                self.reveal_met(Mover::Unit(id));
            }
            None => self.capture(id, from),
        }
    }

    /// The farthest free square that way, out of touch with the enemy.
    fn retreat(&self, unit: &Unit, id: UnitId, way: u8) -> Option<Cell> {
        let (dx, dy) = STEPS[way as usize];
        let contact = self.table.rules.contact_distance() as u8;
        let distance = self.table.rules.retreat_distance();
        let squares = (1..=distance).map_while(|n| unit.at.step(n * dx, n * dy));
        let fits = |cell: &Cell| {
            self.state.free(id, *cell)
                && self.table.paths.open(*cell, Gait::of(unit.kind))
                && !self.state.enemy_within(unit.side, *cell, contact)
                && i32::from(unit.at.range(*cell)) <= distance
        };
        squares.filter(fits).last()
    }

    /// The winner takes the square where the enemy was (RULES 12.10).
    fn pursue(&mut self, id: UnitId, place: Cell) {
        let free = self.state.free(id, place) && self.table.paths.open(place, Gait::Foot);
        if free && self.state.units[id as usize].at != place {
            self.step_unit(id, place);
            self.emit(Event::Pursued { unit: id, to: place });
        }
    }
}
