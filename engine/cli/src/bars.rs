//! Progress on the terminal: games done, games per second, time left; and stopping early.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use indicatif::{HumanCount, ProgressBar, ProgressState, ProgressStyle};
use ruleshift_batch::Progress;

/// A progress bar on standard error, or nothing.
pub(crate) struct Bars {
    bar: ProgressBar,
    stop: Arc<AtomicBool>,
}

impl Bars {
    /// A bar over so many games, hidden when `quiet` or when standard error is no terminal.
    pub(crate) fn new(games: u64, quiet: bool) -> Bars {
        let bar = if quiet { ProgressBar::hidden() } else { ProgressBar::new(games) };
        let style = ProgressStyle::with_template(
            "{bar:30} {human_pos} of {human_len} games  {rate} games a second  {eta} left",
        );
        bar.set_style(
            style
                .expect("the template is fixed and tested")
                .progress_chars("=> ")
                .with_key("rate", rate),
        );
        let stop = Arc::new(AtomicBool::new(false));
        let asked = Arc::clone(&stop);
        // Where the signal cannot be caught, it ends the program as it always does.
        let _ = ctrlc::set_handler(move || asked.store(true, Ordering::Relaxed));
        Bars { bar, stop }
    }

    /// Takes the bar off the terminal.
    pub(crate) fn finish(&self) {
        self.bar.finish_and_clear();
    }
}

fn rate(state: &ProgressState, to: &mut dyn std::fmt::Write) {
    // Nothing is lost if a bar cannot be drawn.
    let _ = write!(to, "{}", HumanCount(state.per_sec() as u64));
}

impl Progress for Bars {
    fn played(&self, games: u64) {
        self.bar.inc(games);
    }

    fn stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_can_be_made_and_moved() {
        let bars = Bars::new(10, true);
        bars.played(4);
        assert_eq!(bars.bar.position(), 4);
        bars.finish();
    }
}
