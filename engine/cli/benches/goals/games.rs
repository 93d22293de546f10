//! Games of the reference: how many in a second, what event hooks, the log and the digest cost, and
//! what is allocated.

use std::hint::black_box;

use ruleshift_game::{Digest, Event};
use ruleshift_hooks::Stack;

use crate::rounds::{Rounds, nanos};
use crate::row::{Row, thousands, verdict};
use crate::setting::{Crew, Log, Setting, card_hook, reference, value_hooks};

const ROUNDS: usize = 21;
const GAMES: u32 = 200;

// The works of a round.
const BASE: usize = 0;
const VALUES: usize = 1;
const CARDS: usize = 2;
const UNWATCHED: usize = 3;
const LOGGED: usize = 4;
const DIGEST: usize = 5;

/// Nanoseconds of a game, by work.
pub(crate) struct Games(Rounds);

/// Times all that is compared with the reference game.
pub(crate) fn measure() -> Games {
    let arena = reference();
    let settings = [Stack::default(), value_hooks(), card_hook()];
    let settings = settings.map(|stack| Setting::new(&arena, stack));
    let [mut base, mut values, mut cards] = settings.each_ref().map(Crew::new);
    let (mut unwatched, mut logged) = (Crew::new(&settings[0]), Crew::new(&settings[0]));
    let events = events(&settings[0]);
    let each = |time: f64| time / f64::from(GAMES);
    let mut log = Log::default();
    Games(Rounds::of(
        ROUNDS,
        &mut [
            &mut || base.time(GAMES),
            &mut || values.time(GAMES),
            &mut || cards.time(GAMES),
            &mut || each(nanos(|| (0..GAMES).for_each(|n| unwatched.game(n, &mut ())))),
            &mut || {
                each(nanos(|| {
                    for n in 0..GAMES {
                        log.0.clear();
                        logged.game(n, &mut log);
                    }
                }))
            },
            &mut || each(nanos(|| events.iter().for_each(|game| digest(game)))),
        ],
    ))
}

/// The events of the first games.
fn events(setting: &Setting) -> Vec<Vec<Event>> {
    let mut crew = Crew::new(setting);
    let mut game = |number| {
        let mut log = Log::default();
        crew.game(number, &mut log);
        log.0
    };
    (0..GAMES).map(&mut game).collect()
}

fn digest(game: &[Event]) {
    let mut digest = Digest::new();
    game.iter().for_each(|event| event.digest(&mut digest));
    black_box(digest.value());
}

impl Games {
    /// Nanoseconds of a game under the base rules.
    pub(crate) fn base(&self) -> f64 {
        self.0.least(BASE)
    }

    /// Time of a variant of value hooks against the base rules.
    pub(crate) fn values(&self) -> f64 {
        self.0.ratio(VALUES, BASE)
    }

    pub(crate) fn rate(&self) -> Row {
        let (best, usual) = (1e9 / self.base(), 1e9 / self.0.median(BASE));
        let verdict = match best {
            8_000.0.. => "met",
            4_000.0.. => "not met; the floor of 4,000 is",
            _ => "not met, nor the floor of 4,000",
        };
        Row {
            what: "games per second on one core",
            goal: "8,000",
            measured: thousands(best),
            verdict: verdict.to_owned(),
            how: format!(
                "whole games with their metrics, as a run plays them: the best of {ROUNDS} rounds of {GAMES}; the median is {}",
                thousands(usual)
            ),
        }
    }

    pub(crate) fn event_hook(&self) -> Row {
        let ratio = self.0.ratio(CARDS, BASE);
        Row {
            what: "event hook on every card / none, time",
            goal: "<= 1.3",
            measured: format!("{ratio:.2}"),
            verdict: verdict(ratio <= 1.3),
            how: "a script that looks at each card drawn, and the turn; the same games".to_owned(),
        }
    }

    /// The digest cannot be switched off: what it takes is taken off.
    pub(crate) fn log_and_digest(&self) -> Row {
        let ratio = self.0.each(|round| round[LOGGED] / (round[UNWATCHED] - round[DIGEST]));
        let metrics = self.0.ratio(BASE, UNWATCHED);
        let digest = self.0.least(DIGEST) / 1e3;
        Row {
            what: "event log and digest on / off, time",
            goal: "<= 1.05",
            measured: format!("{ratio:.3}"),
            verdict: verdict(ratio <= 1.05),
            how: format!(
                "every event kept in room that is used again, against nobody watching, less the digest, which is always on and takes {digest:.1} us of a game; the metrics of a run are beside it {metrics:.3} of a game that nobody watches"
            ),
        }
    }
}

/// Blocks that games allocate once everything is made.
pub(crate) fn heap() -> Row {
    const COUNTED: u32 = 50;
    let arena = reference();
    let blocks = |stack| {
        let setting = Setting::new(&arena, stack);
        let mut crew = Crew::new(&setting);
        crew.games(1);
        let counted = allocation_counter::measure(|| crew.games(COUNTED));
        counted.count_total as f64 / f64::from(COUNTED)
    };
    let [base, values, cards] = [Stack::default(), value_hooks(), card_hook()].map(blocks);
    Row {
        what: "heap allocations per game after warm-up",
        goal: "0",
        measured: format!("{base} base rules, {values} value hooks"),
        verdict: verdict(base == 0.0 && values == 0.0),
        how: format!(
            "blocks asked of the allocator in {COUNTED} games with their metrics; with an event hook on every card {cards:.0}, the script language's own"
        ),
    }
}
