//! Progress on the terminal: games done, games per second, time left.

use indicatif::{ProgressBar, ProgressStyle};
use ruleshift_batch::Progress;

/// A progress bar on standard error, or nothing.
pub(crate) struct Bars(ProgressBar);

impl Bars {
    /// A bar over so many games, hidden when `quiet` or when standard error is no terminal.
    pub(crate) fn new(games: u64, quiet: bool) -> Bars {
        let bar = if quiet { ProgressBar::hidden() } else { ProgressBar::new(games) };
        let style = ProgressStyle::with_template(
            "{bar:30} {human_pos} of {human_len} games  {per_sec:.0} a second  {eta} left",
        );
        bar.set_style(style.expect("the template is fixed and tested").progress_chars("=> "));
        Bars(bar)
    }

    /// Takes the bar off the terminal.
    pub(crate) fn finish(&self) {
        self.0.finish_and_clear();
    }
}

impl Progress for Bars {
    fn played(&self, games: u64) {
        self.0.inc(games);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_can_be_made_and_moved() {
        let bars = Bars::new(10, true);
        bars.played(4);
        assert_eq!(bars.0.position(), 4);
        bars.finish();
    }
}
