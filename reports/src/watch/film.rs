//! One game, or the same game under two rules, as something to be watched: what stood where, and what
//! changed with every event.

use serde::Serialize;

use crate::report::Table;

/// One game, or two with the same luck, on one table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Film {
    /// The scenario.
    pub title: String,
    /// Forces and players in one line each.
    pub facts: Vec<String>,
    /// The table; its picture is drawn into the page, so it is not among the data.
    #[serde(skip)]
    pub land: Land,
    /// Objectives, by number.
    pub objectives: Vec<Spot>,
    /// Places that may hide troops.
    pub features: Vec<Spot>,
    /// Groups, by number.
    pub groups: Vec<GroupCard>,
    /// Units, by number.
    pub units: Vec<UnitCard>,
    /// The games, the reference first.
    pub reels: Vec<Reel>,
    /// Where two games part; none for one game, or for two that never do.
    pub parting: Option<Parting>,
    /// Both games in numbers; none for one game. It is written into the page, so it is not among the
    /// data.
    #[serde(skip)]
    pub outcomes: Option<Table>,
}

/// The ground of a table, a square at a time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Land {
    /// Squares along the long edge.
    pub width: usize,
    /// Squares along the short edge.
    pub height: usize,
    /// Kinds of ground, in the words of the scenario.
    pub kinds: Vec<String>,
    /// The kind of every square, by place in `kinds`, in row order from the near edge.
    pub squares: Vec<u8>,
}

impl Land {
    /// The kinds of ground that this table has.
    pub(super) fn present(&self) -> Vec<String> {
        let there = |(n, _): &(u8, &String)| self.squares.contains(n);
        (0..).zip(&self.kinds).filter(there).map(|(_, kind)| kind.clone()).collect()
    }
}

/// A named place on the table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Spot {
    /// Its name.
    pub name: String,
    /// Square from the left edge.
    pub x: u8,
    /// Square from the near edge.
    pub y: u8,
    /// The side it belongs to, 0 attacker, 1 defender; none for objectives.
    pub side: Option<u8>,
}

/// A group that one card activates.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GroupCard {
    /// Its name.
    pub name: String,
    /// 0 attacker, 1 defender.
    pub side: u8,
}

/// What does not change of a unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct UnitCard {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: String,
    /// The letter it has on the board.
    pub sign: char,
    /// Its group, by number.
    pub group: u8,
    /// 0 attacker, 1 defender.
    pub side: u8,
    /// Men at the start.
    pub men: u8,
    /// Whether it has a front.
    pub front: bool,
}

/// One game.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Reel {
    /// The rules it was played under, as typed.
    pub arm: String,
    /// Their title.
    pub title: String,
    /// How to see it again.
    pub command: String,
    /// How it ended, in a sentence.
    pub end: String,
    /// Markers, by number.
    pub markers: Vec<MarkerCard>,
    /// Everything that happened, in order.
    pub steps: Vec<Step>,
}

/// What does not change of a marker.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MarkerCard {
    /// 0 attacker, 1 defender.
    pub side: u8,
    /// The letter it has on the board.
    pub sign: char,
    /// The group it hides; none for a dummy.
    pub group: Option<u8>,
}

/// One event and what it changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Step {
    /// The turn, from 1; 0 before the first.
    #[serde(rename = "t")]
    pub turn: u16,
    /// What happened, in a sentence.
    #[serde(rename = "s")]
    pub text: String,
    /// What kind of thing it was.
    #[serde(rename = "k")]
    pub kind: Happened,
    /// Who learns of it when it happens: 1 attacker, 2 defender, 3 both.
    #[serde(rename = "w")]
    pub told: u8,
    /// Units that are not as they were: number, then [`UnitNow`].
    #[serde(rename = "u", skip_serializing_if = "Vec::is_empty")]
    pub units: Vec<(u8, UnitNow)>,
    /// Markers that are not as they were: number, then [`MarkerNow`].
    #[serde(rename = "m", skip_serializing_if = "Vec::is_empty")]
    pub markers: Vec<(u8, MarkerNow)>,
    /// Points of both sides, when they have changed.
    #[serde(rename = "p", skip_serializing_if = "Option::is_none")]
    pub points: Option<[i16; 2]>,
    /// Who holds each objective, when that has changed: 0 attacker, 1 defender, 2 nobody.
    #[serde(rename = "h", skip_serializing_if = "Option::is_none")]
    pub holders: Option<Vec<u8>>,
    /// Smoke screens as squares with a radius, when they have changed.
    #[serde(rename = "o", skip_serializing_if = "Option::is_none")]
    pub smoke: Option<Vec<[u8; 3]>>,
    /// Features that can hide nobody any more, by number, when that has changed.
    #[serde(rename = "f", skip_serializing_if = "Option::is_none")]
    pub searched: Option<Vec<u8>>,
    /// What to draw on the table.
    #[serde(rename = "l", skip_serializing_if = "Option::is_none")]
    pub line: Option<Line>,
    /// What was rolled.
    #[serde(rename = "d", skip_serializing_if = "Option::is_none")]
    pub dice: Option<Dice>,
    /// The card drawn, and the side it is for: 0 attacker, 1 defender, 2 nobody.
    #[serde(rename = "c", skip_serializing_if = "Option::is_none")]
    pub card: Option<(String, u8)>,
    /// The men each side has lost so far, when that has changed.
    #[serde(rename = "x", skip_serializing_if = "Option::is_none")]
    pub lost: Option<[u32; 2]>,
}

/// Kinds of event that a watcher looks for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Happened {
    /// A turn begins or ends.
    #[default]
    Turn,
    /// A card is drawn.
    Card,
    /// Something moves, turns, digs, or gets in or out.
    Move,
    /// Someone looks for something.
    Spot,
    /// Troops come to light, or come to grips.
    Contact,
    /// Someone fires.
    Fire,
    /// Men, a vehicle or a unit is lost.
    Loss,
    /// Pins come or go, tests of will.
    Will,
    /// Points, objectives, the end.
    Score,
    /// A house rule acts.
    House,
}

/// How a unit is: where, square, men, pins, flags, way it faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct UnitNow(
    /// 0 hidden, 1 on the table, 2 carried, 3 gone.
    pub u8,
    /// Square from the left edge.
    pub u8,
    /// Square from the near edge.
    pub u8,
    /// Men left.
    pub u8,
    /// Pins.
    pub u8,
    /// 1 suppressed, 2 dug in, 4 holds its fire, 8 cannot move, 16 has acted this turn.
    pub u8,
    /// Way it faces, by eighths of a turn, counted against the clock from the right.
    pub u8,
);

/// How a marker is: 0 off the table, 1 seen by all, 2 hidden in a feature; its square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct MarkerNow(
    /// Where.
    pub u8,
    /// Square from the left edge.
    pub u8,
    /// Square from the near edge.
    pub u8,
);

/// Something to draw from one square to another, or around one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Line(
    /// What.
    pub Stroke,
    /// From: square from the left edge.
    pub u8,
    /// From: square from the near edge.
    pub u8,
    /// To: square from the left edge.
    pub u8,
    /// To: square from the near edge.
    pub u8,
);

/// What a line stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stroke {
    /// Someone looks.
    Sight,
    /// Someone fires.
    Fire,
    /// Something moves.
    Move,
    /// A leader gives an order.
    Order,
    /// Close assault.
    Assault,
    /// Shells fall.
    Shells,
}

/// What was rolled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Dice {
    /// Several dice that count one by one: how many, the number from which each is a hit, hits.
    Each(u8, u8, u8),
    /// A total: what it came to, and what was needed.
    Total(u8, u8),
}

/// The first event in which two games differ.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Parting {
    /// Its place in each game's steps; one past the last for a game that has ended by then.
    pub step: usize,
    /// What made it, in sentences.
    pub why: Vec<String>,
}
