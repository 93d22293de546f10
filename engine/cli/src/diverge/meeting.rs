//! Two games with the same luck, side by side.

use ruleshift_batch::GameEnd;
use ruleshift_hooks::Stack;
use ruleshift_record::Timing;
use ruleshift_reports::watch::{Divergence, Film, Parted, Parting, outcomes};

use super::makers::makers;
use super::trace::{Item, Trace, parting};
use crate::again::Again;
use crate::exit::Failure;
use crate::film;

/// Lines of the story told before the games part, without `--full`.
const TOLD: usize = 16;
/// Things told of each game where they part.
const NEXT: usize = 3;

/// Two games that differ in their rules alone.
pub(crate) struct Meeting {
    /// The reference, then the other.
    games: [Again; 2],
    traces: [Trace; 2],
    at: Option<usize>,
    makers: Vec<String>,
}

impl Meeting {
    /// Plays `game` as it is and under the reference; times are by `timing`.
    ///
    /// # Errors
    /// As [`Again::under`].
    pub(crate) fn of(game: Again, reference: &Stack, timing: &Timing) -> Result<Meeting, Failure> {
        let games = [game.under(reference)?, game];
        let traces = [Trace::of(&games[0], timing), Trace::of(&games[1], timing)];
        let at = parting(&traces[0].items, &traces[1].items);
        let makers = match at {
            Some(at) => makers([(&games[0], &traces[0]), (&games[1], &traces[1])], at, timing)?,
            None => vec![],
        };
        Ok(Meeting { games, traces, at, makers })
    }

    /// How the game itself ended, not that of the reference.
    pub(crate) fn end(&self) -> &GameEnd {
        &self.traces[1].end
    }

    /// In words; with `full` the whole story until they part.
    pub(crate) fn divergence(&self, full: bool) -> Divergence {
        let game = &self.games[1];
        let [attacker, defender] = game.sides();
        let told: Vec<&str> = match self.at {
            // A choice is told by what comes of it.
            Some(at) => (0..at).filter(|&n| self.is_event(n)).map(|n| self.words(n)).collect(),
            None => vec![],
        };
        let earlier = if full { 0 } else { told.len().saturating_sub(TOLD) };
        Divergence {
            title: game.scenario.title().to_owned(),
            facts: format!("{attacker}; {defender}; seed {:016x}", game.seed),
            games: [self.parted(0), self.parted(1)],
            story: told[earlier..].iter().map(|line| (*line).to_owned()).collect(),
            earlier,
            when: self.at.map(|at| self.when(at)),
            makers: self.makers.clone(),
        }
    }

    /// As something to be watched.
    pub(crate) fn film(self) -> Film {
        let parting = self.at.map(|at| {
            let (when, mut why) = (self.when(at), self.makers.clone());
            why.insert(0, format!("They are the same until {when}."));
            let next = |n: usize| {
                let game = self.parted(n);
                format!("{}: {}.", game.title, game.then.join("; "))
            };
            why.extend([next(0), next(1)]);
            Parting { step: self.traces[0].events_in(at), why }
        });
        let outcomes = outcomes(&[self.parted(0), self.parted(1)]);
        let mut film = self.games[1].set();
        film.reels = self
            .games
            .iter()
            .zip(self.traces)
            .map(|(game, trace)| film::reel(game, trace.take, &trace.end))
            .collect();
        film.parting = parting;
        film.outcomes = Some(outcomes);
        film
    }

    fn is_event(&self, item: usize) -> bool {
        matches!(self.traces[0].items[item], Item::Event(_))
    }

    fn words(&self, item: usize) -> &str {
        &self.traces[0].words[item].1
    }

    /// When the games part, as in "turn 2, after 145 events".
    fn when(&self, at: usize) -> String {
        let turn = self.traces.iter().filter_map(|trace| trace.words.get(at)).map(|(turn, _)| turn);
        let turn = turn.min().copied().unwrap_or(0);
        let events = self.traces[0].events_in(at);
        let turn = if turn == 0 { "the set-up".to_owned() } else { format!("turn {turn}") };
        format!("{turn}, after {events} events")
    }

    fn parted(&self, n: usize) -> Parted {
        let (game, trace) = (&self.games[n], &self.traces[n]);
        let (GameEnd::Finished(digest) | GameEnd::Faulted { digest, .. }) = &trace.end;
        let end = match &trace.end {
            GameEnd::Finished(_) => trace.take.steps.last().map_or("", |step| &step.text),
            GameEnd::Faulted { .. } => "stopped by a fault",
        };
        let from = self.at.unwrap_or(trace.words.len()).min(trace.words.len());
        let next = trace.words[from..].iter().map(|(_, words)| words.clone());
        Parted {
            arm: game.stack.spec(),
            title: game.title(),
            then: next.take(NEXT).collect(),
            end: end.to_owned(),
            values: trace.values,
            command: format!("ruleshift replay {}", game.ticket(*digest)),
        }
    }
}
