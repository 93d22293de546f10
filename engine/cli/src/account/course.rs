//! The turning points of a game in words.

use ruleshift_game::{Side, State};

use super::page::{count, nth};
use super::text::Length;
use super::things::Things;
use super::turns::{End, Fact, Kind, Turn, Turns};
use crate::story::capital;

/// Facts told of one turn before the rest is counted.
const MOST: usize = 2;

/// The rule by which they are chosen.
pub(super) const RULE: &str = "The course: the three heaviest turns and up to three more half as heavy \
(a man gone or a point of the lead weighs 1, an objective or a group 5)";

/// A paragraph for each turning point.
pub(super) fn lines(
    turns: &Turns,
    things: &Things<'_>,
    state: &State,
    length: Length,
) -> Vec<String> {
    turns
        .turning_points(length.turns())
        .into_iter()
        .map(|turn| line(turn, things, state, length))
        .collect()
}

fn line(turn: &Turn, things: &Things<'_>, state: &State, length: Length) -> String {
    let facts = turn.told(state);
    let mut told: Vec<String> =
        facts.iter().take(MOST).map(|&fact| words(fact, things, state)).collect();
    let rest = &facts[facts.len().min(MOST)..];
    if length == Length::Full && !rest.is_empty() {
        told.push(more(rest));
    }
    let [attacker, defender] = turn.gone.0;
    told.extend(match (attacker, defender) {
        (0, 0) => None,
        (_, 0) => Some(format!("attacker loses {}", count(attacker, "man"))),
        (0, _) => Some(format!("defender loses {}", count(defender, "man"))),
        _ => Some(format!("attacker loses {}, defender {defender}", count(attacker, "man"))),
    });
    told.push(things.points(turn.points[1], turn.points[0] == turn.points[1]));
    format!("  Turn {}: {}", turn.number, capital(told.join("; ")))
}

fn words(fact: Fact, things: &Things<'_>, state: &State) -> String {
    match fact {
        Fact::SideBroke(side) => format!("the {side} breaks"),
        Fact::ObjectiveTaken(objective, side) => {
            format!("the {side} takes {}", things.story.objective(objective))
        }
        Fact::GroupGone(group, lost, by) => {
            let side = state.groups()[group as usize].side;
            let of = state.groups().iter().filter(|group| group.side == side).count();
            let what =
                format!("{}, his {} group of {of} gone", things.group(group, state), nth(lost));
            match by {
                Some(by) => format!("{} makes an end of {what}", things.doer(by, state)),
                None => format!("nothing is left of {what}"),
            }
        }
        Fact::UnitGone { unit, end, by, .. } => {
            let unit = things.unit(unit, state);
            let by = by.map(|doer| things.doer(doer, state));
            match (end, by) {
                (End::Lost, Some(by)) => format!("{by} wipes out {unit}"),
                (End::Lost, None) => format!("{unit} is wiped out"),
                (End::Broke, Some(by)) => format!("{by} breaks {unit}"),
                (End::Broke, None) => format!("{unit} breaks"),
                (End::Taken, Some(by)) => format!("{by} takes {unit} prisoner"),
                (End::Taken, None) => format!("{unit} is taken prisoner"),
                (End::KnockedOut, Some(by)) => format!("{by} knocks out {unit}"),
                (End::KnockedOut, None) => format!("{unit} is knocked out"),
            }
        }
        Fact::ReserveCame(group) => {
            format!("{} comes from the reserve", things.group(group, state))
        }
        Fact::UnitLeft(unit) => format!("{} leaves the table", things.unit(unit, state)),
    }
}

/// Facts that are only counted.
fn more(facts: &[Fact]) -> String {
    let kinds = [
        (Kind::ObjectiveTaken, "more objective taken", "more objectives taken"),
        (Kind::GroupGone, "more group gone", "more groups gone"),
        (Kind::VehicleLost, "more vehicle lost", "more vehicles lost"),
        (Kind::UnitGone, "more unit gone", "more units gone"),
        (Kind::ReserveCame, "more reserve comes", "more reserves come"),
        (Kind::UnitLeft, "more unit leaves", "more units leave"),
    ];
    let counted = kinds.iter().filter_map(|&(kind, one, many)| {
        match facts.iter().filter(|fact| fact.kind() == kind).count() {
            0 => None,
            1 => Some(format!("1 {one}")),
            number => Some(format!("{number} {many}")),
        }
    });
    counted.collect::<Vec<_>>().join(", ")
}

/// The turn after which the winner was never behind on points.
pub(super) fn never_behind(turns: &Turns, winner: Side) -> String {
    let behind = |turn: &&Turn| match winner {
        Side::Attacker => turn.lead() < 0,
        Side::Defender => turn.lead() > 0,
    };
    match turns.all.iter().rfind(behind) {
        None => format!("The {winner} was never behind on points."),
        Some(turn) if turn.number as usize == turns.all.len() => {
            format!("The {winner} was behind on points to the last turn.")
        }
        Some(turn) => format!(
            "The {winner} was behind on points at the end of turn {} for the last time, {} before the \
             game was over.",
            turn.number,
            count((turns.all.len() - turn.number as usize) as u32, "turn")
        ),
    }
}
