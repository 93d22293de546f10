//! What comes next and what is answered, on games made by hand.

use ruleshift_record::TuneStanding;

use super::*;

fn task(values: &[i64], target: f64) -> TuneTask {
    TuneTask {
        values: values.to_vec(),
        target,
        notice: 0.25,
        kind: MetricKind::Number,
        shape: TuneShape::Any,
        games: vec![100, 200, 400],
    }
}

/// Games whose mean is `mean` and whose deviation is about `spread`, after so many looks.
fn games(looks: usize, mean: f64, spread: f64) -> Tried {
    let count = [0, 100, 200, 400][looks];
    let value = |n: i32| mean + if n % 2 == 0 { spread } else { -spread };
    Tried { looks, strata: vec![(0..count).map(value).collect()] }
}

fn step(task: &TuneTask, tried: &[Tried]) -> TuneStep {
    Tuning::new(task.clone()).unwrap().next(tried)
}

#[track_caller]
fn done(task: &TuneTask, tried: &[Tried]) -> TuneFound {
    match step(task, tried) {
        TuneStep::Done(found) => found,
        TuneStep::Play(more) => panic!("wants {more:?}"),
    }
}

#[test]
fn at_first_every_value_is_played() {
    assert_eq!(
        step(&task(&[1, 2, 5], 3.0), &[]),
        TuneStep::Play(vec![(1, 100), (2, 100), (5, 100)])
    );
}

#[test]
fn only_what_is_open_is_played_on() {
    let tried = [games(1, 1.0, 0.5), games(1, 2.0, 3.0), games(1, 2.8, 3.0)];
    let task = task(&[1, 2, 3], 2.5);
    assert_eq!(step(&task, &tried), TuneStep::Play(vec![(2, 100), (3, 100)]));
}

/// One that was passed over stays behind, open or not: only the others have the luck of today.
#[test]
fn a_value_that_was_passed_over_stays_behind() {
    let tried = [games(1, 1.0, 0.5), games(1, 2.0, 3.0), games(2, 2.8, 3.0)];
    let task = task(&[1, 2, 3], 2.5);
    assert_eq!(step(&task, &tried), TuneStep::Play(vec![(3, 200)]));
}

#[test]
fn a_value_on_target_ends_it() {
    let found = done(
        &task(&[1, 2, 3], 2.05),
        &[games(1, 1.0, 0.5), games(1, 2.0, 0.2), games(1, 2.2, 3.0)],
    );
    assert_eq!(found.answer, TuneAnswer::Found { value: 2.0 });
    let standings: Vec<TuneStanding> = found.settings.iter().map(|s| s.standing).collect();
    assert_eq!(standings[..3], [TuneStanding::Below, TuneStanding::Below, TuneStanding::OnTarget]);
    assert_eq!(
        found.settings.iter().map(|s| s.value).collect::<Vec<_>>(),
        [1.0, 1.5, 2.0, 2.5, 3.0]
    );
    assert!((found.crossing.unwrap().at.unwrap() - 2.25).abs() < 1e-9);
}

#[test]
fn a_half_is_found_where_no_value_does() {
    let tried = [games(1, 1.0, 0.3), games(1, 2.0, 0.3), games(1, 3.0, 0.3)];
    let found = done(&task(&[1, 2, 3], 1.5), &tried);
    assert_eq!(found.answer, TuneAnswer::Found { value: 1.5 });
    let crossing = found.crossing.unwrap();
    assert!(crossing.low > 1.25 && crossing.low < 1.5 && crossing.high < 1.75, "{crossing:?}");
}

#[test]
fn an_open_half_has_both_its_values_played() {
    // Both are surely off; how near the middle is takes more games.
    let tried = [games(1, 1.0, 1.0), games(1, 2.0, 1.0), games(1, 9.0, 1.0)];
    assert_eq!(step(&task(&[1, 2, 3], 1.5), &tried), TuneStep::Play(vec![(1, 100), (2, 100)]));
    let last = [games(3, 1.0, 2.4), games(3, 2.0, 2.4), games(1, 9.0, 1.0)];
    let found = done(&task(&[1, 2, 3], 1.5), &last);
    let TuneAnswer::Undecided { nearest, more_games } = found.answer else {
        panic!("{:?}", found.answer)
    };
    assert_eq!(nearest, 1.5);
    // Each value reaches some 0.32 and must reach a quarter, which takes 0.64 of its games more.
    assert!((400..700).contains(&more_games), "{more_games}");
}

#[test]
fn values_that_do_not_follow_each_other_have_no_half() {
    let tried = [games(1, 1.0, 0.3), games(1, 2.0, 0.3)];
    let found = done(&task(&[1, 3], 1.5), &tried);
    assert_eq!(found.answer, TuneAnswer::Between { nearest: 1.0 });
    assert_eq!(found.settings.len(), 2);
    assert!((found.crossing.unwrap().at.unwrap() - 2.0).abs() < 1e-9);
}

#[test]
fn what_no_value_reaches_is_said_with_its_side() {
    let tried = [games(1, 1.0, 0.3), games(1, 2.0, 0.3)];
    let low = done(&task(&[1, 2], 3.0), &tried);
    assert_eq!(low.answer, TuneAnswer::NoneReaches { below: true, nearest: 2.0 });
    assert_eq!(low.crossing, None);
    let high = done(&task(&[1, 2], 0.5), &tried);
    assert_eq!(high.answer, TuneAnswer::NoneReaches { below: false, nearest: 1.0 });
}

#[test]
fn at_the_cap_it_is_undecided_and_says_how_many_more() {
    let found = done(&task(&[1, 2], 1.6), &[games(1, 1.0, 0.5), games(3, 1.5, 4.0)]);
    let TuneAnswer::Undecided { nearest: 2.0, more_games } = found.answer else {
        panic!("{:?}", found.answer)
    };
    // The interval reaches some 2.4 of 4.0 / 20, and must reach 0.15.
    assert!((2000..8000).contains(&more_games), "{more_games}");
}

#[test]
fn a_rising_curve_spares_games_and_a_refuted_one_is_said_to_be() {
    let mut rising = task(&[1, 2, 3], 2.5);
    rising.shape = TuneShape::Rising;
    // The third is unclear by itself, but not below the second, which is surely above.
    let tried = [games(1, 1.0, 0.3), games(1, 3.0, 0.3), games(1, 3.0, 9.0)];
    let found = done(&rising, &tried);
    assert_eq!(found.answer, TuneAnswer::Between { nearest: 1.5 });
    assert!(found.shape_holds);
    rising.shape = TuneShape::Falling;
    assert!(!done(&rising, &[tried[0].clone(), tried[1].clone(), tried[1].clone()]).shape_holds);
}

#[test]
fn games_without_spread_are_not_believed_before_the_last_look() {
    let one = task(&[1], 3.0);
    assert_eq!(step(&one, &[games(1, 1.0, 0.0)]), TuneStep::Play(vec![(1, 100)]));
    let found = done(&one, &[games(3, 1.0, 0.0)]);
    assert_eq!(found.answer, TuneAnswer::NoneReaches { below: true, nearest: 1.0 });
    let mut rate = one;
    rate.kind = MetricKind::Rate;
    rate.target = 0.05;
    rate.notice = 0.03;
    // None of a hundred: five in a hundred are quite possible at that level.
    assert_eq!(step(&rate, &[games(1, 0.0, 0.0)]), TuneStep::Play(vec![(1, 100)]));
}

#[test]
fn a_task_without_values_or_games_is_none() {
    for (values, target) in [(vec![], 1.0), (vec![2, 1], 1.0), (vec![1, 1], 1.0)] {
        assert_eq!(Tuning::new(task(&values, target)), None);
    }
    assert_eq!(Tuning::new(TuneTask { games: vec![], ..task(&[1], 1.0) }), None);
    assert_eq!(Tuning::new(TuneTask { games: vec![0, 9], ..task(&[1], 1.0) }), None);
    assert_eq!(Tuning::new(TuneTask { notice: 0.0, ..task(&[1], 1.0) }), None);
}
