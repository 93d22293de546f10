//! Many games of one variant, from which comparisons are cut like slices of a loaf.
//!
//! Every game is played once, under the base rules and under the variant with the same luck. A block
//! of games is a comparison of its own: no two blocks share a game, so they are as independent as
//! runs with other seeds, and each goes through what a run goes through.

use std::sync::OnceLock;

use ruleshift_batch::{ArmCast, Cast, ScriptMaker, run};
use ruleshift_game::Arena;
use ruleshift_hooks::Stack;
use ruleshift_record::{GameRow, Metric, MetricKind, Plan, RunRecord, Summary};
use ruleshift_reports::stats::{
    LEVEL, POWER, pairs_for_rate_shift, pairs_for_shift, stratified_mean,
};
use ruleshift_reports::{next, summarise, summarise_shifts};
use ruleshift_scenarios::shipped;

use super::rate::times;
use crate::support::stage::{stack, strategy};

/// The two that play fastest.
const SCENARIOS: [&str; 2] = ["first-evening", "probe"];
/// Two characters, each on both sides: a stratum is one of these in one of the scenarios.
const PAIRINGS: [[&str; 2]; 2] = [["steady", "bold"], ["bold", "steady"]];
/// Games of each scenario in each arm of the two pools, times what the environment says.
const GAMES: u32 = 2_000;

/// The games of two arms, the base rules first.
pub(super) struct Pool {
    plan: Plan,
    /// By arm, then scenario, in the order of their numbers.
    games: [Vec<Vec<GameRow>>; 2],
}

/// The games of a variant that shifts who wins.
pub(super) fn handicap() -> &'static Pool {
    static POOL: OnceLock<Pool> = OnceLock::new();
    POOL.get_or_init(|| Pool::play("handicap", stack("handicap"), 20_261_126, GAMES * times()))
}

/// The games of a variant that shifts how long it takes, and none of those of the other pool.
pub(super) fn no_late_fire() -> &'static Pool {
    static POOL: OnceLock<Pool> = OnceLock::new();
    let name = "no-late-fire";
    POOL.get_or_init(|| Pool::play(name, stack(name), 20_261_127, GAMES * times()))
}

/// Where in the pool the two arms of a comparison begin: arm and number of its first game.
pub(super) type Arms = [(usize, u32); 2];

impl Pool {
    /// A pool of `games` games of each scenario in each arm, the second under `variant`.
    pub(super) fn play(name: &str, variant: Stack, seed: u64, games: u32) -> Pool {
        let plan = Plan { seed, ..plan(name, games * SCENARIOS.len() as u32) };
        let arenas: Vec<Arena> =
            SCENARIOS.iter().map(|name| shipped(name).expect("it is shipped").arena).collect();
        let players = PAIRINGS.map(|pairing| pairing.map(strategy));
        let cast = Cast {
            arenas: arenas.iter().collect(),
            arms: vec![arm(Stack::new(vec![])), arm(variant)],
            player: Box::new(|seat, arm| {
                players[seat.pairing][seat.side as usize].player(&arm.rules, arm.make())
            }),
        };
        let record = run(&plan, &cast, 1, &()).expect("a thread can be started");
        assert_eq!(record.faults, []);
        let mut all = [(); 2].map(|()| vec![Vec::new(); SCENARIOS.len()]);
        for row in record.games.rows().into_owned() {
            all[row.arm][row.scenario].push(row);
        }
        Pool { plan, games: all }
    }

    /// Games of each scenario in each arm.
    pub(super) fn size(&self) -> u32 {
        self.games[0][0].len() as u32
    }

    /// Blocks of so many games of each scenario.
    pub(super) fn blocks(&self, games: u32) -> u32 {
        self.size() / games
    }

    /// A comparison of `games` games of each scenario, as `change` plans it.
    pub(super) fn cut(&self, arms: Arms, games: u32, change: impl FnOnce(&mut Plan)) -> RunRecord {
        let mut plan = self.plan.clone();
        plan.games_per_arm = games * SCENARIOS.len() as u32;
        change(&mut plan);
        let mut rows = vec![];
        for (arm, (from, first)) in arms.into_iter().enumerate() {
            assert_eq!(first % PAIRINGS.len() as u32, 0, "players stay who they are");
            for of_scenario in &self.games[from] {
                let block = &of_scenario[first as usize..(first + games) as usize];
                rows.extend(block.iter().map(|row| {
                    let game = row.game - first;
                    GameRow { arm, game, ..row.clone() }
                }));
            }
        }
        RunRecord { plan, games: rows.into(), faults: vec![] }
    }

    /// Reference and arm value of a metric in every pair, by stratum.
    fn pairs(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        let mut strata = vec![];
        for scenario in 0..SCENARIOS.len() {
            for pairing in 0..PAIRINGS.len() {
                let [base, arm] = [0, 1].map(|arm: usize| &self.games[arm][scenario]);
                let pairs = base.iter().zip(arm).skip(pairing).step_by(PAIRINGS.len());
                strata.push(pairs.map(|(b, a)| (b.get(metric), a.get(metric))).collect());
            }
        }
        strata
    }

    /// The mean shift of a metric over all games, which is the true one of blocks of them.
    pub(super) fn truth(&self, metric: Metric) -> f64 {
        let pairs = self.pairs(metric).concat();
        pairs.iter().map(|(base, arm)| arm - base).sum::<f64>() / pairs.len() as f64
    }

    /// Pairs that show that shift among so many metrics as often as promised, by the rule of an
    /// undecided answer.
    pub(super) fn planned(&self, metric: Metric, family: usize) -> f64 {
        let (strata, level) = (self.pairs(metric), LEVEL / family as f64);
        let planned = match metric.spec().kind {
            MetricKind::Rate => {
                let pairs = strata.concat();
                let share = |change: f64| {
                    let changed = pairs.iter().filter(|(base, arm)| arm - base == change);
                    changed.count() as f64 / pairs.len() as f64
                };
                pairs_for_rate_shift(share(1.0), share(-1.0), level, POWER)
            }
            MetricKind::Number => {
                let shifts: Vec<Vec<f64>> = strata
                    .iter()
                    .map(|s| s.iter().map(|(base, arm)| arm - base).collect())
                    .collect();
                let all = stratified_mean(&shifts).expect("there are games");
                pairs_for_shift(all.value, all.se * (all.count as f64).sqrt(), level, POWER)
            }
        };
        planned.expect("there is a shift")
    }
}

/// Games of each scenario for so many over all: every stratum has as many.
pub(super) fn of_each(games: f64) -> u32 {
    let strata = (SCENARIOS.len() * PAIRINGS.len()) as f64;
    (games / strata).ceil() as u32 * PAIRINGS.len() as u32
}

/// The answer of a run that looks as its plan says: as it is conducted, but that its games are known.
pub(super) fn conduct(whole: &RunRecord) -> Summary {
    let (plan, mut rounds) = (&whole.plan, 0);
    loop {
        let before = plan.games_of_scenario_in(rounds);
        let games = whole.games.changed(|rows| rows.retain(|row| row.game < before));
        let shown = RunRecord { plan: plan.clone(), games, faults: vec![] };
        match next(&shown, rounds) {
            Some(leg) => rounds = leg.rounds,
            None => return summarise_shifts(&shown),
        }
    }
}

fn plan(variant: &str, games: u32) -> Plan {
    let pairing = |[a, d]: [&str; 2]| format!("(attacker: {a:?}, defender: {d:?})");
    let pairings = PAIRINGS.map(pairing).join(", ");
    let text = format!(
        "Plan(arms: [\"base\", {variant:?}], scenarios: {SCENARIOS:?}, pairings: [{pairings}], \
         games_per_arm: {games})"
    );
    Plan::from_ron(&text).expect("it is a plan")
}

fn arm(stack: Stack) -> ArmCast {
    let rules = stack.rules().expect("the stack is sound");
    let script = stack.has_events().then(|| -> ScriptMaker {
        Box::new(move || stack.script().expect("a stack with events has a script"))
    });
    ArmCast { rules, script }
}

/// What a run prints has a closer look besides, which takes most of the time and changes no word.
#[test]
fn the_answer_without_a_closer_look_is_the_same() {
    let record = handicap().cut([(0, 0), (1, 0)], 40, |_| ());
    assert_eq!(summarise(&record).metrics, summarise_shifts(&record).metrics);
}
