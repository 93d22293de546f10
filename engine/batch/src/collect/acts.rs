//! Actions and shots.

use ruleshift_game::{BySide, Event, Side, State, UnitId};
use ruleshift_record::Metric;

use super::actor::acts;
use super::sheet::{End, Sheet};

/// What units, markers and batteries do.
///
/// - Actions, by side: the action events that [`acts`] names. From 0, without bound.
/// - Shots and late shots: `Fired`, no blast, and `GunFired`. From 0.
/// - Dice rolled and choices put to the players, as the engine counts them.
///
/// All are plain counts, defined here (Ruleshift's own, no published measure).
#[derive(Clone, Default)]
pub(super) struct Acts {
    actions: BySide<u32>,
    shots: u32,
    late_shots: u32,
    /// The unit that acts on the card drawn last.
    acting: Option<UnitId>,
    /// Whether the turn is at its late fire.
    late: bool,
}

impl Acts {
    /// Takes an event in; who acts, if it is an action.
    pub(super) fn event(&mut self, event: &Event, state: &State) -> Option<Side> {
        match *event {
            Event::TurnStarted { .. } => self.late = false,
            Event::UnitActivated { unit, .. } | Event::OrderGiven { unit, .. } => {
                self.acting = Some(unit);
            }
            Event::CardDrawn { .. } => self.acting = None,
            Event::LateFireBegan { .. } => (self.acting, self.late) = (None, true),
            Event::Fired { late, blast: false, .. } => self.shot(late),
            Event::GunFired { .. } => self.shot(self.late),
            _ => {}
        }
        let side = acts(event, state, self.acting, self.late)?;
        self.actions[side] += 1;
        Some(side)
    }

    fn shot(&mut self, late: bool) {
        *(if late { &mut self.late_shots } else { &mut self.shots }) += 1;
    }

    pub(super) fn actions(&self) -> BySide<u32> {
        self.actions
    }

    pub(super) fn report(&self, end: &End, to: &mut Sheet) {
        let sides = [Metric::AttackerActions, Metric::DefenderActions];
        to.sides(Metric::Actions, sides, self.actions.0);
        to.count(Metric::ShotsTaken, self.shots);
        to.count(Metric::LateShots, self.late_shots);
        to.count(Metric::Dice, end.dice);
        to.count(Metric::Decisions, end.decisions);
    }
}
