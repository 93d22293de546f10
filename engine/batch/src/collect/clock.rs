//! Time at the table: whose it is, and how long one watches the other.

use ruleshift_game::{BySide, Event, Side, State, Tally};
use ruleshift_record::{Metric, Timing};

use super::actor::{acts_on, of_unit};
use super::sheet::{End, Sheet};

/// What takes time, by the words of the timing table.
#[derive(Clone, Copy, Default)]
struct Work {
    turns: u32,
    cards: u32,
    actions: u32,
    throws: u32,
    choices: u32,
}

impl Work {
    /// The time it takes, in seconds.
    fn seconds(&self, timing: &Timing) -> f64 {
        f64::from(self.turns) * timing.turn
            + f64::from(self.cards) * timing.card
            + f64::from(self.actions) * timing.action
            + f64::from(self.throws) * timing.throw
            + f64::from(self.choices) * timing.decision
    }
}

/// The timing table in whole milliseconds, to compare stretches while the game goes on.
#[derive(Clone, Copy)]
struct Pace {
    card: u64,
    action: u64,
    throw: u64,
    choice: u64,
}

impl Pace {
    fn of(timing: &Timing) -> Pace {
        // No table has a negative time or one over an hour.
        let whole = |seconds: f64| (seconds * 1000.0).round() as u64;
        Pace {
            card: whole(timing.card),
            action: whole(timing.action),
            throw: whole(timing.throw),
            choice: whole(timing.decision),
        }
    }

    fn of_work(&self, work: Work) -> u64 {
        u64::from(work.cards) * self.card
            + u64::from(work.actions) * self.action
            + u64::from(work.throws) * self.throw
            + u64::from(work.choices) * self.choice
    }
}

/// Time at the table by the timing table, in minutes.
///
/// - Minutes: turns, cards, actions, throws of dice and choices, each with its seconds; from 0.
/// - Minutes of a side: its cards and actions, throws and choices on its cards, and what it does when
///   it is not its turn: a shot late or held, a unit it places, an answer, each with one choice, and
///   standing up to close assault; one throw where dice are rolled. What is left, both share: mostly the turn's end.
/// - Longest watch: the longest stretch in which one side did none of this, counted in the other's
///   time; the turn's end neither ends it nor counts, for both are busy then. From 0.
///
/// Ruleshift's own; that waiting without anything to do spoils an evening is table practice.
#[derive(Clone)]
pub(super) struct Clock<'a> {
    timing: &'a Timing,
    pace: Pace,
    /// Whose card is played; none at a turn's end.
    on: Option<Side>,
    /// Throws and choices that have found their side.
    booked: Tally,
    work: BySide<Work>,
    /// For how long each side has watched, in milliseconds.
    watched: BySide<u64>,
    longest: u64,
}

impl<'a> Clock<'a> {
    pub(super) fn new(timing: &'a Timing) -> Clock<'a> {
        Clock {
            timing,
            pace: Pace::of(timing),
            on: None,
            booked: Tally::default(),
            work: BySide([Work::default(); 2]),
            watched: BySide([0; 2]),
            longest: 0,
        }
    }

    pub(super) fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::CardDrawn { card } => {
                self.settle(state);
                self.on = acts_on(card, state);
                if let Some(side) = self.on {
                    self.busy(side, Work { cards: 1, ..Work::default() });
                }
            }
            Event::LateFireBegan { .. } => {
                self.settle(state);
                self.on = None;
            }
            Event::Fired { unit, .. } | Event::GunFired { unit, .. } => {
                self.out_of_turn(of_unit(unit, state), 1, 1, state);
            }
            // The choice to assault was the other's.
            Event::AssaultFought { target, .. } => {
                self.out_of_turn(of_unit(target, state), 0, 1, state);
            }
            Event::UnitPlaced { unit, .. } => self.out_of_turn(of_unit(unit, state), 1, 0, state),
            Event::Answered { side, .. } => self.out_of_turn(side, 1, 0, state),
            _ => {}
        }
    }

    /// A side takes an action.
    pub(super) fn action(&mut self, side: Side) {
        self.work[side].actions += 1;
        self.watch(side.other(), self.pace.action);
    }

    /// A side does something on the other's card or at a turn's end, with so many choices and throws
    /// at the most. They are its own; all before them belong to whose card it is.
    fn out_of_turn(&mut self, side: Side, choices: u32, throws: u32, state: &State) {
        if self.on == Some(side) {
            return;
        }
        let tally = state.tally();
        let choices = (tally.decisions - self.booked.decisions).min(choices);
        let throws = (tally.throws - self.booked.throws).min(throws);
        self.booked.decisions += choices;
        self.booked.throws += throws;
        self.settle(state);
        self.busy(side, Work { throws, choices, ..Work::default() });
    }

    /// Gives the throws and choices since the last time to whose card it is.
    fn settle(&mut self, state: &State) {
        let tally = state.tally();
        let throws = tally.throws - self.booked.throws;
        let choices = tally.decisions - self.booked.decisions;
        self.booked = tally;
        if let Some(side) = self.on {
            self.add(side, Work { throws, choices, ..Work::default() });
        }
    }

    /// A side has something to do: it watches no longer.
    fn busy(&mut self, side: Side, work: Work) {
        self.watched[side] = 0;
        self.add(side, work);
    }

    fn add(&mut self, side: Side, work: Work) {
        let sum = &mut self.work[side];
        sum.cards += work.cards;
        sum.actions += work.actions;
        sum.throws += work.throws;
        sum.choices += work.choices;
        self.watch(side.other(), self.pace.of_work(work));
    }

    /// A side watches for so many milliseconds more.
    fn watch(&mut self, side: Side, time: u64) {
        self.watched[side] += time;
        self.longest = self.longest.max(self.watched[side]);
    }

    pub(super) fn report(&self, end: &End, cards: u32, actions: u32, to: &mut Sheet) {
        let (turns, throws, choices) = (end.turns.into(), end.throws, end.decisions);
        let all = Work { turns, cards, actions, throws, choices };
        let all = all.seconds(self.timing) / 60.0;
        let [attacker, defender] = self.work.0.map(|work| work.seconds(self.timing) / 60.0);
        to.value(Metric::Minutes, all);
        to.value(Metric::AttackerMinutes, attacker);
        to.value(Metric::DefenderMinutes, defender);
        to.value(Metric::SharedMinutes, (all - attacker - defender).max(0.0));
        to.value(Metric::LongestWatch, self.longest as f64 / 60_000.0);
    }
}
