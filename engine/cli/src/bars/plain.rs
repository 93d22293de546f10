//! Progress where there is no terminal: a line now and then, without codes. The clock touches nothing
//! else.
#![allow(clippy::disallowed_types, reason = "how fast a run goes is told, and reaches no result")]

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use indicatif::HumanCount;

use crate::screen;

/// Until the first line: a short run says nothing.
const FIRST: Duration = Duration::from_secs(10);
/// From one line to the next.
const NEXT: Duration = Duration::from_secs(30);

/// Games done so far.
#[derive(Default)]
struct Count {
    played: AtomicU64,
    found: AtomicU64,
}

/// Lines from a thread of their own, so that they come even while one long game is played.
pub(super) struct Plain {
    count: Arc<Count>,
    /// Dropped when there is no more to say.
    going: Mutex<Option<Sender<()>>>,
}

impl Plain {
    pub(super) fn start(games: u64) -> Plain {
        let count = Arc::new(Count::default());
        let (going, over) = channel();
        let seen = Arc::clone(&count);
        let begun = Instant::now();
        let tell = move || {
            let mut wait = FIRST;
            while over.recv_timeout(wait) == Err(RecvTimeoutError::Timeout) {
                let played = seen.played.load(Ordering::Relaxed);
                let found = seen.found.load(Ordering::Relaxed);
                screen::remark(&line(played, found, games, begun.elapsed()));
                wait = NEXT;
            }
        };
        // Where no thread can be started, the run goes on and says nothing.
        let _ = thread::Builder::new().name("progress".to_owned()).spawn(tell);
        Plain { count, going: Mutex::new(Some(going)) }
    }

    pub(super) fn played(&self, games: u64) {
        self.count.played.fetch_add(games, Ordering::Relaxed);
    }

    pub(super) fn found(&self, games: u64) {
        self.count.found.fetch_add(games, Ordering::Relaxed);
    }

    pub(super) fn finish(&self) {
        self.going.lock().unwrap_or_else(PoisonError::into_inner).take();
    }
}

/// "12,000 of 40,000 games (30 %), 2,300 games a second, about 12 s left": `played` of the games in
/// so much time, besides those that were `found` done.
fn line(played: u64, found: u64, games: u64, time: Duration) -> String {
    let done = (played + found).min(games);
    let percent = (100 * done).checked_div(games).unwrap_or(100);
    let told = format!("{} of {} games ({percent} %)", HumanCount(done), HumanCount(games));
    let seconds = time.as_secs_f64();
    if played == 0 || seconds <= 0.0 {
        return told;
    }
    let rate = played as f64 / seconds;
    let left = about(((games - done) as f64 / rate).ceil() as u64);
    let rate = match rate {
        10.0.. => format!("{} games a second", HumanCount(rate as u64)),
        0.1.. => format!("{rate:.1} games a second"),
        _ => format!("{:.1} games a minute", rate * 60.0),
    };
    format!("{told}, {rate}, about {left} left")
}

/// A time in the unit that suits it.
fn about(seconds: u64) -> String {
    match seconds {
        0..90 => format!("{seconds} s"),
        90..5400 => format!("{} min", seconds.div_ceil(60)),
        _ => format!("{} h {} min", seconds / 3600, seconds % 3600 / 60),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(played: u64, found: u64, games: u64, seconds: u64) -> String {
        line(played, found, games, Duration::from_secs(seconds))
    }

    #[test]
    fn a_line_tells_how_far_how_fast_and_how_long() {
        assert_eq!(
            after(12_000, 0, 40_000, 5),
            "12,000 of 40,000 games (30 %), 2,400 games a second, about 12 s left"
        );
        assert_eq!(
            after(15, 0, 60, 10),
            "15 of 60 games (25 %), 1.5 games a second, about 30 s left"
        );
        assert_eq!(
            after(1, 0, 100, 60),
            "1 of 100 games (1 %), 1.0 games a minute, about 1 h 39 min left"
        );
        assert_eq!(after(0, 0, 100, 10), "0 of 100 games (0 %)");
        assert_eq!(
            after(1_000, 0, 60_000, 10),
            "1,000 of 60,000 games (1 %), 100 games a second, about 10 min left"
        );
    }

    /// What was found done is done, but its time was another run's.
    #[test]
    fn games_found_done_count_as_done_but_not_as_fast() {
        assert_eq!(
            after(100, 800, 1_000, 10),
            "900 of 1,000 games (90 %), 10 games a second, about 10 s left"
        );
    }
}
