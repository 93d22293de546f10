//! The scripts that change values: each against the base rules.

use ruleshift_game::{Cover, Damage, Ground, Kind, Quality, Rules, Side};

use super::rules;

#[test]
fn cards_of_the_turn_end() {
    let last = rules("two-turn-end-cards", [("cards", 3)]);
    assert_eq!(last.turn_end_cards(), 3);
    assert_eq!([1, 2, 3].map(|drawn| last.turn_ends(drawn, 3)), [false, false, true]);
    let first = rules("first-of-two-turn-end-cards", [("cards", 3)]);
    assert_eq!((first.turn_end_cards(), first.turn_ends(1, 3)), (3, true));
    let even = rules("even-turns", []);
    assert_eq!((even.turn_end_cards(), even.turn_ends(1, 1)), (1, false));
}

#[test]
fn markers() {
    assert_eq!(rules("three-marker-actions", []).marker_actions(), 3);
    let dummies = |rules: Rules| [0, 2, 5].map(|n| rules.dummy_markers(Side::Defender, n));
    assert_eq!(dummies(rules("no-dummies", [])), [0, 0, 0]);
    assert_eq!(dummies(rules("no-dummies", [("kept", 2)])), [0, 2, 2]);
    let creeping = rules("creep-then-fire", []);
    assert_eq!([0, 1, 2, 3].map(|used| creeping.may_open_fire(used)), [true, true, true, false]);
    let (sharp, base) = (rules("sharp-eyes", []), Rules::base());
    let number = |rules: &Rules, band| rules.spotting_number(band, Cover::Light, false);
    assert_eq!((number(&sharp, 1), number(&base, 1)), (8, 10));
    assert_eq!((sharp.search_number(0, Cover::None), base.search_number(0, Cover::None)), (5, 7));
    let sharpest = rules("sharp-eyes", [("easier", 4)]);
    assert_eq!(sharpest.spotting_number(0, Cover::None, true), 2, "no roll is below 2");
}

#[test]
fn pins_that_come_off() {
    let base = Rules::base();
    let recovered =
        |rules: &Rules, pins, cover, led| rules.pins_recovered(pins, Quality::Regular, cover, led);
    let kinder = rules("kinder-pin-recovery", []);
    assert_eq!([false, true].map(|led| recovered(&kinder, 3, Cover::None, led)), [1, 3]);
    assert_eq!([false, true].map(|led| recovered(&base, 3, Cover::None, led)), [1, 2]);
    let halved = rules("halved-pins", []);
    assert_eq!([1, 4, 7].map(|pins| recovered(&halved, pins, Cover::None, false)), [1, 2, 4]);
    assert_eq!(recovered(&halved, 4, Cover::Hard, true), 3, "never less than usual");
    let resting = rules("rest-in-cover", []);
    let covers = [Cover::None, Cover::Light, Cover::Hard];
    assert_eq!(covers.map(|cover| recovered(&resting, 5, cover, false)), [0, 2, 3]);
    assert_eq!(covers.map(|cover| recovered(&base, 5, cover, false)), [1, 1, 2]);
    let tough = rules("recovery-under-fire", []);
    assert!(tough.recovery_under_fire(Quality::Green, false));
    assert!(!base.recovery_under_fire(Quality::Green, false));
}

#[test]
fn what_pins_do() {
    let early = rules("early-suppression", []);
    let threshold = |men| early.suppression_threshold(men, Quality::Regular);
    assert_eq!([1, 3, 9, 10].map(threshold), [2, 2, 5, 5]);
    let late = rules("early-suppression", [("percent", 150)]);
    assert_eq!(late.suppression_threshold(10, Quality::Regular), 15);
    let less = rules("pinned-men-do-less", []);
    let actions = |quality, pins| less.unit_actions(Kind::Section, quality, 4, pins);
    assert_eq!([0, 1, 3].map(|pins| actions(Quality::Veteran, pins)), [4, 3, 2]);
    assert_eq!([0, 1, 3].map(|pins| actions(Quality::Green, pins)), [2, 1, 1], "one is left");
}

#[test]
fn leaders() {
    let far = rules("leaders-heard-farther", []);
    assert_eq!((far.leader_radius(1), Rules::base().leader_radius(1)), (9, 5));
    assert_eq!(rules("safe-leaders", []).leader_hit_number(), 13);
    let command = rules("command-radius", [("less", 2)]);
    assert_eq!([0, 1, 2, 4].map(|n| command.actions_out_of_command(n)), [0, 1, 1, 2]);
}

#[test]
fn fire() {
    let silent = rules("no-late-fire", []);
    assert!(!silent.late_fire_allowed(Kind::Section, Quality::Veteran));
    let half = rules("half-late-fire", []);
    assert_eq!([0, 1, 5, 6].map(|dice| half.late_fire_dice(dice)), [0, 1, 3, 3]);
    let (moving, base) = (rules("fire-on-the-move", []), Rules::base());
    for (kind, same) in [(Kind::Section, true), (Kind::LightGun, true), (Kind::TripodGun, false)] {
        for band in 0..3 {
            assert_eq!(moving.hit_number(kind, band, false), base.hit_number(kind, band, false));
            let as_well = moving.hit_number(kind, band, true) == base.hit_number(kind, band, false);
            assert_eq!(as_well, same, "{kind} in band {band}");
        }
        assert_eq!(moving.hit_number(kind, 3, true), 7, "out of range stays out of range");
    }
    let held = rules("held-fire", []);
    assert!(held.may_hold_fire(Kind::Section) && !base.may_hold_fire(Kind::Section));
    assert!(!held.may_hold_fire(Kind::Leader));
}

#[test]
fn shells_armour_and_ammunition() {
    let exact = rules("shells-on-target", []);
    assert_eq!([0, 1, 2].map(|adjusted| exact.scatter_inches(12, adjusted)), [0, 0, 0]);
    assert_eq!(rules("shells-on-target", [("percent", 50)]).scatter_inches(9, 0), 4);
    let kinder = rules("kinder-armour", []);
    let (shaken, immobile, out) = (Damage::Shaken, Damage::Immobile, Damage::KnockedOut);
    let by_die = [1, 2, 3, 4, 5, 6].map(|die| kinder.damage(die));
    assert_eq!(by_die, [shaken, shaken, shaken, immobile, out, out]);
    let shortage = rules("ammunition-shortage", []);
    assert_eq!(shortage.shortage_cards(Side::Attacker), 1);
    assert_eq!(Rules::base().shortage_cards(Side::Attacker), 0);
}

#[test]
fn moving() {
    let (quick, base) = (rules("quick-feet", []), Rules::base());
    for kind in [Kind::Section, Kind::TripodGun, Kind::AntiTankGun] {
        assert_eq!(quick.move_dice(kind), base.move_dice(kind) + 1, "{kind}");
    }
    for kind in [Kind::Leader, Kind::Tank, Kind::Truck] {
        assert_eq!(quick.move_dice(kind), base.move_dice(kind), "{kind}");
    }
    let heavy = rules("heavy-going", []);
    let grounds = [Ground::Open, Ground::Crops, Ground::Wood, Ground::Wire];
    assert_eq!(grounds.map(|ground| heavy.ground_cost(ground)), [100, 150, 300, 700]);
    let level = rules("heavy-going", [("percent", 0)]);
    assert_eq!(grounds.map(|ground| level.ground_cost(ground)), [100, 100, 100, 100]);
}

#[test]
fn length_and_sight() {
    let tough = rules("tougher-sides", []);
    assert_eq!([30, 95].map(|listed| tough.break_point(Side::Attacker, listed)), [45, 101]);
    let soft = rules("tougher-sides", [("more", -20)]);
    assert_eq!([30, 10].map(|listed| soft.break_point(Side::Defender, listed)), [10, 1]);
    let short = rules("short-evening", []);
    assert_eq!([2, 3, 12].map(|listed| short.turn_limit(listed)), [1, 1, 9]);
    let dusk = rules("dusk", []);
    assert_eq!([1, 4, 5, 6, 12].map(|turn| dusk.sight_limit(turn)), [86, 86, 60, 48, 6]);
    assert_eq!([0, 3].map(|waited| rules("relief-by-card", []).reserve_number(waited)), [7, 7]);
}

#[test]
fn one_side_is_given_a_handicap() {
    let usual = rules("handicap", []);
    assert_eq!([30, 90].map(|listed| usual.break_point(Side::Defender, listed)), [45, 101]);
    assert_eq!([30, 90].map(|listed| usual.break_point(Side::Attacker, listed)), [30, 90]);
    let both = rules("handicap", [("attack", -30), ("defence", 60)]);
    assert_eq!([Side::Attacker, Side::Defender].map(|side| both.break_point(side, 40)), [10, 100]);
    assert_eq!([30, 31].map(|listed| both.break_point(Side::Attacker, listed)), [1, 1]);
    let none = rules("handicap", [("attack", 0), ("defence", 0)]);
    for (&side, listed) in Side::ALL.iter().flat_map(|side| (1..=100).map(move |n| (side, n))) {
        assert_eq!(none.break_point(side, listed), Rules::base().break_point(side, listed));
    }
}
