//! Instructions, and questions to the tables, counted by valgrind: they repeat where times do not.

use std::process::Command;

use ruleshift_game::{HOOKS, Rules};
use ruleshift_hooks::Stack;

use crate::games::Games;
use crate::row::{Row, verdict};
use crate::setting::{Crew, Setting, card_hook, named, reference, value_hooks};

/// Games of the two runs of a count: what they have in common cancels out. Loading a script takes some
/// millions of instructions more or less from run to run, so the games between are many.
const GAMES: [u32; 2] = [20, 320];

/// What was counted, for each game.
pub(crate) struct Counts {
    base: f64,
    values: f64,
    /// Answers asked of the tables.
    pub(crate) asked: f64,
}

/// Plays games of a kind.
pub(crate) fn play(kind: &str, games: u32) {
    let stack = match kind {
        "base" | "planner" => Stack::default(),
        "values" => value_hooks(),
        "cards" => card_hook(),
        _ => panic!("`{kind}`, expected base, values, cards or planner"),
    };
    let setting = Setting::new(&reference(), stack);
    let mut crew = match kind {
        "planner" => Crew::with(&setting, named("planner:playouts=12", &setting.rules)),
        _ => Crew::new(&setting),
    };
    crew.games(games);
}

/// Counts, where valgrind is installed.
pub(crate) fn measure() -> Option<Counts> {
    Some(Counts { base: instructions("base")?, values: instructions("values")?, asked: asked()? })
}

/// What a tool of valgrind says of the games of a kind, for each game.
fn each(kind: &str, count: impl Fn(&[&str]) -> Option<f64>) -> Option<f64> {
    let [few, many] = GAMES.map(|games| count(&["count", kind, &games.to_string()]));
    Some((many? - few?) / f64::from(GAMES[1] - GAMES[0]))
}

/// What valgrind prints.
fn valgrind(options: &[&str], arguments: &[&str]) -> Option<String> {
    let bench = std::env::current_exe().ok()?;
    let mut command = Command::new("valgrind");
    let told = command.args(options).arg(bench).args(arguments).output().ok()?;
    told.status.success().then(|| String::from_utf8_lossy(&told.stderr).into_owned())
}

fn instructions(kind: &str) -> Option<f64> {
    each(kind, |arguments| {
        let options = ["--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"];
        let told = valgrind(&options, arguments)?;
        let count = told.split("I   refs:").nth(1)?.split_whitespace().next()?;
        count.replace(',', "").parse().ok()
    })
}

/// Answers asked of the base rules: what is read of the block that holds their tables, two bytes for
/// each.
fn asked() -> Option<f64> {
    let answers: usize = HOOKS.iter().map(|hook| hook.cells()).sum();
    debug_assert_eq!(Rules::base(), Rules::default());
    let file = concat!(env!("CARGO_TARGET_TMPDIR"), "/reads.json");
    let out = format!("--dhat-out-file={file}");
    let bytes = each("base", |arguments| {
        valgrind(&["--tool=dhat", &out], arguments)?;
        let text = std::fs::read_to_string(file).ok()?;
        let told: serde_json::Value = serde_json::from_str(&text).ok()?;
        let number = |block: &serde_json::Value, name: &str| block[name].as_u64().unwrap_or(0);
        // Two counters stand before the answers.
        let size = (16 + 2 * answers as u64).next_multiple_of(8);
        let mut blocks = told["pps"].as_array()?.iter();
        let tables = blocks.find(|b| number(b, "tb") == size && number(b, "tbk") == 1)?;
        Some(number(tables, "rb") as f64)
    });
    Some(bytes? / 2.0)
}

/// Instructions of a variant of value hooks against the base rules; time, where they are not counted.
pub(crate) fn value_hooks_row(counts: Option<&Counts>, games: &Games) -> Row {
    let what = "variant of value hooks / base rules, instructions";
    let all = HOOKS.len();
    match counts {
        Some(Counts { base, values, .. }) => Row {
            what,
            goal: "<= 1.02",
            measured: format!("{:.3}", values / base),
            verdict: verdict(values / base <= 1.02),
            how: format!(
                "cachegrind, {} games less {}: {:.3} million instructions a game under the base rules, {:.3} with all {all} value hooks in a script that answers as the base rules do; time {:.3}",
                GAMES[1],
                GAMES[0],
                base / 1e6,
                values / 1e6,
                games.values()
            ),
        },
        None => Row {
            what,
            goal: "<= 1.02",
            measured: format!("{:.3} in time", games.values()),
            verdict: "not measured: needs valgrind".to_owned(),
            how: format!(
                "the same games with all {all} value hooks in a script that answers as the base rules do"
            ),
        },
    }
}
