//! Names of what an account tells of, always with the side they belong to.

use ruleshift_batch::Doer;
use ruleshift_game::{Arena, BySide, GroupId, Place, Rules, Side, State, UnitId};

use crate::story::{Story, capital};

/// What is needed to name things and to know what they are worth.
pub(super) struct Things<'a> {
    pub(super) arena: &'a Arena,
    pub(super) rules: &'a Rules,
    pub(super) story: Story<'a>,
}

impl Things<'_> {
    /// "the attacker's tank 1".
    pub(super) fn unit(&self, id: UnitId, state: &State) -> String {
        format!("the {}'s {}", state.units()[id as usize].side, self.story.unit(id))
    }

    /// "Attacker's tank 1", or "Attacker's battery", at the beginning of a line.
    pub(super) fn doer_of(&self, doer: Doer, state: &State) -> String {
        format!("{}'s {}", capital(doer.side(state)), self.doer_name(doer))
    }

    /// "the attacker's tank 1".
    pub(super) fn doer(&self, doer: Doer, state: &State) -> String {
        format!("the {}'s {}", doer.side(state), self.doer_name(doer))
    }

    fn doer_name(&self, doer: Doer) -> String {
        match doer {
            Doer::Unit(unit) => self.story.unit(unit),
            Doer::Battery(battery) => self.story.battery(battery),
        }
    }

    /// "the defender's Tank section".
    pub(super) fn group(&self, id: GroupId, state: &State) -> String {
        format!("the {}'s {}", state.groups()[id as usize].side, self.story.group(id))
    }

    /// What a unit that did harm came to itself.
    pub(super) fn fate(&self, id: UnitId, state: &State) -> String {
        let unit = state.units()[id as usize];
        let lost = u32::from(unit.first_men.saturating_sub(unit.men));
        let fate = match unit.place {
            Place::Lost => "itself wiped out".to_owned(),
            Place::Fled => "itself broken".to_owned(),
            Place::Captured => "itself taken".to_owned(),
            Place::Left => "itself led off".to_owned(),
            _ if lost == 0 => "itself unhurt".to_owned(),
            _ => format!("itself lost {lost} of {}", unit.first_men),
        };
        format!("; {fate}")
    }

    /// Points of both sides, the larger first; `still` when they are as they were.
    pub(super) fn points(&self, points: BySide<i16>, still: bool) -> String {
        let [attacker, defender] = points.0;
        let still = if still { "still " } else { "" };
        match attacker - defender {
            0 => format!("{still}level at {attacker}"),
            1.. => format!("attacker {still}leads {attacker} to {defender}"),
            _ => format!("defender {still}leads {defender} to {attacker}"),
        }
    }

    /// The objective nearest to a square and how far it is.
    pub(super) fn near(&self, at: ruleshift_game::Cell) -> Option<String> {
        let objectives = (0u8..).zip(self.arena.objectives());
        let nearest = objectives.min_by_key(|(n, objective)| (objective.at.range(at), *n));
        nearest.map(|(n, objective)| match objective.at.range(at) {
            0 => format!("at {}", self.story.objective(n)),
            inches => format!("{inches} in from {}", self.story.objective(n)),
        })
    }

    /// Points that a side gets for an objective it holds when the game ends.
    pub(super) fn held_at_end(&self, side: Side, state: &State) -> i16 {
        let objectives = self.arena.objectives().iter().zip(state.holders());
        let held = objectives.filter(|(_, holder)| **holder == Some(side));
        held.map(|(o, _)| self.rules.final_points(side, o.at_end[side].min(20)) as i16).sum()
    }
}
