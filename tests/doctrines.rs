//! Each shipped doctrine has a character of its own, and none is hopeless: games against `steady` on
//! both sides of every scenario, with fixed seeds.

use std::sync::OnceLock;
use std::thread;

use ruleshift_game::luck::game_seed;
use ruleshift_game::{Event, Observer, RevealCause, Side, State};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use crate::support::stage::Stage;
use crate::support::stats::{Sample, above};

/// Games on each side of each scenario.
const GAMES: u32 = 60;
/// Standard errors by which characters must differ: by chance they do once in 740 looks.
const SURE: f64 = 3.0;

const DOCTRINES: [&str; 3] = ["patient", "rash", "steady"];

/// What a side did in one game.
#[derive(Default)]
struct Told {
    side: usize,
    opened_fire: f64,
    rushes: f64,
    moves: f64,
    rallies: f64,
    lost: f64,
    first_contact: Option<u16>,
}

impl Observer for Told {
    fn event(&mut self, event: &Event, state: &State) {
        let own =
            |id: u8| f64::from(u8::from(state.units()[id as usize].side as usize == self.side));
        match *event {
            Event::MarkerRevealed { marker, cause: RevealCause::OpenedFire, .. } => {
                let side = state.markers()[marker as usize].side as usize;
                self.opened_fire += f64::from(u8::from(side == self.side));
            }
            Event::Charged { unit, .. } => self.rushes += own(unit),
            Event::UnitMoved { unit, .. } => self.moves += own(unit),
            Event::Rallied { unit, .. } => self.rallies += own(unit),
            Event::MenLost { unit, men, .. } => self.lost += f64::from(men) * own(unit),
            _ => {}
        }
        let contact = matches!(
            event,
            Event::Fired { .. }
                | Event::GunFired { .. }
                | Event::Shelled { .. }
                | Event::AssaultFought { .. }
        );
        if contact {
            self.first_contact.get_or_insert(state.turn());
        }
    }
}

/// What a doctrine did on average, game by game.
#[derive(Default)]
struct Character {
    wins: Sample,
    turns: Sample,
    opened_fire: Sample,
    rushes: Sample,
    moves: Sample,
    rallies: Sample,
    lost: Sample,
    first_contact: Sample,
}

impl Character {
    fn add(&mut self, won: bool, turns: u16, told: &Told) {
        self.wins.add(f64::from(u8::from(won)));
        self.turns.add(turns.into());
        self.opened_fire.add(told.opened_fire);
        self.rushes.add(told.rushes);
        self.moves.add(told.moves);
        self.rallies.add(told.rallies);
        self.lost.add(told.lost);
        self.first_contact.add(told.first_contact.unwrap_or(turns + 1).into());
    }
}

/// A doctrine against `steady`, attacking and defending everywhere.
fn watch(doctrine: &str) -> Character {
    let mut character = Character::default();
    for (place, (scenario, _)) in (0..).zip(SCENARIOS) {
        let stage = Stage::shipped(scenario);
        for (side, players) in
            [(Side::Attacker, [doctrine, "steady"]), (Side::Defender, ["steady", doctrine])]
        {
            for game in 0..GAMES {
                let mut told = Told { side: side as usize, ..Told::default() };
                let seed = game_seed(31 + side as u64, place, game);
                let end = stage.doctrines(seed, players, &mut told);
                character.add(end.winner == Some(side), end.turns, &told);
            }
        }
    }
    character
}

fn characters() -> &'static [Character; DOCTRINES.len()] {
    static WATCHED: OnceLock<[Character; DOCTRINES.len()]> = OnceLock::new();
    WATCHED.get_or_init(|| {
        thread::scope(|scope| {
            let running = DOCTRINES.map(|doctrine| scope.spawn(move || watch(doctrine)));
            running.map(|games| games.join().expect("games end"))
        })
    })
}

#[track_caller]
fn surely_above(what: &str, first: &Sample, second: &Sample) {
    let errors = above(first, second);
    assert!(
        errors > SURE,
        "{what}: {:.3} and {:.3}, {errors:.1} apart",
        first.mean(),
        second.mean()
    );
}

#[test]
fn patient_troops_stay_hidden_and_hold_their_ground() {
    let [patient, _, steady] = characters();
    surely_above("fire opened", &steady.opened_fire, &patient.opened_fire);
    surely_above("first contact", &patient.first_contact, &steady.first_contact);
    surely_above("moves", &steady.moves, &patient.moves);
    surely_above("rushes", &steady.rushes, &patient.rushes);
}

#[test]
fn rash_troops_rush_and_lose_men_for_it() {
    let [_, rash, steady] = characters();
    surely_above("rushes", &rash.rushes, &steady.rushes);
    surely_above("men lost", &rash.lost, &steady.lost);
    surely_above("turns", &steady.turns, &rash.turns);
    surely_above("rallies", &steady.rallies, &rash.rallies);
}

/// The limits lie 3 standard errors or more from what these games show.
#[test]
fn neither_is_hopeless_nor_better_than_steady() {
    for (doctrine, character) in DOCTRINES.iter().zip(characters()).take(2) {
        let wins = &character.wins;
        let (low, high) = (wins.mean() - SURE * wins.error(), wins.mean() + SURE * wins.error());
        assert!(low > 0.15 && high < 0.6, "{doctrine} wins {:.3}", wins.mean());
        assert!(wins.mean() < 0.5, "{doctrine} wins {:.3} against steady", wins.mean());
    }
}
