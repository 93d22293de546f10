//! `replay --why`: every decision with what its player made of the choices.

use crate::support::{Run, ruleshift};

/// Exit code for something typed wrongly.
const INPUT: i32 = 2;

/// Lines of decisions: the number with who decides, and the choices below it.
fn of_decision(line: &str) -> bool {
    line.starts_with("      [") || line.starts_with("        > ") || line.starts_with("          ")
}

fn ticket(attacker: &str) -> String {
    let args = format!("base --games 1 --scenario hasty-attack --attacker {attacker}");
    Run::fine(&args).tickets().remove(0)
}

/// The decisions of a game: each line with a number, and the lines below it.
fn decisions(told: &str) -> Vec<Vec<&str>> {
    let mut decisions: Vec<Vec<&str>> = vec![];
    for line in told.lines().filter(|line| of_decision(line)) {
        match decisions.last_mut() {
            Some(last) if !line.starts_with("      [") => last.push(line),
            _ => decisions.push(vec![line]),
        }
    }
    decisions
}

#[test]
fn every_decision_is_told_and_nothing_else_changes() {
    let ticket = ticket("steady");
    let plain = ruleshift(["replay", &ticket, "--no-board"]).fine().out;
    let why = ruleshift(["replay", &ticket, "--no-board", "--why"]).fine().out;
    let story = |text: &str| text[text.find("\n\nTurn 1").expect("a first turn")..].to_owned();
    let rest: Vec<String> =
        story(&why).lines().filter(|line| !of_decision(line)).map(str::to_owned).collect();
    assert_eq!(rest, story(&plain).lines().collect::<Vec<_>>());

    let decisions = decisions(&why);
    assert!(decisions.len() > 100, "{}", decisions.len());
    for (number, decision) in (1..).zip(&decisions) {
        assert!(decision[0].starts_with(&format!("      [{number}] ")), "{decision:?}");
        let chosen = decision.iter().filter(|line| line.starts_with("        > ")).count();
        assert_eq!(chosen, 1, "{decision:?}");
        // A long name goes on below, set in.
        let rows = decision.iter().filter(|line| !line.starts_with(&" ".repeat(20))).count();
        assert!((3..=7).contains(&rows), "at most five and the rest: {decision:?}");
    }
    assert!(why.contains("\n        > do no more "), "doing nothing is a choice too");
}

#[test]
fn one_decision_is_told_alone_with_all_its_choices() {
    let ticket = ticket("steady");
    let why = ruleshift(["replay", &ticket, "--no-board", "--why"]).fine().out;
    let decisions = decisions(&why);
    let counted = decisions.iter().find(|told| told.last().unwrap().contains(" more, down to "));
    let counted = counted.expect("some decision has more choices than are shown");
    let number = counted[0].trim_start().trim_start_matches('[').split(']').next().unwrap();
    let alone = ruleshift(["replay", &ticket, "--why", number]).fine().out;
    assert!(alone.contains("\nTurn ") && alone.contains("\n  Card: "), "{alone}");
    let all = self::decisions(&alone);
    assert_eq!(all.len(), 1, "{alone}");
    let words = |line: &str| line.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(words(all[0][0]), words(counted[0]), "the same who");
    assert_eq!(
        words(all[0][1]),
        words(counted[1]),
        "the same choice, whose figure may stand elsewhere"
    );
    assert!(all[0].len() > counted.len(), "{alone}");
    assert!(!alone.contains(" more alike") && !alone.contains(" more, down"), "{alone}");
    let last = format!("{}", decisions.len());
    ruleshift(["replay", &ticket, "--why", &last]).fine();
}

#[test]
fn chance_says_that_it_chose_by_chance() {
    let why = ruleshift(["replay", &ticket("chance"), "--no-board", "--why"]).fine().out;
    let decisions = decisions(&why);
    let by_chance = decisions.iter().filter(|told| told[1].contains(", by chance, one of "));
    assert!(by_chance.clone().count() > 20);
    for told in by_chance {
        assert!(told[0].contains("] Attacker") && told.len() == 2, "{told:?}");
    }
    let weighed = |told: &&Vec<&str>| told[0].contains("] Defender") && told.len() > 2;
    assert!(decisions.iter().filter(weighed).count() > 20);
}

/// The stories of all games of a variant, with the decisions.
fn told(rules: &str, more: &str) -> String {
    let run = Run::fine(&format!("{rules} --scenario hasty-attack {more}"));
    let tickets = run.tickets();
    let of_rule = tickets.iter().filter(|ticket| !ticket.contains("~base~"));
    of_rule.map(|ticket| ruleshift(["replay", ticket, "--no-board", "--why"]).fine().out).collect()
}

#[track_caller]
fn holds(told: &str, parts: &[&str]) {
    for part in parts {
        assert!(told.contains(part), "{part} is not told");
    }
}

#[test]
fn questions_of_cards_are_told() {
    let told = told("runner+command-post", "--games 8");
    holds(
        &told,
        &["] Attacker, Runner\n", "] Defender, Company commander\n", " option 2 ", " none of it "],
    );
}

#[test]
fn held_fire_is_told() {
    let told = told("held-fire", "--games 10 --attacker chance --defender chance");
    holds(
        &told,
        &[", which holds its fire\n", "> do not fire", "> hold its fire for the enemy's moves"],
    );
}

#[test]
fn slips_are_told() {
    let ticket = ticket("steady");
    ruleshift(["replay", &ticket, "--why", "99999"])
        .fails(INPUT, &["there is no decision 99999: this game has ", "N may be 1 to "]);
    ruleshift(["replay", "--why", &ticket]).fails(INPUT, &["the ticket comes before `--why`"]);
    ruleshift(["replay", &ticket, "--why", "--verify"]).fails(INPUT, &["cannot be used with"]);
    ruleshift(["replay", &ticket, "--why", "--brief"])
        .fails(INPUT, &["no room for decisions: leave out `--brief` or `--why`"]);
}
