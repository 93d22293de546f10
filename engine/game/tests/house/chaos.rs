//! Whatever house rules do, games end, keep the laws and come back with their seed.

use ruleshift_game::{Handle, Illegal};

use super::{house_of_all, play_under};
use crate::laws::{Laws, judged, scene};
use crate::support::{Ready, battle};

/// Does something at random, most of it allowed, and does not mind what is refused.
fn meddle(handle: &mut Handle) -> Result<(), Illegal> {
    let units = handle.unit_count().max(1);
    for _ in 0..handle.roll() - 3 {
        let unit = (6 * handle.roll() + handle.roll()) * 5 % units;
        let (side, few) = (handle.roll() % 2, handle.roll());
        let act = 6 * (handle.roll() - 1) + handle.roll();
        let _ = match act {
            1..=4 => handle.add_pins(unit, few),
            5..=8 => handle.remove_pins(unit, few),
            9..=10 => handle.grant_action(unit),
            11..=12 => handle.take_action(unit),
            13 => handle.lose_men(unit, 1),
            14..=15 => handle.return_men(unit, few),
            16 => handle.add_points(side, few - 3),
            17..=18 => handle.add_card(side, few % 3).map(drop),
            19 => handle.add_group_card(side).map(drop),
            20 => handle.remove_cards(few, side).map(drop),
            21..=22 => handle.skip_card().map(drop),
            23..=25 => handle.put_back().map(drop),
            26 if few == 6 => handle.end_turn().map(drop),
            27 => handle.bring_reserve(side).map(drop),
            28 => handle.limit_sight(10 * few),
            29 => handle.set_counter(side, few),
            30..=31 => handle.ask_unit(side).map(drop),
            32 => handle.ask_among(side, &[unit, few, 0]).map(drop),
            33..=34 => handle.ask_option(side, few).map(drop),
            _ => handle.note("meddled"),
        };
    }
    Ok(())
}

fn meddled(ready: &Ready, seed: u64) {
    let play = || {
        let mut laws = Laws::default();
        let (mut one, mut two) =
            (judged(ready, seed, true), judged(ready, !seed, seed.is_multiple_of(2)));
        let mut rule = house_of_all(|_, handle| meddle(handle));
        let outcome = play_under(ready, seed, &mut rule, [&mut one, &mut two], &mut laws);
        assert!(laws.events > 0);
        outcome
    };
    assert_eq!(play(), play(), "seed {seed}");
}

#[test]
fn meddled_games_end_and_keep_the_laws() {
    let ready = battle().ready();
    (0..60).for_each(|seed| meddled(&ready, seed));
}

#[test]
fn meddled_random_scenes_end_and_keep_the_laws() {
    for place in 0..12 {
        let ready = scene(place).ready();
        (0..12).for_each(|seed| meddled(&ready, seed));
    }
}
