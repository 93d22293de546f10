//! Tries to spot markers and to search features, by range, cover and movement.

use std::collections::BTreeMap;

use ruleshift_game::{
    Cell, Choice, Cover, Event, Feature, Ground, Heading, Kind, Observer, Start, State, View,
};

use super::scene::{Drilled, play, setup};
use super::sheet::{Sheet, Under, hold};
use crate::support::stage::{cell, fill, group};

const GAMES: u64 = 1_500;
const CHANGED: Under = Under::Script(
    "fn spot_band(now, range) { if range <= 12 { 0 } else { 2 } }
     fn spotting_number(now, band, cover, moved) { clamp(5 + band + cover - if moved { 1 } else { 0 }, 2, 13) }
     fn search_number(now, band, cover) { clamp(6 + 2 * band - cover, 2, 13) }
    ",
);

/// Ranges all of which the program is asked for.
fn ranges() -> String {
    (1..=86).map(|range| format!(" {range}")).collect()
}

/// Tries by the row they belong to: how many, how many succeeded.
struct Tries {
    cover: Vec<Cover>,
    features: Vec<Cell>,
    rows: BTreeMap<(String, String), (u32, u32)>,
    needed: BTreeMap<(String, String), u8>,
}

impl Tries {
    fn add(&mut self, case: String, row: String, rolled: u8, needed: u8) {
        let counts = self.rows.entry((case.clone(), row.clone())).or_default();
        *counts = (counts.0 + 1, counts.1 + u32::from(rolled >= needed));
        self.needed.insert((case, row), needed);
    }
}

const PLACES: [&str; 4] = ["in the open", "in light cover", "in hard cover", "dug in"];

impl Observer for Tries {
    fn event(&mut self, event: &Event, state: &State) {
        let from = |unit: Option<u8>, by: Option<u8>| match (unit, by) {
            (Some(unit), _) => state.units()[unit as usize].at,
            (None, by) => state.markers()[by.unwrap() as usize].at,
        };
        match *event {
            Event::SpotTried { unit, by, marker, rolled, needed } => {
                let seen = &state.markers()[marker as usize];
                let (range, cover) = (from(unit, by).range(seen.at), self.cover[seen.at.index()]);
                let how = if seen.moved { "moved" } else { "still" };
                let case = format!("A marker {}", PLACES[cover as usize]);
                self.add(case, format!("{how}, at {range} in"), rolled, needed);
            }
            Event::Searched { feature, unit, by, rolled, needed, .. } => {
                let at = self.features[feature as usize];
                let place = PLACES[self.cover[at.index()] as usize];
                let case = format!("A feature searched for hidden troops, {place}");
                self.add(case, format!("at {} in", from(unit, by).range(at)), rolled, needed);
            }
            _ => {}
        }
    }
}

/// A choice that goes round with the turn and what was spent, so that all are tried.
fn look(view: &View<'_>, choices: &[Choice]) -> Option<usize> {
    let looks = |choice: &Choice| matches!(choice, Choice::Spot(_) | Choice::Search(_));
    let all: Vec<usize> = (0..choices.len()).filter(|&n| looks(&choices[n])).collect();
    let actions = view.doing().unit.and_then(|id| view.unit(id)).map_or(0, |unit| unit.actions);
    let nth = usize::from(view.turn()) + 3 * usize::from(actions);
    (!all.is_empty()).then(|| all[nth % all.len()])
}

/// Steps up or down in every other turn.
fn stroll(view: &View<'_>, choices: &[Choice]) -> Option<usize> {
    let marker = view.doing().marker?;
    let way = Choice::Move(Heading::Straight(if view.turn() % 4 < 2 { 2 } else { 6 }));
    let fresh = view.turn().is_multiple_of(2) && marker.is_multiple_of(2);
    choices.iter().position(|&choice| choice == way).filter(|_| fresh)
}

fn tries(under: Under) -> Tries {
    let hidden = |name: &str, x, y| Feature { name: name.to_owned(), at: cell(x, y) };
    let lookers = vec![group(&[(Kind::Section, 5), (Kind::Section, 5), (Kind::Section, 5)])];
    let mut waiting = group(&[(Kind::Section, 5)]);
    waiting.start = Start::Feature;
    let spots = [(17, 20), (20, 26), (25, 20), (30, 26), (44, 30), (60, 14)];
    let mut setup = setup(
        Ground::Open,
        5,
        [(&[(9, 24)], lookers), (&spots, vec![group(&[(Kind::Section, 5)]), waiting])],
    );
    setup.sides.0[1].dummies = 5;
    setup.sides.0[1].features = vec![hidden("a", 22, 34), hidden("b", 34, 40), hidden("c", 50, 40)];
    let grounds = [(19, 22, Ground::Scrub), (29, 32, Ground::Wall), (43, 46, Ground::Trench)];
    for (left, right, ground) in grounds {
        fill(&mut setup, ground, (left, 0), (right, 47));
    }
    let rules = under.rules();
    let cover = Cell::all().map(|cell| setup.ground[cell.index()].cover()).collect();
    let features = setup.sides.0[1].features.iter().map(|feature| feature.at).collect();
    let mut tries = Tries { cover, features, rows: BTreeMap::new(), needed: BTreeMap::new() };
    let looks = Drilled { squares: &[], opens: true, from: 1, wish: look };
    let strolls = Drilled { squares: &[], opens: false, from: 1, wish: stroll };
    play(setup, rules, GAMES, [looks, strolls], &mut tries);
    tries
}

/// Every number needed is the one told; rolls succeed as often as told, row by row where there are
/// many tries and over all rows together.
fn holds(under: Under) {
    let sheet: Sheet = under.sheet("spotting", &format!("--range{}", ranges()));
    let tries = tries(under);
    let (mut kinds, mut held) = (BTreeMap::<(&str, bool), u32>::new(), 0);
    for ((case, row), &(count, found)) in &tries.rows {
        let told = sheet.row(case, row);
        let needed = tries.needed[&(case.clone(), row.clone())];
        assert_eq!(told["needed"], needed, "{under:?}: {case}: {row}");
        *kinds.entry((case, row.starts_with("moved"))).or_default() += count;
        if count >= 300 {
            let chance = told["value"].as_f64().unwrap();
            hold(&format!("{under:?}: {case}: {row}"), found, count, chance);
            held += 1;
        }
    }
    assert!(held >= 15, "{held} rows with many tries");
    // Four covers still and moved, and features of some.
    assert!(kinds.len() >= 9, "{kinds:?}");
}

#[test]
fn markers_and_features_are_found_as_often_as_told() {
    for under in [Under::Base, Under::Shipped("sharp-eyes"), CHANGED] {
        holds(under);
    }
}
