//! The first shot of a game: hits, losses, what becomes of the target; a gun at armour.

use std::collections::BTreeMap;

use ruleshift_game::{Choice, Damage, Event, Ground, Gun, Kind, Observer, Place, State};

use super::scene::{Drilled, IDLE, find, play, setup};
use super::sheet::{Counts, Under, hold, hold_all};
use crate::support::stage::{cell, group};

const GAMES: u64 = 4_000;
const CHANGED: Under = Under::Script(
    "fn fire_dice(now, kind, men, pins) { min(now + 1, 24) }
     fn hit_number(now, kind, band, moved) { if now > 3 { now - 1 } else { now } }
     fn hits_kept(now, kind, cover, hits) { if cover == LIGHT { (2 * hits + 1) / 3 } else { now } }
     fn effect(now, kind, cover, die) { switch die { 1 => NOTHING, 5 | 6 => LOSS, _ => PIN } }
     fn suppression_threshold(now, men, quality) { max(men - 1, 2) }
     fn break_threshold(now, men, quality) { max(2 * men - 2, 4) }
     fn damage(now, die) { if die >= 5 { KNOCKED_OUT } else { SHAKEN } }
     fn gun_hit_number(now, band, cover, moved, target_moved) { min(now + 1, 13) }
     fn penetration_number(now, margin) { max(now - 2, 2) }
    ",
);

/// Fires at whatever there is.
const FIRES: Drilled<'static> = Drilled {
    squares: &[(10, 24)],
    opens: true,
    from: 2,
    wish: |_, choices| find(choices, |choice| matches!(choice, Choice::Fire(_))),
};

/// Someone to fire at.
fn target(square: &[(i32, i32)]) -> Drilled<'_> {
    Drilled { squares: square, opens: true, ..IDLE }
}

/// What came of the first shot of each game.
#[derive(Default)]
struct Shots {
    open: Option<(i32, i32, i32)>,
    done: bool,
    dice: BTreeMap<(u8, u8), u32>,
    hits: Counts,
    pins: Counts,
    men: Counts,
    suppressed: u32,
    gone: u32,
}

impl Shots {
    /// The shot is over: how the target is.
    fn close(&mut self, state: &State) {
        let Some((hits, pins, men)) = self.open.take() else { return };
        self.done = true;
        for (counts, number) in
            [(&mut self.hits, hits), (&mut self.pins, pins), (&mut self.men, men)]
        {
            *counts.entry(number).or_default() += 1;
        }
        self.gone += u32::from(state.units()[1].place != Place::Table);
    }
}

impl Observer for Shots {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            // What is left of a group may run at turn end: that is no work of the shot.
            Event::LateFireBegan { .. } => self.close(state),
            Event::GameEnded { .. } => self.done = false,
            Event::Fired { target: 1, dice, needed, hits, .. } if !self.done => {
                if self.open.is_some() {
                    return self.close(state);
                }
                *self.dice.entry((dice, needed)).or_default() += 1;
                self.open = Some((hits.into(), 0, 0));
            }
            Event::MenLost { unit: 1, men, .. } => {
                if let Some(open) = &mut self.open {
                    open.2 += i32::from(men);
                }
            }
            Event::PinsAdded { unit: 1, pins, .. } => {
                if let Some(open) = &mut self.open {
                    open.1 += i32::from(pins);
                }
            }
            Event::Suppressed { unit: 1 } if self.open.is_some() => self.suppressed += 1,
            _ => {}
        }
    }
}

/// One shot each game of a unit at a section of so many men, some inches away.
struct Scene {
    kind: Kind,
    men: u8,
    enemy_men: u8,
    ground: Ground,
    place: &'static str,
    inches: i32,
}

impl Scene {
    fn holds(&self, under: Under) {
        let Scene { kind, men, enemy_men, ground, place, inches } = *self;
        let at = [(10 + inches, 24)];
        let forces = [group(&[(kind, men)]), group(&[(Kind::Section, enemy_men)])];
        let [ours, theirs] = forces.map(|group| vec![group]);
        let marker = [(9 + inches, 24)];
        let setup = setup(ground, 2, [(&[(9, 24)], ours), (&marker, theirs)]);
        let mut shots = Shots::default();
        play(setup, under.rules(), GAMES, [FIRES, target(&at)], &mut shots);

        let options = format!(
            "--range {inches} --kind {} --men {men} --enemy-men {enemy_men}",
            Kind::CONSTANTS[kind as usize].to_lowercase().replace('_', "-")
        );
        let sheet = under.sheet("fire", &options);
        let label = kind.label();
        let who = format!("{}{} of {men} men", label[..1].to_uppercase(), &label[1..]);
        let case = format!("{who}, at {inches} in, target {place}");
        let what = format!("{under:?}: {case}");
        let dice = sheet.value(&case, "dice") as u8;
        let needed = sheet.row(&case, "a die hits")["needed"].as_u64().unwrap() as u8;
        let trials: u32 = shots.hits.values().sum();
        assert_eq!(shots.dice, BTreeMap::from([((dice, needed), trials)]), "{what}");
        hold_all(&format!("{what}: hits"), &shots.hits, &sheet.spread(&case, "hits that count"));
        hold_all(&format!("{what}: men"), &shots.men, &sheet.spread(&case, "men lost"));
        let chance = |row: &str| sheet.value(&case, row);
        hold(&what, shots.suppressed, trials, chance("the target is suppressed"));
        hold(&what, shots.gone, trials, chance("the target breaks or is lost"));
        if shots.gone == 0 {
            // Of a unit that is lost the engine does not tell the pins.
            hold_all(&format!("{what}: pins"), &shots.pins, &sheet.spread(&case, "pins"));
        }
    }
}

#[test]
fn shots_do_what_is_told() {
    for under in [Under::Base, Under::Shipped("early-suppression"), CHANGED] {
        for scene in [
            (Kind::Section, 8, 8, Ground::Open, "in the open", 5),
            (Kind::Section, 7, 3, Ground::Scrub, "in light cover", 12),
            (Kind::TripodGun, 5, 3, Ground::Open, "in the open", 11),
            (Kind::LightGun, 2, 2, Ground::Wall, "in hard cover", 7),
            (Kind::AssaultSection, 8, 4, Ground::Trench, "dug in", 5),
        ] {
            let (kind, men, enemy_men, ground, place, inches) = scene;
            Scene { kind, men, enemy_men, ground, place, inches }.holds(under);
        }
    }
}

/// The first shot of a gun at a tank in each game.
#[derive(Default)]
struct Strikes {
    at: Option<u8>,
    done: bool,
    hits: (u32, u32),
    through: (u32, u32),
    damage: Counts,
}

impl Observer for Strikes {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::GameEnded { .. } => (self.at, self.done) = (None, false),
            Event::GunFired { rolled, needed, .. } if !self.done && self.at.is_none() => {
                self.at = Some(needed);
                self.hits = (self.hits.0 + 1, self.hits.1 + u32::from(rolled >= needed));
            }
            Event::ArmourStruck { rolled, needed, .. } if !self.done => {
                self.done = true;
                self.through = (self.through.0 + 1, self.through.1 + u32::from(rolled >= needed));
            }
            Event::VehicleDamaged { damage, .. } if self.through.0 > 0 => {
                *self.damage.entry(damage as i32).or_default() += 1;
            }
            _ => {}
        }
    }
}

/// A gun 10 mm better than the plate, and one as good, at near and middle range.
#[test]
fn guns_do_to_armour_what_is_told() {
    for under in [Under::Base, Under::Shipped("kinder-armour"), CHANGED] {
        for (inches, plate, margin) in [
            (15, 90, "goes through, gun 10 mm better"),
            (30, 100, "goes through, gun and plate even"),
        ] {
            let mut ours = group(&[(Kind::AntiTankGun, 5)]);
            ours.units[0].gun = Some(0);
            let mut theirs = group(&[(Kind::Tank, 5)]);
            theirs.units[0].armour = [plate; 3];
            let marker = [(9 + inches, 24)];
            let mut setup =
                setup(Ground::Open, 2, [(&[(9, 24)], vec![ours]), (&marker, vec![theirs])]);
            setup.guns = vec![Gun { name: "gun".to_owned(), penetration: [100; 3], shaped: true }];
            assert_eq!(setup.ground[cell(10, 24).index()], Ground::Open);
            let mut strikes = Strikes::default();
            let at = [(10 + inches, 24)];
            play(setup, under.rules(), GAMES, [FIRES, target(&at)], &mut strikes);

            let sheet = under.sheet("fire", &format!("--range {inches} --cover open"));
            let what = format!("{under:?}: a gun at {inches} in");
            let chance = |case: &str, row: &str| sheet.value(case, row);
            let aims = "A gun at an armoured vehicle that has not moved: it hits";
            let hits = chance(aims, &format!("at {inches} in, in the open"));
            hold(&what, strikes.hits.1, strikes.hits.0, hits);
            let (struck, through) = strikes.through;
            assert!(struck > 500, "{what}: {struck} hits");
            hold(&what, through, struck, chance("A hit on armour", margin));
            let damage = Damage::ALL.iter().map(|&damage| {
                let row = format!("once through: {}", damage.label());
                (damage as i32, chance("A hit on armour", &row))
            });
            hold_all(&what, &strikes.damage, &damage.filter(|(_, chance)| *chance > 0.0).collect());
        }
    }
}
