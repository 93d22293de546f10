//! The end of a game: why it ends, who holds the field, who wins (RULES 11.3, 11.5-11.7).

use crate::event::{EndCause, Event};
use crate::game::Game;
use crate::kinds::{BySide, Side};
use crate::limits::MAX_TURNS;
use crate::stage::Stage;
use crate::state::{Place, Unit};

impl Game<'_> {
    pub(crate) fn end_cause(&self, broken: BySide<bool>) -> Option<EndCause> {
        let limit = self.table.rules.turn_limit(self.table.arena.setup().turn_limit) as u16;
        if broken.0.contains(&true) {
            Some(EndCause::SideBroke)
        } else if self.nobody_left().0.contains(&true) {
            Some(EndCause::NobodyLeft)
        } else {
            (self.state.turn >= limit.min(MAX_TURNS)).then_some(EndCause::TurnLimit)
        }
    }

    /// Which sides have no unit left, neither on the table nor hidden (RULES 11.6).
    fn nobody_left(&self) -> BySide<bool> {
        let here = |unit: &Unit| unit.here() || unit.place == Place::Hidden;
        self.sides_without(here)
    }

    /// Which sides have neither a unit left nor one that has gone where it was to go.
    fn destroyed(&self) -> BySide<bool> {
        let stands = |unit: &Unit| unit.here() || matches!(unit.place, Place::Hidden | Place::Left);
        self.sides_without(stands)
    }

    fn sides_without(&self, wanted: impl Fn(&Unit) -> bool) -> BySide<bool> {
        let none = |side| !self.state.units().iter().any(|unit| unit.side == side && wanted(unit));
        BySide([none(Side::Attacker), none(Side::Defender)])
    }

    /// Counts the final points and names the winner (RULES 11.3, 11.5, 11.7).
    pub(crate) fn end_game(&mut self, cause: EndCause, broken: BySide<bool>) {
        let destroyed = self.destroyed();
        let beaten = BySide([0, 1].map(|n| broken.0[n] || destroyed.0[n]));
        let stands = match beaten {
            BySide([true, false]) => Some(Side::Defender),
            BySide([false, true]) => Some(Side::Attacker),
            _ => None,
        };
        if let Some(side) = stands {
            self.hold_the_field(side);
        }
        for (n, objective) in self.table.arena.objectives().iter().enumerate() {
            if let Some(side) = self.state.holders[n] {
                let points = self.table.rules.final_points(side, objective.at_end[side].min(20));
                self.state.points[side] += points as i16;
            }
        }
        let margin = self.state.points[Side::Attacker] - self.state.points[Side::Defender];
        let ahead = match margin {
            1.. => Some(Side::Attacker),
            ..=-1 => Some(Side::Defender),
            0 => None,
        };
        let winner = stands.or(ahead);
        self.end = Some((winner, margin, cause));
        self.state.doing.stage = Stage::Over;
        let tally = self.state.tally;
        self.emit(Event::GameEnded {
            winner,
            margin,
            cause,
            dice: tally.dice,
            throws: tally.throws,
            decisions: tally.decisions,
        });
    }

    /// The side that is left when the other is beaten takes everything (RULES 11.7).
    fn hold_the_field(&mut self, side: Side) {
        let points = self.table.rules.field_points() as u8;
        self.state.points[side] += i16::from(points);
        self.emit(Event::FieldHeld { side, points });
        for objective in 0..self.table.arena.objectives().len() as u8 {
            self.take_objective(objective, side);
        }
    }

    pub(crate) fn take_objective(&mut self, objective: u8, side: Side) {
        if self.state.holders[objective as usize] != Some(side) {
            self.state.holders[objective as usize] = Some(side);
            self.emit(Event::ObjectiveTaken { objective, side });
        }
    }
}
