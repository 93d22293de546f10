//! Fire (RULES 7, 8).

use crate::event::Event;
use crate::game::Game;
use crate::kinds::{Effect, Kind};
use crate::legal::CLOSE;
use crate::limits::MAX_PINS;
use crate::luck::Purpose;
use crate::stage::Stage;
use crate::state::{BatteryId, Place, Unit, UnitId, Who};

/// What the hits of one shot add up to.
#[derive(Clone, Copy, Default)]
struct Harm {
    hits: u8,
    pins: u8,
    men: u8,
}

/// When a shot is fired.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shot {
    /// By an action.
    Acting,
    /// At turn end.
    Late,
    /// In the enemy's activation.
    Held,
}

/// One target's share of a shot.
#[derive(Clone, Copy)]
struct Aim {
    target: UnitId,
    shot: Shot,
    /// Whether the target is not aimed at, but within the blast.
    blast: bool,
}

impl Game<'_> {
    /// The player fires: with the unit that acts, with one that held its fire, or late.
    pub(crate) fn fire_choice(&mut self, target: UnitId) {
        if let Some(reaction) = self.state.doing.reaction {
            self.state.units[reaction.unit as usize].holds_fire = false;
            self.fire(reaction.unit, target, Shot::Held);
            self.next_reaction();
        } else if let Some(unit) = self.state.doing.unit {
            let firing = &mut self.state.units[unit as usize];
            firing.shots -= 1;
            firing.actions -= 1;
            self.fire(unit, target, Shot::Acting);
        } else {
            if let Stage::LateFire { unit, .. } = self.state.doing.stage {
                self.fire(unit, target, Shot::Late);
            }
            self.next_late_fire();
        }
    }

    /// One shot: at the target, and at everyone within the blast (RULES 7.6).
    fn fire(&mut self, id: UnitId, target: UnitId, shot: Shot) {
        // As it was before the shot: a unit within its own blast may be the first to suffer.
        let firing = self.state.units[id as usize];
        let struck = &self.state.units[target as usize];
        if struck.armoured() {
            return self.fire_gun(id, &firing, target);
        }
        let centre = struck.at;
        let radius = self.table.rules.blast_radius(firing.kind) as u8;
        self.shoot(id, &firing, Aim { target, shot, blast: false });
        if radius > 0 {
            for other in 0..self.state.unit_count {
                let unit = &self.state.units[other as usize];
                let within = unit.place == Place::Table && unit.at.range(centre) <= radius;
                let harmless = unit.armoured() && firing.kind == Kind::TripodGun;
                if other != target && within && !harmless {
                    self.shoot(id, &firing, Aim { target: other, shot, blast: true });
                }
            }
        }
    }

    fn shoot(&mut self, id: UnitId, firing: &Unit, aim: Aim) {
        let rules = self.table.rules;
        let struck = self.state.units[aim.target as usize];
        let mut dice = rules.fire_dice(firing.kind, firing.men, firing.pins);
        dice = match aim.shot {
            Shot::Acting => dice,
            Shot::Late => rules.late_fire_dice(dice),
            Shot::Held => rules.held_fire_dice(dice),
        };
        if self.state.short_until[firing.side] >= self.state.turn {
            dice = rules.shortage_dice(dice);
        }
        if aim.blast {
            dice = rules.blast_dice(firing.kind, dice);
        }
        let range = firing.at.range(struck.at);
        // A blast reaches whom it reaches, be he nearer than the weapon's least range.
        let band = match rules.range_band(firing.kind, range) {
            3 if aim.blast => 0,
            band => band,
        };
        let needed = rules.hit_number(firing.kind, band, firing.moved) as u8;
        let harm = self.resolve(Who::Unit(id), firing.kind, aim.target, dice as u8, needed);
        self.state.units[aim.target as usize].under_fire = true;
        self.emit(Event::Fired {
            unit: id,
            target: aim.target,
            dice: dice as u8,
            needed,
            hits: harm.hits,
            late: aim.shot == Shot::Late,
            held: aim.shot == Shot::Held,
            blast: aim.blast,
        });
        self.suffer(aim.target, harm.pins, harm.men);
    }

    /// A battery's shells fall on a unit (RULES 14.6).
    pub(crate) fn shell(&mut self, battery: BatteryId, target: UnitId) {
        let rules = self.table.rules;
        let dice = rules.fire_dice(Kind::Battery, 1, 0) as u8;
        let needed = rules.hit_number(Kind::Battery, 0, false) as u8;
        let harm = self.resolve(Who::Battery(battery), Kind::Battery, target, dice, needed);
        self.state.units[target as usize].under_fire = true;
        self.emit(Event::Shelled { battery, target, dice, needed, hits: harm.hits });
        self.suffer(target, harm.pins, harm.men);
    }

    /// Rolls to hit and for the effect of each hit (RULES 7.4, 7.5, 7.7).
    fn resolve(&mut self, who: Who, kind: Kind, target: UnitId, dice: u8, needed: u8) -> Harm {
        let rules = self.table.rules;
        let struck = self.state.units[target as usize];
        let cover = self.state.cover(self.table.arena, &struck);
        let mut to_hit = self.state.roll(Purpose::Hit, who, dice);
        let hits = (0..dice).filter(|_| to_hit.die() >= needed).count();
        let hits = rules.hits_kept(kind, cover, hits as i32) as u8;
        let mut harm = Harm { hits, pins: 0, men: 0 };
        if struck.armoured() {
            // Shells shake a crew behind armour and do nothing else (RULES 13.5).
            return Harm { pins: hits, ..harm };
        }
        let mut effect = self.state.roll(Purpose::Effect, who, hits);
        for _ in 0..hits {
            match rules.effect(kind, cover, effect.die()) {
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
    pub(crate) fn suffer(&mut self, id: UnitId, pins: u8, men: u8) {
        // Losses alone may suppress what is left, so the state before them is what counts.
        let before = self.state.units[id as usize].suppressed(self.table.rules);
        if men > 0 {
            self.lose_men(id, men);
        }
        if pins > 0 && self.state.units[id as usize].place == Place::Hidden {
            self.pin_hidden(id, pins);
        }
        if pins > 0 && self.state.units[id as usize].place == Place::Table {
            self.pin(id, pins, before);
        }
    }

    pub(crate) fn lose_men(&mut self, id: UnitId, men: u8) {
        self.lose_crew(id, men, 0);
    }

    /// Men are lost; riders whose vehicle has lost its last man get out with these pins.
    pub(crate) fn lose_crew(&mut self, id: UnitId, men: u8, riders_pins: u8) {
        let unit = &mut self.state.units[id as usize];
        unit.men -= men;
        let (left, group, at, side, kind) = (unit.men, unit.group, unit.at, unit.side, unit.kind);
        self.state.groups[group as usize].lost_men = true;
        self.emit(Event::MenLost { unit: id, men, left });
        if left == 0 {
            self.state.units[id as usize].place = Place::Lost;
            self.emit(Event::UnitLost { unit: id });
            self.empty_wreck(id, riders_pins);
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

    /// Pins on troops under a marker, who do not break there (RULES 14.7).
    fn pin_hidden(&mut self, id: UnitId, pins: u8) {
        let unit = &mut self.state.units[id as usize];
        unit.pins = unit.pins.saturating_add(pins).min(MAX_PINS);
        let now = unit.pins;
        self.emit(Event::PinsAdded { unit: id, pins, now });
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
