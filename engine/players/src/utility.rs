//! The doctrine player: scores each choice by its weights and takes the best, the first of equals.

use ruleshift_game::{
    Cell, Choice, Doing, Gait, Heading, Kind, Marker, Mover, Player, Rules, Unit, View,
};

use crate::batteries::{screening, shelling};
use crate::close::assault_harm;
use crate::doctrine::Weights;
use crate::forecast::{Forecast, dice, two_dice_reach};
use crate::goal::Goal;
use crate::ground::{Ground, Stander};
use crate::guns::{Mark, Piece, gun_harm, turns};

/// A move must better a place by this much: dice and time cost something.
const MOVE_COST: i32 = 6;
/// Leaving the table where it earns points comes before all else.
const LEAVE: i32 = 10_000;
/// Holding fire for the enemy's activations, when nothing better offers.
const HOLD_FIRE: i32 = 2;
/// Inches to the goal from which riding is worth while, and to the enemy within which it is not.
const RIDE_FROM: i32 = 20;
const RIDE_CLEAR: u8 = 18;

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

/// Who a decision is about.
#[derive(Clone, Copy)]
struct Actor {
    at: Cell,
    stander: Stander,
    /// Inches it may expect to move.
    inches: u8,
    gait: Gait,
}

impl Judge<'_> {
    fn best(&mut self, choices: &[Choice]) -> usize {
        if matches!(choices[0], Choice::PickUnit(_) | Choice::PickMarker(_)) {
            return first_best(choices.iter().map(|&choice| self.pick(choice)));
        }
        self.ground.look(self.view);
        let doing = *self.view.doing();
        let Some(actor) = self.actor(&doing) else {
            return first_best(choices.iter().map(|&choice| self.unmoved(choice, None)));
        };
        let Actor { at, stander, .. } = actor;
        // Place 0 is where it stands; each choice that leads elsewhere adds one.
        self.ground.clear_places();
        self.ground.add_place(at);
        for &choice in choices {
            if let Some(place) = self.leads_to(choice, actor, &doing) {
                self.ground.add_place(place);
            }
        }
        self.ground.judge(self.view, self.forecast, stander);
        let from = if doing.placing == 0 { at } else { self.ground.place(1.min(choices.len())) };
        let goal = Goal::choose(self.view, self.weights, stander.kind, from);
        let here = self.ground.score(0, self.view, self.weights, stander, goal);
        let mut place = 0;
        let scores = choices.iter().map(|&choice| match choice {
            Choice::Move(_) | Choice::Stop(_) | Choice::PlaceAt(_) | Choice::Dismount(_) => {
                place += 1;
                let cost = match choice {
                    Choice::Move(_) => MOVE_COST,
                    Choice::Dismount(_) => self.riding_on(goal, at),
                    _ => 0,
                };
                self.ground.score(place, self.view, self.weights, stander, goal) - here - cost
            }
            Choice::DigIn => self.digging(goal, at),
            Choice::Mount(_) => self.mounting(goal, at),
            _ => self.unmoved(choice, Some(stander)),
        });
        first_best(scores)
    }

    /// Who the decision is about.
    fn actor(&self, doing: &Doing) -> Option<Actor> {
        let rules = self.view.rules();
        if doing.placing != 0 {
            let group = self.view.own_group(doing.placing.trailing_zeros() as u8);
            let unit = group.iter().find(|unit| unit.place == ruleshift_game::Place::Hidden)?;
            let stander = Stander::unit(self.view, unit, false);
            let gait = Gait::of(unit.kind);
            return Some(Actor { at: Cell::default(), stander, inches: 0, gait });
        }
        if doing.reaction.is_some() || doing.battery.is_some() {
            return None;
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
            let stander = self.hidden(marker);
            return Some(Actor { at: marker.at, stander, inches, gait: Gait::Marker });
        }
        let unit = match mover {
            Some(Mover::Unit(id)) => self.view.unit(id)?,
            _ => self
                .view
                .unit(doing.unit.or(doing.leader.map(|(id, _)| id)).or(self.late(doing))?)?,
        };
        let inches =
            rules.pinned_move((rules.move_dice(unit.kind) * 7 / 2).min(24), unit.pins) as u8;
        let stander = Stander::unit(self.view, unit, true);
        Some(Actor { at: unit.at, stander, inches, gait: Gait::of(unit.kind) })
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
        let strongest =
            units.iter().max_by_key(|unit| dice(rules, unit) + 6 * i32::from(unit.gun.is_some()));
        let feigned =
            Stander { kind: Kind::Section, dice: 0, moved: false, fear: 0, gun: None, mark: None };
        strongest.map_or(feigned, |unit| Stander::unit(self.view, unit, false))
    }

    /// Where a choice leads, if it leads elsewhere.
    fn leads_to(&self, choice: Choice, actor: Actor, doing: &Doing) -> Option<Cell> {
        let Actor { at, inches, gait, .. } = actor;
        match choice {
            Choice::Move(heading) => {
                Some(self.view.paths().reach(at, heading, inches.max(1), gait))
            }
            Choice::Stop(steps) => Some(self.after(at, doing.moving?.heading, steps, gait)),
            Choice::PlaceAt(cell) => Some(cell),
            Choice::Dismount(way) => {
                let (dx, dy) = ruleshift_game::STEPS[way as usize % 8];
                at.step(dx, dy)
            }
            _ => None,
        }
    }

    fn after(&self, mut at: Cell, heading: Heading, steps: u8, gait: Gait) -> Cell {
        for _ in 0..steps {
            match self.view.paths().step(at, heading, gait) {
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
            Choice::Assault(target) => self.assaulting(target),
            Choice::Turn(way) => self.turning(way),
            Choice::Call { at, smoke, .. } => self.calling(at, smoke),
            Choice::FireBattery => self.battery_firing(),
            Choice::Adjust(battery) => self.adjusting(battery),
            Choice::Search(feature) => self.searching(feature),
            Choice::Leave => LEAVE,
            Choice::HoldFire => HOLD_FIRE,
            _ => 0,
        }
    }

    fn acting(&self) -> Option<&Unit> {
        let doing = self.view.doing();
        let reacting = doing.reaction.map(|reaction| reaction.unit);
        self.view.unit(reacting.or(doing.unit).or(self.late(doing))?)
    }

    fn leader(&self) -> Option<&Unit> {
        self.view.unit(self.view.doing().leader?.0)
    }

    /// Harm a shot may be expected to do, weighted.
    fn shot(&self, target: u8) -> i32 {
        let (Some(unit), Some(target)) = (self.acting(), self.view.unit(target)) else { return 0 };
        if target.armoured() {
            return 1 + self.gun_shot(unit, target) * self.weights.shoot / 25;
        }
        let late = self.view.doing().unit.is_none();
        let mut rolled = dice(self.view.rules(), unit);
        if late {
            rolled = self.view.rules().late_fire_dice(rolled.min(24));
        }
        let range = unit.at.range(target.at);
        let harm =
            self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.unit_cover(target));
        let suppressed = if target.suppressed(self.view.rules()) { 6 } else { 8 };
        1 + harm * self.weights.shoot / 25 * suppressed / 8
    }

    fn gun_shot(&self, unit: &Unit, target: &Unit) -> i32 {
        let piece = |gun| Piece { kind: unit.kind, gun, at: unit.at, moved: unit.moved };
        unit.gun.map_or(0, |gun| gun_harm(self.view, piece(gun), Mark::of(target)))
    }

    fn spotting(&self, marker: u8) -> i32 {
        let rules = self.view.rules();
        let Some(seen) = self.view.enemy_markers().find(|m| m.id == marker) else { return 0 };
        let Some(from) = self.looking_from() else { return 0 };
        let band = rules.spot_band(from.range(seen.at));
        let needed = rules.spotting_number(band, self.view.cover(seen.at), seen.moved);
        self.weights.spot * two_dice_reach(needed) / 36
    }

    /// A feature may as well be empty: a third of what a marker is worth.
    fn searching(&self, feature: u8) -> i32 {
        let rules = self.view.rules();
        let place = self.view.enemy_features().find(|(n, ..)| *n == feature);
        let (Some((_, at, _)), Some(from)) = (place, self.looking_from()) else { return 0 };
        let needed = rules.search_number(rules.spot_band(from.range(at)), self.view.cover(at));
        self.weights.spot * two_dice_reach(needed) / 36 / 3
    }

    fn looking_from(&self) -> Option<Cell> {
        let doing = self.view.doing();
        match (doing.unit, doing.marker) {
            (Some(id), _) => self.view.unit(id).map(|unit| unit.at),
            (None, Some(id)) => self.view.own_marker(id).map(|m| m.at),
            (None, None) => None,
        }
    }

    fn assaulting(&self, target: u8) -> i32 {
        let (Some(unit), Some(enemy)) = (self.acting(), self.view.unit(target)) else { return 0 };
        let harm = assault_harm(self.view, unit, enemy, self.weights.caution);
        harm * self.weights.shoot / 25 * self.weights.assault / 10
    }

    /// What turning is worth: the better shot it gives, and the better armour it shows to guns.
    fn turning(&self, way: u8) -> i32 {
        let Some(unit) = self.acting() else { return 0 };
        let arc = self.view.rules().fire_arc(unit.kind);
        let seen = || self.view.enemy_units().filter(|(_, foe)| self.view.sees(unit.at, foe.at));
        let best_shot = |facing: u8| {
            let bears = |foe: &Unit| turns(facing, unit.at.way_to(foe.at)) <= arc;
            let shots = seen().filter(|(_, foe)| bears(foe)).map(|(_, foe)| self.harm(unit, foe));
            shots.max().unwrap_or(0)
        };
        let risk = |facing: u8| {
            let mark = Mark { facing, ..Mark::of(unit) };
            let threat = |foe: &Unit| {
                let piece = |gun| Piece { kind: foe.kind, gun, at: foe.at, moved: false };
                foe.gun.map_or(0, |gun| gun_harm(self.view, piece(gun), mark))
            };
            seen().map(|(_, foe)| threat(foe)).sum::<i32>()
        };
        let shot =
            if arc < 4 && unit.shots > 0 { best_shot(way) - best_shot(unit.facing) } else { 0 };
        let safety = if unit.armoured() { risk(unit.facing) - risk(way) } else { 0 };
        shot * self.weights.shoot / 50 + safety * self.weights.caution / 50 - MOVE_COST
    }

    /// Harm that a shot of a unit may be expected to do to an enemy.
    fn harm(&self, unit: &Unit, foe: &Unit) -> i32 {
        if foe.armoured() {
            return self.gun_shot(unit, foe);
        }
        let (rolled, range) = (dice(self.view.rules(), unit), unit.at.range(foe.at));
        self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.unit_cover(foe))
    }

    fn calling(&self, at: Cell, smoke: bool) -> i32 {
        if smoke {
            return screening(self.view, self.forecast, at) * self.weights.caution / 50;
        }
        shelling(self.view, self.forecast, at) * self.weights.shoot / 40
    }

    fn battery_firing(&self) -> i32 {
        let id = self.view.doing().battery;
        let call = id.and_then(|id| self.view.own_battery(id)).and_then(|battery| battery.call);
        call.map_or(
            0,
            |call| {
                if call.smoke { 1 } else { shelling(self.view, self.forecast, call.at) }
            },
        )
    }

    fn adjusting(&self, battery: u8) -> i32 {
        let call = self.view.own_battery(battery).and_then(|battery| battery.call);
        call.map_or(0, |call| {
            let worth = shelling(self.view, self.forecast, call.at) * self.weights.shoot / 40;
            worth >> (1 + call.adjusted)
        })
    }

    /// Digging pays where a unit means to stay.
    fn digging(&self, goal: Goal, at: Cell) -> i32 {
        let stays = goal.held && goal.distance(self.view, at) == 0;
        if stays { self.weights.dig } else { 0 }
    }

    /// Riding pays while the way is long and no enemy shows.
    fn mounting(&self, goal: Goal, at: Cell) -> i32 {
        let near = self.view.enemy_units().any(|(_, foe)| foe.at.range(at) <= RIDE_CLEAR);
        let far = goal.distance(self.view, at);
        if near || goal.held || far < RIDE_FROM { -1 } else { goal.pull * far / 4 }
    }

    /// What getting out gives up while riding still pays.
    fn riding_on(&self, goal: Goal, at: Cell) -> i32 {
        let near = self.view.enemy_units().any(|(_, foe)| foe.at.range(at) <= RIDE_CLEAR);
        if near || goal.distance(self.view, at) < RIDE_FROM / 2 { -1000 } else { 1000 }
    }

    fn rally(&self, unit: &Unit, grade: i32) -> i32 {
        let rules = self.view.rules();
        let pins = rules.rally_amount(grade, unit.quality).min(unit.pins.into());
        let urgent = if unit.suppressed(rules) { 2 } else { 1 };
        pins * self.weights.rally * urgent * i32::from(unit.pins.min(4)) / 4
    }

    /// What one more action of a unit is worth: its best shot, or the way it could go.
    fn ordered(&self, unit: &Unit) -> i32 {
        let shots = self.view.enemy_units().filter(|(_, foe)| self.view.sees(unit.at, foe.at));
        let harm = shots.map(|(_, foe)| self.harm(unit, foe)).max().unwrap_or(0);
        let advance = if unit.kind.is_section() { self.weights.advance } else { 0 };
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
                Some(Kind::Observer) => 9,
                Some(Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun) => 7,
                Some(Kind::TripodGun) => 5,
                Some(Kind::LightMortar | Kind::MediumMortar) => 4,
                Some(Kind::LightGun | Kind::AntiTankTeam) => 3,
                Some(Kind::Section | Kind::AssaultSection | Kind::FlameTeam) => 2,
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
