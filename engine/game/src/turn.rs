//! The turn: setting up, the deck, drawing, turn end (RULES 2, 11).

use crate::deck::Card;
use crate::event::{EndCause, Event};
use crate::game::Game;
use crate::kinds::{BySide, Kind, Side};
use crate::limits::MAX_TURNS;
use crate::luck::{Purpose, Stream};
use crate::script::Happening;
use crate::stage::Stage;
use crate::state::{Marker, Place, State, Unit};

/// `who` of the die that decides which side fires late first; no card has this number.
const FIRST_TO_FIRE: u16 = 0xffff;

impl Game<'_> {
    /// Puts forces under their markers and markers on their spots (RULES 4.1).
    pub(crate) fn set_up(&mut self) {
        for &side in Side::ALL {
            let first_marker = self.state.marker_count;
            self.enlist(side);
            self.add_dummies(side);
            self.deal_spots(side, first_marker);
        }
        for (n, objective) in self.table.arena.objectives().iter().enumerate() {
            self.state.holders[n] = objective.holder;
        }
        self.state.points = BySide([0, 1].map(|n| self.table.arena.setup().sides.0[n].points));
        for marker in 0..self.state.marker_count {
            self.emit(Event::MarkerPlaced { marker, at: self.state.markers[marker as usize].at });
        }
        self.happen(Happening::GameStart);
    }

    fn enlist(&mut self, side: Side) {
        for setup in &self.table.arena.setup().sides[side].groups {
            let state = &mut self.state;
            let id = state.group_count;
            let group = &mut state.groups[id as usize];
            group.side = side;
            group.first_unit = state.unit_count;
            group.units = setup.units.len() as u8;
            group.first_men = setup.units.iter().map(|unit| u16::from(unit.men)).sum();
            for unit in &setup.units {
                let empty = state.units[state.unit_count as usize];
                state.units[state.unit_count as usize] = Unit {
                    side,
                    group: id,
                    kind: unit.kind,
                    quality: unit.quality,
                    grade: unit.grade,
                    men: unit.men,
                    first_men: unit.men,
                    place: Place::Hidden,
                    ..empty
                };
                state.unit_count += 1;
            }
            state.group_count += 1;
            add_marker(state, side, Some(id));
        }
    }

    fn add_dummies(&mut self, side: Side) {
        let setup = &self.table.arena.setup().sides[side];
        let room = setup.spots.len() - setup.groups.len();
        let wanted = self.table.rules.dummy_markers(side, setup.dummies) as usize;
        for _ in 0..wanted.min(room) {
            add_marker(&mut self.state, side, None);
        }
    }

    /// Deals the side's spots to its markers by keyed priorities.
    fn deal_spots(&mut self, side: Side, first: u8) {
        let spots = &self.table.arena.setup().sides[side].spots;
        let seed = self.state.seed;
        let priority = |n: usize| {
            Stream::keyed(seed, Purpose::Setup, 0, (side as u16) << 8 | n as u16, 0).next()
        };
        let mut taken = 0u128;
        for marker in &mut self.state.markers[first as usize..self.state.marker_count as usize] {
            let free = (0..spots.len()).filter(|&n| taken >> n & 1 == 0);
            let Some(spot) = free.min_by_key(|&n| priority(n)) else { return };
            taken |= 1 << spot;
            (marker.at, marker.spot) = (spots[spot], spot as u8);
        }
        // Numbers in the order of the table, not of the list: the enemy sees them.
        self.state.markers[first as usize..self.state.marker_count as usize]
            .sort_by_key(|marker| marker.at.index());
    }

    pub(crate) fn start_turn(&mut self) {
        self.state.turn += 1;
        self.state.forget_rolls();
        self.build_deck();
        self.state.doing.stage = Stage::Cards;
        self.emit(Event::TurnStarted { turn: self.state.turn, cards: self.state.deck.len() });
    }

    /// Gathers the cards of everything that has one and shuffles them (RULES 2.2, 2.3).
    fn build_deck(&mut self) {
        let (state, rules) = (&mut self.state, self.table.rules);
        state.deck.clear();
        for copy in 0..rules.turn_end_cards() as u8 {
            state.deck.add(Card::TurnEnd(copy));
        }
        for &side in Side::ALL {
            let markers = state.markers().iter().filter(|m| m.on_table && m.side == side).count();
            let cards = if markers > 0 { rules.marker_cards(markers.min(20) as i32) } else { 0 };
            (0..cards as u8).for_each(|copy| state.deck.add(Card::Marker(side, copy)));
        }
        for group in 0..state.group_count {
            let on_table = |s: &State| {
                s.members(group).filter(|&u| s.units[u as usize].place == Place::Table).count()
            };
            let units = on_table(state);
            state.groups[group as usize].carded = units > 0;
            let cards = if units > 0 { rules.group_cards(units.min(24) as i32) } else { 0 };
            (0..cards as u8).for_each(|copy| state.deck.add(Card::Group(group, copy)));
        }
        for unit in 0..state.unit_count {
            let Unit { place, grade, kind, .. } = state.units[unit as usize];
            if place == Place::Table && kind == Kind::Leader {
                let cards = rules.leader_cards(grade);
                (0..cards as u8).for_each(|copy| state.deck.add(Card::Leader(unit, copy)));
            }
        }
        state.deck.shuffle(state.seed, state.turn);
    }

    /// Draws a card and lets its owner act on it (RULES 2.4).
    pub(crate) fn draw_card(&mut self) {
        let Some(card) = self.state.deck.draw() else {
            return self.begin_late_fire();
        };
        self.emit(Event::CardDrawn { card });
        let (kind, owner) = match card {
            Card::TurnEnd(_) => (0, 2),
            Card::Marker(side, _) => (1, side as u8),
            Card::Group(group, _) => (2, self.state.groups[group as usize].side as u8),
            Card::Leader(unit, _) => (3, self.state.units[unit as usize].side as u8),
        };
        self.happen(Happening::CardDrawn { card: kind, owner });
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
        }
    }

    fn begin_late_fire(&mut self) {
        let mut die =
            Stream::keyed(self.state.seed, Purpose::Deck, self.state.turn, FIRST_TO_FIRE, 0);
        let first = Side::ALL[die.below(2) as usize];
        self.state.doing.stage = Stage::LateFire { side: first, unit: 0, second: false };
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
            }
        }
    }

    fn end_cause(&self, broken: BySide<bool>) -> Option<EndCause> {
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
        let here = |side: Side| {
            let present = |place| matches!(place, Place::Table | Place::Hidden);
            self.state.units().iter().any(|unit| unit.side == side && present(unit.place))
        };
        BySide([!here(Side::Attacker), !here(Side::Defender)])
    }

    /// Counts the final points and names the winner (RULES 11.3, 11.5, 11.7).
    fn end_game(&mut self, cause: EndCause, broken: BySide<bool>) {
        let beaten = if cause == EndCause::NobodyLeft { self.nobody_left() } else { broken };
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

    fn take_objective(&mut self, objective: u8, side: Side) {
        if self.state.holders[objective as usize] != Some(side) {
            self.state.holders[objective as usize] = Some(side);
            self.emit(Event::ObjectiveTaken { objective, side });
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
                fired: false,
                under_fire: false,
                ordered: false,
                picked: false,
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

fn add_marker(state: &mut State, side: Side, group: Option<u8>) {
    let empty = state.markers[state.marker_count as usize];
    state.markers[state.marker_count as usize] = Marker { side, group, on_table: true, ..empty };
    state.marker_count += 1;
}
