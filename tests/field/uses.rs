//! Everything a scenario gives its sides is used.

use std::fmt::Write;

use ruleshift_game::{Event, State};
use ruleshift_record::{METRICS, Metric};

use super::given::USES;
use super::shipped::{DOCTRINES, Seen, played, seen};
use crate::support::stage::Stage;

/// Place of the last.
const HIDDEN: usize = USES.len() - 1;
/// The scenario from which units have to leave, and in how many games steady ones do.
const LEAVING: (&str, &str, f64) = ("probe", "units leave the table", 0.05);

/// Games of one scenario in which each thing is used.
#[derive(Default)]
pub(super) struct Uses {
    /// Whether the scenario has batteries.
    pub(super) batteries: bool,
    /// What the scenario gives occasion for.
    given: [bool; USES.len()],
    games: u32,
    used: [u32; USES.len()],
    /// In this game.
    now: [bool; USES.len()],
    /// Markers that hide in features.
    hidden: u64,
}

impl Uses {
    /// For games of this stage.
    pub(super) fn new(stage: &Stage) -> Uses {
        let setup = stage.arena.setup();
        let batteries = setup.sides.0.iter().any(|side| !side.batteries.is_empty());
        let given = USES.map(|used| (used.given)(setup));
        Uses { batteries, given, ..Uses::default() }
    }

    pub(super) fn see(&mut self, event: &Event, state: &State) {
        for (now, used) in self.now.iter_mut().zip(&USES) {
            *now = *now || (used.done)(event, state);
        }
        match *event {
            Event::TurnStarted { turn: 1, .. } => {
                for (id, marker) in state.markers().iter().enumerate() {
                    self.hidden |= u64::from(marker.feature.is_some()) << id;
                }
            }
            // One that has rolled too little to leave its feature is still hidden there.
            Event::MarkerMoved { marker, .. }
                if state.markers()[marker as usize].feature.is_none() =>
            {
                self.hidden &= !(1 << marker);
            }
            Event::MarkerRevealed { marker, .. } => {
                self.now[HIDDEN] |= self.hidden >> marker & 1 != 0;
            }
            Event::GameEnded { .. } => {
                self.games += 1;
                self.used.iter_mut().zip(self.now).for_each(|(used, now)| *used += u32::from(now));
                (self.now, self.hidden) = ([false; USES.len()], 0);
            }
            _ => {}
        }
    }

    fn share(&self, used: usize) -> f64 {
        f64::from(self.used[used]) / f64::from(self.games)
    }
}

/// Each thing that a scenario has is used by each doctrine, in so many games at least.
#[test]
fn what_a_scenario_gives_is_used() {
    let mut unused = Vec::new();
    for (doctrine, (name, _)) in DOCTRINES.iter().enumerate() {
        for Seen { scenario, uses, .. } in played(doctrine) {
            for n in (0..USES.len()).filter(|&n| uses.given[n]) {
                let (share, least) = (uses.share(n), USES[n].least);
                if share < least {
                    unused.push(format!("{scenario}, {name}: {} in {share}", USES[n].name));
                }
            }
        }
    }
    assert!(unused.is_empty(), "\n{}", unused.join("\n"));
}

/// What takes a rare occasion is still done by someone somewhere.
#[test]
fn nothing_is_never_used() {
    for (n, used) in USES.iter().enumerate() {
        let games = (0..DOCTRINES.len()).flat_map(played).map(|seen| seen.uses.used[n]);
        assert!(games.sum::<u32>() > 0, "{}", used.name);
    }
}

/// Where units have to leave, steady ones do.
#[test]
fn steady_units_leave_where_they_have_to() {
    let (scenario, what, least) = LEAVING;
    let place = USES.iter().position(|used| used.name == what).unwrap();
    let found = seen().iter().find(|seen| seen.scenario == scenario).unwrap();
    assert!(found.uses.share(place) >= least, "{}", found.uses.share(place));
}

/// Metrics that say what weapons and works do in a game.
const DONE: [Metric; 20] = [
    Metric::MenLost,
    Metric::MenLostToRifles,
    Metric::MenLostToMachineGuns,
    Metric::MenLostToMortars,
    Metric::MenLostToBatteries,
    Metric::MenLostToGuns,
    Metric::MenLostToFlame,
    Metric::MenLostToAssault,
    Metric::MenLostToMines,
    Metric::OwnFire,
    Metric::VehiclesLost,
    Metric::Missions,
    Metric::Screens,
    Metric::Assaults,
    Metric::AssaultsWon,
    Metric::Prisoners,
    Metric::Ambushes,
    Metric::FeaturesSearched,
    Metric::UnitsLeft,
    Metric::DugIn,
];

/// A row for each line and a column for each scenario, numbered in their order.
fn heading(text: &mut String, what: &str) {
    let _ = write!(text, "\n{what:36}");
    for seen in seen() {
        let _ = write!(text, " {:>20}", seen.scenario);
    }
    text.push('\n');
}

/// What weapons do by scenario, and shares of games in which things are used, for each doctrine.
pub(super) fn page() -> String {
    let mut text = String::new();
    heading(&mut text, "in a game between steady players");
    for metric in DONE {
        let _ = write!(text, "{:36}", METRICS[metric as usize].label);
        for seen in seen() {
            let _ = write!(text, " {:>20.3}", seen.mean(metric));
        }
        text.push('\n');
    }
    heading(&mut text, "% of games: steady, cautious, bold");
    for (n, used) in USES.iter().enumerate() {
        let _ = write!(text, "{:36}", used.name);
        for (place, seen) in seen().iter().enumerate() {
            let share = |doctrine| 100.0 * played(doctrine)[place].uses.share(n);
            let [steady, cautious, bold] = [0, 1, 2].map(share);
            let shares = format!("{steady:.1} {cautious:.1} {bold:.1}");
            let _ =
                write!(text, " {:>20}", if seen.uses.given[n] { shares } else { "-".to_owned() });
        }
        text.push('\n');
    }
    text
}
