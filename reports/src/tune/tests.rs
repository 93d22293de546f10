use ruleshift_record::{Experiment, TuneShape};

use super::*;
use crate::looks::next;
use crate::sample;

/// Values 1 to 4, of which value n wins its games in `share` of them; games numbered evenly.
fn run(share: impl Fn(usize) -> f64, games: u32) -> (TunePlan, RunRecord) {
    let won = |n: usize, g: u32| f64::from(g * 37 % 100) / 100.0 < share(n);
    let arm = |n: usize| -> Vec<sample::Made> {
        let games = (0..2).flat_map(|s| (0..games / 2).map(move |g| (s, g)));
        games.map(|(s, g)| (s, g, if won(n, g) { 2.0 } else { -2.0 })).collect()
    };
    let mut run = sample::run(&(0..4).map(arm).collect::<Vec<_>>());
    let plan = TunePlan {
        option: "cards:count".into(),
        values: vec![1, 2, 3, 4],
        metric: "attacker_wins".into(),
        target: 0.5,
        shape: TuneShape::Any,
        looks: 4,
    };
    run.plan.games_per_arm = games;
    run.plan.experiment = Experiment::Tune(plan.clone());
    (plan, run)
}

#[test]
fn a_value_on_target_is_found_and_named() {
    let (plan, run) = run(|n| 0.2 + 0.15 * n as f64, 20_000);
    let summary = tune(&plan, &run);
    assert_eq!(summary.answer, TuneAnswer::Found { value: 3.0 });
    assert!(
        summary.headline[0].starts_with("cards:count=3 brings \"attacker wins\" to 50.0 %: 50")
    );
    assert_eq!((summary.settings.len(), summary.tickets.len()), (7, 1));
    let report = build_tune(&summary);
    assert_eq!(report.front.len(), 3);
    assert_eq!(report.body.len(), 2, "the curve is drawn");
}

#[test]
fn a_half_is_a_coin_before_the_game() {
    let (plan, run) = run(|n| if n < 2 { 0.35 } else { 0.65 }, 20_000);
    let summary = tune(&plan, &run);
    assert_eq!(summary.answer, TuneAnswer::Found { value: 2.5 });
    assert!(summary.headline[0].contains("a coin before the game decides between 2 and 3"));
}

#[test]
fn out_of_reach_is_an_answer() {
    let (plan, run) = run(|_| 0.3, 4_000);
    let summary = tune(&plan, &run);
    assert!(matches!(summary.answer, TuneAnswer::NoneReaches { below: true, .. }));
    assert!(summary.headline[0].contains("all leave it below"), "{:?}", summary.headline);
    assert_eq!(summary.crossing, None);
}

/// Values far from the target and from each other get no more games after the first look.
#[test]
fn far_values_stop_early() {
    let (_, mut run) = run(|n| [0.05, 0.1, 0.5, 0.95][n], 4_096);
    let all = std::mem::replace(&mut run.games, vec![].into());
    let first = next(&run, 0).unwrap();
    assert_eq!(first.arms, [true; 4]);
    let most = run.plan.games_of_scenario_in(first.rounds);
    run.games = all.changed(|rows| rows.retain(|row| row.game < most));
    let second = next(&run, first.rounds).unwrap();
    assert!(second.rounds > first.rounds);
    assert_eq!(second.arms, [false, false, true, false]);
}

#[test]
fn a_plan_without_sense_has_an_answer_without_settings() {
    let (plan, run) = run(|_| 0.5, 100);
    for wrong in [
        TunePlan { metric: "nonsense".into(), ..plan.clone() },
        TunePlan { values: vec![3, 1], ..plan },
    ] {
        let summary = tune(&wrong, &run);
        assert!(summary.settings.is_empty() && summary.headline.len() == 1);
        assert_eq!(build_tune(&summary).body.len(), 1);
    }
}
