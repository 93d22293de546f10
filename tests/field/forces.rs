//! Numbers: an attack on a held place by forces of half to three times its strength.

use ruleshift_game::{Ground, GroupSetup, Kind, Observer, Rules, Setup, Side};

use super::table::Row;
use super::{SURE, surely_above};
use crate::support::stage::{Stage, cell, fill, group, objective, plain, side};
use crate::support::stats::{Sample, above};

const GAMES: u64 = 600;

/// Attacking sections for each ratio to the four that defend.
const RATIOS: [(f64, usize); 5] = [(0.5, 2), (1.0, 4), (1.5, 6), (2.0, 8), (3.0, 12)];

/// A platoon of so many sections under a leader.
fn platoon(sections: usize) -> GroupSetup {
    let mut units = vec![(Kind::Leader, 2)];
    units.extend((0..sections).map(|_| (Kind::Section, 10)));
    group(&units)
}

/// Platoons of up to four sections.
fn platoons(sections: usize) -> Vec<GroupSetup> {
    (0..sections.div_ceil(4)).map(|n| platoon((sections - 4 * n).min(4))).collect()
}

/// The place in the middle of scattered scrub; in `ground`.
fn attack(sections: usize, ground: Ground) -> Setup {
    let mut setup = plain(12);
    fill(&mut setup, ground, (46, 19), (54, 29));
    for (x, y) in [(22, 10), (22, 22), (22, 36), (34, 15), (34, 31)] {
        fill(&mut setup, Ground::Scrub, (x, y), (x + 5, y + 4));
    }
    let spots: [(i32, i32); 3] = [(12, 24), (12, 12), (12, 36)];
    setup.sides.0[0] = side(&spots, platoons(sections));
    setup.sides.0[1] = side(&[(50, 24)], platoons(4));
    setup.sides.0.iter_mut().for_each(|side| side.break_point = 40);
    setup.objectives = vec![objective(cell(50, 24), 5)];
    setup.objectives[0].holder = Some(Side::Defender);
    setup
}

/// What came of the attacks: wins, and the share each side lost.
struct Result {
    wins: Sample,
    losses: [Sample; 2],
}

#[derive(Default)]
struct Losses([f64; 2]);

impl Observer for Losses {
    fn event(&mut self, event: &ruleshift_game::Event, state: &ruleshift_game::State) {
        if matches!(event, ruleshift_game::Event::GameEnded { .. }) {
            self.0 = [Side::Attacker, Side::Defender].map(|side| {
                let (lost, first) = state.losses(side);
                f64::from(lost) / f64::from(first)
            });
        }
    }
}

fn fight(setup: Setup) -> Result {
    let stage = Stage::new(setup, Rules::base());
    let mut result = Result { wins: Sample::default(), losses: [Sample::default(); 2] };
    for seed in 0..GAMES {
        let mut losses = Losses::default();
        let outcome = stage.doctrines(seed, ["steady", "steady"], &mut losses);
        result.wins.add(f64::from(u8::from(outcome.winner == Some(Side::Attacker))));
        result.losses.iter_mut().zip(losses.0).for_each(|(sample, lost)| sample.add(lost));
    }
    result
}

fn wins() -> Vec<Sample> {
    RATIOS.iter().map(|&(_, sections)| fight(attack(sections, Ground::Scrub)).wins).collect()
}

/// Row 13: the attacker's chances rise with his numbers (Dupuy, 672 cases, S). Row 16: from 0.5 : 1
/// to 2 : 1 beyond doubt (S).
#[test]
fn numbers_win() {
    let wins = wins();
    surely_above("3 : 1 over 0.5 : 1", &wins[4], &wins[0]);
    surely_above("2 : 1 over 0.5 : 1", &wins[3], &wins[0]);
    for (pair, ratio) in wins.windows(2).zip(&RATIOS[1..]) {
        assert!(above(&pair[1], &pair[0]) > -SURE, "chances fall towards {} : 1", ratio.0);
    }
}

/// Row 18: at equal quality, on equal ground, the smaller side loses the larger share (Dupuy's
/// verity 4, S).
#[test]
fn the_smaller_side_loses_the_larger_share() {
    let [attacker, defender] = fight(attack(8, Ground::Open)).losses;
    surely_above("defender of half the strength", &defender, &attacker);
    let [attacker, defender] = fight(attack(2, Ground::Open)).losses;
    surely_above("attacker of half the strength", &attacker, &defender);
}

pub(super) fn rows() -> Vec<Row> {
    let wins = wins();
    let row = |number, what, value: &Sample, range| Row {
        number,
        what,
        value: value.mean(),
        range,
        source: "Dupuy, S",
    };
    vec![
        row("16", "attacker wins at 0.5 : 1", &wins[0], (0.0, 0.5)),
        row("14", "attacker wins at 1 : 1", &wins[1], (0.3, 0.8)),
        row("14", "attacker wins at 1.5 : 1", &wins[2], (0.5, 0.8)),
        row("14", "attacker wins at 2 : 1", &wins[3], (0.5, 0.8)),
        row("15", "attacker wins at 3 : 1", &wins[4], (0.65, 1.0)),
    ]
}
