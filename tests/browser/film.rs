//! The film in a page, read by itself: what stood where after so many events, and which events both
//! games have seen at which moment. Written from the meaning of the data, not from the page's script,
//! so that either can be wrong alone.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde_json::Value;

/// Squares along the short edge of a table.
const HEIGHT: f64 = 48.0;
/// Where a unit stands on the table, a marker shows to all, or hides in a feature.
const ON_TABLE: u64 = 1;
const IN_FEATURE: u64 = 2;

/// One game, or two with the same luck.
pub(crate) struct Film {
    data: Value,
    /// Events that each game has seen, moment by moment.
    pub(crate) moments: Vec<Vec<usize>>,
}

/// A piece on the table: what its title begins with, and its middle in squares from the top left.
pub(crate) type Piece = (String, f64, f64);

/// A side's pieces and names at some moment.
pub(crate) struct Known {
    /// Names of groups under markers and of units that have never stood on the table, of one side,
    /// which nothing in view shares.
    pub(crate) secret: BTreeSet<String>,
}

impl Film {
    /// The film in the page at `file`.
    pub(crate) fn of(file: &Path) -> Film {
        let page = std::fs::read_to_string(file).expect("the page can be read");
        let text = page.split("<script type=\"application/json\" id=\"film\">").nth(1);
        let text = text.and_then(|rest| rest.split("</script>").next()).expect("it has a film");
        let data: Value = serde_json::from_str(text).expect("a film is JSON");
        let moments = moments(list(&data["reels"]));
        Film { data, moments }
    }

    /// The games.
    pub(crate) fn reels(&self) -> &[Value] {
        list(&self.data["reels"])
    }

    /// The place of the last moment.
    pub(crate) fn last(&self) -> usize {
        self.moments.len() - 1
    }

    /// The events of a game.
    pub(crate) fn steps(&self, reel: usize) -> &[Value] {
        list(&self.reels()[reel]["steps"])
    }

    /// The last event that a game has seen at a moment.
    pub(crate) fn step(&self, reel: usize, moment: usize) -> &Value {
        &self.steps(reel)[self.moments[moment][reel] - 1]
    }

    /// The turn of a game at a moment.
    pub(crate) fn turn(&self, reel: usize, moment: usize) -> u64 {
        whole(&self.step(reel, moment)["t"])
    }

    /// The last turn of a game.
    pub(crate) fn last_turn(&self, reel: usize) -> u64 {
        self.turn(reel, self.last())
    }

    /// The turn of the game that is further on.
    pub(crate) fn latest(&self, moment: usize) -> u64 {
        (0..self.reels().len()).map(|reel| self.turn(reel, moment)).max().expect("there is a game")
    }

    /// Moments at which a turn begins, the first among them.
    pub(crate) fn turn_starts(&self) -> Vec<usize> {
        let begins = |m: &usize| *m == 0 || self.latest(*m) != self.latest(m - 1);
        (0..self.moments.len()).filter(begins).collect()
    }

    /// The next moment after this one at which an event of a kind is new.
    pub(crate) fn next(&self, moment: usize, kind: &str) -> Option<usize> {
        (moment + 1..self.moments.len()).find(|&m| {
            (0..self.reels().len()).any(|reel| {
                self.moments[m][reel] > self.moments[m - 1][reel] && self.step(reel, m)["k"] == kind
            })
        })
    }

    /// The moment at which the two games part.
    pub(crate) fn parting(&self) -> Option<usize> {
        let step = self.data["parting"]["step"].as_u64()? as usize;
        self.moments.iter().position(|seen| seen.iter().any(|&events| events > step))
    }

    /// How everything of a game is after so many events: `u` units, `m` markers.
    fn after(&self, reel: usize, events: usize, key: &str, count: usize) -> Vec<Option<&[Value]>> {
        let mut now = vec![None; count];
        for step in &self.steps(reel)[..events] {
            for change in step[key].as_array().into_iter().flatten() {
                now[whole(&change[0]) as usize] = Some(list(&change[1]));
            }
        }
        now
    }

    /// Units and markers of a game on the table at a moment, as someone sees them who sees all.
    pub(crate) fn pieces(&self, reel: usize, moment: usize) -> Vec<Piece> {
        let events = self.moments[moment][reel];
        let units = list(&self.data["units"]);
        let markers = list(&self.reels()[reel]["markers"]);
        let mut pieces = Vec::new();
        for (card, now) in units.iter().zip(self.after(reel, events, "u", units.len())) {
            let Some(now) = now.filter(|now| whole(&now[0]) == ON_TABLE) else { continue };
            let (men, pins) = (whole(&now[3]), whole(&now[4]));
            let title = format!(
                "{}, {}, {}: {men} of {} men, {pins} pins",
                text(&card["name"]),
                text(&card["kind"]),
                side(card),
                whole(&card["men"]),
            );
            pieces.push(placed(title, &now[1], &now[2]));
        }
        for (card, now) in markers.iter().zip(self.after(reel, events, "m", markers.len())) {
            let Some(now) = now.filter(|now| whole(&now[0]) != 0) else { continue };
            let hides = self.group(card).unwrap_or("a dummy");
            let title = format!("{} marker {}: {hides}", side(card), text(&card["sign"]));
            pieces.push(placed(title, &now[1], &now[2]));
        }
        pieces.sort_by(|a, b| a.partial_cmp(b).expect("places are numbers"));
        pieces
    }

    /// The name of the group that a marker hides.
    fn group(&self, card: &Value) -> Option<&str> {
        let number = card["group"].as_u64()? as usize;
        Some(text(&self.data["groups"][number]["name"]))
    }

    /// What the other side of `eyes` (0 attacker, 1 defender) must not learn at a moment of a game.
    pub(crate) fn secret(&self, reel: usize, moment: usize, eyes: u64) -> Known {
        let events = self.moments[moment][reel];
        let units = list(&self.data["units"]);
        let markers = list(&self.reels()[reel]["markers"]);
        let hidden = |card: &Value, known: bool| whole(&card["side"]) != eyes && !known;
        let mut secret = BTreeSet::new();
        let mut open = BTreeSet::new();
        for (card, now) in markers.iter().zip(self.after(reel, events, "m", markers.len())) {
            let up = now.is_some_and(|now| [ON_TABLE, IN_FEATURE].contains(&whole(&now[0])));
            let Some(name) = self.group(card) else { continue };
            let set = if hidden(card, !up) { &mut secret } else { &mut open };
            set.insert(name.to_owned());
        }
        for (n, card) in units.iter().enumerate() {
            let set =
                if hidden(card, self.stood(reel, events, n)) { &mut secret } else { &mut open };
            set.insert(text(&card["name"]).to_owned());
        }
        let shared = |name: &String| open.iter().any(|other| other.contains(name.as_str()));
        secret.retain(|name| !shared(name));
        Known { secret }
    }

    /// Whether a unit has ever been anything but hidden.
    fn stood(&self, reel: usize, events: usize, unit: usize) -> bool {
        self.steps(reel)[..events].iter().any(|step| {
            let changes = step["u"].as_array().into_iter().flatten();
            changes.into_iter().any(|c| whole(&c[0]) as usize == unit && whole(&c[1][0]) != 0)
        })
    }
}

/// Two games keep step: turn by turn, and within a turn card by card; whoever has fewer events there
/// waits for the other.
fn moments(reels: &[Value]) -> Vec<Vec<usize>> {
    let mut stages: BTreeMap<(u64, usize), Vec<usize>> = BTreeMap::new();
    for (n, reel) in reels.iter().enumerate() {
        let (mut turn, mut cards) = (u64::MAX, 0);
        for step in list(&reel["steps"]) {
            if whole(&step["t"]) != turn {
                (turn, cards) = (whole(&step["t"]), 0);
            }
            cards += usize::from(!step["c"].is_null());
            stages.entry((turn, cards)).or_insert_with(|| vec![0; reels.len()])[n] += 1;
        }
    }
    let mut seen = vec![0; reels.len()];
    let mut moments = Vec::new();
    for counts in stages.values() {
        for k in 1..=*counts.iter().max().expect("there is a game") {
            let at = seen.iter().zip(counts).map(|(before, count)| (before + k.min(*count)).max(1));
            moments.push(at.collect());
        }
        seen.iter_mut().zip(counts).for_each(|(before, count)| *before += count);
    }
    moments
}

fn placed(title: String, x: &Value, y: &Value) -> Piece {
    (title, whole(x) as f64 + 0.5, HEIGHT - 0.5 - whole(y) as f64)
}

fn side(card: &Value) -> &'static str {
    ["attacker", "defender"][whole(&card["side"]) as usize]
}

#[track_caller]
fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

#[track_caller]
fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text"))
}

#[track_caller]
fn whole(value: &Value) -> u64 {
    value.as_u64().unwrap_or_else(|| panic!("{value} is no whole number"))
}
