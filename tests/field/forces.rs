//! Numbers: an attack on a held place by forces of half to three times its strength.

use std::fmt::Write;
use std::sync::OnceLock;
use std::thread;

use ruleshift_game::{Ground, GroupSetup, Kind, Observer, Rules, Setup, Side};

use super::table::{Row, row};
use super::{SURE, surely_above};
use crate::support::stage::{Stage, cell, fill, group, objective, plain, side};
use crate::support::stats::{Sample, above, wilson};

const GAMES: u64 = 400;

/// Defending sections, and those that attack for each ratio.
const DEFENDERS: usize = 6;
const ATTACKERS: [usize; 6] = [2, 3, 6, 9, 12, 18];

/// Attackers' wins in percent at these ratios in 672 division engagements, 1904 to 1991, and in
/// 116 of Europe 1944 (The Dupuy Institute, 31 and 22 Oct 2019, S). For companies no such table
/// was found: only the shape compares.
const CENTURY: [f64; 6] = [22.0, 42.0, 55.0, 59.0, 71.0, 69.0];
const EUROPE: [Option<f64>; 6] = [None, Some(0.0), Some(0.0), Some(79.0), Some(90.0), Some(100.0)];

/// Places of the ratios 0.33, 0.5, 1, 1.5, 2 and 3 to 1.
const THIRD: usize = 0;
const HALF: usize = 1;
const EVEN: usize = 2;
const MORE: usize = 3;
const DOUBLE: usize = 4;
const TRIPLE: usize = 5;

/// A platoon of so many sections under a leader.
fn platoon(sections: usize) -> GroupSetup {
    let mut units = vec![(Kind::Leader, 2)];
    units.extend((0..sections).map(|_| (Kind::Section, 10)));
    group(&units)
}

/// Platoons of up to three sections.
fn platoons(sections: usize) -> Vec<GroupSetup> {
    (0..sections.div_ceil(3)).map(|n| platoon((sections - 3 * n).min(3))).collect()
}

/// An attack across scattered scrub on a place in `ground`.
fn attack(sections: usize, ground: Ground) -> Setup {
    let mut setup = plain(12);
    fill(&mut setup, ground, (46, 19), (54, 29));
    for (x, y) in [(22, 10), (22, 22), (22, 36), (34, 15), (34, 31)] {
        fill(&mut setup, Ground::Scrub, (x, y), (x + 5, y + 4));
    }
    let spots = [(12, 24), (12, 15), (12, 33), (12, 6), (12, 42), (6, 24)];
    setup.sides.0[0] = side(&spots, platoons(sections));
    setup.sides.0[1] = side(&[(50, 21), (50, 27)], platoons(DEFENDERS));
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

/// Fights at each ratio over a place in one ground.
fn fights(ground: Ground) -> Vec<Result> {
    thread::scope(|scope| {
        let start = |&sections: &usize| scope.spawn(move || fight(attack(sections, ground)));
        let running: Vec<_> = ATTACKERS.iter().map(start).collect();
        running.into_iter().map(|games| games.join().expect("games end")).collect()
    })
}

/// The defender in light cover.
fn covered() -> &'static [Result] {
    static FIGHTS: OnceLock<Vec<Result>> = OnceLock::new();
    FIGHTS.get_or_init(|| fights(Ground::Scrub))
}

/// The defender in the open.
fn open() -> &'static [Result] {
    static FIGHTS: OnceLock<Vec<Result>> = OnceLock::new();
    FIGHTS.get_or_init(|| fights(Ground::Open))
}

/// Row 13: the attacker's chances rise with his numbers, at 1:3, 1:1, 2:1 and 3:1 step by step
/// (Dupuy, 672 cases, S). Row 16: from 0.5:1 to 2:1 beyond doubt (S).
#[test]
fn numbers_win() {
    let wins: Vec<Sample> = covered().iter().map(|result| result.wins).collect();
    let steps = [(EVEN, THIRD, "1:1 over 1:3"), (DOUBLE, EVEN, "2:1 over 1:1")];
    for (more, less, step) in steps {
        surely_above(step, &wins[more], &wins[less]);
    }
    surely_above("3:1 over 1:1", &wins[TRIPLE], &wins[EVEN]);
    surely_above("2:1 over 0.5:1", &wins[DOUBLE], &wins[HALF]);
    for (pair, sections) in wins.windows(2).zip(&ATTACKERS[1..]) {
        assert!(above(&pair[1], &pair[0]) > -SURE, "chances fall towards {sections} sections");
    }
}

/// Row 18: at equal quality, on equal ground, the smaller side loses the larger share (Dupuy's
/// verity 4, S).
#[test]
fn the_smaller_side_loses_the_larger_share() {
    let [attacker, defender] = open()[DOUBLE].losses;
    surely_above("defender of half the strength", &defender, &attacker);
    let [attacker, defender] = open()[HALF].losses;
    surely_above("attacker of half the strength", &attacker, &defender);
}

/// Wins by ratio beside the published ones.
pub(super) fn page() -> String {
    let mut text =
        "attacker : defender   wins on light cover, 95 %   in the open   672 engagements   116, Europe 1944   lost by attacker / defender\n"
            .to_owned();
    for (n, sections) in ATTACKERS.iter().enumerate() {
        let wins = &covered()[n].wins;
        let lost = covered()[n].losses.map(|sample| sample.mean());
        let share = wins.mean();
        let (low, high) = wilson(share, wins.count);
        let europe = EUROPE[n].map_or("-".to_owned(), |percent| format!("{percent:.0} %"));
        let _ = writeln!(
            text,
            "{sections:>8} : {DEFENDERS:<8} {:>9.1} % {:>5.1} to {:>5.1} {:>11.1} % {:>15.0} % {europe:>18} {:>14.0} / {:.0} %",
            100.0 * share,
            100.0 * low,
            100.0 * high,
            100.0 * open()[n].wins.mean(),
            CENTURY[n],
            100.0 * lost[0],
            100.0 * lost[1]
        );
    }
    text
}

pub(super) fn rows() -> Vec<Row> {
    let of = |n: usize| covered()[n].wins.mean();
    let dupuy = "Dupuy Institute 2019, S";
    let [attacker, defender] = open()[DOUBLE].losses;
    let few = defender.mean() / attacker.mean();
    let [attacker, defender] = open()[HALF].losses;
    let more = attacker.mean() / defender.mean();
    let (rises, verity) = ((0.01, 1.0), "Dupuy, S sign");
    vec![
        row(13, "attacker wins, 1:1 less 1:3", of(EVEN) - of(THIRD), rises, dupuy),
        row(13, "attacker wins, 2:1 less 1:1", of(DOUBLE) - of(EVEN), rises, dupuy),
        row(13, "attacker wins, 3:1 less 2:1", of(TRIPLE) - of(DOUBLE), (-0.05, 1.0), dupuy),
        row(14, "attacker wins at 1:1", of(EVEN), (0.3, 0.8), dupuy),
        row(
            14,
            "attacker wins at 1:1, all in the open",
            open()[EVEN].wins.mean(),
            (0.3, 0.8),
            dupuy,
        ),
        row(14, "attacker wins at 1.5:1", of(MORE), (0.5, 0.8), dupuy),
        row(14, "attacker wins at 2:1", of(DOUBLE), (0.5, 0.8), dupuy),
        row(15, "attacker wins at 3:1", of(TRIPLE), (0.65, 1.0), dupuy),
        row(16, "attacker wins, 2:1 less 0.5:1", of(DOUBLE) - of(HALF), rises, dupuy),
        row(18, "losses, half as many / twice as many, defending", few, (1.01, 99.0), verity),
        row(18, "losses, half as many / twice as many, attacking", more, (1.01, 99.0), verity),
    ]
}
