//! The story of one game: its events in words, turn by turn.

mod acting;
mod armour;
mod assault;
mod batteries;
mod cards;
mod choice;
mod end;
mod fire;
mod hidden;
mod house;
#[cfg(test)]
mod tests;
mod together;
mod will;
mod words;

use ruleshift_game::{Arena, Event, Event as E, Observer, Rules, State};

use crate::account::page::fold;
use crate::board;
use together::Together;

pub(crate) use house::HouseNames;
pub(crate) use words::{capital, letter};

/// Tells a game as it is played. Unlike a player, it sees everything.
pub(crate) struct Story<'a> {
    arena: &'a Arena,
    rules: &'a Rules,
    names: HouseNames,
    /// Whether to draw the board at each turn's end.
    boards: bool,
    /// Whether they are in colour.
    colour: bool,
    text: String,
    /// The sentence under way.
    sentence: Option<Together>,
}

impl<'a> Story<'a> {
    pub(crate) fn new(
        arena: &'a Arena,
        rules: &'a Rules,
        names: HouseNames,
        boards: bool,
    ) -> Story<'a> {
        Story { arena, rules, names, boards, colour: false, text: String::new(), sentence: None }
    }

    /// The same story with its boards in colour, if so.
    pub(crate) fn coloured(self, colour: bool) -> Self {
        Story { colour, ..self }
    }

    /// Where it is played.
    pub(crate) fn arena(&self) -> &'a Arena {
        self.arena
    }

    /// The rules it is played by.
    pub(crate) fn rules(&self) -> &'a Rules {
        self.rules
    }

    /// The story so far.
    pub(crate) fn into_text(mut self) -> String {
        self.pause();
        self.text
    }

    /// How far the story has been told; what comes after is told anew.
    pub(crate) fn told(&mut self) -> &str {
        self.pause();
        &self.text
    }

    /// Adds a line, folded where it is too long.
    pub(crate) fn line(&mut self, line: &str) {
        self.pause();
        self.add_line(line);
    }

    fn add_line(&mut self, line: &str) {
        for line in line.split('\n') {
            self.text.push_str(&fold(line));
            self.text.push('\n');
        }
    }

    /// An event in words, or nothing for the end of a turn, for which the board stands, and a note,
    /// for which its line does. Every event is named here: a new one does not compile until it is
    /// told or left out on purpose.
    pub(crate) fn tell(&self, event: &Event, state: &State) -> Option<String> {
        Some(match *event {
            E::TurnEnded { .. } | E::Noted { .. } => return None,
            E::MarkerPlaced { marker, at } => self.marker_placed(marker, at, state),
            E::TurnStarted { turn, cards } => self.turn_started(turn, cards),
            E::CardDrawn { card } => self.card_drawn(card, state),
            E::AmmunitionShort { side } => self.ammunition_short(side),
            E::MarkerMoved { .. } => self.marker_moved(event, state),
            E::MarkerRevealed { .. } => self.revealed(event, state),
            E::UnitPlaced { unit, at } => self.unit_placed(unit, at),
            E::SpotTried { .. } => self.spot_tried(event, state),
            E::Searched { .. } => self.searched(event, state),
            E::ReserveTested { group, rolled, needed } => self.reserve(group, rolled, needed),
            E::UnitActivated { unit, actions } => self.activated(unit, actions, state),
            E::OrderGiven { leader, unit } => self.order_given(leader, unit),
            E::UnitMoved { .. } => self.unit_moved(event),
            E::UnitTurned { unit, way } => self.turned(unit, way),
            E::Mounted { unit, carrier } => self.mounted(unit, carrier, state),
            E::Dismounted { unit, at } => self.dismounted(unit, at, state),
            E::Dug { unit, done } => self.dug(unit, done),
            E::FireHeld { unit } => self.fire_held(unit),
            E::UnitLeft { unit, points } => self.unit_left(unit, points, state),
            E::LateFireBegan { first } => self.late_fire(first),
            E::Fired { .. } => self.fired(event, state),
            E::MenLost { unit, men, left } => self.men_lost(unit, men, left),
            E::PinsAdded { unit, pins, now } => self.pins_added(unit, pins, now),
            E::Suppressed { unit } => self.suppressed(unit),
            E::UnitLost { unit } => self.unit_lost(unit, state),
            E::LeaderTested { unit, rolled, needed } => self.leader_tested(unit, rolled, needed),
            E::GunFired { .. } => self.gun_fired(event, state),
            E::ArmourStruck { .. } => self.armour_struck(event),
            E::VehicleDamaged { unit, damage } => self.vehicle_damaged(unit, damage, state),
            E::Bogged { unit } => self.bogged(unit),
            E::BogTried { unit, rolled, needed } => self.bog_tried(unit, rolled, needed),
            E::MineStruck { unit } => self.mine_struck(unit, state),
            E::Charged { .. } => self.charged(event, state),
            E::AssaultFought { .. } => self.assault_fought(event),
            E::FellBack { unit, to } => self.fell_back(unit, to, state),
            E::Captured { unit, men, by } => self.captured(unit, men, by, state),
            E::Pursued { unit, to } => self.pursued(unit, to),
            E::BatteryCalled { .. } => self.battery_called(event),
            E::BatteryAdjusted { battery, by, adjusted } => self.adjusted(battery, by, adjusted),
            E::BatteryFired { .. } => self.battery_fired(event),
            E::Shelled { .. } => self.shelled(event, state),
            E::UnitBroke { unit, men, cause } => self.unit_broke(unit, men, cause, state),
            E::GroupGone { group, points } => self.group_gone(group, points),
            E::Rallied { unit, leader, pins } => self.rallied(unit, leader, pins),
            E::Recovered { unit, pins } => self.recovered(unit, pins),
            E::GroupTested { group, rolled, needed } => self.group_tested(group, rolled, needed),
            E::SideTested { side, rolled, needed } => self.side_tested(side, rolled, needed),
            E::ObjectiveTaken { objective, side } => self.objective_taken(objective, side),
            E::Scored { attacker, defender } => self.scored(attacker, defender),
            E::FieldHeld { side, points } => self.field_held(side, points),
            E::ScriptActed { .. }
            | E::HookRolled { .. }
            | E::ActionsChanged { .. }
            | E::MenChanged { .. }
            | E::PointsChanged { .. }
            | E::CardAdded { .. }
            | E::CardRemoved { .. }
            | E::CardSkipped { .. }
            | E::CardPutBack { .. }
            | E::TurnCut { .. }
            | E::ReserveCalled { .. }
            | E::SightLimited { .. }
            | E::CounterSet { .. } => self.house_rule(event, state),
            E::Asked { .. } | E::Answered { .. } => self.question(event),
            E::GameEnded { winner, margin, cause, .. } => self.game_ended(winner, margin, cause),
        })
    }
}

impl Observer for Story<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.hear(event, state);
        let turn_over = matches!(event, Event::TurnEnded { .. });
        let begins = matches!(event, Event::TurnStarted { turn: 1, .. });
        if self.boards && (turn_over || begins) {
            let smoke = self.rules.smoke_radius() as u8;
            let board = board::draw(self.arena, state, smoke, self.colour);
            self.pause();
            // Codes of colours take no room, so a board is not folded.
            self.text.push_str(&board);
            self.text.push('\n');
        }
    }

    fn note(&mut self, line: &str) {
        self.line(&format!("    House rule: {line}"));
    }
}
