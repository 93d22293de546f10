//! What belongs together is told together: a shot with its effect, an assault with its outcome, an
//! objective with the points it brings. Each event has its words in [`Story::tell`]; here the words
//! of an effect are shortened, for what did it stands just before.

use ruleshift_game::{BreakCause, Damage, Event, GroupId, Side, State, UnitId};

use super::Story;
use super::words::{capital, counted, men, square};
use crate::account::page::nth;

/// A sentence that may still go on.
#[derive(Default)]
pub(super) struct Together {
    /// How it began.
    text: String,
    /// Whom the last words are about; none when nobody was named.
    about: Option<UnitId>,
    /// Whether anything has been added.
    begun: bool,
    /// Whether it tells of an objective taken, to which the points belong.
    objective: bool,
}

impl Together {
    fn starting(text: String, about: Option<UnitId>) -> Together {
        Together { text, about, begun: false, objective: false }
    }

    /// Adds what became of a unit, which is named unless the words before were about it.
    fn add(&mut self, unit: UnitId, name: &str, what: &str) {
        let joint = match (self.begun, self.about == Some(unit)) {
            (false, true) => ": ".to_owned(),
            (true, true) => ", ".to_owned(),
            (_, false) => format!("; {name}: "),
        };
        self.text += &joint;
        self.text += what;
        (self.about, self.begun) = (Some(unit), true);
    }

    /// Adds a whole clause.
    fn and(&mut self, clause: &str) {
        self.text += "; ";
        self.text += clause;
        (self.about, self.begun) = (None, true);
    }
}

impl Story<'_> {
    /// Adds an event to the sentence under way, or ends it and begins another.
    pub(super) fn hear(&mut self, event: &Event, state: &State) {
        if self.goes_on(event, state) {
            return;
        }
        self.pause();
        let Some(text) = self.tell(event, state) else { return };
        match *event {
            Event::Fired { target, dice, needed, hits, .. } => {
                let text = self.shot(&text, dice, needed, hits);
                self.sentence = Some(Together::starting(text, Some(target)));
            }
            Event::Shelled { target, dice, needed, hits, .. } => {
                let text = self.shot(&text, dice, needed, hits);
                self.sentence = Some(Together::starting(text, Some(target)));
            }
            Event::GunFired { target, .. } | Event::Charged { target, .. } => {
                self.sentence = Some(Together::starting(text, Some(target)));
            }
            Event::MineStruck { unit } | Event::VehicleDamaged { unit, .. } => {
                self.sentence = Some(Together::starting(text, Some(unit)));
            }
            Event::ObjectiveTaken { .. } => {
                let sentence = Together::starting(text, None);
                self.sentence = Some(Together { objective: true, ..sentence });
            }
            Event::AssaultFought { .. }
            | Event::GroupTested { .. }
            | Event::MenChanged { .. }
            | Event::MenLost { .. }
            | Event::UnitBroke { .. }
            | Event::UnitMoved { .. } => self.sentence = Some(Together::starting(text, None)),
            _ => self.add_line(&text),
        }
    }

    /// Ends the sentence under way.
    pub(super) fn pause(&mut self) {
        if let Some(sentence) = self.sentence.take() {
            self.add_line(&sentence.text);
        }
    }

    /// A shot in the order of a report: who, at whom, how many of the dice hit.
    fn shot(&self, told: &str, dice: u8, needed: u8, hits: u8) -> String {
        let (who, _) = told.rsplit_once(": ").unwrap_or((told, ""));
        format!("{who}, {hits} of {dice} hit ({needed} or more)")
    }

    /// Whether an event goes on with the sentence under way, and if so, adds it.
    fn goes_on(&mut self, event: &Event, state: &State) -> bool {
        let Some(mut sentence) = self.sentence.take() else { return false };
        let goes_on = self.add_effect(&mut sentence, event, state)
            || self.add_clause(&mut sentence, event, state);
        self.sentence = Some(sentence);
        goes_on
    }

    /// What became of a unit.
    fn add_effect(&self, sentence: &mut Together, event: &Event, state: &State) -> bool {
        let (unit, what) = match *event {
            Event::MenLost { unit, men: lost, left } => {
                let left = if left == 0 { "none".to_owned() } else { left.to_string() };
                (unit, format!("{} lost, {left} left", men(lost)))
            }
            Event::PinsAdded { unit, pins, now } if pins == now => (unit, counted(pins, "pin")),
            Event::PinsAdded { unit, pins, now } => {
                (unit, format!("{}, {now} now", counted(pins, "pin")))
            }
            Event::Suppressed { unit } => {
                (unit, "suppressed, so that it cannot move or fire".to_owned())
            }
            Event::UnitLost { unit } => (unit, "it is wiped out".to_owned()),
            Event::UnitBroke { unit, men: fled, cause } => (unit, breaks(fled, cause)),
            Event::LeaderTested { unit, rolled, needed } => {
                let fate = if rolled >= needed { "hit" } else { "unhurt" };
                (unit, format!("{fate} ({rolled}, hit from {needed})"))
            }
            Event::ArmourStruck { unit, face, penetration, armour, rolled, needed, .. } => {
                let end = if rolled >= needed { "goes through" } else { "does not go through" };
                let plate = format!("{penetration} mm against {armour} mm of {face}");
                (unit, format!("{plate} {end} ({rolled}, {needed} needed)"))
            }
            Event::VehicleDamaged { unit, damage } => (unit, damaged(damage).to_owned()),
            _ => return false,
        };
        let name = self.short(unit, state);
        sentence.add(unit, &name, &what);
        true
    }

    /// What came of it all.
    fn add_clause(&self, sentence: &mut Together, event: &Event, state: &State) -> bool {
        let clause = match *event {
            Event::MineStruck { unit } => format!("{} strikes a mine", self.short(unit, state)),
            Event::AssaultFought { dice, hits, enemy_dice, enemy_hits, .. } => {
                format!(
                    "hand to hand, {hits} of {dice} hit, of the enemy {enemy_hits} of {enemy_dice}"
                )
            }
            Event::FellBack { unit, to } => {
                format!("{} is thrown back to {}", self.short(unit, state), square(to))
            }
            Event::Captured { unit, men: taken, by } => {
                let (unit, by) = (self.short(unit, state), self.short(by, state));
                format!("{unit} surrenders to {by}, {} taken", men(taken))
            }
            Event::Pursued { unit, .. } => format!("{} takes the place", self.short(unit, state)),
            Event::GroupGone { group, points } => self.nothing_left(group, points, state),
            Event::Scored { attacker, defender } if sentence.objective => {
                format!("points {attacker} to {defender}: {}", leads(attacker - defender))
            }
            _ => return false,
        };
        sentence.and(&clause);
        true
    }

    /// A unit's name, with its side's only where the enemy has one of the same name.
    fn short(&self, id: UnitId, state: &State) -> String {
        let side = |unit: UnitId| state.units()[unit as usize].side;
        let name = self.unit(id);
        let all = 0..state.units().len() as UnitId;
        let twice =
            all.into_iter().any(|other| side(other) != side(id) && self.unit(other) == name);
        if twice { self.units(id, state) } else { name }
    }

    fn nothing_left(&self, id: GroupId, points: u8, state: &State) -> String {
        let side = state.groups()[id as usize].side;
        let of_side = || state.groups().iter().filter(|group| group.side == side);
        let (gone, all) = (of_side().filter(|group| group.gone).count(), of_side().count());
        let (group, points) = (self.group(id), counted(points, "point"));
        format!(
            "nothing is left of {group}, the {side}'s {} group lost of {all}: {points} to the enemy",
            nth(gone as u32)
        )
    }
}

fn breaks(fled: u8, cause: BreakCause) -> String {
    let leave = if fled == 1 { "leaves" } else { "leave" };
    match cause {
        BreakCause::KnockedOut => format!("the other {} of its crew {leave} the table", men(fled)),
        BreakCause::Pins => format!("it breaks, {} {leave} the table", men(fled)),
        BreakCause::GroupTest => format!("it breaks with its group, {} {leave}", men(fled)),
    }
}

fn damaged(damage: Damage) -> &'static str {
    match damage {
        Damage::Shaken => "its crew is shaken",
        Damage::Immobile => "it cannot move any more",
        Damage::KnockedOut => "it is knocked out",
    }
}

/// Who is ahead by how much.
fn leads(difference: i16) -> String {
    let side = match difference {
        0 => return "level".to_owned(),
        1.. => Side::Attacker,
        _ => Side::Defender,
    };
    format!("{} leads by {}", capital(side).to_lowercase(), difference.abs())
}
