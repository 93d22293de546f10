//! The doctrine player: scores each choice by its weights and takes the best, the first of equals.

use ruleshift_game::{
    Cell, Choice, Doing, Heading, Kind, Marker, Mover, Player, Rules, Unit, View,
};

use crate::doctrine::Weights;
use crate::forecast::{Forecast, dice, two_dice_reach};
use crate::goal::Goal;
use crate::ground::{Ground, Stander};

/// A move must better a place by this much: dice and time cost something.
const MOVE_COST: i32 = 6;

/// A player with weights, under one set of rules.
pub struct Utility {
    weights: Weights,
    forecast: Forecast,
    ground: Ground,
}

impl Utility {
    /// A player with `weights` under `rules`.
    pub fn new(weights: Weights, rules: &Rules) -> Utility {
        Utility { weights, forecast: Forecast::new(rules), ground: Ground::new() }
    }
}

impl Player for Utility {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let mut judge = Judge {
            view,
            weights: &self.weights,
            forecast: &self.forecast,
            ground: &mut self.ground,
        };
        judge.best(choices)
    }
}

/// One decision being taken.
struct Judge<'a> {
    view: &'a View<'a>,
    weights: &'a Weights,
    forecast: &'a Forecast,
    ground: &'a mut Ground,
}

impl Judge<'_> {
    fn best(&mut self, choices: &[Choice]) -> usize {
        if matches!(choices[0], Choice::PickUnit(_) | Choice::PickMarker(_)) {
            return first_best(choices.iter().map(|&choice| self.pick(choice)));
        }
        self.ground.look(self.view);
        let doing = *self.view.doing();
        let Some((at, stander, inches, marker)) = self.stander(&doing) else {
            return first_best(choices.iter().map(|&choice| self.unmoved(choice, None)));
        };
        // Place 0 is where it stands; each choice that leads elsewhere adds one.
        self.ground.clear_places();
        self.ground.add_place(at);
        for &choice in choices {
            if let Some(place) = self.leads_to(choice, at, &doing, inches, marker) {
                self.ground.add_place(place);
            }
        }
        self.ground.judge(self.view, self.forecast, stander);
        let from = if doing.placing == 0 { at } else { self.ground.place(1.min(choices.len())) };
        let goal = Goal::choose(self.view, self.weights, stander.kind, from);
        let here = self.ground.score(0, self.view, self.weights, stander, goal);
        let mut place = 0;
        let scores = choices.iter().map(|&choice| match choice {
            Choice::Move(_) | Choice::Stop(_) | Choice::PlaceAt(_) => {
                place += 1;
                let cost = if matches!(choice, Choice::Move(_)) { MOVE_COST } else { 0 };
                self.ground.score(place, self.view, self.weights, stander, goal) - here - cost
            }
            _ => self.unmoved(choice, Some(stander)),
        });
        first_best(scores)
    }

    /// Who the decision is about: square, what it can do, inches it may expect to move, marker.
    fn stander(&self, doing: &Doing) -> Option<(Cell, Stander, u8, bool)> {
        let rules = self.view.rules();
        if doing.placing != 0 {
            let group = self.view.own_group(doing.placing.trailing_zeros() as u8);
            let unit = group.iter().find(|unit| unit.place == ruleshift_game::Place::Hidden)?;
            return Some((Cell::default(), Stander::unit(self.view, unit, false), 0, false));
        }
        let mover = doing.moving.map(|moving| moving.mover);
        let marker = match mover {
            Some(Mover::Marker(id)) => Some(id),
            Some(Mover::Unit(_)) => None,
            None => doing.marker.filter(|_| doing.unit.is_none() && doing.leader.is_none()),
        };
        if let Some(id) = marker {
            let marker = self.view.own_marker(id)?;
            let inches = (rules.marker_move_dice() * 7 / 2) as u8;
            return Some((marker.at, self.hidden(marker), inches, true));
        }
        let unit = match mover {
            Some(Mover::Unit(id)) => self.view.unit(id)?,
            _ => self
                .view
                .unit(doing.unit.or(doing.leader.map(|(id, _)| id)).or(self.late(doing))?)?,
        };
        let inches =
            rules.pinned_move((rules.move_dice(unit.kind) * 7 / 2).min(24), unit.pins) as u8;
        Some((unit.at, Stander::unit(self.view, unit, true), inches, false))
    }

    /// The unit asked about late fire.
    fn late(&self, doing: &Doing) -> Option<u8> {
        match doing.stage {
            ruleshift_game::Stage::LateFire { unit, .. } => Some(unit),
            _ => None,
        }
    }

    /// What stands under a marker: its group's strongest firing unit, or a section it feigns.
    fn hidden(&self, marker: &Marker) -> Stander {
        let rules = self.view.rules();
        let units = marker.group.map_or(&[][..], |group| self.view.own_group(group));
        let strongest = units.iter().max_by_key(|unit| dice(rules, unit));
        let feigned = Stander { kind: Kind::Section, dice: 0, moved: false, fear: 0 };
        strongest.map_or(feigned, |unit| Stander::unit(self.view, unit, false))
    }

    /// Where a choice leads, if it leads elsewhere.
    fn leads_to(
        &self,
        choice: Choice,
        at: Cell,
        doing: &Doing,
        inches: u8,
        marker: bool,
    ) -> Option<Cell> {
        match choice {
            Choice::Move(heading) => {
                Some(self.view.paths().reach(at, heading, inches.max(1), marker))
            }
            Choice::Stop(steps) => Some(self.after(at, doing.moving?.heading, steps, marker)),
            Choice::PlaceAt(cell) => Some(cell),
            _ => None,
        }
    }

    fn after(&self, mut at: Cell, heading: Heading, steps: u8, marker: bool) -> Cell {
        for _ in 0..steps {
            match self.view.paths().step(at, heading, marker) {
                Some((next, _)) => at = next,
                None => break,
            }
        }
        at
    }

    /// The score of a choice that moves nobody.
    fn unmoved(&self, choice: Choice, stander: Option<Stander>) -> i32 {
        match choice {
            Choice::Fire(target) => self.shot(target),
            Choice::Spot(marker) => self.spotting(marker),
            Choice::Rally => self.acting().map_or(0, |unit| self.rally(unit, 0)),
            Choice::OrderRally(id) => self.view.unit(id).map_or(0, |unit| {
                let grade = self.leader().map_or(1, |leader| i32::from(leader.grade.clamp(1, 3)));
                self.rally(unit, grade)
            }),
            Choice::OrderAction(id) => self.view.unit(id).map_or(0, |unit| self.ordered(unit)),
            Choice::OpenFire => stander.map_or(0, |_| self.opening()),
            _ => 0,
        }
    }

    fn acting(&self) -> Option<&Unit> {
        self.view.unit(self.view.doing().unit.or(self.late(self.view.doing()))?)
    }

    fn leader(&self) -> Option<&Unit> {
        self.view.unit(self.view.doing().leader?.0)
    }

    /// Harm a shot may be expected to do, weighted.
    fn shot(&self, target: u8) -> i32 {
        let (Some(unit), Some(target)) = (self.acting(), self.view.unit(target)) else { return 0 };
        let late = self.view.doing().unit.is_none();
        let mut rolled = dice(self.view.rules(), unit);
        if late {
            rolled = self.view.rules().late_fire_dice(rolled.min(24));
        }
        let range = unit.at.range(target.at);
        let harm =
            self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.cover(target.at));
        let suppressed = if target.suppressed(self.view.rules()) { 6 } else { 8 };
        1 + harm * self.weights.shoot / 25 * suppressed / 8
    }

    fn spotting(&self, marker: u8) -> i32 {
        let rules = self.view.rules();
        let Some(seen) = self.view.enemy_markers().find(|m| m.id == marker) else { return 0 };
        let doing = self.view.doing();
        let from = match (doing.unit, doing.marker) {
            (Some(id), _) => self.view.unit(id).map(|unit| unit.at),
            (None, Some(id)) => self.view.own_marker(id).map(|m| m.at),
            (None, None) => None,
        };
        let Some(from) = from else { return 0 };
        let band = rules.spot_band(from.range(seen.at));
        let needed = rules.spotting_number(band, self.view.cover(seen.at), seen.moved);
        self.weights.spot * two_dice_reach(needed) / 36
    }

    fn rally(&self, unit: &Unit, grade: i32) -> i32 {
        let rules = self.view.rules();
        let pins = rules.rally_amount(grade, unit.quality).min(unit.pins.into());
        let urgent = if unit.suppressed(rules) { 2 } else { 1 };
        pins * self.weights.rally * urgent * i32::from(unit.pins.min(4)) / 4
    }

    /// What one more action of a unit is worth: its best shot, or the way it could go.
    fn ordered(&self, unit: &Unit) -> i32 {
        let rolled = dice(self.view.rules(), unit);
        let shots =
            self.view.enemy_units().filter(|(_, foe)| self.view.sight().sees(unit.at, foe.at));
        let harm = shots
            .map(|(_, foe)| {
                let range = unit.at.range(foe.at);
                self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.cover(foe.at))
            })
            .max()
            .unwrap_or(0);
        let advance = if unit.kind == Kind::Section { self.weights.advance } else { 0 };
        (harm * self.weights.shoot / 25).max(advance)
    }

    /// Whether the harm its troops could do is worth giving up the marker.
    fn opening(&self) -> i32 {
        let best = self.ground.best_shot(0);
        if best > self.weights.open_fire { best * self.weights.shoot / 25 + 20 } else { -1 }
    }

    /// Whom to act with first: weapons that cover the others, then sections, then leaders; markers
    /// that hide troops before dummies.
    fn pick(&self, choice: Choice) -> i32 {
        match choice {
            Choice::PickUnit(id) => match self.view.unit(id).map(|unit| unit.kind) {
                Some(Kind::TripodGun) => 5,
                Some(Kind::LightMortar) => 4,
                Some(Kind::LightGun) => 3,
                Some(Kind::Section) => 2,
                _ => 1,
            },
            Choice::PickMarker(id) => {
                6 + i32::from(self.view.own_marker(id).is_some_and(|m| m.group.is_some()))
            }
            _ => 0,
        }
    }
}

/// The place of the highest score, the first of equals.
fn first_best(scores: impl Iterator<Item = i32>) -> usize {
    let mut best = (i32::MIN, 0);
    for (n, score) in scores.enumerate() {
        if score > best.0 {
            best = (score, n);
        }
    }
    best.1
}
