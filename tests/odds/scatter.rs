//! Fires of a battery: how far they go astray, who is under them, what they do.

use ruleshift_game::{BatterySetup, Cell, Choice, Event, Ground, Kind, Observer, State};

use super::scene::{Drilled, IDLE, play, setup};
use super::sheet::{Counts, Under, hold, hold_all};
use crate::support::stage::group;

const GAMES: u64 = 2_500;
const CHANGED: Under = Under::Script(
    "fn scatter_inches(now, rolled, adjusted) { max(rolled - 3 * adjusted, 0) }
     fn blast_radius(now, kind) { if kind == BATTERY { 4 } else { now } }
     fn fire_dice(now, kind, men, pins) { if kind == BATTERY { 6 } else { now } }
     fn effect(now, kind, cover, die) { if die >= 4 { LOSS } else { PIN } }
    ",
);

/// Squares of the two sections: the one aimed at, and one 8 in to its right.
const AT: [(i32, i32); 2] = [(36, 24), (44, 24)];

/// Calls the battery on the first section and corrects it once a turn.
const CALLS: Drilled<'static> = Drilled {
    squares: &[(6, 24)],
    opens: true,
    from: 1,
    wish: |view, choices| {
        let aim = Cell { x: AT[0].0 as u8, y: AT[0].1 as u8 };
        let called = view.own_battery(0).is_some_and(|battery| battery.call.is_some());
        let fresh = view.doing().unit.and_then(|id| view.unit(id)).is_some_and(|u| u.actions == 3);
        let wanted = |choice: &Choice| match *choice {
            Choice::FireBattery => true,
            Choice::Adjust(_) => fresh,
            Choice::Call { at, .. } => at == aim && !called,
            _ => false,
        };
        choices.iter().position(wanted)
    },
};

/// What is told of one number of corrections.
#[derive(Default)]
struct Fires {
    inches: Counts,
    /// Fires with the section aimed at, with the other one, and how often each was under them.
    under: [(u32, u32); 2],
}

#[derive(Default)]
struct Shells {
    corrected: [Fires; 7],
    /// Corrections of the fire whose shells fall now.
    now: usize,
    first: bool,
    hits: Counts,
}

impl Observer for Shells {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::TurnStarted { turn: 1, .. } => self.first = true,
            Event::BatteryFired { battery, inches, aim, .. } => {
                assert_eq!((aim.x, aim.y), (36, 24));
                self.now = state.batteries()[battery as usize].call.unwrap().adjusted.into();
                let fires = &mut self.corrected[self.now];
                *fires.inches.entry(inches.into()).or_default() += 1;
                for (n, (x, y)) in AT.into_iter().enumerate() {
                    let stands = state
                        .on_table()
                        .any(|(_, unit)| (i32::from(unit.at.x), i32::from(unit.at.y)) == (x, y));
                    fires.under[n].0 += u32::from(stands);
                }
            }
            Event::Shelled { target, hits, .. } => {
                let at = state.units()[target as usize].at;
                let which =
                    AT.iter().position(|&(x, y)| (i32::from(at.x), i32::from(at.y)) == (x, y));
                if let Some(n) = which {
                    self.corrected[self.now].under[n].1 += 1;
                }
                *self.hits.entry(hits.into()).or_default() += 1;
            }
            _ => {}
        }
    }
}

fn shells(under: Under) -> Shells {
    let ours = group(&[(Kind::Observer, 2)]);
    let enemies = || group(&[(Kind::Section, 13)]);
    let mut setup = setup(
        Ground::Open,
        8,
        [(&[(5, 24)], vec![ours]), (&[(35, 24), (43, 24)], vec![enemies(), enemies()])],
    );
    setup.sides.0[0].batteries = vec![BatterySetup {
        name: "guns".to_owned(),
        response: 0,
        missions: 12,
        smoke: false,
        registered: vec![],
    }];
    let stands = Drilled { squares: &AT, opens: true, ..IDLE };
    let mut shells = Shells::default();
    play(setup, under.rules(), GAMES, [CALLS, stands], &mut shells);
    shells
}

fn holds(under: Under) {
    let sheet = under.sheet("scatter", "--enemy-men 13");
    let shells = shells(under);
    let cases = ["not corrected", "corrected once", "corrected 2 times", "corrected 3 times"];
    for (fires, times) in shells.corrected.iter().zip(cases) {
        let (case, what) =
            (format!("Where the shells fall, {times}"), format!("{under:?}: {times}"));
        hold_all(&what, &fires.inches, &sheet.spread(&case, "inches astray"));
        let on = fires.inches.get(&0).copied().unwrap_or(0);
        let all = fires.inches.values().sum();
        hold(&what, on, all, sheet.value(&case, "on the square aimed at"));
        let rows = ["a unit aimed at is under them", "one 8 in to a side of it is"];
        for (row, (trials, count)) in rows.into_iter().zip(fires.under) {
            assert!(trials > 300, "{what}: {row}: {trials} fires");
            hold(&format!("{what}: {row}"), count, trials, sheet.value(&case, row));
        }
    }
    let case = "A unit under the shells, in the open";
    hold_all(&format!("{under:?}: hits"), &shells.hits, &sheet.spread(case, "hits that count"));
}

#[test]
fn shells_fall_as_told() {
    for under in [Under::Base, Under::Shipped("shells-on-target:percent=50"), CHANGED] {
        holds(under);
    }
}
