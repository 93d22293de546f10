//! A made run: no game is played, but its numbers look like games.

use ruleshift_record::{
    Arm, Experiment, FORMAT, GameRow, Metric, Pairing, Plan, PlanScenario, PlayerRef, RunRecord,
    Timing, VariantRef,
};

/// A tiny generator (SplitMix64) for made luck.
pub(crate) struct Luck(pub(crate) u64);

impl Luck {
    /// The next 64 bits.
    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number from 0 to 1, 1 excluded.
    pub(crate) fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// About normal, mean 0 and deviation 1: twelve uniform numbers less six.
    pub(crate) fn bell(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

/// What an arm of a made run does to its games.
pub(crate) struct Made {
    pub(crate) name: &'static str,
    pub(crate) title: &'static str,
    pub(crate) summary: &'static str,
    /// Shift of the margin, in points.
    pub(crate) margin: f64,
    /// Shift of the length, in turns.
    pub(crate) turns: f64,
    /// How much of a game's luck the arm makes its own, from 0 to 1.
    pub(crate) stir: f64,
}

pub(crate) const BASE: Made =
    Made { name: "base", title: "Base rules", summary: "", margin: 0.0, turns: 0.0, stir: 0.0 };

pub(crate) const CARDS: Made = Made {
    name: "two-cards",
    title: "Two turn-end cards",
    summary: "The turn ends when the second one is drawn.",
    margin: 0.1,
    turns: 1.2,
    stir: 0.3,
};

pub(crate) const SCENARIOS: [&str; 3] = ["orchard-road", "mill-bridge", "night-probe"];

/// A run of `games` in each arm.
pub(crate) fn run(arms: &[Made], games: u32) -> RunRecord {
    let plan = plan(arms, games);
    let mut rows = Vec::new();
    for (arm, made) in arms.iter().enumerate() {
        for scenario in 0..SCENARIOS.len() {
            rows.extend(
                (0..plan.games_in_scenario(scenario)).map(|g| game(arm, made, scenario, g)),
            );
        }
    }
    RunRecord { plan, games: rows.into(), faults: vec![] }
}

/// Does something to the games of a run.
pub(crate) fn change(run: &mut RunRecord, change: impl FnOnce(&mut Vec<GameRow>)) {
    run.games = run.games.changed(change);
}

/// Does something to every game of a run.
pub(crate) fn each(run: &mut RunRecord, change_one: impl FnMut(&mut GameRow)) {
    change(run, |rows| rows.iter_mut().for_each(change_one));
}

pub(crate) fn plan(arms: &[Made], games: u32) -> Plan {
    let arm = |made: &Made| Arm {
        name: made.name.into(),
        title: made.title.into(),
        summary: made.summary.into(),
        stack: match made.name {
            "base" => vec![],
            name => vec![VariantRef { name: name.into(), digest: "0123abcd".into() }],
        },
        pairings: vec![],
        probe: None,
    };
    let player = |name: &str| PlayerRef { name: name.into(), digest: "89ab0123".into() };
    let scenario = |name: &&str| PlanScenario {
        name: (*name).into(),
        title: (*name).into(),
        digest: "4567cdef".into(),
    };
    Plan {
        headline: vec![],
        notice: Default::default(),
        stop: None,
        format: FORMAT,
        rules: 1,
        experiment: Experiment::Compare,
        arms: arms.iter().map(arm).collect(),
        scenarios: SCENARIOS.iter().map(scenario).collect(),
        pairings: vec![Pairing { attacker: player("steady"), defender: player("bold") }],
        roster: vec![],
        restricted: vec![],
        games_per_arm: games,
        seed: 42,
        timing: Timing::default(),
    }
}

pub(crate) fn game(arm: usize, made: &Made, scenario: usize, number: u32) -> GameRow {
    let seed = u64::from(number) * 31 + scenario as u64;
    let mut shared = Luck(seed);
    let mut own = Luck(seed ^ 0x5555);
    let mut blend = |spread: f64| {
        let (s, o) = (shared.bell(), own.bell());
        spread * ((1.0 - made.stir) * s + made.stir * o)
    };
    let turns = (8.4 + made.turns + blend(1.6)).round().clamp(3.0, 16.0);
    let margin = (made.margin + scenario as f64 - 1.0 + blend(4.0)).round();
    let mut values = [0.0; Metric::ALL.len()];
    for (n, value) in values.iter_mut().enumerate() {
        *value = (5.0 + n as f64 / 4.0 + blend(1.0)).round();
    }
    let mut set = |metric: Metric, value: f64| values[metric as usize] = value;
    set(Metric::AttackerWins, f64::from(u8::from(margin > 0.0)));
    set(Metric::Drawn, f64::from(u8::from(margin == 0.0)));
    set(Metric::HalfLeaderWins, f64::from(u8::from(blend(1.0) > -0.5)));
    let breaks = blend(1.0) > 1.0;
    set(Metric::EndedByBreak, f64::from(u8::from(breaks)));
    set(Metric::EndedByObjective, f64::from(u8::from(!breaks)));
    set(Metric::EndedByAnnihilation, 0.0);
    set(Metric::Margin, margin);
    set(Metric::Turns, turns);
    set(Metric::Minutes, 11.0 * turns + blend(6.0));
    set(Metric::IdleUnits, (0.34 - 0.06 * made.turns + blend(0.05)).clamp(0.0, 1.0));
    set(Metric::AttackerLosses, (0.26 + blend(0.08)).clamp(0.0, 1.0));
    set(Metric::DefenderLosses, (0.31 + blend(0.08)).clamp(0.0, 1.0));
    set(Metric::LongestWait, (3.0 + blend(1.0)).round().max(0.0));
    let digest = margin.to_bits() ^ turns.to_bits() ^ seed;
    // Evenly from nothing to the end.
    let at = |turn: u16| (margin * f64::from(turn) / turns).round() as i16;
    let margins = (1..=turns as u16).map(at).collect();
    GameRow { arm, scenario, game: number, seed, digest, values, margins }
}
