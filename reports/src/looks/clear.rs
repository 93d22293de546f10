//! A comparison that is looked at until every headline metric is decided.

use ruleshift_record::{Looks, Metric, RunRecord, Stop};

use super::looks_done;
use crate::answer::{Answer, answer};
use crate::stats::{Decided, Monitor, POWER, Seen, Spending};
use crate::summarise::Pairs;

/// What a look sees that sees nothing.
const NOTHING: Seen = Seen { p: 1.0, equivalence_p: 1.0 };

/// A headline metric of an arm, at every look so far.
struct Watched {
    arm: usize,
    metric: Metric,
    seen: Vec<Seen>,
}

/// What the looks of a run have seen, and what they decide.
pub(crate) struct Watch {
    monitor: Monitor,
    games: Vec<u32>,
    watched: Vec<Watched>,
    decided: Vec<Decided>,
    done: usize,
}

impl Watch {
    /// The looks of a run that stops when all is clear; `None` for other runs, and before the first
    /// look.
    pub(crate) fn of(run: &RunRecord) -> Option<Watch> {
        let plan = &run.plan;
        let Some(Stop::Clear { .. }) = plan.stop else { return None };
        let done = looks_done(plan, run);
        let games: Vec<u32> =
            plan.looks().into_iter().map(|rounds| plan.games_in_rounds(rounds)).collect();
        let headline: Vec<Metric> =
            Metric::ALL.iter().copied().filter(|metric| plan.is_headline(*metric)).collect();
        let arms: Vec<usize> = plan.compared().skip(1).collect();
        let family = headline.len() * arms.len();
        let monitor = Monitor::new(&games, family, Spending::Late).filter(|_| done > 0)?;
        let mut watched = vec![];
        for arm in arms {
            let pairs = Pairs::of(run, arm);
            watched.extend(headline.iter().map(|&metric| Watched {
                arm,
                metric,
                seen: seen(run, &pairs, metric, done),
            }));
        }
        let all: Vec<Vec<Seen>> = watched.iter().map(|watched| watched.seen.clone()).collect();
        let decided = monitor.decide(&all);
        Some(Watch { monitor, games, watched, decided, done })
    }

    /// Whether nothing is open.
    pub(crate) fn all_decided(&self) -> bool {
        self.decided.iter().all(|decided| !decided.is_open())
    }

    /// The confidence of an interval that is safe whenever the run ends; `None` when the last look
    /// may decide nothing.
    pub(crate) fn confidence(&self) -> Option<f64> {
        self.monitor.confidence(self.done - 1)
    }

    /// Further games that an answer which is open in a family of that size is expected to need: as
    /// many as without looks, and what the looks cost.
    pub(crate) fn more_games(&self, answer: &Answer, family: usize) -> u32 {
        let played = f64::from(self.games[self.done - 1]);
        let more = answer.more_games(family);
        let all = (played + f64::from(more)) * self.monitor.inflation(POWER);
        // A float beyond the range becomes the largest count.
        if more == 0 { 0 } else { (all - played).ceil() as u32 }
    }

    /// What is decided of headline metrics, each with its arm.
    pub(crate) fn headline(&self, places: &[(usize, Metric)]) -> Vec<Decided> {
        let place = |place: &(usize, Metric)| {
            self.watched.iter().position(|watched| (watched.arm, watched.metric) == *place)
        };
        places.iter().map(|p| place(p).map_or_else(Decided::default, |n| self.decided[n])).collect()
    }

    /// What is decided of all other metrics, which were seen at the last look alone: that it was the
    /// last one may depend on what was seen before, so the limits are those of a run with all looks.
    pub(crate) fn others(&self, answers: &[Answer]) -> Vec<Decided> {
        let Some(monitor) = Monitor::new(&self.games, answers.len(), Spending::Late) else {
            return vec![Decided::default(); answers.len()];
        };
        let at_last = |answer: &Answer| {
            let mut seen = vec![NOTHING; self.done];
            seen[self.done - 1] = Seen { p: answer.p, equivalence_p: answer.equivalence_p };
            seen
        };
        monitor.decide(&answers.iter().map(at_last).collect::<Vec<_>>())
    }

    /// What to say of the looks.
    pub(crate) fn told(&self) -> Looks {
        Looks {
            planned: self.games.clone(),
            done: self.done as u32,
            spent: self.monitor.spent(self.done - 1),
            all_decided: self.all_decided(),
        }
    }
}

/// What every look so far saw of a metric.
fn seen(run: &RunRecord, pairs: &Pairs, metric: Metric, done: usize) -> Vec<Seen> {
    let (plan, both) = (&run.plan, pairs.listed(pairs.both(metric)));
    let number = |&(reference, arm): &(f64, f64)| reference.is_finite() && arm.is_finite();
    let alike = pairs.all_alike();
    let looks = plan.looks().into_iter().take(done);
    looks
        .map(|rounds| {
            let before = |game: u32| game < plan.games_of_scenario_in(rounds);
            let values = pairs.all().zip(&both);
            let values = values
                .map(|(pair, both)| Some(*both).filter(|both| number(both) && before(pair.game)));
            let strata = pairs.strata(values);
            let same = pairs.all().zip(alike).all(|(pair, alike)| *alike || !before(pair.game));
            let answer = answer(&strata, (metric, plan.notice(metric)), same);
            answer.map_or(NOTHING, |answer: Answer| Seen {
                p: answer.p,
                equivalence_p: answer.equivalence_p,
            })
        })
        .collect()
}
