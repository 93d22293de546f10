//! Tables against scripts that are asked for every answer.
//!
//! The engine asks tables only, so nothing can be played with every call live. The figure is made of
//! what a game asks of the tables, and what one answer of a script takes.

use std::hint::black_box;

use ruleshift_game::{Domain, HOOKS, HookSpec};
use ruleshift_hooks::{Overrides, Source, Variant};

use crate::counted::Counts;
use crate::games::Games;
use crate::rounds::{Rounds, nanos};
use crate::row::{Row, thousands, verdict};

const ROUNDS: usize = 15;
/// Least times that tables are faster.
const GOAL: f64 = 15.0;

pub(crate) fn row(counts: Option<&Counts>, games: &Games) -> Row {
    let (what, goal) = ("tables / every call live", ">= 15 times");
    let call = call();
    let Some(asked) = counts.map(|counts| counts.asked) else {
        return Row {
            what,
            goal,
            measured: format!("one live call {call:.0} ns"),
            verdict: "not measured: needs valgrind".to_owned(),
            how: "what a game asks of the tables is counted by valgrind".to_owned(),
        };
    };
    let live = games.base() + asked * call;
    let times = live / games.base();
    Row {
        what,
        goal,
        measured: format!("{times:.0} times"),
        verdict: verdict(times >= GOAL),
        how: format!(
            "composed, since nothing can be played live: a game asks the tables {} times (reads of their block, dhat); one answer of a script takes {call:.0} ns (a script that answers all hooks, loaded, less one with one hook, over the answers), so that a game would take {:.2} ms more than its {:.0} us",
            thousands(asked),
            asked * call / 1e6,
            games.base() / 1e3
        ),
    }
}

/// Nanoseconds of one answer of a script, checked as all answers are.
fn call() -> f64 {
    let answers: usize = HOOKS.iter().map(|hook| hook.cells()).sum();
    let (all, one) = (every_hook(), source(&[body(&HOOKS[0])]));
    let load =
        |source: &Source| nanos(|| drop(black_box(Variant::load(source, &Overrides::none()))));
    let rounds = Rounds::of(ROUNDS, &mut [&mut || load(&all), &mut || load(&one)]);
    (rounds.least(0) - rounds.least(1)) / answers as f64
}

/// A script in which every value hook does a little work.
pub(crate) fn every_hook() -> Source {
    source(&HOOKS.iter().map(body).collect::<Vec<String>>())
}

/// A hook that looks at what it is given and answers as the base rules do.
pub(crate) fn body(hook: &HookSpec) -> String {
    let test = if hook.result == Domain::Flag { "now" } else { "now > 1" };
    format!("fn {} {{ if {test} {{ now }} else {{ now }} }}\n", hook.signature())
}

/// A script of these hooks.
pub(crate) fn source(hooks: &[String]) -> Source {
    let about = "fn about() { #{ title: \"A bench\", summary: \"For a bench.\" } }\n";
    Source::new("bench", format!("{about}{}", hooks.concat()))
}
