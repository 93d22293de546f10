//! Whole games: what the collector says agrees with the game.

use ruleshift_game::{Event, Observer, Place, RevealCause, State};
use ruleshift_players::{Doctrine, player, shipped};
use ruleshift_record::{Metric, Timing, Values};

use super::{Collector, STAGE, of};

const GAMES: u64 = 200;

/// Counts again what can be counted from the states alone.
pub(super) struct Again<'a> {
    collector: Collector<'a>,
    before: Option<State>,
    ambushes: u32,
    prisoners: u32,
    dug_in: u32,
    unit_turns: u32,
}

impl Observer for Again<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.collector.event(event, state);
        match *event {
            Event::MarkerRevealed { marker, cause: RevealCause::OpenedFire, .. } => {
                let before = self.before.as_ref().expect("something came before");
                let hidden = before.markers()[marker as usize].feature.is_some();
                self.ambushes += u32::from(hidden);
            }
            Event::TurnEnded { .. } => {
                self.dug_in += state.on_table().filter(|(_, unit)| unit.dug_in).count() as u32;
                self.unit_turns += state.on_table().count() as u32;
            }
            Event::GameEnded { .. } => {
                let taken = state.units().iter().filter(|unit| unit.place == Place::Captured);
                self.prisoners = taken.map(|unit| u32::from(unit.men)).sum();
            }
            _ => {}
        }
        self.before = Some(*state);
    }
}

pub(super) fn doctrine(name: &str) -> Doctrine {
    shipped().into_iter().find(|doctrine| doctrine.name == name).expect("a shipped doctrine")
}

/// Plays games and shows what was counted in each.
pub(super) fn watch(name: &str, mut check: impl FnMut(&Values, &Again)) {
    let (timing, rules, doctrine) = (Timing::default(), &STAGE.rules, doctrine(name));
    for seed in 0..GAMES {
        let collector = Collector::new(&timing, STAGE.table());
        let mut again =
            Again { collector, before: None, ambushes: 0, prisoners: 0, dug_in: 0, unit_turns: 0 };
        let (mut attacker, mut defender) = (player(&doctrine, rules), player(&doctrine, rules));
        STAGE.play(seed, [&mut *attacker, &mut *defender], &mut again);
        check(again.collector.values(), &again);
    }
}

/// The counts of men lost to each weapon.
const WEAPONS: [Metric; 8] = [
    Metric::MenLostToRifles,
    Metric::MenLostToMachineGuns,
    Metric::MenLostToMortars,
    Metric::MenLostToBatteries,
    Metric::MenLostToGuns,
    Metric::MenLostToFlame,
    Metric::MenLostToAssault,
    Metric::MenLostToMines,
];

#[test]
fn every_man_lost_is_lost_to_one_weapon() {
    for name in ["chance", "steady"] {
        watch(name, |values, again| {
            let sum: f64 = WEAPONS.iter().map(|&metric| of(values, metric)).sum();
            assert_eq!(sum, of(values, Metric::MenLost));
            assert!(of(values, Metric::OwnFire) <= sum);
            assert_eq!(of(values, Metric::Ambushes), f64::from(again.ambushes));
            assert_eq!(of(values, Metric::Prisoners), f64::from(again.prisoners));
            let dug_in = of(values, Metric::DugIn) * f64::from(again.unit_turns);
            assert!((dug_in - f64::from(again.dug_in)).abs() < 0.01);
        });
    }
}

#[test]
fn every_turn_has_its_margin_and_the_last_one_is_that_of_the_game() {
    let mut moved = 0;
    watch("steady", |values, again| {
        let margins = again.collector.margins();
        assert_eq!(margins.len() as f64, of(values, Metric::Turns));
        assert_eq!(margins.last().map(|&last| last.into()), Some(of(values, Metric::Margin)));
        moved += u32::from(margins.windows(2).any(|pair| pair[0] != pair[1]));
    });
    assert!(moved > GAMES as u32 / 2, "points are scored on the way in {moved} games");
}

/// Players who choose by chance do some of everything in two hundred games.
#[test]
fn something_of_everything_happens() {
    let mut sums: Values = [0.0; Metric::ALL.len()];
    watch("chance", |values, _| {
        sums.iter_mut().zip(values).for_each(|(sum, value)| *sum += value);
    });
    for metric in [
        Metric::Assaults,
        Metric::GunHits,
        Metric::ArmourPierced,
        Metric::VehiclesLost,
        Metric::Missions,
        Metric::Screens,
        Metric::Ambushes,
        Metric::FeaturesSearched,
        Metric::ReservesArrived,
        Metric::UnitsLeft,
        Metric::DugIn,
        Metric::MinesStruck,
        Metric::MenLostToBatteries,
        Metric::MenLostToGuns,
        Metric::OwnFire,
    ] {
        assert!(sums[metric as usize] > 0.0, "{metric:?} never happened");
    }
}

#[test]
fn games_with_everything_allocate_nothing() {
    let (timing, rules, doctrine) = (Timing::default(), &STAGE.rules, doctrine("steady"));
    let (mut attacker, mut defender) = (player(&doctrine, rules), player(&doctrine, rules));
    let allocated = allocation_counter::measure(|| {
        for seed in 0..10 {
            let mut collector = Collector::new(&timing, STAGE.table());
            STAGE.play(seed, [&mut *attacker, &mut *defender], &mut collector);
        }
    });
    assert_eq!(allocated.count_total, 0, "{} bytes", allocated.bytes_total);
}
