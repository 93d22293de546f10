//! The goals of speed, each with what is measured beside it.
//!
//! `cargo bench` prints the table. `cargo bench -- scenarios` and `cargo bench -- players` print games
//! per second of every scenario and of every player. `count KIND GAMES` plays games and says nothing: it
//! is run under valgrind, by this bench and by `.ci/instructions`.
//!
//! What is compared is timed in turn, round after round, on the same seeds; ratios are medians over
//! the rounds of the ratio within each, so that a busy machine slows both alike; a time by itself is that
//! of the best round, least disturbed by whatever else the machine does.
#![allow(clippy::disallowed_types, clippy::print_stdout, reason = "a bench measures and prints")]

mod cores;
mod counted;
mod games;
mod live;
mod memory;
mod playouts;
mod rounds;
mod row;
mod scripts;
mod setting;
mod size;
mod views;

fn main() {
    // Cargo adds `--bench`.
    let arguments: Vec<String> = std::env::args().skip(1).filter(|a| a != "--bench").collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match arguments[..] {
        [] => goals(),
        ["scenarios"] => views::scenarios(),
        ["players"] => views::players(),
        ["count", kind, games] => counted::play(kind, games.parse().expect("a number of games")),
        _ => panic!("expected nothing, `scenarios`, `players` or `count KIND GAMES`"),
    }
}

/// Every goal in its order.
fn goals() {
    let games = games::measure();
    let counts = counted::measure();
    let rows = [
        games.rate(),
        counted::value_hooks_row(counts.as_ref(), &games),
        games.event_hook(),
        live::row(counts.as_ref(), &games),
        games.log_and_digest(),
        games::heap(),
        cores::row(),
        size::row(),
        playouts::row(),
        scripts::load(),
        scripts::hostile(),
        memory::row(),
    ];
    row::print(&rows);
}
