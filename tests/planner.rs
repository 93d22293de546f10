//! Planners through the program: their games come back, and they say what they weighed.

use crate::support::{Run, ruleshift};

/// Under event hooks of every kind of act, and with something forbidden.
#[test]
fn games_of_planners_come_back_from_their_tickets() {
    let players = "--attacker planner:playouts=8:style=bold --defender planner:playouts=6:turns=1:without=rally";
    let run = Run::fine(&format!(
        "steady-nerves+command-post {players} --scenario first-evening first-tanks --games 4"
    ));
    let tickets = run.tickets();
    assert_eq!(tickets.len(), 8);
    for ticket in &tickets {
        ruleshift(["replay", ticket, "--verify"]).fine();
    }
    let others = Run::fine(&format!(
        "steady-nerves+command-post {players} --scenario first-evening first-tanks --games 4 --threads 1"
    ));
    assert!(others.bytes("games.parquet") == run.bytes("games.parquet"));
}

#[test]
fn a_changed_player_is_told_by_its_ticket() {
    let run = Run::fine("base --attacker planner:playouts=4 --scenario first-evening --games 1");
    let ticket = run.tickets().remove(0);
    let digest = &run.plan().pairings[0].attacker.digest;
    assert_ne!(digest, &run.plan().pairings[0].defender.digest);
    let other = ticket.replace(digest, "00000000");
    let told = ruleshift(["replay", &other, "--verify"]);
    assert!(told.err.contains("the player `planner:playouts=4` has changed"), "{}", told.err);
    // Tickets of old name no digests.
    let old = ticket.replace(&format!("@{digest}"), "");
    ruleshift(["replay", &old, "--verify"]).fine();
}

#[test]
fn a_planner_tells_how_often_it_tried_each_choice() {
    let run = Run::fine("base --attacker planner:playouts=16 --scenario first-evening --games 1");
    let ticket = run.tickets().remove(0);
    let why = ruleshift(["replay", &ticket, "--no-board", "--why"]).fine().out;
    assert!(why.contains(" games)"), "{}", &why[..3000.min(why.len())]);
}

#[test]
fn a_planner_without_a_behaviour_does_without_it() {
    let rallies = |restrict: &str| {
        let players = "--attacker planner:playouts=8 --defender planner:playouts=8";
        let run =
            Run::fine(&format!("base {players} {restrict} --scenario first-evening --games 6"));
        let stories = run.tickets().into_iter();
        let stories = stories.map(|ticket| ruleshift(["replay", &ticket, "--no-board"]).fine().out);
        stories.map(|story| story.matches(" rallies: ").count()).sum::<usize>()
    };
    assert!(rallies("") > 0);
    assert_eq!(rallies("--restrict attacker=rally --restrict defender=rally"), 0);
}
