//! Comparisons in which nothing changed.

use ruleshift_hooks::{Overrides, Source, Stack, Variant, template};
use ruleshift_record::{Stop, Summary, Verdict};
use ruleshift_reports::summarise_shifts;

use super::pool::{Pool, conduct, handicap, no_late_fire};
use super::rate::{Rate, times};

/// Games of each scenario in each arm, and those of a run with looks, which looks at 256 and 512 of
/// both together.
const PLAIN: u32 = 50;
const LOOKED_AT: u32 = 256;

/// Whether any of the headline metrics is said not to be chance; and any of all others.
fn alarms(summary: &Summary) -> [bool; 2] {
    [true, false].map(|headline| {
        let family = summary.metrics.iter().filter(|shift| shift.headline == headline);
        let mut words = family.map(|shift| shift.verdict);
        words.any(|word| matches!(word, Verdict::ClearShift | Verdict::TooSmall))
    })
}

/// Base rules against base rules, each arm with seeds of its own: the noise of real games.
fn split(
    pool: &Pool,
    games: u32,
    mut answer: impl FnMut([(usize, u32); 2]) -> Summary,
) -> [Rate; 2] {
    let mut rates = [Rate::default(); 2];
    for comparison in 0..pool.blocks(2 * games) {
        let first = comparison * 2 * games;
        let alarms = alarms(&answer([(0, first), (0, first + games)]));
        rates.iter_mut().zip(alarms).for_each(|(rate, alarm)| rate.add(alarm));
    }
    rates
}

fn both(rates: [[Rate; 2]; 2]) -> [Rate; 2] {
    let [one, other] = rates;
    [0, 1].map(|n| Rate {
        hits: one[n].hits + other[n].hits,
        trials: one[n].trials + other[n].trials,
    })
}

#[test]
fn other_seeds_alone_raise_an_alarm_in_at_most_5_of_100_families() {
    let of =
        |pool: &Pool| split(pool, PLAIN, |arms| summarise_shifts(&pool.cut(arms, PLAIN, |_| ())));
    let [headline, others] = both([of(handicap()), of(no_late_fire())]);
    headline.told("other seeds: a shift in the headline").at_most(0.05);
    others.told("other seeds: a shift in all other metrics").at_most(0.05);
}

#[test]
fn other_seeds_alone_raise_an_alarm_in_at_most_5_of_100_families_that_are_looked_at() {
    let of = |pool: &Pool| {
        split(pool, LOOKED_AT, |arms| {
            conduct(&pool.cut(arms, LOOKED_AT, |plan| plan.stop = Some(Stop::Clear { looks: 7 })))
        })
    };
    let [headline, others] = both([of(handicap()), of(no_late_fire())]);
    headline.told("other seeds, looks: a shift in the headline").at_most(0.05);
    others.told("other seeds, looks: a shift in all other metrics").at_most(0.05);
}

/// The same luck under rules that a script leaves as they are: exactly no shift, whatever the games.
#[test]
fn rules_that_change_nothing_shift_nothing_in_any_of_many_runs() {
    let idle = Variant::load(&Source::new("idle", template()), &Overrides::none());
    let idle = Stack::new(vec![idle.expect("the template is sound")]);
    let pool = Pool::play("idle", idle, 20_261_128, 600 * times());
    let games = 20;
    for comparison in 0..pool.blocks(games) {
        let first = comparison * games;
        let record = pool.cut([(0, first), (1, first)], games, |_| ());
        for shift in summarise_shifts(&record).metrics {
            let found = (shift.shift, shift.low, shift.high, shift.verdict);
            assert_eq!(found, (0.0, 0.0, 0.0, Verdict::NoDifference), "{}", shift.metric);
        }
    }
}
