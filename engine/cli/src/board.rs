//! A picture of the board for the terminal: one character for each square of the table, two rows
//! of squares drawn as one, for characters are twice as high as wide.

mod signs;
#[cfg(test)]
mod tests;

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Arena, Cell, Side, State};

use crate::story::letter;
use signs::{FEATURE, MARKER, OBJECTIVE, SMOKE, ground_sign, unit_signs};

pub(crate) use signs::{kind_sign, legend};

/// A character, and whose it is.
#[derive(Clone, Copy)]
struct Square {
    sign: char,
    paint: Paint,
}

/// What a character belongs to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Paint {
    Ground,
    Objective,
    Of(Side),
}

/// Rows of characters, the near edge first.
struct Board(Vec<Vec<Square>>);

/// Draws the table, far edge on top; a smoke screen reaches `smoke` inches from its middle. With
/// `colour`, the sides have one each, which says nothing that the signs do not.
pub(crate) fn draw(arena: &Arena, state: &State, smoke: u8, colour: bool) -> String {
    let mut board = Board::of_ground(arena);
    board.add_smoke(state, smoke);
    board.add_features(arena, state);
    for objective in arena.objectives() {
        board.put(objective.at, &[OBJECTIVE], Paint::Objective);
    }
    board.add_markers(state);
    for (_, unit) in state.on_table() {
        board.put(unit.at, &unit_signs(unit), Paint::Of(unit.side));
    }
    board.text(colour)
}

impl Board {
    /// The ground alone: of two squares drawn as one, the one that is not open.
    fn of_ground(arena: &Arena) -> Board {
        let blank = Square { sign: ' ', paint: Paint::Ground };
        let mut rows = vec![vec![blank; WIDTH as usize]; HEIGHT as usize / 2];
        for cell in Cell::all() {
            let sign = &mut rows[cell.y as usize / 2][cell.x as usize].sign;
            if *sign == ' ' || *sign == '.' {
                *sign = ground_sign(arena.ground(cell));
            }
        }
        Board(rows)
    }

    /// Writes signs from a square to the right; those of a unit at the edge begin left of it.
    fn put(&mut self, cell: Cell, signs: &[char], paint: Paint) {
        let from = (cell.x as usize).min(WIDTH as usize - signs.len());
        let squares = self.0[cell.y as usize / 2][from..].iter_mut();
        for (square, &sign) in squares.zip(signs) {
            *square = Square { sign, paint };
        }
    }

    fn add_smoke(&mut self, state: &State, radius: u8) {
        for screen in state.screens() {
            for cell in Cell::all().filter(|cell| cell.range(screen.at) <= radius) {
                self.put(cell, &[SMOKE], Paint::Ground);
            }
        }
    }

    /// Features that may still hide troops.
    fn add_features(&mut self, arena: &Arena, state: &State) {
        for &side in Side::ALL {
            for (n, feature) in (0..).zip(&arena.setup().sides[side].features) {
                if !state.searched(side, n) {
                    self.put(feature.at, &[FEATURE], Paint::Ground);
                }
            }
        }
    }

    fn add_markers(&mut self, state: &State) {
        for (id, marker) in (0..).zip(state.markers()).filter(|(_, marker)| marker.on_table) {
            let sign = if marker.shows() { MARKER } else { FEATURE };
            self.put(marker.at, &[sign, letter(id)], Paint::Of(marker.side));
        }
    }

    fn text(&self, colour: bool) -> String {
        let row = |row: &Vec<Square>| {
            let alike = row.chunk_by(|one, next| one.paint == next.paint);
            let painted = alike.map(|squares| {
                let signs: String = squares.iter().map(|square| square.sign).collect();
                if colour { squares[0].paint.on(&signs) } else { signs }
            });
            format!("    |{}|", painted.collect::<String>())
        };
        let edge = format!("    +{}+", "-".repeat(WIDTH as usize));
        let rows = self.0.iter().rev().map(row);
        std::iter::once(edge.clone())
            .chain(rows)
            .chain([edge.clone()])
            .collect::<Vec<_>>()
            .join("\n")
    }
}

impl Paint {
    /// Signs in its colour for the terminal: yellow and blue, which those who are blind to red and green
    /// tell apart as well; both from the sixteen colours that every terminal has.
    fn on(self, signs: &str) -> String {
        let code = match self {
            Paint::Ground => return signs.to_owned(),
            Paint::Objective => "1",
            Paint::Of(Side::Attacker) => "1;33",
            Paint::Of(Side::Defender) => "1;94",
        };
        format!("\u{1b}[{code}m{signs}\u{1b}[0m")
    }
}
