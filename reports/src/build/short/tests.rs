//! What is said in short, and what is advised.

use ruleshift_record::{Metric, RunRecord, Seat};

use super::*;
use crate::{sample, summarise};

/// Of two scenarios with 400 games each, the attacker wins so many in a thousand under the reference and
/// the arm, with much luck in common.
fn run(hill: (u32, u32), meeting: (u32, u32)) -> RunRecord {
    made(hill, meeting, 389)
}

/// The same, with luck of the arm's own.
fn apart(hill: (u32, u32), meeting: (u32, u32)) -> RunRecord {
    made(hill, meeting, 211)
}

/// Games are won in an order that `own` stirs for the arm: any number without a factor of 400.
fn made(hill: (u32, u32), meeting: (u32, u32), own: u32) -> RunRecord {
    let games = |[hill, meeting]: [u32; 2], stir: u32| -> Vec<sample::Made> {
        let one = |s: usize, share: u32| {
            let won = move |g: u32| g * stir % 400 * 1000 < share * 400;
            (0..400).map(move |g| (s, g, if won(g) { 2.0 } else { -2.0 }))
        };
        one(0, hill).chain(one(1, meeting)).collect()
    };
    let mut run = sample::run(&[games([hill.0, meeting.0], 389), games([hill.1, meeting.1], own)]);
    run.plan.games_per_arm = 800;
    run
}

fn said(summary: &Summary) -> String {
    let arm = &summary.arms[1];
    let advice = next::lines(summary, arm).into_iter().map(|line| {
        let typed: Vec<String> = line.games.into_iter().map(|game| game.command).collect();
        format!("next: {}: {}\n", line.why, typed.join(", "))
    });
    let notes = notes(summary, arm).join("\n");
    std::iter::once(notes + "\n").chain(advice).collect()
}

#[track_caller]
fn says(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "`{part}` is not in:\n{text}");
    }
}

#[test]
fn each_question_of_a_first_reader_has_its_answer() {
    let text = said(&summarise(&run((500, 700), (500, 480))));
    says(
        &text,
        &[
            // Wilson's interval of 472 in 800 (made with the formula of Wilson 1927).
            "Is it fair? The attacker wins 59.0 % of games (95 % 55.6 to 62.4), which may be inside or \
             outside the 40 to 60 % of an even game. It was 50.0 %: further from a half than before.",
            "Does it lengthen the evening? No, by nothing worth noticing: 0.0 minutes at the table",
            "For whom is it worse? For the defender, who wins less often. It differs by scenario: the \
             attacker's wins shift by \u{2212}2.0 pp in meeting and by +20.0 pp in hill.",
            "How sure is it? 800 pairs of games with the same luck: all 8 headline metrics are decided;",
            "Help for the defender in hill, where the attacker wins 70.0 % of games: ruleshift handicap hill \
             --side defender --rules arm-1\n",
            ": ruleshift hunt arm-1\n",
        ],
    );
}

#[test]
fn a_rule_that_changes_nothing_is_called_that() {
    let text = said(&summarise(&run((500, 500), (500, 500))));
    says(
        &text,
        &[
            "50.0 % of games (95 % 46.5 to 53.5), inside the 40 to 60 % of an even game. It was 50.0 %: no \
             difference worth noticing.",
            "Neither side wins clearly less or loses clearly more men.",
            "0 shift clearly.",
        ],
    );
    assert!(!text.contains("differs by scenario") && !text.contains("handicap"), "{text}");
    assert_eq!(text.matches("next: ").count(), 1, "{text}");
}

#[test]
fn what_is_nearer_to_a_half_is_said_to_be() {
    let text = said(&summarise(&run((200, 400), (200, 400))));
    says(
        &text,
        &["It was 20.0 %: nearer to a half than before.", "For the defender, who wins less"],
    );
}

#[test]
fn what_is_open_gets_the_games_it_lacks_with_the_same_field() {
    let mut run = apart((500, 520), (500, 520));
    run.plan.pairings = vec![sample::pairing("bold", "steady")];
    run.plan.arms[0].name = "no-late-fire".into();
    run.plan.arms[1].name = "my rule.rhai".into();
    let summary = summarise(&run);
    let wins = summary.metrics.iter().find(|m| m.metric == "attacker_wins").unwrap();
    assert_eq!(wins.verdict, Verdict::Undecided, "{wins:?}");
    let text = said(&summary);
    says(
        &text,
        &[
            "whether that is a change is undecided",
            "headline metrics are decided, not attacker wins",
            " --base no-late-fire --scenario hill meeting --attacker bold\n",
            "ruleshift compare \"my rule.rhai\" --games ",
            "ruleshift hunt \"my rule.rhai\" --base no-late-fire",
        ],
    );
}

#[test]
fn men_are_lost_by_sides() {
    let mut run = run((500, 500), (500, 500));
    run.games = run.games.changed(|rows| {
        for row in rows.iter_mut().filter(|row| row.arm == 1) {
            row.values[Metric::AttackerLosses as usize] = 0.25;
            row.values[Metric::DefenderLosses as usize] = -0.25;
        }
    });
    let expected = "Neither side wins clearly less. More men are lost: of the attacker's 25.0 % instead of \
                    0.0 %.\n";
    says(&said(&summarise(&run)), &[expected]);
}

#[test]
fn a_longer_evening_is_told_and_shortened() {
    let mut run = run((500, 500), (500, 500));
    run.games = run.games.changed(|rows| {
        for row in rows {
            let more = if row.arm == 1 { 20.0 + f64::from(row.game % 3) } else { 0.0 };
            row.values[Metric::Minutes as usize] = 120.0 + more;
        }
    });
    let text = said(&summarise(&run));
    says(
        &text,
        &[
            "Does it lengthen the evening? Yes: 141.0 minutes at the table instead of 120.0 (+21.0, 95 % ",
            "ruleshift compare arm-1+short-evening:fewer=1 arm-1+short-evening:fewer=2 --scenario hill",
        ],
    );
}

#[test]
fn a_name_that_means_more_to_a_shell_is_left_to_the_reader() {
    let mut run = run((500, 500), (500, 500));
    run.plan.arms[1].name = "rules;$(more)".into();
    says(&said(&summarise(&run)), &[": ruleshift hunt NAME\n"]);
}

#[test]
fn a_command_repeats_the_roster_and_what_is_judged() {
    let mut run = apart((500, 520), (500, 520));
    sample::roster(&mut run, &["steady", "bold"]);
    run.plan.restricted =
        vec![ruleshift_record::Restriction { side: Seat::Defender, without: "rally".into() }];
    run.plan.headline = vec!["attacker_wins".into(), "turns".into()];
    run.plan.notice.insert("turns".into(), 0.5);
    says(
        &said(&summarise(&run)),
        &[" --scenario hill meeting --players steady bold --restrict defender=rally --metric \
           attacker_wins turns --notice turns=0.5\n"],
    );
}

#[test]
fn the_reference_alone_is_fair_or_not() {
    let games = (0..400).map(|g| (0, g, if g % 5 == 0 { 1.0 } else { -1.0 })).collect();
    let section = section(&summarise(&sample::run(&[games])));
    let Some(Block::Notes(notes)) = section.blocks.first() else { panic!("{section:?}") };
    says(
        &notes[0],
        &["The attacker wins 20.0 % of games", "outside the 40 to 60 % of an even game."],
    );
}

#[test]
fn of_many_arms_those_that_shift_most_are_told_of() {
    let games = sample::games(40);
    let by = |more: f64| games.iter().map(|&(s, g, m)| (s, g, m + more)).collect::<Vec<_>>();
    let run = sample::run(&[by(0.0), by(1.0), by(3.0), by(0.0), by(-5.0), by(1.5)]);
    let section = section(&summarise(&run));
    let titles: Vec<&str> = section
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Paragraph(text) => Some(text.as_str()),
            _ => None,
        })
        .collect();
    let next = "What to try next?";
    assert_eq!(titles[..6], ["Arm 2:", next, "Arm 4:", next, "Arm 5:", next]);
    assert!(titles[6].contains("the three that shift most are told of here"), "{titles:?}");
}

#[test]
fn nothing_played_is_nothing_said() {
    assert!(section(&summarise(&sample::run(&[vec![], vec![]]))).blocks.is_empty());
    assert!(section(&summarise(&sample::run(&[vec![]]))).blocks.is_empty());
}
