//! Whether a shift is the same whoever plays.
//!
//! For the balance metrics and the largest headline shift besides them, the shifts of the pairings
//! are tested against each other, by Holm's method over all that are tested. Which shift is the
//! largest depends on their common mean, which says nothing of their spread, so picking it favours
//! neither answer. With a roster, each player is left out in turn.

use std::cmp::Ordering;

use ruleshift_record::{
    Metric, MetricShift, PairingShift, Plan, PlayerDependence, RunRecord, Verdict, WithoutPlayer,
};

use super::caveats::p_said;
use super::pairs::Pairs;
use super::{differences, shifts_of};
use crate::format::{Scale, fixed};
use crate::stats::{
    CONFIDENCE, Estimate, Heterogeneity, Interval, LEVEL, heterogeneity, holm, stratified_mean,
};
use crate::words::label;

/// The metrics that are always looked at.
const BALANCE: [Metric; 2] = [Metric::AttackerWins, Metric::Margin];

/// Attacker and defender of a pairing, as a reader knows them.
pub(super) fn names(plan: &Plan, pairing: usize) -> (&str, &str) {
    match plan.roster.len() {
        0 => {
            let players = &plan.pairings[pairing];
            (&players.attacker.name, &players.defender.name)
        }
        n => (&plan.roster[pairing / n % n], &plan.roster[pairing % n]),
    }
}

/// One shift, tested but not yet adjusted.
struct Tested<'a> {
    shift: &'a MetricShift,
    test: Heterogeneity,
    /// For each player of the roster the shift without it, and the p-value of "the same with it".
    without: Vec<Option<(Estimate, f64)>>,
}

/// How the main shifts of all arms depend on the players; none with one pairing.
pub(super) fn dependence(
    run: &RunRecord,
    pairs: &[Pairs],
    metrics: &[MetricShift],
) -> Vec<PlayerDependence> {
    let tested: Vec<Tested> = pairs
        .iter()
        .flat_map(|p| {
            let looked_at = looked_at(shifts_of(run, p, metrics).collect());
            looked_at.into_iter().filter_map(|(metric, shift)| test(run, p, metric, shift))
        })
        .collect();
    let same = holm(&tested.iter().map(|t| t.test.p).collect::<Vec<f64>>());
    let contrasts: Vec<f64> =
        tested.iter().flat_map(|t| t.without.iter().flatten().map(|(_, p)| *p)).collect();
    let mut contrasts = holm(&contrasts).into_iter();
    let settle = |(t, p_adjusted): (Tested, f64)| PlayerDependence {
        arm: t.shift.arm.clone(),
        metric: t.shift.metric.clone(),
        q: t.test.q,
        df: t.test.df,
        i2: t.test.i_squared(),
        p: t.test.p,
        p_adjusted,
        without: without(&run.plan.roster, &t, &mut contrasts),
    };
    tested.into_iter().zip(same).map(settle).collect()
}

/// The balance metrics and the largest other headline shift, in multiples of what is noticed.
fn looked_at(shifts: Vec<&MetricShift>) -> Vec<(Metric, &MetricShift)> {
    let named = |m: &&MetricShift| Metric::by_name(&m.metric);
    let balance = |m: &&MetricShift| named(m).is_some_and(|metric| BALANCE.contains(&metric));
    let size = |m: &MetricShift| (m.shift / m.notice).abs();
    let largest = shifts.iter().copied().filter(|m| m.headline && m.shift != 0.0 && !balance(m));
    let largest = largest.reduce(|a, b| {
        if size(b).partial_cmp(&size(a)) == Some(Ordering::Greater) { b } else { a }
    });
    let all = shifts.iter().copied().filter(balance).chain(largest);
    all.filter_map(|m| Some((named(&m)?, m))).collect()
}

fn test<'a>(
    run: &RunRecord,
    pairs: &Pairs,
    metric: Metric,
    shift: &'a MetricShift,
) -> Option<Tested<'a>> {
    let pairings = pairs.pairings();
    let strata = differences(&pairs.values(metric));
    let over = |chosen: &dyn Fn(usize) -> bool| {
        let strata = strata.iter().enumerate().filter(|(n, _)| chosen(n % pairings));
        stratified_mean(&strata.map(|(_, s)| s.clone()).collect::<Vec<_>>())
    };
    let parts: Vec<(f64, f64)> =
        (0..pairings).filter_map(|n| over(&|m| m == n)).map(|e| (e.value, e.se)).collect();
    let players = run.plan.roster.len();
    let without = |player: usize| {
        let plays = |pairing: usize| pairing / players == player || pairing % players == player;
        let (with, rest) = (over(&plays)?, over(&|pairing| !plays(pairing))?);
        Some((rest, with.less(&rest).p()))
    };
    // Shifts without any spread cannot be tested against each other; players still can be left out.
    let test = heterogeneity(&parts)
        .or_else(|| (pairings > 1).then_some(Heterogeneity { q: 0.0, df: 0.0, p: 1.0 }))?;
    Some(Tested { shift, test, without: (0..players).map(without).collect() })
}

fn without(
    roster: &[String],
    tested: &Tested,
    contrasts: &mut impl Iterator<Item = f64>,
) -> Vec<WithoutPlayer> {
    let known = roster.iter().zip(&tested.without);
    let known = known.filter_map(|(player, rest)| Some((player, rest.as_ref()?.0)));
    known
        .zip(contrasts)
        .map(|((player, rest), p_adjusted)| {
            let interval = rest.interval(CONFIDENCE);
            WithoutPlayer {
                player: player.clone(),
                pairs: u32::try_from(rest.count).unwrap_or(u32::MAX),
                shift: rest.value,
                low: interval.low,
                high: interval.high,
                p_adjusted,
                hangs: p_adjusted < LEVEL && vanishes(tested.shift, interval),
            }
        })
        .collect()
}

/// Whether a clear shift is not shown, not worth noticing or turned round in the games left.
fn vanishes(shift: &MetricShift, left: Interval) -> bool {
    let shown = if shift.shift > 0.0 { left.low > 0.0 } else { left.high < 0.0 };
    shift.verdict == Verdict::ClearShift && (!shown || left.within(shift.notice))
}

/// What a reader must know of it.
pub(super) fn caveats(
    run: &RunRecord,
    players: &[PlayerDependence],
    metrics: &[MetricShift],
) -> Vec<String> {
    let said = |d: &PlayerDependence| {
        let shift = metrics.iter().find(|m| m.arm == d.arm && m.metric == d.metric)?;
        let title = &run.plan.arms.iter().find(|arm| arm.name == d.arm)?.title;
        let hangs = d.without.iter().filter(|w| w.hangs).map(|w| hanging(title, shift, w));
        Some(disagreement(title, shift, d).into_iter().chain(hangs).collect::<Vec<String>>())
    };
    players.iter().filter_map(said).flatten().collect()
}

/// The two pairings furthest apart; `None` when that may be chance or nobody would notice.
fn disagreement(title: &str, m: &MetricShift, d: &PlayerDependence) -> Option<String> {
    let by_shift = |a: &&PairingShift, b: &&PairingShift| a.shift.total_cmp(&b.shift);
    let (low, high) =
        (m.by_pairing.iter().min_by(by_shift)?, m.by_pairing.iter().max_by(by_shift)?);
    let scale = Scale::of(m);
    let end = |p: &PairingShift| {
        format!("{} with {} against {}", scale.shift(p.shift), p.attacker, p.defender)
    };
    let turned = low.high < 0.0 && high.low > 0.0;
    let absent = [low, high].iter().any(|p| p.low <= 0.0 && p.high >= 0.0);
    let kind = match (turned, absent) {
        (true, _) => ": even its direction depends on who plays",
        (_, true) => ": it is not shown with all of them",
        _ => "",
    };
    (d.p_adjusted < LEVEL && high.shift - low.shift >= m.notice).then(|| {
        format!(
            "{title}: players disagree on {}: from {} to {} (p {}, I² {} %){kind}.",
            label(&m.metric),
            end(low),
            end(high),
            p_said(d.p_adjusted),
            fixed(100.0 * d.i2, 0)
        )
    })
}

fn hanging(title: &str, m: &MetricShift, w: &WithoutPlayer) -> String {
    let scale = Scale::of(m);
    format!(
        "{title}: the shift of {} hangs on {}: without it {} (95 % {}), with all {}.",
        label(&m.metric),
        w.player,
        scale.shift(w.shift),
        scale.interval(w.low, w.high),
        scale.shift(m.shift)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    /// A run of three players; the margin shifts by `by(attacker, defender)` and some luck.
    fn run(by: impl Fn(usize, usize) -> f64) -> RunRecord {
        let reference = sample::games(1800);
        let arm = reference.iter().map(|&(s, g, m)| {
            let pairing = g as usize % 9;
            // Not in step with scenarios or pairings.
            let wobble = f64::from(g / 9 * 7 % 11) / 5.0 - 1.0;
            (s, g, m + wobble + by(pairing / 3, pairing % 3))
        });
        let mut run = sample::run(&[reference.clone(), arm.collect()]);
        sample::roster(&mut run, &["steady", "bold", "cautious"]);
        run
    }

    fn margin(run: &RunRecord) -> (PlayerDependence, Vec<String>) {
        let summary = summarise(run);
        let found = summary.players.into_iter().find(|d| d.metric == "margin").unwrap();
        (found, summary.caveats)
    }

    #[test]
    fn a_shift_that_is_the_same_for_all_hangs_on_nobody() {
        let (margin, caveats) = margin(&run(|_, _| 2.0));
        assert!(margin.p_adjusted > 0.2 && margin.df == 8.0, "{margin:?}");
        assert_eq!(margin.without.len(), 3);
        assert!(margin.without.iter().all(|w| !w.hangs && w.low > 1.5 && w.pairs == 800));
        assert!(!caveats.iter().any(|c| c.contains("hangs") || c.contains("players disagree")));
    }

    #[test]
    fn a_shift_that_one_player_makes_hangs_on_it() {
        let bold = |a, d| if a == 1 || d == 1 { 3.0 } else { 0.0 };
        let (margin, caveats) = margin(&run(bold));
        assert!(margin.p_adjusted < 0.001 && margin.i2 > 0.9, "{margin:?}");
        let hanging: Vec<&str> =
            margin.without.iter().filter(|w| w.hangs).map(|w| w.player.as_str()).collect();
        assert_eq!(hanging, ["bold"]);
        assert!(
            caveats.iter().any(|c| c.contains("the shift of margin hangs on bold: without it ")),
            "{caveats:?}"
        );
        assert!(caveats.iter().any(|c| c.contains("not shown with all of them")), "{caveats:?}");
    }

    #[test]
    fn a_shift_that_is_alike_in_all_games_can_hang_on_a_player_too() {
        let mut run = run(|_, _| 0.0);
        let margin = Metric::Margin as usize;
        let reference = run.games.column(0, Metric::Margin);
        run.games = run.games.changed(|rows| {
            let arm = rows.iter_mut().filter(|game| game.arm == 1);
            for (game, reference) in arm.zip(reference) {
                let bold = game.game % 9 / 3 == 1 || game.game % 3 == 1;
                game.values[margin] = reference + if bold { 2.0 } else { 0.0 };
            }
        });
        let (margin, caveats) = super::tests::margin(&run);
        assert_eq!((margin.df, margin.p_adjusted), (0.0, 1.0));
        assert!(
            caveats.iter().any(|c| c.contains("hangs on bold: without it 0.00")),
            "{caveats:?}"
        );
    }

    #[test]
    fn a_direction_that_depends_on_the_players_is_told() {
        let (_, caveats) = margin(&run(|a, d| 2.0 * (a as f64 - d as f64)));
        let told = caveats.iter().find(|c| c.contains("players disagree on margin")).unwrap();
        assert!(told.contains("with steady against cautious to "), "{told}");
        assert!(told.ends_with("even its direction depends on who plays."), "{told}");
    }

    #[test]
    fn few_games_for_each_pairing_are_said_to_be_few() {
        let mut run = run(|_, _| 1.0);
        run.games = run.games.changed(|rows| rows.retain(|g| g.game < 90));
        let caveats = summarise(&run).caveats;
        assert!(
            caveats.iter().any(|c| c.contains("only about 10 pairs of games for each pairing")),
            "{caveats:?}"
        );
    }

    #[test]
    fn one_pairing_has_nothing_to_disagree_with() {
        let games = sample::games(400);
        let summary = summarise(&sample::run(&[games.clone(), games]));
        assert!(summary.players.is_empty() && summary.skill.is_empty());
        assert!(summary.metrics.iter().all(|m| m.by_pairing.is_empty()));
    }
}
