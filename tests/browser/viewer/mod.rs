//! A game on the table is the game that was played, and the controls get to every moment of it.

mod controls;
mod moments;
mod secrets;

use serde_json::Value;

use crate::film::{Film, Piece};
use crate::pages::PAGES;
use crate::tab::Tab;

/// A viewer in a tab.
struct Viewer {
    tab: Tab,
    film: Film,
}

impl Viewer {
    /// Opens a page with a game; none without Chromium.
    fn open(name: &str) -> Option<Viewer> {
        let mut tab = Tab::new()?;
        let file = PAGES.file(name);
        tab.open(file);
        tab.size(1280, 900);
        Some(Viewer { tab, film: Film::of(file) })
    }

    /// Moves the slider, as a hand on it would.
    fn go(&mut self, moment: usize) {
        self.tab.value(&format!(
            "(() => {{
                const when = document.getElementById('when');
                when.value = {moment};
                when.dispatchEvent(new Event('input', {{ bubbles: true }}));
            }})()"
        ));
    }

    /// The moment that the slider says is shown.
    fn moment(&mut self) -> usize {
        self.tab.number("document.getElementById('when').valueAsNumber") as usize
    }

    /// The turn that each board says it shows.
    fn turns(&mut self) -> Vec<u64> {
        let labels = self.tab.value(
            "[...document.querySelectorAll('.reel svg.table')].map((t) => t.getAttribute('aria-label'))",
        );
        labels.as_array().expect("a list").iter().map(turn).collect()
    }

    /// Units and markers on a board.
    fn pieces(&mut self, reel: usize) -> Vec<Piece> {
        let found = self.tab.value(&format!(
            "[...document.querySelectorAll('.reel')[{reel}].querySelectorAll('.unit, .marker')].map((p) => {{
                const at = p.transform.baseVal.consolidate().matrix;
                return [p.querySelector('title').textContent, at.e, at.f];
            }})"
        ));
        serde_json::from_value(found).expect("titles with places")
    }
}

/// The number after "turn" in the words of a board.
fn turn(label: &Value) -> u64 {
    let words = label.as_str().unwrap_or_default();
    let number = words.split("turn ").nth(1).and_then(|rest| rest.split(['.', ',', ' ']).next());
    let number = number.unwrap_or_else(|| panic!("no turn in {words:?}"));
    number.parse().unwrap_or_else(|_| panic!("no turn in {words:?}"))
}
