//! Objectives, points, house rules at work, and the end of the game.

use ruleshift_game::{EndCause, Side};

use super::Story;
use super::words::counted;

impl Story<'_> {
    pub(super) fn objective_taken(&self, objective: u8, side: Side) -> String {
        format!("    The {side} takes {}", self.objective(objective))
    }

    pub(super) fn scored(&self, attacker: i16, defender: i16) -> String {
        format!("    Points: attacker {attacker}, defender {defender}")
    }

    pub(super) fn field_held(&self, side: Side, points: u8) -> String {
        format!("    The {side} holds the field: {}", counted(points, "point"))
    }

    pub(super) fn game_ended(&self, winner: Option<Side>, margin: i16, cause: EndCause) -> String {
        let won = winner.map_or_else(|| "A draw".to_owned(), |side| format!("The {side} wins"));
        let why = match cause {
            EndCause::TurnLimit => "after the last turn",
            EndCause::SideBroke => "as a side breaks",
            EndCause::NobodyLeft => "as a side has nobody left",
        };
        // As reports write it: with a minus, which no line is broken behind.
        let margin = if margin == 0 { "0".to_owned() } else { format!("{margin:+}") };
        format!("\n{won} {why}; margin {}.", margin.replace('-', "\u{2212}"))
    }
}
