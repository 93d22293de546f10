use super::*;
use crate::{build, markdown, sample, summarise, vote_sheet};

/// A run in which much shifts, in scenarios that differ.
fn made() -> ruleshift_record::RunRecord {
    let reference = sample::games(400);
    let arm = |by: f64| {
        let shifted = |&(s, g, m): &sample::Made| (s, g, m + by * f64::from(g % 3 + s as u32));
        reference.iter().map(shifted).collect::<Vec<_>>()
    };
    let mut run = sample::run(&[reference.clone(), arm(2.0), arm(-1.0)]);
    run.plan.arms[1].name = "arm-1:cards=3+other".into();
    run
}

/// Runs of digits with their points and commas.
fn numbers(text: &str) -> Vec<String> {
    let part = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let runs = text.split(|c: char| !part(c)).map(|run| run.trim_matches(['.', ',']));
    runs.filter(|run| !run.is_empty()).map(str::to_owned).collect()
}

#[test]
fn every_number_on_a_sheet_stands_in_the_report() {
    let run = made();
    let summary = summarise(&run);
    let known = numbers(&markdown(&build(&summary, &run)));
    let mut found = 0;
    for arm in [1, 2] {
        for number in numbers(&markdown(&build_vote(&summary, arm).unwrap())) {
            assert!(known.contains(&number), "{number} is on the sheet alone");
            found += 1;
        }
    }
    assert!(found > 30, "{found}");
}

#[test]
fn a_sheet_says_what_the_rule_is_and_does() {
    let sheet = build_vote(&summarise(&made()), 1).unwrap();
    let text = markdown(&sheet);
    for words in [
        "# Arm 1\n",
        "Changes something.",
        "with cards = 3, and compared with Base rules.",
        "The margin moves ",
        "No difference worth noticing: length, ",
        "The attacker wins ",
        " in hill to ",
        "ruleshift hunt arm-1:cards=3+other",
        "scenarios disagree on margin",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(!text.contains("Arm 2"), "nothing of another arm: {text}");
}

#[test]
fn the_reference_and_arms_that_are_not_there_have_no_sheet() {
    let summary = summarise(&made());
    assert!([0, 3].iter().all(|&arm| build_vote(&summary, arm).is_none()));
    assert!(build_vote(&summarise(&sample::run(&[])), 1).is_none());
}

#[test]
fn without_games_a_sheet_says_so_and_makes_a_page() {
    let sheet = build_vote(&summarise(&sample::run(&[vec![], vec![]])), 1).unwrap();
    let page = vote_sheet(&sheet);
    assert!(page.contains("Nothing shifts clearly.") && page.ends_with("</html>\n"));
    for room in ["Ayes", "Noes", "Abstentions", "Date", "Notes"] {
        assert!(page.contains(room), "{room}");
    }
}

#[test]
fn options_are_read_off_the_name() {
    assert_eq!(options("a:x=1,y=2+b+c:z=-3"), ["x = 1", "y = 2", "z = -3"]);
    assert!(options("rules/a.rhai").is_empty());
}
