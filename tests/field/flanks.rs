//! Flanks, and the suppressed: who is taken at a disadvantage is beaten more often.

use std::sync::OnceLock;

use ruleshift_game::{Event, Face, GroupSetup, Kind, Observer, Rules, State, UnitId};

use super::armour::{gun, plate};
use super::fire::Marksman;
use super::shipped::seen;
use super::surely_above;
use super::table::{Row, row};
use crate::support::stage::{Stage, cell, group, plain, side};
use crate::support::stats::Sample;

const GAMES: u64 = 1_500;

/// Close assaults on men: whether they were won, by whether the enemy was suppressed.
#[derive(Default)]
pub(super) struct Fights {
    rules: Rules,
    open: Option<(UnitId, UnitId, bool)>,
    won: [Sample; 2],
}

impl Fights {
    pub(super) fn see(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Charged { unit, target, reached, .. } => {
                let enemy = &state.units()[target as usize];
                let men = reached && !enemy.armoured();
                self.open = men.then(|| (unit, target, enemy.suppressed(&self.rules)));
            }
            // The first of the two that is gone, taken or thrown back has lost.
            Event::UnitLost { unit }
            | Event::UnitBroke { unit, .. }
            | Event::Captured { unit, .. }
            | Event::FellBack { unit, .. } => {
                let Some((by, target, suppressed)) = self.open else { return };
                if unit == by || unit == target {
                    self.won[usize::from(suppressed)].add(f64::from(u8::from(unit == target)));
                    self.open = None;
                }
            }
            _ => {}
        }
    }
}

/// Assaults of all scenarios on those who stand and on the suppressed.
fn fights() -> [Sample; 2] {
    let mut won = [Sample::default(); 2];
    for seen in seen() {
        won.iter_mut().zip(&seen.fights.won).for_each(|(sum, part)| sum.merge(part));
    }
    won
}

/// Shots of a gun at a tank: whether they hit and went through, by the face struck. A miss counts
/// for the face that the shots of its game strike.
#[derive(Default)]
struct Armour {
    shots: u32,
    pierced: u32,
    face: Option<Face>,
    front: Sample,
    flank: Sample,
}

impl Observer for Armour {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::GunFired { .. } => self.shots += 1,
            Event::ArmourStruck { face, rolled, needed, .. } => {
                self.face = Some(face);
                self.pierced += u32::from(rolled >= needed);
            }
            Event::GameEnded { .. } => {
                let sample = match self.face.take() {
                    Some(Face::Front) => &mut self.front,
                    Some(Face::Flank) => &mut self.flank,
                    _ => &mut Sample::default(),
                };
                sample.add(f64::from(self.pierced) / f64::from(self.shots.max(1)));
                (self.shots, self.pierced) = (0, 0);
            }
            _ => {}
        }
    }
}

/// A group of one with armour and a gun.
fn armed(kind: Kind, men: u8, armour: [u8; 3]) -> GroupSetup {
    let mut group = group(&[(kind, men)]);
    (group.units[0].armour, group.units[0].gun) = (armour, Some(0));
    group
}

/// A gun and a dummy as far from a tank as each other, dealt to their spots by luck. The tank faces
/// the one on the same spot always, so the gun has its front or its flank; all else is the same.
fn duel() -> &'static Armour {
    static DUEL: OnceLock<Armour> = OnceLock::new();
    DUEL.get_or_init(fight)
}

fn fight() -> Armour {
    let mut setup = plain(4);
    setup.guns = vec![gun("5 cm L/60 anti-tank gun")];
    setup.sides.0[0] = side(&[(30, 24), (50, 44)], vec![armed(Kind::AntiTankGun, 5, [0; 3])]);
    setup.sides.0[0].dummies = 1;
    let tank = armed(Kind::Tank, 5, plate("M4 medium tank"));
    setup.sides.0[1] = side(&[(50, 24)], vec![tank]);
    let stage = Stage::new(setup, Rules::base());
    let mut armour = Armour::default();
    for seed in 0..GAMES {
        let mut gunner = Marksman { near: cell(40, 34), fires: true };
        let mut crew = Marksman { near: cell(50, 24), fires: false };
        stage.play(seed, &mut gunner, &mut crew, &mut armour);
    }
    armour
}

/// Row 25: a flank is beaten sooner than a front, other things equal (Dupuy's timeless verity 4,
/// S); so are men who cannot act for suppression (Dupuy, Understanding War, p. 251, S).
#[test]
fn flanks_and_the_suppressed_are_beaten_sooner() {
    let Armour { front, flank, .. } = duel();
    surely_above("shots at a flank over a front", flank, front);
    let [standing, suppressed] = fights();
    surely_above("assaults on the suppressed", &suppressed, &standing);
}

pub(super) fn rows() -> Vec<Row> {
    let Armour { front, flank, .. } = duel();
    let [standing, suppressed] = fights();
    let [armour, assaults] = [flank.mean() / front.mean(), suppressed.mean() / standing.mean()];
    vec![
        row(25, "shots that go through, flank / front", armour, (1.01, 20.0), "Dupuy, S sign"),
        row(25, "assaults won, on suppressed / standing", assaults, (1.01, 20.0), "Dupuy, S sign"),
        row(25, "assaults won on men who stand", standing.mean(), (0.0, 1.0), "show"),
    ]
}
