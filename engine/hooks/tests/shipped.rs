//! The shipped scripts: each loads, does what it says, and has its own digest.

use ruleshift_game::{Cover, Kind, Quality, Rules, Side};
use ruleshift_hooks::{Overrides, SHIPPED, Source, Stack, Variant, shipped};

fn load(name: &str, overrides: &Overrides) -> Variant {
    let script = shipped(name).unwrap_or_else(|| panic!("{name} is not shipped"));
    Variant::load(&Source::new(name, script.text), overrides).unwrap_or_else(|e| panic!("{e}"))
}

fn rules(name: &str, overrides: &Overrides) -> Rules {
    Stack::new(vec![load(name, overrides)]).rules().unwrap()
}

#[test]
fn every_script_loads_without_a_warning_and_asks_a_question() {
    for script in SHIPPED {
        let variant = load(script.name, &Overrides::none());
        assert!(variant.warnings().is_empty(), "{}", variant.warnings());
        assert!(script.text.starts_with("// "), "{} lacks its header", script.name);
        assert_eq!(variant.question().is_some(), script.name != "base", "{}", script.name);
    }
}

#[test]
fn every_value_of_every_option_loads() {
    for script in SHIPPED {
        for option in load(script.name, &Overrides::none()).options() {
            for value in option.spec.values() {
                load(script.name, &Overrides::from([(option.spec.name.as_str(), value)]));
            }
        }
    }
}

#[test]
fn digests_differ_and_the_template_has_that_of_the_base_rules() {
    let base = Stack::default();
    let digest = |name| Stack::new(vec![load(name, &Overrides::none())]).digest().unwrap();
    assert_eq!(digest("base"), base.digest().unwrap());
    let mut digests: Vec<String> = SHIPPED.iter().map(|script| digest(script.name)).collect();
    digests.sort();
    digests.dedup();
    assert_eq!(digests.len(), SHIPPED.len());
}

#[test]
fn two_turn_end_cards_ends_the_turn_with_the_last_card() {
    let rules = rules("two-turn-end-cards", &Overrides::from([("cards", 3)]));
    assert_eq!(rules.turn_end_cards(), 3);
    assert_eq!([1, 2, 3].map(|drawn| rules.turn_ends(drawn, 3)), [false, false, true]);
}

#[test]
fn the_other_value_scripts_change_one_hook_each() {
    let none = Overrides::none();
    assert_eq!(rules("three-marker-actions", &none).marker_actions(), 3);
    let base = Rules::base();
    let kinder = rules("kinder-pin-recovery", &none);
    let recovered =
        |rules: &Rules, led| rules.pins_recovered(3, Quality::Regular, Cover::None, led);
    assert_eq!(recovered(&kinder, false), recovered(&base, false));
    assert_eq!(recovered(&kinder, true), recovered(&base, true) + 1);
    let silent = rules("no-late-fire", &none);
    assert!(!silent.late_fire_allowed(Kind::Section, Quality::Veteran));
}

/// The rules that are not in force, switched on (RULES 17).
#[test]
fn the_switches_of_many_clubs_are_switched_on() {
    let (none, base) = (Overrides::none(), Rules::base());
    let held = rules("held-fire", &none);
    assert!(held.may_hold_fire(Kind::Section) && !base.may_hold_fire(Kind::Section));
    assert!(!held.may_hold_fire(Kind::Leader));
    let command = rules("command-radius", &Overrides::from([("less", 2)]));
    assert_eq!([0, 1, 2, 4].map(|n| command.actions_out_of_command(n)), [0, 1, 1, 2]);
    let shortage = rules("ammunition-shortage", &none);
    assert_eq!(
        (shortage.shortage_cards(Side::Attacker), base.shortage_cards(Side::Attacker)),
        (1, 0)
    );
    let dusk = rules("dusk", &none);
    assert_eq!([1, 4, 5, 6, 12].map(|turn| dusk.sight_limit(turn)), [86, 86, 60, 48, 6]);
}

#[test]
fn a_stack_changes_the_rules_in_order() {
    let fewer = |name: &str| {
        let text = "fn about() { #{ title: \"F\", summary: \"One less.\" } } fn marker_actions(now) { now - 1 }";
        Variant::load(&Source::new(name, text), &Overrides::none()).unwrap()
    };
    let three = load("three-marker-actions", &Overrides::none());
    let after = |stack: Vec<Variant>| Stack::new(stack).rules().unwrap().marker_actions();
    assert_eq!(after(vec![three.clone(), fewer("a"), fewer("b")]), 1);
    assert_eq!(after(vec![fewer("a"), three]), 3);
}

#[test]
fn variants_can_be_shared_by_threads() {
    fn shared<T: Send + Sync>() {}
    shared::<Variant>();
    shared::<Stack>();
}
