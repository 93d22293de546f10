//! Fire (RULES 7, 8).

use crate::event::Event;
use crate::game::Game;
use crate::kinds::{Effect, Kind};
use crate::legal::CLOSE;
use crate::limits::MAX_PINS;
use crate::luck::Purpose;
use crate::script::Happening;
use crate::stage::Stage;
use crate::state::{Place, Unit, UnitId, Who};

/// What the hits of one shot add up to.
#[derive(Clone, Copy, Default)]
struct Harm {
    hits: u8,
    pins: u8,
    men: u8,
}

impl Game<'_> {
    /// The player fires: with the unit that acts, or late.
    pub(crate) fn fire_choice(&mut self, target: UnitId) {
        match self.state.doing.unit {
            Some(unit) => {
                let firing = &mut self.state.units[unit as usize];
                firing.shots -= 1;
                firing.actions -= 1;
                self.fire(unit, target, false);
            }
            None => {
                if let Stage::LateFire { unit, .. } = self.state.doing.stage {
                    self.fire(unit, target, true);
                }
                self.next_late_fire();
            }
        }
    }

    /// One shot: at the target, and at everyone within the blast (RULES 7.6).
    fn fire(&mut self, id: UnitId, target: UnitId, late: bool) {
        // As it was before the shot: a unit within its own blast may be the first to suffer.
        let firing = self.state.units[id as usize];
        let centre = self.state.units[target as usize].at;
        let radius = self.table.rules.blast_radius(firing.kind) as u8;
        self.shoot(id, &firing, target, late, false);
        if radius > 0 {
            for other in 0..self.state.unit_count {
                let unit = &self.state.units[other as usize];
                if other != target && unit.place == Place::Table && unit.at.range(centre) <= radius
                {
                    self.shoot(id, &firing, other, late, true);
                }
            }
        }
    }

    fn shoot(&mut self, id: UnitId, firing: &Unit, target: UnitId, late: bool, blast: bool) {
        let rules = self.table.rules;
        let struck = self.state.units[target as usize];
        let mut dice = rules.fire_dice(firing.kind, firing.men, firing.pins);
        if late {
            dice = rules.late_fire_dice(dice);
        }
        let band = rules.range_band(firing.kind, firing.at.range(struck.at));
        let needed = rules.hit_number(firing.kind, band, firing.moved) as u8;
        let harm = self.resolve(id, target, dice as u8, needed);
        self.state.units[target as usize].under_fire = true;
        self.emit(Event::Fired {
            unit: id,
            target,
            dice: dice as u8,
            needed,
            hits: harm.hits,
            late,
            blast,
        });
        self.suffer(target, harm.pins, harm.men);
    }

    /// Rolls to hit and for the effect of each hit (RULES 7.4, 7.5).
    fn resolve(&mut self, id: UnitId, target: UnitId, dice: u8, needed: u8) -> Harm {
        let mut harm = Harm::default();
        let mut to_hit = self.state.roll(Purpose::Hit, Who::Unit(id), dice);
        for _ in 0..dice {
            harm.hits += u8::from(to_hit.die() >= needed);
        }
        let mut effect = self.state.roll(Purpose::Effect, Who::Unit(id), harm.hits);
        let (kind, struck) =
            (self.state.units[id as usize].kind, &self.state.units[target as usize]);
        let cover = self.table.arena.cover(struck.at);
        for _ in 0..harm.hits {
            match self.table.rules.effect(kind, cover, effect.die()) {
                Effect::Nothing => {}
                Effect::Pin => harm.pins += 1,
                Effect::Loss => {
                    harm.pins += 1;
                    harm.men += 1;
                }
            }
        }
        harm.men = harm.men.min(struck.men);
        harm
    }

    /// Fire's harm to a unit, and what follows from it (RULES 7.5, 9.1-9.3, 10.5).
    fn suffer(&mut self, id: UnitId, pins: u8, men: u8) {
        // Losses alone may suppress what is left, so the state before them is what counts.
        let before = self.state.units[id as usize].suppressed(self.table.rules);
        if men > 0 {
            self.lose_men(id, men);
        }
        if pins > 0 && self.state.units[id as usize].place == Place::Table {
            self.pin(id, pins, before);
            if self.state.units[id as usize].place == Place::Table {
                self.happen(Happening::UnitPinned { unit: id, pins });
            }
        }
    }

    fn lose_men(&mut self, id: UnitId, men: u8) {
        let unit = &mut self.state.units[id as usize];
        unit.men -= men;
        let (left, group, at, side, kind) = (unit.men, unit.group, unit.at, unit.side, unit.kind);
        self.state.groups[group as usize].lost_men = true;
        self.emit(Event::MenLost { unit: id, men, left });
        if left == 0 {
            self.state.units[id as usize].place = Place::Lost;
            self.emit(Event::UnitLost { unit: id });
        }
        if kind != Kind::Leader {
            for leader in 0..self.state.unit_count {
                let unit = &self.state.units[leader as usize];
                let near =
                    unit.place == Place::Table && unit.side == side && unit.at.range(at) <= CLOSE;
                if near && unit.kind == Kind::Leader {
                    self.test_leader(leader);
                }
            }
        }
        self.note_group_gone(group);
    }

    /// Whether a leader near the losses is hit (RULES 10.5).
    fn test_leader(&mut self, id: UnitId) {
        let rolled = self.state.roll(Purpose::LeaderHit, Who::Unit(id), 2).dice(2) as u8;
        let needed = self.table.rules.leader_hit_number() as u8;
        self.emit(Event::LeaderTested { unit: id, rolled, needed });
        if rolled >= needed {
            let men = self.state.units[id as usize].men;
            self.lose_men(id, men);
        }
    }

    /// Puts pins on a unit: it may become suppressed or break (RULES 9.1-9.3).
    pub(crate) fn add_pins(&mut self, id: UnitId, pins: u8) {
        let before = self.state.units[id as usize].suppressed(self.table.rules);
        self.pin(id, pins, before);
    }

    fn pin(&mut self, id: UnitId, pins: u8, before: bool) {
        let rules = self.table.rules;
        let unit = &mut self.state.units[id as usize];
        unit.pins = unit.pins.saturating_add(pins).min(MAX_PINS);
        let (now, suppressed) = (unit.pins, unit.suppressed(rules));
        let breaks = i32::from(now) >= rules.break_threshold(unit.men, unit.quality);
        self.emit(Event::PinsAdded { unit: id, pins, now });
        if breaks {
            self.break_unit(id, crate::event::BreakCause::Pins);
        } else if suppressed && !before {
            self.emit(Event::Suppressed { unit: id });
        }
    }
}
