//! What is said of choices whose games are made up.

use ruleshift_record::{HandicapPlan, HandicapStanding, RunRecord, Seat};

use super::{build_handicap, even_out};
use crate::sample::{self, Made};
use crate::stats::wilson;

const NAME: &str = "hill";

/// A scenario as it is with so many games won of a number, and the same with a gun more.
fn run(plain: [u32; 2], gun: [u32; 2]) -> RunRecord {
    let games = |scenario: usize, [won, of]: [u32; 2]| {
        (0..of).map(move |n| -> Made { (scenario, n, if n < won { 2.0 } else { -1.0 }) })
    };
    let mut run = sample::run(&[games(0, plain).chain(games(1, gun)).collect()]);
    run.plan.scenarios[1].name = format!("{NAME}+defender:german-anti-tank-platoon:1");
    run
}

fn answer(plain: [u32; 2], gun: [u32; 2]) -> ruleshift_record::HandicapSummary {
    even_out(&run(plain, gun), HandicapPlan { side: Seat::Defender })
}

#[test]
fn the_choice_nearest_to_a_half_is_told_with_what_is_surely_fair() {
    let summary = answer([700, 1000], [520, 1000]);
    assert_eq!(summary.nearest, Some(1));
    let told = summary.choices.iter().map(|choice| (choice.adds.as_str(), choice.standing));
    assert_eq!(
        told.collect::<Vec<_>>(),
        [
            ("", HandicapStanding::TooOften),
            ("defender:german-anti-tank-platoon:1", HandicapStanding::Fair),
        ]
    );
    assert_eq!(
        summary.headline,
        [
            "As it is, the attacker wins 70.0 % (66.7 to 73.1) of games: too often.",
            "Nearest to a half comes defender:german-anti-tank-platoon:1: 52.0 % (48.5 to 55.5).",
            "Surely fair within 40 to 60 %: 1 of 1 choice.",
        ]
    );
    let report = build_handicap(&summary);
    assert_eq!(report.title, "What makes hill fair?");
    assert_eq!(report.front.len() + report.body.len(), 5);
}

/// Which of several comes nearest is chance when their intervals are as wide as what parts them.
#[test]
fn it_is_told_when_others_may_be_nearer() {
    let alike = answer([530, 1000], [520, 1000]);
    let nearest = "Nearest to a half came defender:german-anti-tank-platoon:1";
    assert_eq!(
        alike.headline[1],
        format!("{nearest}: 52.0 % (48.5 to 55.5); 1 other may be nearer.")
    );
    let plain = answer([520, 1000], [530, 1000]);
    let told = "In these games no choice came nearer to a half, though 1 may be.";
    assert_eq!(plain.headline[1], told);
    // From 51.5 to 58.5 and from 41.5 to 48.5 % on either side: neither is surely nearer.
    assert!(answer([550, 1000], [440, 1000]).headline[1].ends_with("though 1 may be."));
    assert!(answer([600, 1000], [500, 1000]).headline[1].starts_with("Nearest to a half comes "));
}

/// Of two choices each interval has the chance of an error of 2.5 %, by Bonferroni.
#[test]
fn intervals_hold_all_at_once() {
    let summary = answer([30, 50], [10, 50]);
    for (choice, wins) in summary.choices.iter().zip([30, 10]) {
        let wide = wilson(wins, 50, 0.975).unwrap();
        assert!((choice.low - wide.low).abs() < 1e-12 && (choice.high - wide.high).abs() < 1e-12);
    }
}

#[test]
fn none_does_and_more_games_are_answers_too() {
    let none = answer([950, 1000], [900, 1000]);
    assert_eq!(none.headline[2], "None of 1 choice is fair within 40 to 60 %.");
    let few = answer([9, 10], [5, 10]);
    assert_eq!(
        few.headline[2],
        "None of 1 choice is surely fair within 40 to 60 %; 1 may be: play more games."
    );
    let worse = answer([100, 1000], [50, 1000]);
    assert_eq!(worse.nearest, Some(0));
    assert_eq!(worse.headline[1], "No choice brings that nearer to a half.");
    assert_eq!(worse.headline[3], "It is the other side than the defender that needs help.");
    let nothing = answer([0, 0], [0, 0]);
    assert_eq!((nothing.nearest, &*nothing.headline[0]), (None, "Nothing was played."));
}
