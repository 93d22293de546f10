//! How a game ended: who won, why, and what the margin is made of.

use ruleshift_game::{BySide, EndCause, Event, Side, State};

use super::page::{count, listed};
use super::things::Things;
use super::turns::Fact;
use super::turns::Turns;

/// The end of a game.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ending {
    pub(super) winner: Option<Side>,
    pub(super) margin: i16,
    pub(super) cause: EndCause,
    pub(super) turn: u16,
    /// Dice rolled in the whole game.
    pub(super) dice: u32,
    points: BySide<i16>,
    /// Of the points, those for what is held at the end.
    held: BySide<i16>,
}

impl Ending {
    /// The end, if the event is it.
    pub(super) fn of(event: &Event, things: &Things<'_>, state: &State) -> Option<Ending> {
        let Event::GameEnded { winner, margin, cause, dice, .. } = *event else { return None };
        let held = [Side::Attacker, Side::Defender].map(|side| things.held_at_end(side, state));
        let (turn, points) = (state.turn(), state.points());
        Some(Ending { winner, margin, cause, turn, dice, points, held: BySide(held) })
    }

    /// Who won and why; what the margin is made of.
    pub(super) fn lines(
        &self,
        turns: &Turns,
        field: Option<(Side, u8)>,
        state: &State,
    ) -> Vec<String> {
        let won =
            self.winner.map_or_else(|| "A draw".to_owned(), |side| format!("The {side} wins"));
        let margin = match self.margin.unsigned_abs() {
            0 => "level on points".to_owned(),
            points => format!("by {}", count(points.into(), "point")),
        };
        let [attacker, defender] = self.points.0;
        let points = match attacker >= defender {
            true => format!("{attacker} to {defender}"),
            false => format!("{defender} to {attacker}"),
        };
        let first = format!("{won} {}, {margin}, {points}", self.why(turns, state));
        let parts = self.parts(field);
        let first = if parts.is_empty() { first } else { format!("{first} ({})", listed(&parts)) };
        let mut lines = vec![format!("{first}.")];
        if let Some(winner) = self.winner {
            lines.push(super::course::never_behind(turns, winner));
        }
        lines
    }

    fn why(&self, turns: &Turns, state: &State) -> String {
        let turn = self.turn;
        match self.cause {
            EndCause::TurnLimit => format!("after turn {turn}, the last"),
            EndCause::SideBroke => {
                let facts = turns.all.last().map_or(&[][..], |turn| &turn.facts);
                let broke = facts.iter().filter_map(|fact| match fact {
                    Fact::SideBroke(side) => Some(format!("the {side}")),
                    _ => None,
                });
                let broke: Vec<String> = broke.collect();
                let breaks = if broke.len() == 1 { "breaks" } else { "break" };
                format!("as {} {breaks} in turn {turn}", listed(&broke))
            }
            EndCause::NobodyLeft => {
                let here = |side: Side| {
                    let hidden = ruleshift_game::Place::Hidden;
                    let stays = |unit: &&ruleshift_game::Unit| {
                        unit.side == side && (unit.here() || unit.place == hidden)
                    };
                    state.units().iter().any(|unit| stays(&unit))
                };
                let without = Side::ALL.iter().filter(|&&side| !here(side));
                let without: Vec<String> = without.map(|side| format!("the {side}")).collect();
                let has = if without.len() == 1 { "has" } else { "have" };
                format!("as {} {has} nobody left in turn {turn}", listed(&without))
            }
        }
    }

    /// What was counted when the game was over.
    fn parts(&self, field: Option<(Side, u8)>) -> Vec<String> {
        let field = field.map(|(side, points)| format!("{points} to the {side} for the field"));
        let held = Side::ALL.iter().filter(|&&side| self.held[side] != 0);
        let held = held
            .map(|&side| format!("{} to the {side} for what he holds in the end", self.held[side]));
        field.into_iter().chain(held).collect()
    }
}
