//! Choices in the words of the story: who decides, and between what.

use ruleshift_game::{
    Cell, Choice, Doing, Gait, Heading, MarkerId, Mover, Moving, Offer, Place, Stage, UnitId, View,
};

use super::Story;
use super::words::{capital, letter, square, way};

impl Story<'_> {
    /// Who decides about what: "Attacker's First section".
    pub(crate) fn chooser(&self, view: &View<'_>) -> String {
        let doing = view.doing();
        let side = capital(view.side());
        let own = |unit: UnitId| format!("{side}'s {}", self.unit(unit));
        if doing.placing != 0 {
            return match self.placed(view) {
                Some(name) => format!("{side}, where {name} appears"),
                None => side,
            };
        }
        if let Some(asked) = doing.asked {
            return format!("{side}, {}", self.extra_card(asked.card));
        }
        match doing.moving.map(|moving| moving.mover) {
            Some(Mover::Unit(unit)) => return own(unit),
            Some(Mover::Marker(id)) => return format!("{side} marker {}", letter(id)),
            None => {}
        }
        if let Some(reaction) = doing.reaction {
            return format!("{}, which holds its fire", own(reaction.unit));
        }
        if let Some(battery) = doing.battery {
            return format!("{side}'s {}", self.battery(battery));
        }
        if let Some(unit) = doing.unit.or(doing.leader.map(|(unit, _)| unit)) {
            return own(unit);
        }
        match (doing.group, doing.marker, doing.stage) {
            (Some(group), ..) => format!("{side}'s {}", self.group(group)),
            (_, Some(id), _) => format!("{side} marker {}", letter(id)),
            (.., Stage::LateFire { unit, .. }) if doing.marker_card.is_none() => own(unit),
            _ => format!("{side}'s markers"),
        }
    }

    /// The name of the unit that is to be placed: the first of its group that is still hidden.
    fn placed(&self, view: &View<'_>) -> Option<String> {
        let group = view.doing().placing.trailing_zeros() as u8;
        let nth = view.own_group(group).iter().position(|unit| unit.place == Place::Hidden)?;
        self.arena.group(group)?.units.get(nth).map(|unit| unit.name.clone())
    }

    /// What is chosen: "fire at Defender's First section".
    pub(crate) fn choice(&self, choice: Choice, view: &View<'_>) -> String {
        let doing = view.doing();
        match choice {
            Choice::Done => done(doing).to_owned(),
            Choice::PickUnit(unit) => format!("act with {}", self.unit(unit)),
            Choice::PickMarker(id) => format!("act with marker {}", letter(id)),
            Choice::Move(Heading::Straight(to)) => format!("move {}", way(to)),
            Choice::Move(heading) => format!("move {}", self.heading(heading)),
            Choice::Stop(steps) => match doing.moving.and_then(|moving| end(moving, steps, view)) {
                Some(at) => format!("stop at {}", square(at)),
                None => format!("stop after {steps}"),
            },
            Choice::PlaceAt(cell) => format!("at {}", square(cell)),
            Choice::OpenFire => "give up the marker to open fire".to_owned(),
            Choice::Spot(id) => format!("look for {}", enemy_marker(id, view)),
            Choice::Fire(unit) => format!("fire at {}", self.enemy(unit, view)),
            Choice::Rally => "take pins off".to_owned(),
            Choice::OrderRally(unit) => format!("order {} to take pins off", self.unit(unit)),
            Choice::OrderAction(unit) => format!("order {} to act", self.unit(unit)),
            Choice::Turn(to) => format!("turn to face {}", way(to)),
            Choice::Assault(unit) => format!("rush at {}", self.enemy(unit, view)),
            Choice::DigIn => "dig".to_owned(),
            Choice::Mount(carrier) => format!("get into {}", self.unit(carrier)),
            Choice::Dismount(to) => format!("get out, {}", way(to)),
            Choice::Call { battery, at, smoke } => {
                let what = if smoke { "smoke" } else { "fire" };
                format!("call {what} of {} on {}", self.battery(battery), square(at))
            }
            Choice::FireBattery => "fire".to_owned(),
            Choice::Adjust(battery) => format!("correct the fire of {}", self.battery(battery)),
            Choice::Search(feature) => {
                format!("search {}", self.feature(view.side().other(), feature))
            }
            Choice::Leave => "leave the table".to_owned(),
            Choice::HoldFire => "hold its fire for the enemy's moves".to_owned(),
            Choice::Answer(answer) => match doing.asked.map(|asked| asked.offer) {
                Some(Offer::Options(_)) | None => format!("option {answer}"),
                Some(Offer::Units(_)) => self.unit(answer),
            },
        }
    }

    fn enemy(&self, unit: UnitId, view: &View<'_>) -> String {
        format!("{}'s {}", capital(view.side().other()), self.unit(unit))
    }
}

/// What doing no more is, where it is asked.
fn done(doing: &Doing) -> &'static str {
    if doing.asked.is_some() {
        return "none of it";
    }
    let late = matches!(doing.stage, Stage::LateFire { .. });
    if doing.reaction.is_some() || doing.battery.is_some() || late && doing.unit.is_none() {
        "do not fire"
    } else {
        "do no more"
    }
}

fn enemy_marker(id: MarkerId, view: &View<'_>) -> String {
    format!("{} marker {}", view.side().other(), letter(id))
}

/// Where a move ends after so many squares.
fn end(moving: Moving, steps: u8, view: &View<'_>) -> Option<Cell> {
    let (mut at, gait) = match moving.mover {
        Mover::Unit(id) => view.unit(id).map(|unit| (unit.at, Gait::of(unit.kind)))?,
        Mover::Marker(id) => (view.own_marker(id)?.at, Gait::Marker),
    };
    for _ in 0..steps {
        at = view.paths().step(at, moving.heading, gait)?.0;
    }
    Some(at)
}
