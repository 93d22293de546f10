//! The turn: the deck, drawing, late fire, turn end (RULES 2, 8, 11.1, 11.2).

use crate::deck::Card;
use crate::event::Event;
use crate::game::Game;
use crate::happen::Drawn;
use crate::happening::Happening;
use crate::kinds::{Kind, Side};
use crate::limits::MAX_TURNS;
use crate::luck::{Purpose, Stream};
use crate::stage::Stage;
use crate::state::{Marker, Place, State, Unit};

/// `who` of the die that decides which side fires late first; no card has this number.
const FIRST_TO_FIRE: u16 = 0xffff;

impl Game<'_> {
    pub(crate) fn start_turn(&mut self) {
        self.state.turn += 1;
        self.state.forget_rolls();
        let turn = i32::from(self.state.turn).min(MAX_TURNS.into());
        self.state.sight_limit = self.table.rules.sight_limit(turn) as u8;
        (self.state.added_cards, self.state.turn_cut) = (0, false);
        self.gather_cards();
        self.emit(Event::TurnStarted { turn: self.state.turn, cards: self.state.deck.len() });
        self.happen(Happening::TurnStart { turn: self.state.turn });
        self.state.deck.shuffle(self.state.seed, self.state.turn);
        self.state.doing.stage = Stage::Cards;
    }

    /// Gathers the cards of everything that has one (RULES 2.2).
    fn gather_cards(&mut self) {
        let (state, rules) = (&mut self.state, self.table.rules);
        state.deck.clear();
        for copy in 0..rules.turn_end_cards() as u8 {
            state.deck.add(Card::TurnEnd(copy));
        }
        for &side in Side::ALL {
            let markers = state.markers().iter().filter(|m| m.on_table && m.side == side).count();
            let cards = if markers > 0 { rules.marker_cards(markers.min(20) as i32) } else { 0 };
            (0..cards as u8).for_each(|copy| state.deck.add(Card::Marker(side, copy)));
            let short = rules.shortage_cards(side);
            (0..short as u8).for_each(|copy| state.deck.add(Card::Shortage(side, copy)));
        }
        for group in 0..state.group_count {
            let on_table =
                |s: &State| s.members(group).filter(|&u| s.units[u as usize].here()).count();
            let units = on_table(state);
            state.groups[group as usize].carded = units > 0;
            let cards = if units > 0 { rules.group_cards(units.min(24) as i32) } else { 0 };
            (0..cards as u8).for_each(|copy| state.deck.add(Card::Group(group, copy)));
        }
        for battery in 0..state.battery_count {
            if state.batteries[battery as usize].missions > 0 {
                let cards = rules.battery_cards();
                (0..cards as u8).for_each(|copy| state.deck.add(Card::Battery(battery, copy)));
            }
        }
        for unit in 0..state.unit_count {
            let Unit { place, grade, kind, .. } = state.units[unit as usize];
            if place == Place::Table && kind == Kind::Leader {
                let cards = rules.leader_cards(grade);
                (0..cards as u8).for_each(|copy| state.deck.add(Card::Leader(unit, copy)));
            }
        }
    }

    /// Draws a card and lets its owner act on it (RULES 2.4).
    pub(crate) fn draw_card(&mut self) {
        let drawn = if self.state.turn_cut { None } else { self.state.deck.draw() };
        let Some(card) = drawn else {
            return self.begin_late_fire();
        };
        self.emit(Event::CardDrawn { card });
        self.house.card = Drawn::Played;
        self.happen(Happening::drawn(card, &self.state));
        if let Card::Extra(card, owner, _) = card
            && self.house.card == Drawn::Played
        {
            self.house.extra_card = Some((card, owner));
            self.happen(Happening::ExtraCard { card, owner });
            self.house.extra_card = None;
        }
        match self.house.card {
            Drawn::Played => self.play_card(card),
            Drawn::Skipped => self.emit(Event::CardSkipped { card }),
            Drawn::PutBack => self.emit(Event::CardPutBack { card }),
        }
    }

    fn play_card(&mut self, card: Card) {
        match card {
            Card::TurnEnd(_) => {
                let deck = &self.state.deck;
                if self.table.rules.turn_ends(deck.turn_ends_drawn(), deck.turn_end_cards()) {
                    self.begin_late_fire();
                }
            }
            Card::Marker(side, _) => {
                let left = self.table.rules.marker_actions() as u8;
                for marker in &mut self.state.markers {
                    (marker.picked, marker.left) = (false, left);
                }
                self.state.doing.marker_card = Some(side);
            }
            Card::Group(group, _) => {
                for unit in self.state.members(group) {
                    self.state.units[unit as usize].picked = false;
                }
                self.state.doing.group = Some(group);
            }
            Card::Leader(unit, _) => {
                self.begin_orders(unit, self.table.rules.leader_orders(self.grade(unit)));
            }
            Card::Battery(id, _) => self.begin_battery(id),
            Card::Shortage(side, _) => {
                self.state.short_until[side] = self.state.turn + 1;
                self.emit(Event::AmmunitionShort { side });
            }
            // What it does, the script that owns it has done.
            Card::Extra(..) => {}
        }
    }

    fn begin_late_fire(&mut self) {
        let mut die =
            Stream::keyed(self.state.seed, Purpose::Deck, self.state.turn, FIRST_TO_FIRE, 0);
        let first = Side::ALL[die.below(2) as usize];
        self.state.doing.stage = Stage::LateFire { side: first, unit: 0, second: false };
        self.happen(Happening::LateFire { turn: self.state.turn });
        self.emit(Event::LateFireBegan { first });
        self.skip_late_fire(first);
    }

    /// Asks the next unit about late fire (RULES 8.1).
    pub(crate) fn next_late_fire(&mut self) {
        if let Stage::LateFire { side, unit, second } = self.state.doing.stage {
            self.state.doing.stage = Stage::LateFire { side, unit: unit + 1, second };
            self.skip_late_fire(side);
        }
    }

    /// Passes over units of the other side.
    fn skip_late_fire(&mut self, side: Side) {
        if let Stage::LateFire { unit, .. } = &mut self.state.doing.stage {
            while *unit < self.state.unit_count && self.state.units[*unit as usize].side != side {
                *unit += 1;
            }
        }
    }

    /// One side has fired: the other follows, then the turn ends.
    pub(crate) fn late_fire_over(&mut self) {
        match self.state.doing.stage {
            Stage::LateFire { side, second: false, .. } => {
                self.state.doing.stage =
                    Stage::LateFire { side: side.other(), unit: 0, second: true };
                self.skip_late_fire(side.other());
            }
            _ => self.state.doing.stage = Stage::TurnEnd,
        }
    }

    /// Turn end after late fire, in the order of RULES 2.5.
    pub(crate) fn end_turn(&mut self) {
        self.recover();
        self.test_groups();
        let broken = self.test_sides();
        self.happen(Happening::TurnEnd { turn: self.state.turn });
        self.take_objectives();
        self.score();
        self.emit(Event::TurnEnded { turn: self.state.turn });
        match self.end_cause(broken) {
            Some(cause) => self.end_game(cause, broken),
            None => {
                self.state.doing.stage = Stage::Start;
                self.forget_turn();
                self.bring_batteries_nearer();
                self.bring_reserves();
            }
        }
    }

    /// A side holds an objective with troops near it that can fight when the enemy has none
    /// there; it stays held until then (RULES 11.1).
    fn take_objectives(&mut self) {
        let distance = self.table.rules.holding_distance() as u8;
        for (n, objective) in (0u8..).zip(self.table.arena.objectives()) {
            let near = |side: Side| {
                self.state.on_table().any(|(_, unit)| {
                    unit.side == side
                        && unit.kind != Kind::Leader
                        && unit.at.range(objective.at) <= distance
                        && !unit.suppressed(self.table.rules)
                })
            };
            let side = match (near(Side::Attacker), near(Side::Defender)) {
                (true, false) => Side::Attacker,
                (false, true) => Side::Defender,
                _ => continue,
            };
            self.take_objective(n, side);
        }
    }

    fn score(&mut self) {
        for (n, objective) in self.table.arena.objectives().iter().enumerate() {
            if let Some(side) = self.state.holders[n] {
                let points =
                    self.table.rules.objective_points(side, objective.each_turn[side].min(20));
                self.state.points[side] += points as i16;
            }
        }
        let points = self.state.points;
        self.emit(Event::Scored {
            attacker: points[Side::Attacker],
            defender: points[Side::Defender],
        });
    }

    /// Takes off the flags of the turn that is over.
    fn forget_turn(&mut self) {
        let state = &mut self.state;
        for unit in &mut state.units[..state.unit_count as usize] {
            *unit = Unit {
                activated: false,
                moved: false,
                under_fire: false,
                ordered: false,
                picked: false,
                holds_fire: false,
                granted: 0,
                ..*unit
            };
        }
        for marker in &mut state.markers[..state.marker_count as usize] {
            *marker = Marker { used: 0, left: 0, moved: false, picked: false, ..*marker };
        }
        for group in &mut state.groups[..state.group_count as usize] {
            group.used = 0;
            group.lost_men = false;
        }
    }
}
