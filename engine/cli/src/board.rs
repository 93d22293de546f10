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

/// Rows of characters, the near edge first.
struct Board(Vec<Vec<char>>);

/// Draws the table, far edge on top; a smoke screen reaches `smoke` inches from its middle.
pub(crate) fn draw(arena: &Arena, state: &State, smoke: u8) -> String {
    let mut board = Board::of_ground(arena);
    board.add_smoke(state, smoke);
    board.add_features(arena, state);
    for objective in arena.objectives() {
        board.put(objective.at, &[OBJECTIVE]);
    }
    board.add_markers(state);
    for (_, unit) in state.on_table() {
        board.put(unit.at, &unit_signs(unit));
    }
    board.text()
}

impl Board {
    /// The ground alone: of two squares drawn as one, the one that is not open.
    fn of_ground(arena: &Arena) -> Board {
        let mut rows = vec![vec![' '; WIDTH as usize]; HEIGHT as usize / 2];
        for cell in Cell::all() {
            let sign = &mut rows[cell.y as usize / 2][cell.x as usize];
            if *sign == ' ' || *sign == '.' {
                *sign = ground_sign(arena.ground(cell));
            }
        }
        Board(rows)
    }

    /// Writes signs from a square to the right; those of a unit at the edge begin left of it.
    fn put(&mut self, cell: Cell, signs: &[char]) {
        let from = (cell.x as usize).min(WIDTH as usize - signs.len());
        self.0[cell.y as usize / 2][from..from + signs.len()].copy_from_slice(signs);
    }

    fn add_smoke(&mut self, state: &State, radius: u8) {
        for screen in state.screens() {
            for cell in Cell::all().filter(|cell| cell.range(screen.at) <= radius) {
                self.put(cell, &[SMOKE]);
            }
        }
    }

    /// Features that may still hide troops.
    fn add_features(&mut self, arena: &Arena, state: &State) {
        for &side in Side::ALL {
            for (n, feature) in (0..).zip(&arena.setup().sides[side].features) {
                if !state.searched(side, n) {
                    self.put(feature.at, &[FEATURE]);
                }
            }
        }
    }

    fn add_markers(&mut self, state: &State) {
        for (id, marker) in (0..).zip(state.markers()).filter(|(_, marker)| marker.on_table) {
            let sign = if marker.shows() { MARKER } else { FEATURE };
            self.put(marker.at, &[sign, letter(id)]);
        }
    }

    fn text(&self) -> String {
        let row = |row: &Vec<char>| format!("    |{}|", row.iter().collect::<String>());
        let edge = format!("    +{}+", "-".repeat(WIDTH as usize));
        let rows = self.0.iter().rev().map(row);
        std::iter::once(edge.clone())
            .chain(rows)
            .chain([edge.clone()])
            .collect::<Vec<_>>()
            .join("\n")
    }
}
