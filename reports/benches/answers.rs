//! How long the answer of a comparison takes, and its page: 100,000 games in each of two arms.
//!
//! The games are made up and harder than real ones: many of their values differ from game to game.
#![allow(clippy::disallowed_types, clippy::print_stdout, reason = "a bench measures and prints")]

#[allow(dead_code, reason = "tests use the rest of it")]
#[path = "../tests/made.rs"]
mod made;

use std::time::Instant;

use made::{BASE, CARDS};
use ruleshift_reports::{build, html, summarise};

fn main() {
    for games in [10_000, 100_000] {
        let run = made::run(&[BASE, CARDS], games);
        let start = Instant::now();
        let summary = summarise(&run);
        let summarised = start.elapsed();
        let page = html(&build(&summary, &run));
        let whole = start.elapsed();
        println!(
            "{games} games in each arm: the answer in {summarised:.1?}, with its page of {} kB in \
             {whole:.1?}",
            page.len() / 1000
        );
    }
}
