//! The first assault of a game: how far the rush goes, who wins, who is gone.

use ruleshift_game::{Choice, Event, Ground, Kind, Observer, State};

use super::scene::{Drilled, IDLE, find, play, setup};
use super::sheet::{Counts, Under, hold, hold_all};
use crate::support::stage::{fill, group};

const GAMES: u64 = 4_000;
const CHANGED: Under = Under::Script(
    "fn charge_dice(now, kind) { 3 }
     fn assault_dice(now, kind, men, pins) { if men > 1 { now + 1 } else { now } }
     fn assault_number(now, quality, cover, charging) { if cover == HARD { 5 } else if charging { 3 } else { 4 } }
     fn assault_rounds(now, cover) { 2 }
     fn assault_led(now) { 3 }
     fn surrenders(now, difference, led) { difference >= 2 }
     fn loser_pins(now, difference) { min(4 + difference, 30) }
     fn break_threshold(now, men, quality) { max(men, 4) }
    ",
);

const ASSAULTS: Drilled<'static> = Drilled {
    squares: &[(10, 24)],
    opens: true,
    from: 2,
    wish: |_, choices| find(choices, |choice| matches!(choice, Choice::Assault(_))),
};

/// What came of the assaults; unit 0 assaults unit `enemy`.
#[derive(Default)]
struct Assaults {
    enemy: u8,
    charges: (u32, u32),
    inches: Counts,
    /// Assaults won, undecided, beaten off, and those that left nobody.
    ends: [u32; 4],
    taken: [u32; 2],
    broken: [u32; 2],
    lost: [Counts; 2],
    fight: Option<Fight>,
}

/// A fight not over yet, by what has been told of each unit.
#[derive(Default)]
struct Fight {
    men: [i32; 2],
    gone: [bool; 2],
    back: [bool; 2],
    pinned: bool,
}

impl Assaults {
    fn close(&mut self) {
        let Some(Fight { men, gone, back, pinned }) = self.fight.take() else { return };
        let lost = |side: usize| gone[side] || back[side];
        self.ends[match (lost(0), lost(1)) {
            (true, true) => 3,
            (false, true) => 0,
            (true, false) if !gone[0] && !pinned => 1,
            (true, false) => 2,
            (false, false) => panic!("nobody gave way"),
        }] += 1;
        for (lost, men) in self.lost.iter_mut().zip(men) {
            *lost.entry(men).or_default() += 1;
        }
    }
}

impl Observer for Assaults {
    fn event(&mut self, event: &Event, _: &State) {
        if let Event::Charged { inches, reached, .. } = *event {
            self.charges = (self.charges.0 + 1, self.charges.1 + u32::from(reached));
            *self.inches.entry(inches.into()).or_default() += 1;
            self.fight = reached.then(Fight::default);
            return;
        }
        // What is left of a group may run at turn end: that is no work of the assault.
        if let Event::LateFireBegan { .. } = *event {
            return self.close();
        }
        let (Some(fight), enemy) = (&mut self.fight, self.enemy) else { return };
        let side = |unit: u8| match unit {
            0 => Some(0),
            unit if unit == enemy => Some(1),
            _ => None,
        };
        let told = match *event {
            Event::MenLost { unit, .. }
            | Event::UnitLost { unit }
            | Event::Captured { unit, .. }
            | Event::UnitBroke { unit, .. }
            | Event::FellBack { unit, .. }
            | Event::PinsAdded { unit, .. } => side(unit),
            _ => None,
        };
        let Some(side) = told else { return };
        match *event {
            Event::MenLost { men, .. } => fight.men[side] += i32::from(men),
            Event::FellBack { .. } => fight.back[side] = true,
            Event::PinsAdded { .. } => fight.pinned |= side == 0,
            Event::UnitLost { .. } => fight.gone[side] = true,
            Event::Captured { .. } => {
                (fight.gone[side], self.taken[side]) = (true, self.taken[side] + 1);
            }
            _ => (fight.gone[side], self.broken[side]) = (true, self.broken[side] + 1),
        }
    }
}

/// An assault each game by a unit of so many men, a leader 2 in behind it or not, on a section.
struct Scene {
    kind: Kind,
    men: u8,
    led: bool,
    enemy_men: u8,
    ground: Ground,
    place: &'static str,
    inches: i32,
}

impl Scene {
    fn play(&self, under: Under) -> Assaults {
        let Scene { kind, men, led, enemy_men, ground, inches, .. } = *self;
        let mut ours = vec![(kind, men)];
        if led {
            ours.push((Kind::Leader, 2));
        }
        let enemy = group(&[(Kind::Section, enemy_men)]);
        let marker = [(9 + inches, 24)];
        let mut setup =
            setup(Ground::Open, 2, [(&[(9, 24)], vec![group(&ours)]), (&marker, vec![enemy])]);
        fill(&mut setup, ground, (10 + inches, 24), (10 + inches, 24));
        let at = [(10 + inches, 24)];
        let stands = Drilled { squares: &at, opens: true, ..IDLE };
        let places = Drilled { squares: &[(10, 24), (8, 24)], ..ASSAULTS };
        let mut assaults = Assaults { enemy: ours.len() as u8, ..Assaults::default() };
        play(setup, under.rules(), GAMES, [places, stands], &mut assaults);
        assaults
    }

    fn holds(&self, under: Under) {
        let Scene { kind, men, led, enemy_men, place, inches, .. } = *self;
        let assaults = self.play(under);
        let word = Kind::CONSTANTS[kind as usize].to_lowercase().replace('_', "-");
        let led = if led { "--led" } else { "" };
        let sheet = under
            .sheet("assault", &format!("--kind {word} --men {men} --enemy-men {enemy_men} {led}"));
        let what = format!("{under:?}: {word} {men} on {enemy_men} {place} {led}");
        let rush = format!("The rush of a {} of {men} men", kind.label());
        let case = format!("The fight, enemy {place}");
        let (charges, reached) = assaults.charges;
        let comes = format!("comes to grips from {inches} in");
        hold(&format!("{what}: {comes}"), reached, charges, sheet.value(&rush, &comes));
        hold_all(&format!("{what}: inches"), &assaults.inches, &sheet.spread(&rush, "inches"));
        let hold_row = |row: &str, count: u32| {
            let (what, chance) = (format!("{what}: {row}"), sheet.value(&case, row));
            hold(&what, count, reached, chance);
        };
        let rows = [
            "the assault wins",
            "nothing is decided: it falls back",
            "the assault is beaten",
            "nobody is left",
        ];
        rows.iter().zip(assaults.ends).for_each(|(row, count)| hold_row(row, count));
        let fates = sheet.fates(&case);
        for side in 0..2 {
            let of = ["men the assault loses", "men the enemy loses"][side];
            hold_all(&format!("{what}: {of}"), &assaults.lost[side], &sheet.spread(&case, of));
            hold(&format!("{what}: taken {side}"), assaults.taken[side], reached, fates[side][0]);
            hold(&format!("{what}: broken {side}"), assaults.broken[side], reached, fates[side][1]);
        }
    }
}

#[test]
fn assaults_end_as_often_as_told() {
    for under in [Under::Base, CHANGED] {
        for (kind, men, led, enemy_men, ground, place, inches) in [
            (Kind::Section, 8, false, 8, Ground::Open, "in the open", 6),
            (Kind::Section, 4, true, 3, Ground::Open, "in the open", 4),
            (Kind::AssaultSection, 6, false, 5, Ground::Wall, "in hard cover", 7),
            (Kind::AssaultSection, 2, true, 2, Ground::Trench, "dug in", 5),
        ] {
            Scene { kind, men, led, enemy_men, ground, place, inches }.holds(under);
        }
    }
}
