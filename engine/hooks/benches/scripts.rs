//! How long scripts take: to load, to fold into tables, and for each call of an event hook.
//!
//! `cargo bench -p ruleshift-hooks` prints the best of several rounds, which is the value least
//! disturbed by whatever else the machine does.
#![allow(clippy::disallowed_types, reason = "a bench measures time")]

use std::hint::black_box;
use std::time::{Duration, Instant};

use ruleshift_game::{EventScript, HOOKS, Handle, Happening, Side, trial_handle};
use ruleshift_hooks::{Overrides, Source, Stack, Variant, reference, template};

const ROUNDS: usize = 15;

fn best(mut work: impl FnMut()) -> Duration {
    let round = || {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    std::iter::repeat_with(round).take(ROUNDS).min().unwrap_or_default()
}

#[expect(clippy::print_stdout, reason = "a benchmark prints")]
fn show(what: &str, time: Duration, parts: u32) {
    println!("{what:48} {:>12.1?}   {:>9.1?} each of {parts}", time, time / parts);
}

fn load(name: &str, text: &str) -> Variant {
    Variant::load(&Source::new(name, text), &Overrides::none()).unwrap_or_else(|e| panic!("{e}"))
}

/// Every example of the reference in one script: every hook does a little work.
fn every_hook() -> String {
    let reference = reference();
    let examples = reference.split("```rhai\n").skip(1).filter_map(|part| part.split("```").next());
    let about = "fn about() { #{ title: \"All\", summary: \"Every hook.\", cards: #{ runner: #{ title: \"R\" } }, counters: #{ alarms: \"a\" } } }\n".to_owned();
    std::iter::once(about).chain(examples.map(str::to_owned)).collect()
}

fn script(body: &str) -> Box<dyn EventScript> {
    let text = format!("fn about() {{ #{{ title: \"E\", summary: \"E.\" }} }}\n{body}");
    Stack::new(vec![load("event", &text)]).script().expect("it has an event hook")
}

fn calls(what: &str, body: &str) {
    const CALLS: u32 = 20_000;
    let mut script = script(body);
    let happening = Happening::CardDrawn { card: 2, owner: Some(Side::Defender) };
    let mut handle: Handle = trial_handle(happening, 0);
    let time = best(|| {
        for _ in 0..CALLS {
            script.begin();
            let _ = black_box(script.call(happening, &mut handle));
        }
    });
    show(what, time, CALLS);
}

fn main() {
    let cells: usize = HOOKS.iter().map(|hook| hook.cells()).sum();
    let load_time = |text: &str| best(|| drop(black_box(load("bench", text))));
    show("load the template, all hooks: per answer", load_time(&template()), cells as u32);
    show(
        "load a script that changes all hooks: per answer",
        load_time(&every_hook()),
        cells as u32,
    );
    let one = "fn about() { #{ title: \"One\", summary: \"One.\" } }\nfn marker_actions(now) { 3 }";
    show("load a script with one hook", load_time(one), 1);
    let stack = Stack::new(vec![load("a", &every_hook()), load("b", &template())]);
    show("fold a second script with all hooks", best(|| drop(stack.rules())), cells as u32);
    show(
        "event scripts for one worker",
        best(|| drop(script("fn on_game_start(game) { game.roll(); }"))),
        1,
    );
    calls("event call, answers at once", "fn on_card_drawn(game, card, owner) { 0 }");
    calls(
        "event call, one test",
        "fn on_card_drawn(game, card, owner) { if card == LEADER_CARD { game.grant_action(0); } }",
    );
    calls(
        "event call, looks at every unit",
        "fn on_card_drawn(game, card, owner) { for u in 0..game.units { if game.on_table(u) && game.side(u) == owner && game.pins(u) > 20 { game.remove_pins(u, 1); } } }",
    );
}
