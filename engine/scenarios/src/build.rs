//! What is shared while a scenario is built from its form: where names are looked up, the guns met
//! so far, and the faults.

use std::fmt::Display;

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Cell, Gun};

use crate::armoury::GunEntry;
use crate::form::Point;
use crate::library::Library;

pub(crate) struct Build<'a> {
    pub(crate) library: &'a Library,
    /// Guns that units use, each once, in the order in which they are met.
    pub(crate) guns: Vec<Gun>,
    pub(crate) faults: Vec<String>,
}

impl<'a> Build<'a> {
    pub(crate) fn new(library: &'a Library) -> Build<'a> {
        Build { library, guns: vec![], faults: vec![] }
    }

    /// Notes what is wrong at a place.
    pub(crate) fn fault(&mut self, place: &str, message: impl Display) {
        self.faults.push(format!("{place}: {message}"));
    }

    /// The value, or nothing after noting why there is none.
    pub(crate) fn found<T>(&mut self, place: &str, result: Result<T, String>) -> Option<T> {
        result.map_err(|message| self.fault(place, message)).ok()
    }

    /// The square of a point.
    pub(crate) fn square(&mut self, place: &str, (x, y): Point) -> Cell {
        Cell::new(x, y).unwrap_or_else(|| {
            let (most_x, most_y) = (WIDTH - 1, HEIGHT - 1);
            self.fault(
                place,
                format_args!(
                    "({x}, {y}) is off the table, expected 0 to {most_x} and 0 to {most_y}"
                ),
            );
            Cell::default()
        })
    }

    /// The squares of some points.
    pub(crate) fn squares(&mut self, place: &str, points: &[Point]) -> Vec<Cell> {
        points.iter().map(|&point| self.square(place, point)).collect()
    }

    /// The place of a gun in the scenario's list, where it is put when it is new.
    pub(crate) fn gun(&mut self, entry: &GunEntry) -> u8 {
        let place = self.guns.iter().position(|gun| gun.name == entry.name).unwrap_or_else(|| {
            self.guns.push(entry.gun());
            self.guns.len() - 1
        });
        u8::try_from(place).expect("an armoury has fewer guns than a byte can count")
    }
}
