//! Progress on standard error: games done, games per second, time left; and stopping early. On a
//! terminal a bar; in a pipe or a log a plain line now and then.

mod plain;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use indicatif::{HumanCount, ProgressBar, ProgressState, ProgressStyle};
use ruleshift_batch::Progress;
use ruleshift_record::{Log, Plan};
use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::flag;

use crate::screen;
use plain::Plain;

/// Progress over some games, or nothing.
pub(crate) struct Bars {
    bar: ProgressBar,
    plain: Option<Plain>,
    stop: Arc<AtomicBool>,
}

impl Bars {
    /// Progress over so many games; none when `quiet`.
    pub(crate) fn new(games: u64, quiet: bool) -> Bars {
        let bar = if quiet { ProgressBar::hidden() } else { ProgressBar::new(games) };
        let style = ProgressStyle::with_template(
            "{bar:20} {human_pos} of {human_len} games  {rate} games a second  {eta} left",
        );
        bar.set_style(
            style
                .expect("the template is fixed and tested")
                .progress_chars("=> ")
                .with_key("rate", rate),
        );
        let plain = (!quiet && !screen::complaints_seen()).then(|| Plain::start(games));
        Bars { bar, plain, stop: asked_to_stop() }
    }

    /// Is set when the process is asked to stop.
    pub(crate) fn stop(&self) -> Arc<AtomicBool> {
        Arc::clone(&self.stop)
    }

    /// Counts games that are found done, which say nothing of how fast others are.
    pub(crate) fn found(&self, games: u64) {
        self.bar.inc(games);
        self.bar.reset_eta();
        if let Some(plain) = &self.plain {
            plain.found(games);
        }
    }

    /// Counts the games of a run that are kept already.
    pub(crate) fn found_in(&self, plan: &Plan, log: &Log) {
        let kept = plan.blocks(plan.rounds()).into_iter().take(log.kept());
        let games = kept.map(|block| plan.games_in(&block));
        self.found(games.sum());
    }

    /// Takes the bar off the terminal; nothing more is said.
    pub(crate) fn finish(&self) {
        self.bar.finish_and_clear();
        if let Some(plain) = &self.plain {
            plain.finish();
        }
    }
}

/// A flag that is set by Ctrl-C, and by the signal with which schedulers ask a process to end. A second
/// Ctrl-C ends the program at once: what is kept is whole at any time.
fn asked_to_stop() -> Arc<AtomicBool> {
    let stop = Arc::new(AtomicBool::new(false));
    // Where a signal cannot be caught, it ends the program as it always does.
    let _ = flag::register_conditional_shutdown(SIGINT, 128 + SIGINT, Arc::clone(&stop));
    let _ = flag::register(SIGINT, Arc::clone(&stop));
    let _ = flag::register(SIGTERM, Arc::clone(&stop));
    stop
}

fn rate(state: &ProgressState, to: &mut dyn std::fmt::Write) {
    // Nothing is lost if a bar cannot be drawn.
    let _ = write!(to, "{}", HumanCount(state.per_sec() as u64));
}

impl Progress for Bars {
    fn played(&self, games: u64) {
        self.bar.inc(games);
        if let Some(plain) = &self.plain {
            plain.played(games);
        }
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
        bars.found(3);
        bars.played(4);
        assert_eq!(bars.bar.position(), 7);
        bars.finish();
    }
}
