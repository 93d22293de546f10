//! The terminal: the only place that prints.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "this module is the printer")]

use std::io::{IsTerminal, Write};

use crate::account::page::fold_to;

/// Widest text, for a reader's sake.
const WIDEST: usize = 100;

/// Columns of text where there is no terminal to ask, and of what has one width everywhere.
pub(crate) const NARROW: usize = 80;

/// Prints an answer on standard output. A reader who stops reading is no fault.
pub(crate) fn show(text: &str) {
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Prints a remark on standard error, folded to the terminal; pictures of scripts keep their lines.
pub(crate) fn remark(text: &str) {
    let lines: Vec<&str> = text.lines().collect();
    let place =
        |line: Option<&&str>| line.is_some_and(|line| line.trim_start().starts_with("--> "));
    let told = (0..lines.len()).map(|n| {
        let picture = place(lines.get(n))
            || place(lines.get(n + 1))
            || lines[n].contains(" |")
            || lines[n].trim_start().starts_with("= ");
        if picture { lines[n].to_owned() } else { fold_to(lines[n], width()) }
    });
    let told = told.collect::<Vec<_>>().join("\n");
    let _ = writeln!(std::io::stderr().lock(), "{told}");
}

/// Prints why the program stops.
pub(crate) fn complain(message: &str) {
    let start =
        if message.starts_with("error") || message.starts_with("\u{1b}") { "" } else { "error: " };
    remark(&format!("{start}{message}"));
}

/// Whether answers go to a terminal that takes colour.
pub(crate) fn colour() -> bool {
    std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}

/// Whether remarks and complaints go to a terminal.
pub(crate) fn complaints_seen() -> bool {
    std::io::stderr().is_terminal()
}

/// Whether complaints go to a terminal that takes colour.
pub(crate) fn complaint_colour() -> bool {
    complaints_seen() && std::env::var_os("NO_COLOR").is_none()
}

/// Columns of the terminal, at most the widest; the usual eighty when there is none.
pub(crate) fn width() -> usize {
    terminal_size::terminal_size().map_or(NARROW, |(columns, _)| usize::from(columns.0).min(WIDEST))
}

/// A panic within a game is caught and told as a fault of that game; the default message would
/// only be noise in the middle of the bars.
pub(crate) fn keep_panics_quiet() {
    let default = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        if std::thread::current().name().is_some() {
            default(panic);
        }
    }));
}
