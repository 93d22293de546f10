//! Small made runs for the unit tests.

use ruleshift_record::{
    Arm, Experiment, FORMAT, GameRow, Metric, MetricShift, Pairing, Plan, PlanScenario, PlayerRef,
    RunRecord, Timing, VariantRef, Verdict,
};

/// Scenario, game number and margin of one made game.
pub(crate) type Made = (usize, u32, f64);

/// The seed of a made game.
pub(crate) fn seed(scenario: usize, game: u32) -> u64 {
    u64::from(game) * 10 + scenario as u64
}

/// A run with two scenarios, `hill` and `meeting`, and one arm for each list of games.
pub(crate) fn run(arms: &[Vec<Made>]) -> RunRecord {
    let games = arms.iter().enumerate().flat_map(|(n, g)| g.iter().map(move |g| game(n, *g)));
    RunRecord {
        plan: Plan {
            headline: vec![],
            notice: Default::default(),
            stop: None,
            format: FORMAT,
            rules: 1,
            experiment: Experiment::Compare,
            arms: (0..arms.len()).map(arm).collect(),
            scenarios: ["hill", "meeting"].map(scenario).to_vec(),
            pairings: vec![pairing("steady", "steady")],
            roster: vec![],
            restricted: vec![],
            games_per_arm: 40,
            seed: 7,
            timing: Timing::default(),
        },
        games: games.collect::<Vec<_>>().into(),
        faults: vec![],
    }
}

/// Two players by name.
pub(crate) fn pairing(attacker: &str, defender: &str) -> Pairing {
    let player = |name: &str| PlayerRef { name: name.into(), digest: "89ab0123".into() };
    Pairing { attacker: player(attacker), defender: player(defender) }
}

/// Lets each of the players meet each, in a run of any games.
pub(crate) fn roster(run: &mut RunRecord, players: &[&str]) {
    let against = |a: &&str| players.iter().map(|d| pairing(a, d)).collect::<Vec<_>>();
    run.plan.pairings = players.iter().flat_map(against).collect();
    run.plan.roster = players.iter().map(|&name| name.to_owned()).collect();
}

/// Games shared out over both scenarios, their margins spread from -6 to 6.
pub(crate) fn games(count: u32) -> Vec<Made> {
    let margin = |n: u32| f64::from(n * 7 % 13) - 6.0;
    (0..2).flat_map(|s| (0..count / 2).map(move |g| (s, g, margin(g + s as u32)))).collect()
}

/// A shift without any content.
pub(crate) fn shift(metric: Metric) -> MetricShift {
    let spec = metric.spec();
    MetricShift {
        metric: spec.name.into(),
        unit: spec.unit.into(),
        arm: "arm-1".into(),
        headline: spec.headline,
        pairs: 100,
        reference_mean: 0.4,
        mean: 0.4,
        shift: 0.0,
        low: 0.0,
        high: 0.0,
        p: 1.0,
        p_adjusted: 1.0,
        notice: spec.notice,
        variance_ratio: 1.0,
        verdict: Verdict::NoDifference,
        more_games: 0,
        by_scenario: vec![],
        by_pairing: vec![],
    }
}

fn game(arm: usize, (scenario, number, margin): Made) -> GameRow {
    let mut values = [0.0; Metric::ALL.len()];
    values[Metric::Margin as usize] = margin;
    values[Metric::AttackerWins as usize] = f64::from(u8::from(margin > 0.0));
    values[Metric::Turns as usize] = 8.0;
    // Level until the last of eight turns.
    let margins = vec![0, 0, 0, 0, 0, 0, 0, margin as i16];
    GameRow {
        arm,
        scenario,
        game: number,
        seed: seed(scenario, number),
        digest: 1,
        values,
        margins,
    }
}

fn arm(number: usize) -> Arm {
    match number {
        0 => Arm {
            name: "base".into(),
            title: "Base rules".into(),
            summary: String::new(),
            stack: vec![],
            pairings: vec![],
            probe: None,
        },
        n => Arm {
            name: format!("arm-{n}"),
            title: format!("Arm {n}"),
            summary: "Changes something.".into(),
            stack: vec![VariantRef { name: format!("arm-{n}"), digest: "0123abcd".into() }],
            pairings: vec![],
            probe: None,
        },
    }
}

fn scenario(name: &str) -> PlanScenario {
    PlanScenario { name: name.into(), title: name.into(), digest: "4567cdef".into() }
}
