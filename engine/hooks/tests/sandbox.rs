//! Every door of the sandbox is tried: in a value hook, and in an event hook where that differs.
//!
//! A try must end, and in a diagnostic; how soon is told by the bench. More tries, as data, are in
//! `corpus/hostile`.

use ruleshift_hooks::{Diagnostics, Id, Overrides, Source, Variant};

fn load(script: &str) -> Result<Variant, Diagnostics> {
    let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{script}");
    Variant::load(&Source::new("hostile", text), &Overrides::none())
}

/// The kind of the first fault of a script, which must have one.
#[track_caller]
fn fault(script: &str) -> Id {
    match load(script) {
        Ok(_) => panic!("nothing stopped {script:.200}"),
        Err(faults) => faults.list()[0].id,
    }
}

/// The kind of the fault of statements in a value hook and in an event hook, which must agree.
#[track_caller]
fn both(statements: &str) -> Id {
    let value = fault(&format!("fn marker_actions(now) {{ {statements}; now }}"));
    let event = fault(&format!("fn on_game_start(game) {{ {statements}; }}"));
    assert_eq!(value, event, "{statements}");
    value
}

#[test]
fn loops_and_recursion_end() {
    assert_eq!(both("loop { }"), Id::Budget);
    assert_eq!(both("let n = 1; while n > 0 { n = 1 }"), Id::Budget);
    assert_eq!(both("for n in 0..9223372036854775807 { let m = n; }"), Id::Budget);
    assert_eq!(both("for n in range(0, 9223372036854775807, 1) { let m = n; }"), Id::Budget);
    let deep = "fn f(n) { f(n + 1) }";
    assert_eq!(fault(&format!("fn marker_actions(now) {{ f(0) }} {deep}")), Id::Depth);
    assert_eq!(fault(&format!("fn on_game_start(game) {{ f(0) }} {deep}")), Id::Depth);
}

#[test]
fn nothing_grows_without_end() {
    assert_eq!(both("let list = []; loop { list.push(1) }"), Id::Size);
    assert_eq!(both("let list = []; loop { list += 1 }"), Id::Size);
    assert_eq!(both("let list = [1]; loop { list += list }"), Id::Size);
    assert_eq!(both("let list = [1]; loop { list = [list, list] }"), Id::Size);
    assert_eq!(both("let text = \"x\"; loop { text += text }"), Id::Size);
    assert_eq!(both("let text = \"x\"; loop { text = `${text}${text}` }"), Id::Size);
    assert_eq!(both("let map = #{ a: 1 }; loop { map = #{ a: map, b: map } }"), Id::Size);
    assert_eq!(both("let list = [1, 1]; loop { list[0] = list; list[1] = list }"), Id::Size);
    assert_eq!(both("let map = #{ a: 1, b: 1 }; loop { map.a = map; map.b = map }"), Id::Size);
    assert_eq!(both("let list = []; list.pad(1000000, 0)"), Id::UnknownFunction);
    assert_eq!(both("blob(1000000)"), Id::UnknownFunction);
}

#[test]
fn large_literals_are_refused() {
    let list = format!("let list = [{}]", "1,".repeat(5_000));
    assert_eq!(both(&list), Id::Size);
    assert_eq!(both(&format!("let text = \"{}\"", "x".repeat(5_000))), Id::Size);
    let map: String = (0..200).map(|n| format!("k{n}: 1, ")).collect();
    assert_eq!(both(&format!("let map = #{{ {map} }}")), Id::Size);
    assert_eq!(fault(&"/".repeat(70_000)), Id::TooLong);
    let functions: String = (0..300).map(|n| format!("private fn f{n}() {{ 1 }}\n")).collect();
    assert_eq!(fault(&functions), Id::TooLong);
}

#[test]
fn deep_nesting_is_refused() {
    let nested = |open: &str, close: &str| {
        both(&format!("let x = {}1{}", open.repeat(1_500), close.repeat(1_500)))
    };
    assert_eq!(nested("(", ")"), Id::Depth);
    assert_eq!(nested("[", "]"), Id::Depth);
    assert_eq!(nested("- ", ""), Id::Depth);
    assert_eq!(nested("!", ""), Id::Depth);
    assert_eq!(nested("#{a:", "}"), Id::Depth);
    assert_eq!(nested("{", "}"), Id::Depth);
    assert_eq!(nested("if true {", "}"), Id::Depth);
    assert_eq!(nested("`${", "}`"), Id::Depth);
    assert_eq!(nested("abs(", ")"), Id::Depth);
}

#[test]
fn a_limit_cannot_be_caught() {
    assert_eq!(both("try { loop { } } catch { }"), Id::Budget);
    assert_eq!(both("loop { try { loop { } } catch { } }"), Id::Budget);
    assert_eq!(both("try { let text = \"x\"; loop { text += text } } catch { }"), Id::Size);
    let deep = "fn f(n) { try { f(n + 1) } catch { f(n) } }";
    assert_eq!(fault(&format!("fn marker_actions(now) {{ f(0) }} {deep}")), Id::Depth);
}

#[test]
fn the_words_that_lead_out_are_refused() {
    assert_eq!(both("import \"other\" as o"), Id::Forbidden);
    for word in ["eval(\"1\")", "print(1)", "debug(1)", "type_of(1)", "Fn(\"abs\")"] {
        assert_eq!(both(word), Id::Forbidden, "{word}");
    }
    assert_eq!(both("let f = |x| x"), Id::Syntax);
    assert_eq!(both("abs.call(1)"), Id::Forbidden);
    for call in
        ["exit(1)", "sleep(1)", "timestamp()", "rand()", "open(\"x\")", "get_fn_metadata_list()"]
    {
        assert_eq!(both(call), Id::UnknownFunction, "{call}");
    }
    assert_eq!(both("let x = 1.5"), Id::Syntax);
    assert_eq!(both("global::x"), Id::Syntax);
    assert_eq!(both("let t = this"), Id::Forbidden);
}

#[test]
fn arithmetic_is_checked() {
    assert_eq!(both("let x = 9223372036854775807; x + 1"), Id::Arithmetic);
    assert_eq!(both("let x = 0; 1 / x"), Id::Arithmetic);
    assert_eq!(both("let x = 0; 1 % x"), Id::Arithmetic);
    assert_eq!(both("let x = 10; x ** 100"), Id::Arithmetic);
    assert_eq!(both("let x = -9223372036854775807; abs(x - 1)"), Id::Arithmetic);
    assert_eq!(both("clamp(1, 3, 2)"), Id::Arithmetic);
    assert_eq!(both("range(1, 3, 0)"), Id::Arithmetic);
}

#[test]
fn host_functions_cannot_be_replaced() {
    for script in
        ["fn max(a, b) { 1 }", "fn roll(game) { 6 }", "fn abs(x) { 1 }", "fn pins(game, u) { 0 }"]
    {
        assert_eq!(fault(script), Id::ReservedName, "{script}");
    }
}

/// An answer of a value hook follows from its arguments: there are no dice and no game to ask.
#[test]
fn value_hooks_are_pure() {
    for call in ["game.roll()", "roll()", "game.turn", "game"] {
        fault(&format!("fn marker_actions(now) {{ {call}; now }}"));
    }
    let through_a_list = "fn marker_actions(now) { let list = [1]; list.roll() }";
    assert_eq!(fault(through_a_list), Id::WrongType);
    let from_a_helper = "fn marker_actions(now) { dice(now) } fn dice(game) { game.roll() }";
    assert_eq!(fault(from_a_helper), Id::WrongType);
}

/// Nothing is left behind by one call for the next.
#[test]
fn nothing_is_remembered_between_calls() {
    assert_eq!(fault("fn marker_actions(now) { global.count += 1; now }"), Id::UnknownName);
    assert_eq!(fault("let count = 0; fn marker_actions(now) { now }"), Id::TopLevel);
    assert_eq!(fault("fn marker_actions(now) { count = 1; now }"), Id::UnknownName);
}

/// The most work that one operation can be made to do, as often as one call may.
#[test]
fn the_dearest_calls_end_in_time() {
    let list = format!("let a = [{}]; let b = a; ", "7,".repeat(120));
    let text = format!("let t = \"{}\"; ", "x".repeat(500));
    for body in [
        format!("{list} loop {{ b = a; }}"),
        format!("{list} loop {{ 8 in a; }}"),
        format!("{list} loop {{ `${{a}}`; }}"),
        "let m = #{}; let k = 100; loop { m[`${k}`] = 1; k += 1; }".to_owned(),
        "let m = #{}; let b = m; let k = 100; loop { m[`${k}`] = 1; k += 1; if k > 350 { loop { b = m; } } }".to_owned(),
        format!("{text} loop {{ t + t; }}"),
        format!("{text} loop {{ len(t); }}"),
        format!("{text} loop {{ t == t + \"\"; }}"),
    ] {
        let text = format!(
            "fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }} fn marker_actions(now) {{ {body} }}"
        );
        assert!(Variant::load(&Source::new("dear", text), &Overrides::none()).is_err());
    }
}

/// A hook that stays just within its allowance in each of its calls.
#[test]
fn a_whole_load_is_bounded() {
    let slow = "{ for n in 0..1000 { let m = n; } now }";
    let script = format!(
        "fn fire_dice(now, kind, men, pins) {slow} fn unit_actions(now, kind, quality, strength, pins) {slow}"
    );
    assert_eq!(fault(&script), Id::Budget);
}
