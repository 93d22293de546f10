//! Luck is keyed: a rule that changes dice in one place leaves those in others alone.

use ruleshift_game::{Card, Choice, Effect, Event, Hook, View};

use crate::support::{Lively, Ready, Record, skirmish};

fn record(ready: &Ready, seed: u64) -> Record {
    let (mut attacker, mut defender) = (Lively::new(seed), Lively::new(seed + 7));
    let mut record = Record::default();
    ready.play(seed, &mut attacker, &mut defender, &mut record);
    record
}

/// Everything but shots and the counts of dice at the end.
fn apart_from_shots(record: &Record) -> Vec<Event> {
    let other = |e: &Event| !matches!(e, Event::Fired { .. } | Event::GameEnded { .. });
    record.events().filter(other).collect()
}

/// Twice the dice for shots that do nothing: every move, look, card and test stays as it was.
#[test]
fn more_dice_for_fire_leave_all_others_alone() {
    let harmless = skirmish().rule(Hook::HitEffect, |_, _| Effect::Nothing as i32);
    // Nought stays nought, so that the same shots are on offer.
    let doubled = harmless.clone().rule(Hook::FireDice, |now, _| (2 * now).min(24)).rules;
    let harmless = harmless.ready();
    let doubled = harmless.under(doubled);
    let mut all = 0;
    for seed in 0..20 {
        let (one, two) = (record(&harmless, seed), record(&doubled, seed));
        let shots = one.count(|e| matches!(e, Event::Fired { .. }));
        all += shots;
        let (a, b) = (apart_from_shots(&one), apart_from_shots(&two));
        let first = a.iter().zip(&b).position(|(a, b)| a != b);
        assert!(a == b, "seed {seed}: {:?}", first.map(|n| (a[n], b[n])));
        let dice = |record: &Record| record.last().tally().dice;
        assert_eq!(dice(&two) > dice(&one), shots > 0);
    }
    assert!(all > 200, "{all} shots");
}

/// More turn-end cards that end nothing: the other cards come in the order they had, and the game
/// is the same.
#[test]
fn more_cards_leave_the_order_of_others_alone() {
    let other = |e: &Event| {
        !matches!(e, Event::TurnStarted { .. } | Event::CardDrawn { card: Card::TurnEnd(_) })
    };
    let one = skirmish().all_cards().ready();
    let six = one.under(skirmish().all_cards().rule(Hook::TurnEndCards, |_, _| 6).rules);
    for seed in 0..20 {
        let (one, six) = (record(&one, seed), record(&six, seed));
        let left = |record: &Record| record.events().filter(other).collect::<Vec<_>>();
        assert_eq!(left(&one), left(&six), "seed {seed}");
    }
}

/// Another number of dummies leaves each group on the spot it had.
#[test]
fn dummies_leave_groups_where_they_were() {
    let base = skirmish().ready();
    let with = |dummies| base.under(skirmish().rule(Hook::DummyMarkers, |_, _| dummies).rules);
    let spots = |ready: &Ready, seed| {
        let record = record(ready, seed);
        let markers = record.0[0].1.markers();
        let mut groups: Vec<_> =
            markers.iter().filter_map(|m| m.group.map(|group| (group, m.at))).collect();
        groups.sort_unstable();
        groups
    };
    let (none, two) = (with(0), with(2));
    for seed in 0..10 {
        assert_eq!(spots(&none, seed), spots(&two, seed));
    }
}

/// Tables answered with the value they had give the same rules and the same games.
#[test]
fn a_change_of_nothing_changes_nothing() {
    let same = Hook::ALL.iter().fold(skirmish(), |scene, &hook| scene.rule(hook, |now, _| now));
    assert_eq!(same.rules.digest(), skirmish().rules.digest());
    let one = skirmish().ready();
    let two = one.under(same.rules);
    for seed in 0..5 {
        let (one, two) = (record(&one, seed), record(&two, seed));
        assert!(one.events().eq(two.events()), "seed {seed}");
    }
}

/// What a player does for himself, such as looking again, rolls no dice of the game.
#[test]
fn looking_costs_no_luck() {
    let look = |looks: bool| {
        let mut luck = Lively::new(3);
        let mut player = crate::support::By(move |view: &View<'_>, choices: &[Choice]| {
            if looks {
                let _ = (view.whim(), view.enemy_markers().count(), view.own_units().count());
            }
            ruleshift_game::Player::choose(&mut luck, view, choices)
        });
        let record = skirmish().play(8, &mut player, &mut Lively::new(4));
        record.events().collect::<Vec<_>>()
    };
    assert_eq!(look(false), look(true));
}
