//! The shipped scripts: each loads, does what it says, and has its own digest.

mod events;
mod values;

use ruleshift_game::Rules;
use ruleshift_hooks::{Overrides, SHIPPED, Source, Stack, Variant, advice, shipped};

fn load(name: &str, overrides: &Overrides) -> Variant {
    let script = shipped(name).unwrap_or_else(|| panic!("{name} is not shipped"));
    Variant::load(&Source::new(name, script.text), overrides).unwrap_or_else(|e| panic!("{e}"))
}

/// The stack of one script with some of its options set.
fn stack<const N: usize>(name: &str, options: [(&str, i64); N]) -> Stack {
    Stack::new(vec![load(name, &Overrides::from(options))])
}

/// The rules that one script makes of the base rules.
fn rules<const N: usize>(name: &str, options: [(&str, i64); N]) -> Rules {
    stack(name, options).rules().unwrap()
}

#[test]
fn every_script_loads_without_a_warning_and_asks_a_question() {
    for script in SHIPPED {
        let variant = load(script.name, &Overrides::none());
        assert!(variant.warnings().is_empty(), "{}", variant.warnings());
        assert!(script.text.starts_with("// "), "{} lacks its header", script.name);
        for said in [variant.question(), variant.expect()] {
            assert_eq!(said.is_some(), script.name != "base", "{}", script.name);
        }
    }
}

/// What `check` would advise about a script besides: nothing.
#[test]
fn there_is_no_advice_to_give_about_any_script() {
    for script in SHIPPED {
        let variant = load(script.name, &Overrides::none());
        let advice = advice(&variant, &Rules::base(), &rules(script.name, []));
        assert!(advice.is_empty(), "{}: {advice:?}", script.name);
    }
}

#[test]
fn every_value_of_every_option_loads_without_a_warning() {
    for script in SHIPPED {
        for option in load(script.name, &Overrides::none()).options() {
            for value in option.spec.values() {
                let overrides = Overrides::from([(option.spec.name.as_str(), value)]);
                let variant = load(script.name, &overrides);
                assert!(variant.warnings().is_empty(), "{}", variant.warnings());
            }
        }
    }
}

#[test]
fn digests_differ_and_the_template_has_that_of_the_base_rules() {
    let base = Stack::default();
    let digest = |name| stack(name, []).digest().unwrap();
    assert_eq!(digest("base"), base.digest().unwrap());
    let mut digests: Vec<String> = SHIPPED.iter().map(|script| digest(script.name)).collect();
    digests.sort();
    digests.dedup();
    assert_eq!(digests.len(), SHIPPED.len());
}

/// A club member reads them in a list: sentences, and a question.
#[test]
fn every_script_says_what_it_is_in_sentences() {
    for script in SHIPPED {
        let variant = load(script.name, &Overrides::none());
        assert!(variant.summary().ends_with('.'), "{}", script.name);
        assert!(variant.question().is_none_or(|text| text.ends_with('?')), "{}", script.name);
        assert!(variant.expect().is_none_or(|text| text.ends_with('.')), "{}", script.name);
        for option in variant.options() {
            assert!(!option.spec.about.is_empty(), "{}: {}", script.name, option.spec.name);
        }
    }
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
