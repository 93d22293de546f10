//! What one side knows of a game: all a player is given.

use crate::arena::{Arena, Objective};
use crate::ask::Prospects;
use crate::cell::Cell;
use crate::deck::Card;
use crate::game::Table;
use crate::kinds::{BySide, Cover, Ground, Side};
use crate::limits::MAX_OBJECTIVES;
use crate::luck::{Purpose, Stream, finalise};
use crate::paths::Paths;
use crate::rules::Rules;
use crate::sight::Sight;
use crate::stage::Doing;
use crate::state::{
    Battery, BatteryId, Group, Marker, MarkerId, Origin, Place, State, Unit, UnitId,
};

/// An enemy marker as seen across the table, with what was seen of it so far: what it hides is not
/// in here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeenMarker {
    /// Number of the marker.
    pub id: MarkerId,
    /// Its square.
    pub at: Cell,
    /// Whether it has moved this turn.
    pub moved: bool,
    /// How it came on the table.
    pub origin: Origin,
    /// Square in which it first showed.
    pub first_at: Cell,
    /// Turn in which it first showed; 0 from the beginning.
    pub since: u16,
    /// Moves it has made.
    pub moves: u8,
    /// Times it has looked for the enemy.
    pub looks: u8,
}

/// The game as one side knows it: its own forces in full; of the enemy the units on the table and
/// the places of markers.
#[derive(Clone, Copy)]
pub struct View<'a> {
    side: Side,
    state: &'a State,
    arena: &'a Arena,
    paths: &'a Paths,
    rules: &'a Rules,
    prospects: &'a Prospects,
}

impl<'a> View<'a> {
    pub(crate) fn new(
        side: Side,
        state: &'a State,
        table: &Table<'a>,
        prospects: &'a Prospects,
    ) -> Self {
        let Table { arena, rules, paths } = *table;
        View { side, state, arena, paths, rules, prospects }
    }

    /// The side that looks.
    pub fn side(&self) -> Side {
        self.side
    }

    /// The rules the game is played by.
    pub fn rules(&self) -> &'a Rules {
        self.rules
    }

    /// The lines of sight.
    pub fn sight(&self) -> &'a Sight {
        self.arena.sight()
    }

    /// The ways to each objective under the rules.
    pub fn paths(&self) -> &'a Paths {
        self.paths
    }

    /// Whether one square is seen from another this turn: ground, smoke and dusk.
    #[inline]
    pub fn sees(&self, from: Cell, to: Cell) -> bool {
        self.state.sees(self.arena, from, to)
    }

    /// Whether neither smoke nor dusk lies between two squares.
    #[inline]
    pub fn clear(&self, from: Cell, to: Cell) -> bool {
        self.state.clear(from, to)
    }

    /// Whether neither smoke nor dusk lies anywhere.
    #[inline]
    pub fn clear_everywhere(&self) -> bool {
        self.state.clear_everywhere()
    }

    /// The cover a unit has, a hole it has dug included.
    #[inline]
    pub fn unit_cover(&self, unit: &Unit) -> Cover {
        self.state.cover(self.arena, unit)
    }

    /// Armour along the line of fire that a gun goes through at `range` inches, in millimetres.
    pub fn penetration(&self, gun: u8, range: u8) -> i32 {
        self.arena.penetration(gun, range)
    }

    /// The ground of a square.
    pub fn ground(&self, cell: Cell) -> Ground {
        self.arena.ground(cell)
    }

    /// The features of the enemy, and whether each was searched or has shown what it hid.
    pub fn enemy_features(&self) -> impl Iterator<Item = (u8, Cell, bool)> + use<'a> {
        let (enemy, state) = (self.side.other(), self.state);
        let features = &self.arena.setup().sides[enemy].features;
        (0u8..).zip(features).map(move |(n, f)| (n, f.at, state.searched(enemy, n)))
    }

    /// A battery of the side.
    pub fn own_battery(&self, id: BatteryId) -> Option<&'a Battery> {
        self.state.batteries().get(id as usize).filter(|battery| battery.side == self.side)
    }

    /// What the answers to a card's question might bring about; nothing at other times.
    pub fn prospects(&self) -> &'a Prospects {
        self.prospects
    }

    /// The cards still in this turn's deck, which everyone may count. Their order is not the one in
    /// which they will be drawn: that tells nothing.
    pub fn cards_left(&self) -> impl Iterator<Item = Card> + use<'a> {
        let mut left = self.state.deck.left().to_vec();
        left.sort_unstable();
        left.into_iter()
    }

    /// The house rules' own cards among them: each with the side it is for.
    pub fn extra_cards(&self) -> impl Iterator<Item = (u8, Option<Side>)> + use<'a> {
        self.cards_left().filter_map(|card| match card {
            Card::Extra(card, owner, _) => Some((card, owner)),
            _ => None,
        })
    }

    /// Turn-end cards drawn this turn, and all there were in its deck.
    pub fn turn_ends(&self) -> (u8, u8) {
        (self.state.deck.turn_ends_drawn(), self.state.deck.turn_end_cards())
    }

    /// The cover a square gives.
    #[inline]
    pub fn cover(&self, cell: Cell) -> Cover {
        self.arena.cover(cell)
    }

    /// The objectives.
    pub fn objectives(&self) -> &'a [Objective] {
        self.arena.objectives()
    }

    /// Who holds each objective.
    pub fn holders(&self) -> &'a [Option<Side>; MAX_OBJECTIVES] {
        self.state.holders()
    }

    /// Points of each side.
    pub fn points(&self) -> BySide<i16> {
        self.state.points()
    }

    /// The turn being played.
    pub fn turn(&self) -> u16 {
        self.state.turn()
    }

    /// The turn after which the game ends.
    pub fn turn_limit(&self) -> u16 {
        self.rules.turn_limit(self.arena.setup().turn_limit) as u16
    }

    /// Men lost, in percent, from which on a side may break.
    pub fn break_point(&self, side: Side) -> i32 {
        self.rules.break_point(side, self.arena.setup().sides[side].break_point)
    }

    /// What the side is asked about: its own card, unit, marker or move.
    pub fn doing(&self) -> &'a Doing {
        &self.state.doing
    }

    /// A unit the side knows: one of its own, or one on the table.
    pub fn unit(&self, id: UnitId) -> Option<&'a Unit> {
        let unit = self.state.units().get(id as usize)?;
        (unit.side == self.side || unit.place == Place::Table).then_some(unit)
    }

    /// Units of the side on the table.
    pub fn own_units(&self) -> impl Iterator<Item = (UnitId, &'a Unit)> + use<'a> {
        let side = self.side;
        self.state.on_table().filter(move |(_, unit)| unit.side == side)
    }

    /// Enemy units on the table.
    pub fn enemy_units(&self) -> impl Iterator<Item = (UnitId, &'a Unit)> + use<'a> {
        let side = self.side;
        self.state.on_table().filter(move |(_, unit)| unit.side != side)
    }

    /// A marker of the side.
    pub fn own_marker(&self, id: MarkerId) -> Option<&'a Marker> {
        self.state.markers().get(id as usize).filter(|marker| marker.side == self.side)
    }

    /// Markers of the side on the table.
    pub fn own_markers(&self) -> impl Iterator<Item = (MarkerId, &'a Marker)> + use<'a> {
        let side = self.side;
        (0..).zip(self.state.markers()).filter(move |(_, m)| m.on_table && m.side == side)
    }

    /// Enemy markers on the table.
    pub fn enemy_markers(&self) -> impl Iterator<Item = SeenMarker> + use<'a> {
        let side = self.side;
        let seen = move |(id, m): (MarkerId, &Marker)| {
            (m.shows() && m.side != side).then_some(SeenMarker {
                id,
                at: m.at,
                moved: m.moved,
                origin: m.origin(),
                first_at: m.first_at,
                since: m.since,
                moves: m.moves,
                looks: m.looks,
            })
        };
        (0..).zip(self.state.markers()).filter_map(seen)
    }

    /// The units of one of the side's groups, whether hidden or not.
    pub fn own_group(&self, group: u8) -> &'a [Unit] {
        match self.state.groups().get(group as usize) {
            Some(&Group { side, first_unit, units, .. }) if side == self.side => {
                &self.state.units()[first_unit as usize..(first_unit + units) as usize]
            }
            _ => &[],
        }
    }

    /// What the game is played by, for playing on from an imagined state: nothing in it is secret.
    pub fn table(&self) -> Table<'a> {
        Table { arena: self.arena, rules: self.rules, paths: self.paths }
    }

    /// A state of the game as it may be for all that the side knows, to play on from: what the enemy
    /// hides is dealt anew, and so is luck. Another `nth` gives another one; nothing in it tells
    /// more of the game than this view does.
    pub fn imagine(&self, nth: u64) -> State {
        let seed = finalise(self.whim() ^ finalise(nth));
        self.state.imagined(self.arena, self.side, seed)
    }

    /// A random number of the side's own, the same whenever the game is played again; not the
    /// game's luck. Numbers differ by decision.
    pub fn whim(&self) -> u64 {
        let tally = self.state.tally();
        let side = self.side as u64;
        Stream::keyed(self.state.seed, Purpose::Choice, self.turn(), side as u16, 0)
            .next()
            .wrapping_add(finalise(u64::from(tally.decisions)))
    }
}

#[cfg(test)]
mod secrecy;
