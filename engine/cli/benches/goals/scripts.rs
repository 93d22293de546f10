//! Loading scripts, and stopping bad ones.

use std::hint::black_box;

use ruleshift_game::HOOKS;
use ruleshift_hooks::{Overrides, Source, Variant};

use crate::live::{body, every_hook, source};
use crate::rounds::{Rounds, nanos};
use crate::row::{Row, thousands, verdict};

const ROUNDS: usize = 15;
/// Value hooks of the variant that the goal is about.
const HOOKS_LOADED: usize = 60;

/// Milliseconds that loading takes, tables filled.
fn milliseconds(source: &Source) -> f64 {
    nanos(|| drop(black_box(Variant::load(source, &Overrides::none())))) / 1e6
}

pub(crate) fn load() -> Row {
    // Those with the most answers to give.
    let mut hooks: Vec<_> = HOOKS.iter().collect();
    hooks.sort_by_key(|hook| std::cmp::Reverse(hook.cells()));
    hooks.truncate(HOOKS_LOADED);
    let answers: usize = hooks.iter().map(|hook| hook.cells()).sum();
    let sixty = source(&hooks.into_iter().map(body).collect::<Vec<String>>());
    let all = every_hook();
    let rounds =
        Rounds::of(ROUNDS, &mut [&mut || milliseconds(&sixty), &mut || milliseconds(&all)]);
    let best = rounds.least(0);
    Row {
        what: "load of a variant with 60 hooks, tables filled",
        goal: "<= 20 ms",
        measured: format!("{best:.1} ms"),
        verdict: verdict(best <= 20.0),
        how: format!(
            "the best of {ROUNDS}; the {HOOKS_LOADED} hooks with the most answers, {} of them; all {} hooks {:.1} ms",
            thousands(answers as f64),
            HOOKS.len(),
            rounds.least(1)
        ),
    }
}

/// What a script may do in a call of any hook to take as long as it can.
const HOSTILE: [&str; 10] = [
    "loop { }",
    "try { loop { } } catch { }",
    "let list = []; loop { list.push(1); }",
    "let list = [1]; loop { list = [list, list]; }",
    "let text = \"x\"; loop { text += text; }",
    "let list = []; for n in 0..128 { list.push(n); } loop { list.contains(-1); }",
    "let list = []; for n in 0..128 { list.push(n); } loop { let copy = list; }",
    "let list = []; for n in 0..128 { list.push(n); } let copy = list; loop { copy == list; }",
    "let text = \"x\"; for n in 0..10 { text += text; } loop { let copy = text + \"\"; }",
    "again(1)",
];

/// And in a call of an event hook.
const HOSTILE_EVENTS: [&str; 3] = [
    "loop { game.roll(); }",
    "loop { game.note(\"again\"); }",
    "loop { for unit in 0..game.units { game.pins(unit); } }",
];

/// A script whose only hook does that, beside a function that calls itself.
fn bad(hook: &str, body: &str) -> Source {
    source(&[format!("fn {hook} {{ {body} }}\nfn again(n) {{ again(n + 1) }}\n")])
}

pub(crate) fn hostile() -> Row {
    let value = HOSTILE.map(|body| ("marker_actions(now)", body));
    let event = HOSTILE.into_iter().chain(HOSTILE_EVENTS);
    let event = event.map(|body| ("on_card_drawn(game, card, owner)", body));
    let (mut all, mut untold, mut worst) = (0, Vec::new(), (0.0, ""));
    for (hook, body) in value.into_iter().chain(event) {
        let script = bad(hook, body);
        let time = Rounds::of(5, &mut [&mut || milliseconds(&script)]).least(0);
        all += 1;
        // What the made-up game of a load may have brought about is told as a warning.
        let loaded = Variant::load(&script, &Overrides::none());
        if loaded.is_ok_and(|variant| variant.warnings().list().is_empty()) {
            untold.push(body);
        }
        worst = if time > worst.0 { (time, body) } else { worst };
    }
    Row {
        what: "a hostile hook call",
        goal: "ends within 50 ms, always a diagnostic",
        measured: format!("{:.1} ms at worst; {} of {all} told", worst.0, all - untold.len()),
        verdict: verdict(worst.0 <= 50.0 && untold.is_empty()),
        how: format!(
            "{all} scripts, each loaded to its diagnostic, so that the call itself takes less; the worst is `{}`{}",
            worst.1,
            untold.iter().map(|body| format!("; not told: `{body}`")).collect::<String>()
        ),
    }
}
