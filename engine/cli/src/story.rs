//! The story of one game: its events in words, turn by turn.

use ruleshift_game::{
    Arena, BreakCause, Card, EndCause, Event, Heading, MarkerId, Observer, RevealCause, State,
    UnitId,
};

use crate::board;

/// Tells a game as it is played. Unlike a player, it sees everything.
pub(crate) struct Story<'a> {
    arena: &'a Arena,
    /// Whether to draw the board at each turn's end.
    boards: bool,
    text: String,
}

const WAYS: [&str; 8] = [
    "right",
    "up and right",
    "up",
    "up and left",
    "left",
    "down and left",
    "down",
    "down and right",
];

impl<'a> Story<'a> {
    pub(crate) fn new(arena: &'a Arena, boards: bool) -> Story<'a> {
        Story { arena, boards, text: String::new() }
    }

    /// The story so far.
    pub(crate) fn into_text(self) -> String {
        self.text
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn unit(&self, id: UnitId) -> String {
        self.arena.unit_name(id).map_or_else(|| format!("unit {id}"), |(unit, _)| unit.to_owned())
    }

    fn units(&self, id: UnitId, state: &State) -> String {
        format!("{}'s {}", capital(state.units()[id as usize].side), self.unit(id))
    }

    fn group(&self, id: u8) -> String {
        self.arena.group_name(id).map_or_else(|| format!("group {id}"), str::to_owned)
    }

    fn marker(id: MarkerId, state: &State) -> String {
        format!("{} marker {}", state.markers()[id as usize].side, letter(id))
    }

    fn way(&self, heading: Heading) -> String {
        match heading {
            Heading::Straight(way) => WAYS[way as usize % 8].to_owned(),
            Heading::Objective(n) => {
                let objective = self.arena.objectives().get(n as usize);
                objective.map_or_else(String::new, |o| format!("towards {}", o.name))
            }
        }
    }

    fn tell(&mut self, event: &Event, state: &State) -> Option<String> {
        Some(match *event {
            Event::MarkerPlaced { .. } | Event::LateFireBegan { .. } | Event::UnitPlaced { .. } => {
                return None;
            }
            Event::TurnStarted { turn, cards } => {
                format!("\nTurn {turn}: {cards} cards in the deck")
            }
            Event::CardDrawn { card } => format!("  Card: {}", self.card(card, state)),
            Event::MarkerMoved { marker, heading, inches, to } => {
                let name = capital(Self::marker(marker, state));
                format!(
                    "    {name} rolls {inches} in {} and stops at {},{}",
                    self.way(heading),
                    to.x,
                    to.y
                )
            }
            Event::MarkerRevealed { marker, group, cause } => {
                self.revealed(marker, group, cause, state)
            }
            Event::SpotTried { unit, by, marker, rolled, needed } => {
                let looker = unit
                    .map(|u| self.units(u, state))
                    .or(by.map(|m| capital(Self::marker(m, state))));
                let looker = looker.unwrap_or_default();
                let found = if rolled >= needed { "finds it" } else { "sees nothing" };
                format!(
                    "    {looker} looks for {}: {rolled}, {needed} needed, {found}",
                    Self::marker(marker, state)
                )
            }
            Event::UnitActivated { unit, actions } => {
                format!(
                    "    {} acts: {actions} {}",
                    self.units(unit, state),
                    plural(actions, "action")
                )
            }
            Event::UnitMoved { unit, heading, inches, to } => {
                format!(
                    "      {} moves up to {inches} in {}, to {},{}",
                    self.unit(unit),
                    self.way(heading),
                    to.x,
                    to.y
                )
            }
            Event::Fired { unit, target, dice, needed, hits, late, blast, .. } => {
                let how = match (late, blast) {
                    (true, _) => "fires late at",
                    (_, true) => "also strikes",
                    _ => "fires at",
                };
                let (unit, target) = (self.unit(unit), self.units(target, state));
                format!(
                    "      {unit} {how} {target}: {dice} dice, {needed} or more, {hits} {}",
                    plural(hits, "hit")
                )
            }
            _ => return self.tell_harm(event, state),
        })
    }

    fn tell_harm(&mut self, event: &Event, state: &State) -> Option<String> {
        Some(match *event {
            Event::MenLost { unit, men, left } => {
                format!(
                    "        {} loses {men} {}, {left} left",
                    self.unit(unit),
                    if men == 1 { "man" } else { "men" }
                )
            }
            Event::PinsAdded { unit, pins, now } => {
                format!(
                    "        {} takes {pins} {}: {now} now",
                    self.unit(unit),
                    plural(pins, "pin")
                )
            }
            Event::Suppressed { unit } => format!("        {} is suppressed", self.unit(unit)),
            Event::UnitBroke { unit, men, cause } => {
                let why =
                    if cause == BreakCause::Pins { "under fire" } else { "with its group shaken" };
                format!(
                    "        {} breaks {why}: {men} men leave the table",
                    self.units(unit, state)
                )
            }
            Event::UnitLost { unit } => {
                format!("        {} has no man left", self.units(unit, state))
            }
            Event::GroupGone { group, points } => {
                format!(
                    "        Nothing is left of {}: {points} {} to the enemy",
                    self.group(group),
                    plural(points, "point")
                )
            }
            Event::LeaderTested { unit, rolled, needed } => {
                let fate = if rolled >= needed { "hit" } else { "unhurt" };
                format!(
                    "        {} in the fire: {rolled}, hit from {needed}, {fate}",
                    self.unit(unit)
                )
            }
            Event::Rallied { unit, leader, pins } => {
                let by = leader.map_or_else(
                    || "rallies".to_owned(),
                    |l| format!("is rallied by {}", self.unit(l)),
                );
                format!("      {} {by}: {pins} {} off", self.unit(unit), plural(pins, "pin"))
            }
            Event::OrderGiven { leader, unit } => {
                format!("      {} orders {} to act", self.unit(leader), self.unit(unit))
            }
            Event::Recovered { unit, pins } => {
                format!("    {} recovers {pins} {}", self.unit(unit), plural(pins, "pin"))
            }
            _ => return self.tell_end(event),
        })
    }

    fn tell_end(&mut self, event: &Event) -> Option<String> {
        let held = |rolled, needed| if rolled >= needed { "it stands" } else { "it gives way" };
        Some(match *event {
            Event::GroupTested { group, rolled, needed } => {
                format!(
                    "    {} is tested: {rolled}, {needed} needed, {}",
                    self.group(group),
                    held(rolled, needed)
                )
            }
            Event::SideTested { side, rolled, needed } => {
                format!(
                    "    The {side} is past his break point: {rolled}, {needed} needed, {}",
                    held(rolled, needed)
                )
            }
            Event::ObjectiveTaken { objective, side } => {
                let name = self
                    .arena
                    .objectives()
                    .get(objective as usize)
                    .map_or("an objective", |o| &o.name);
                format!("    The {side} takes {name}")
            }
            Event::Scored { attacker, defender } => {
                format!("    Points: attacker {attacker}, defender {defender}")
            }
            Event::FieldHeld { side, points } => {
                format!("    The {side} holds the field: {points} {}", plural(points, "point"))
            }
            Event::ScriptActed { unit, pins } => match pins {
                0 => format!("    House rule: {} gets one more action", self.unit(unit)),
                _ => format!("    House rule: {} gets {pins:+} pins", self.unit(unit)),
            },
            Event::GameEnded { winner, margin, cause, .. } => {
                let won =
                    winner.map_or_else(|| "A draw".to_owned(), |side| format!("The {side} wins"));
                let why = match cause {
                    EndCause::TurnLimit => "after the last turn",
                    EndCause::SideBroke => "as the enemy breaks",
                    EndCause::NobodyLeft => "as nobody is left",
                };
                format!("\n{won} {why}; margin {margin:+}.")
            }
            _ => return None,
        })
    }

    fn card(&self, card: Card, state: &State) -> String {
        match card {
            Card::TurnEnd(_) => "turn end".to_owned(),
            Card::Marker(side, _) => format!("{side}'s markers"),
            Card::Group(group, _) => {
                format!("{} ({})", self.group(group), state.groups()[group as usize].side)
            }
            Card::Battery(id, _) => {
                let battery = self.arena.batteries().nth(id.into());
                battery.map_or_else(String::new, |(side, b)| format!("{} ({side})", b.name))
            }
            Card::Shortage(side, _) => format!("{side} short of ammunition"),
            Card::Leader(unit, _) => {
                format!("{} ({})", self.unit(unit), state.units()[unit as usize].side)
            }
        }
    }

    fn revealed(
        &self,
        marker: MarkerId,
        group: Option<u8>,
        cause: RevealCause,
        state: &State,
    ) -> String {
        let why = match cause {
            RevealCause::Spotted => "is spotted",
            RevealCause::PlainSight => "is in plain sight",
            RevealCause::Contact => "is touched by the enemy",
            RevealCause::OpenedFire => "is given up to open fire",
        };
        let what = group.map_or_else(|| "a dummy".to_owned(), |group| self.group(group));
        format!("    {} {why}: {what}", capital(Self::marker(marker, state)))
    }
}

impl Observer for Story<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        if let Some(line) = self.tell(event, state) {
            self.line(&line);
        }
        let turn_over = matches!(event, Event::TurnEnded { .. });
        let begins = matches!(event, Event::TurnStarted { turn: 1, .. });
        if self.boards && (turn_over || begins) {
            let board = board::draw(self.arena, state);
            self.line(&board);
        }
    }

    fn note(&mut self, line: &str) {
        self.line(&format!("    House rule: {line}"));
    }
}

/// The letter of a marker on the board: the attacker's and the defender's share one alphabet.
pub(crate) fn letter(id: MarkerId) -> char {
    char::from(b'a' + id % 26)
}

fn plural(count: u8, word: &str) -> String {
    if count == 1 { word.to_owned() } else { format!("{word}s") }
}

fn capital(text: impl ToString) -> String {
    let text = text.to_string();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
