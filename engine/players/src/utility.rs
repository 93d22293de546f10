//! The doctrine player: scores each choice by its weights and takes the best, the first of equals.

use ruleshift_game::{
    Cell, Choice, Doing, Gait, Heading, Kind, Marker, Mover, Player, Rules, Unit, View,
};

use crate::forecast::{Forecast, dice};
use crate::goal::Goal;
use crate::ground::{Ground, Stander};
use crate::weighing::{Score, Weighing, Worth};
use crate::weights::Weights;

/// A move must better a place by this much: dice and time cost something.
pub(crate) const MOVE_COST: i32 = 6;
/// Leaving the table where it earns points comes before all else.
const LEAVE: i32 = 10_000;
/// Holding fire for the enemy's activations, when nothing better offers.
const HOLD_FIRE: i32 = 2;

/// A player with weights, under one set of rules.
pub struct Utility {
    weights: Weights,
    forecast: Forecast,
    ground: Ground,
    worth: Worth,
}

impl Utility {
    /// A player with `weights` under `rules`.
    pub fn new(weights: Weights, rules: &Rules) -> Utility {
        let (forecast, ground) = (Forecast::new(rules), Ground::new());
        Utility { weights, forecast, ground, worth: Worth::new() }
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
        judge.best(choices, &mut self.worth)
    }
}

impl Weighing for Utility {
    fn scores(&mut self) -> &[Score] {
        self.worth.scores()
    }
}

/// One decision being taken.
pub(crate) struct Judge<'a> {
    pub(crate) view: &'a View<'a>,
    pub(crate) weights: &'a Weights,
    pub(crate) forecast: &'a Forecast,
    pub(crate) ground: &'a mut Ground,
}

/// Who a decision is about.
#[derive(Clone, Copy)]
struct Actor {
    at: Cell,
    stander: Stander,
    /// Inches it may expect to move.
    inches: u8,
    gait: Gait,
    /// What a move costs it: dice and time, and a hiding place if it is in one.
    cost: i32,
}

impl Judge<'_> {
    /// The place of the best choice; what each is worth is noted.
    fn best(&mut self, choices: &[Choice], worth: &mut Worth) -> usize {
        if matches!(choices[0], Choice::PickUnit(_) | Choice::PickMarker(_)) {
            return worth.first_best(choices.iter().map(|&choice| self.pick(choice)));
        }
        let doing = *self.view.doing();
        if doing.asked.is_some() && doing.placing == 0 {
            return worth.first_best((0..choices.len()).map(|place| self.answering(place)));
        }
        let Some(actor) = self.actor(&doing) else {
            return worth.first_best(choices.iter().map(|&choice| self.unmoved(choice, None)));
        };
        let Actor { at, stander, .. } = actor;
        // Place 0 is where it stands; each choice that leads elsewhere adds one.
        self.ground.clear_places();
        self.ground.add_place(at);
        let mut walk = (0, at);
        for &choice in choices {
            if let Some(place) = self.leads_to(choice, actor, &doing, &mut walk) {
                self.ground.add_place(place);
            }
        }
        // Of the other choices none hangs on the place.
        let by_place =
            |choice: &Choice| matches!(choice, Choice::OpenFire | Choice::DigIn | Choice::Mount(_));
        if !self.ground.leads_away() && !choices.iter().any(by_place) {
            let values = choices.iter().map(|&choice| self.unmoved(choice, Some(stander)));
            return worth.first_best(values);
        }
        self.ground.look(self.view);
        self.ground.judge(self.view, self.forecast, &stander);
        let from = if doing.placing == 0 { at } else { self.ground.place(1.min(choices.len())) };
        let goal = Goal::choose(self.view, self.weights, stander.kind, from);
        let here = self.ground.score(0, self.view, self.weights, &stander, &goal);
        let mut place = 0;
        let values = choices.iter().map(|&choice| match choice {
            Choice::Move(_) | Choice::Stop(_) | Choice::PlaceAt(_) | Choice::Dismount(_) => {
                place += 1;
                let cost = match choice {
                    Choice::Move(_) => actor.cost,
                    Choice::Dismount(_) => self.riding_on(goal, at),
                    _ => 0,
                };
                self.ground.score(place, self.view, self.weights, &stander, &goal) - here - cost
            }
            Choice::DigIn => self.digging(goal, at),
            Choice::Mount(_) => self.mounting(goal, at),
            _ => self.unmoved(choice, Some(stander)),
        });
        worth.first_best(values)
    }

    /// Who the decision is about.
    fn actor(&self, doing: &Doing) -> Option<Actor> {
        let rules = self.view.rules();
        if doing.placing != 0 {
            let group = self.view.own_group(doing.placing.trailing_zeros() as u8);
            let unit = group.iter().find(|unit| unit.place == ruleshift_game::Place::Hidden)?;
            let stander = Stander::unit(self.view, unit, false);
            let gait = Gait::of(unit.kind);
            return Some(Actor { at: Cell::default(), stander, inches: 0, gait, cost: 0 });
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
            let hidden = if marker.feature.is_some() { self.weights.open_fire } else { 0 };
            let cost = MOVE_COST + hidden;
            return Some(Actor { at: marker.at, stander, inches, gait: Gait::Marker, cost });
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
        let gait = Gait::of(unit.kind);
        Some(Actor { at: unit.at, stander, inches, gait, cost: MOVE_COST })
    }

    /// The unit asked about late fire.
    pub(crate) fn late(&self, doing: &Doing) -> Option<u8> {
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
        let feigned = Stander {
            kind: Kind::Section,
            dice: 0,
            moved: false,
            fear: 0,
            gun: None,
            leads: None,
            mark: None,
        };
        strongest.map_or(feigned, |unit| Stander::unit(self.view, unit, false))
    }

    /// Where a choice leads, if it leads elsewhere; `walk` is how far the move under way has been
    /// followed for the choices before, steps and square.
    fn leads_to(
        &self,
        choice: Choice,
        actor: Actor,
        doing: &Doing,
        walk: &mut (u8, Cell),
    ) -> Option<Cell> {
        let Actor { at, inches, gait, .. } = actor;
        match choice {
            Choice::Move(heading) => {
                Some(self.view.paths().reach(at, heading, inches.max(1), gait))
            }
            Choice::Stop(steps) => {
                if steps < walk.0 {
                    *walk = (0, at);
                }
                let more = steps - walk.0;
                *walk = (steps, self.after(walk.1, doing.moving?.heading, more, gait));
                Some(walk.1)
            }
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
            Choice::OpenFire => stander.map_or(0, |stander| self.opening(stander)),
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

    pub(crate) fn acting(&self) -> Option<&Unit> {
        let doing = self.view.doing();
        let reacting = doing.reaction.map(|reaction| reaction.unit);
        self.view.unit(reacting.or(doing.unit).or(self.late(doing))?)
    }

    pub(crate) fn leader(&self) -> Option<&Unit> {
        self.view.unit(self.view.doing().leader?.0)
    }
}
