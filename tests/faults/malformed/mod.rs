//! Ten thousand damaged inputs: whatever is fed in, there is a value or a message that helps.
//!
//! No input may panic, hang or be written over. `RULESHIFT_DAMAGED=100` feeds in a hundred times as many.

mod damage;
mod kept;
mod program;
mod readers;

use std::panic::resume_unwind;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use damage::{Draws, damaged};

/// What is fed in of each kind, to what reads it in this process.
const INPUTS: [(&str, u32); 7] = [
    ("plans", 2_500),
    ("doctrines", 2_000),
    ("timing tables", 2_000),
    ("tickets", 1_500),
    ("names", 1_000),
    ("scripts", 700),
    ("scenarios", 300),
];

/// Longer than any input takes on a slow machine that does much else.
const HANGS: Duration = Duration::from_secs(120);

/// How many of `usual` there are to be.
fn times(usual: u32) -> u32 {
    let said = std::env::var("RULESHIFT_DAMAGED").ok().and_then(|times| times.parse::<u32>().ok());
    usual * said.unwrap_or(1)
}

/// What `read` gives, in a thread of its own; a panic or a hang is told with what was read.
fn bounded<T: Send + 'static>(what: &str, read: impl FnOnce() -> T + Send + 'static) -> T {
    let (tell, told) = channel();
    let worker = thread::spawn(move || tell.send(read()));
    match told.recv_timeout(HANGS) {
        Ok(value) => value,
        Err(RecvTimeoutError::Timeout) => panic!("it hangs:\n{what}"),
        Err(RecvTimeoutError::Disconnected) => {
            eprint_input(what);
            resume_unwind(worker.join().expect_err("it has told nothing"))
        }
    }
}

/// Panics tell where, not on what.
#[expect(clippy::print_stderr, reason = "the harness keeps it for who reads a failure")]
fn eprint_input(what: &str) {
    eprintln!("it panics:\n{what}");
}

/// Whether a message names a place or what was expected.
fn helps(message: &str) -> bool {
    let number = |after: &str| {
        message.split(after).skip(1).any(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
    };
    number("line ")
        || number(":")
        || ["expected", "`", "Bring back"].iter().any(|part| message.contains(part))
}

/// Feeds in so many damaged inputs of a kind; some must be refused, and some get through.
fn feed(kind: &str) {
    let &(_, usual) = INPUTS.iter().find(|(name, _)| *name == kind).expect("a kind of the list");
    let seed = kind.bytes().map(u64::from).sum();
    let reader = readers::reader(kind);
    let (mut good, mut refused) = (0, 0);
    for input in 0..times(usual) {
        let mut draws = Draws::new(seed, input);
        let sound = &reader.sound[draws.below(reader.sound.len())];
        let bytes = damaged(sound.as_bytes(), &mut draws);
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let (what, read) = (format!("{kind} {input}:\n{text}"), reader.read);
        match bounded(&what, move || read(&text)) {
            Ok(()) => good += 1,
            Err(message) => {
                assert!(helps(&message), "`{message}` is of no help with {what}");
                refused += 1;
            }
        }
    }
    assert!(good > 0 && refused > good, "{good} {refused}: the damage does not do its work");
}

#[test]
fn there_are_ten_thousand() {
    assert_eq!(INPUTS.iter().map(|(_, inputs)| inputs).sum::<u32>(), 10_000);
}

#[test]
fn plans() {
    feed("plans");
}

#[test]
fn doctrines() {
    feed("doctrines");
}

#[test]
fn timing_tables() {
    feed("timing tables");
}

#[test]
fn tickets() {
    feed("tickets");
}

#[test]
fn names() {
    feed("names");
}

#[test]
fn scripts() {
    feed("scripts");
}

#[test]
fn scenarios() {
    feed("scenarios");
}
