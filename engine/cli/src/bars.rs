//! Progress on standard error: games done, games per second, time left; and stopping early. On a
//! terminal a bar; in a pipe or a log a plain line now and then.

mod plain;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use indicatif::{HumanCount, ProgressBar, ProgressState, ProgressStyle};
use ruleshift_batch::Progress;
use ruleshift_record::{Log, Plan};

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
        let stop = Arc::new(AtomicBool::new(false));
        let asked = Arc::clone(&stop);
        // Where the signal cannot be caught, it ends the program as it always does.
        let _ = ctrlc::set_handler(move || asked.store(true, Ordering::Relaxed));
        Bars { bar, plain, stop }
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
        let of_arm = |block: &ruleshift_record::Block, arm| {
            let end = plan.games_of(arm, block.scenario);
            block.games().take_while(|game| *game < end).count() as u64
        };
        let arms = 0..plan.arms.len();
        let games = kept.map(|block| arms.clone().map(|arm| of_arm(&block, arm)).sum::<u64>());
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
