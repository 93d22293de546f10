//! Strengths of players: against published values, and under changes of names and counts.

use proptest::prelude::*;
use ruleshift_reports::stats::{LogOdds, NoStrengths, Pairing, SideTerm, Strengths, strengths};

fn pairing(attacker: usize, defender: usize, wins: u64, losses: u64) -> Pairing {
    Pairing { attacker, defender, wins, draws: 0, losses }
}

/// Results of the American League East in 1987, printed as table 10.11 of Agresti (2002)
/// Categorical Data Analysis, 2nd edition: home, away, wins at home, wins away. Teams by number in
/// the order of their wins.
const LEAGUE: [(usize, usize, u64, u64); 42] = [
    (0, 1, 4, 3),
    (0, 2, 4, 2),
    (0, 3, 4, 3),
    (0, 4, 6, 1),
    (0, 5, 4, 2),
    (0, 6, 6, 0),
    (1, 0, 3, 3),
    (1, 2, 4, 2),
    (1, 3, 4, 3),
    (1, 4, 6, 0),
    (1, 5, 6, 1),
    (1, 6, 4, 3),
    (2, 0, 2, 5),
    (2, 1, 4, 3),
    (2, 3, 2, 4),
    (2, 4, 4, 3),
    (2, 5, 4, 2),
    (2, 6, 6, 0),
    (3, 0, 3, 3),
    (3, 1, 5, 1),
    (3, 2, 2, 5),
    (3, 4, 4, 3),
    (3, 5, 4, 2),
    (3, 6, 6, 1),
    (4, 0, 5, 1),
    (4, 1, 2, 5),
    (4, 2, 3, 3),
    (4, 3, 4, 2),
    (4, 5, 5, 2),
    (4, 6, 6, 0),
    (5, 0, 2, 5),
    (5, 1, 3, 3),
    (5, 2, 3, 4),
    (5, 3, 4, 3),
    (5, 4, 4, 2),
    (5, 6, 2, 4),
    (6, 0, 2, 5),
    (6, 1, 1, 5),
    (6, 2, 1, 6),
    (6, 3, 2, 4),
    (6, 4, 1, 6),
    (6, 5, 3, 4),
];

fn league(side: SideTerm) -> Strengths {
    let games: Vec<Pairing> = LEAGUE.iter().map(|&(h, a, w, l)| pairing(h, a, w, l)).collect();
    strengths(7, &games, 6, side).unwrap()
}

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-7 * expected.abs(), "{found} is not {expected}");
}

/// Strengths without a term for the home team: printed to two decimals by Agresti (section 10.6),
/// ten digits recomputed (statsmodels 0.15, GLM; and by the MM steps of Hunter 2004, Annals of
/// Statistics 32:384-406).
#[test]
fn league_without_a_term_for_the_side() {
    let fit = league(SideTerm::None);
    let expected = [
        (1.581355877, 0.3432559816),
        (1.436408432, 0.3395685064),
        (1.294485124, 0.3366694014),
        (1.247617845, 0.3358609225),
        (1.107697705, 0.333878207),
        (0.6838527692, 0.3318766727),
    ];
    for (team, (value, se)) in expected.into_iter().enumerate() {
        close(fit.of(team).value, value);
        close(fit.of(team).se, se);
    }
    assert_eq!(fit.of(6), LogOdds { value: 0.0, se: 0.0 });
    close(fit.deviance, 44.05346123);
    assert_eq!((fit.df, fit.added, fit.advantage()), (36, 0, None));
}

/// The same with an advantage of the home team: 0.302 printed by Agresti, digits recomputed.
#[test]
fn league_with_an_advantage_of_the_home_team() {
    let fit = league(SideTerm::Attacker);
    let expected = [1.619554994, 1.475357214, 1.327110398, 1.281340403, 1.143802653, 0.7046944569];
    for (team, value) in expected.into_iter().enumerate() {
        close(fit.of(team).value, value);
    }
    let home = fit.advantage().unwrap();
    close(home.value, 0.3022606555);
    close(home.se, 0.1309437075);
    close(home.value.exp(), 1.352913825);
    close(fit.deviance, 38.64285214);
    assert_eq!((fit.df, fit.added), (35, 0));
}

#[test]
fn two_players_are_a_table_of_two_by_two() {
    // Log odds 30:20 at home and 10:40 away: strength and side are their half difference and half
    // sum.
    let fit = strengths(2, &[pairing(0, 1, 30, 20), pairing(1, 0, 40, 10)], 1, SideTerm::Attacker)
        .unwrap();
    let (home, away) = (1.5_f64.ln(), 4.0_f64.ln());
    close(fit.of(0).value, (home - away) / 2.0);
    close(fit.advantage().unwrap().value, (home + away) / 2.0);
    let spread: f64 = [30.0_f64, 20.0, 40.0, 10.0].iter().map(|n| 1.0 / n).sum();
    close(fit.of(0).se, spread.sqrt() / 2.0);
    close(fit.attacker_chance(0, 1), 0.6);
    assert_eq!(fit.df, 0);
}

#[test]
fn a_draw_is_half_a_win_for_each() {
    let drawn = |draws| Pairing { draws, ..pairing(0, 1, 6 - draws / 2, 8 - draws / 2) };
    let of = |draws| strengths(2, &[drawn(draws)], 1, SideTerm::None).unwrap().of(0);
    assert_eq!(of(0), of(4));
}

#[test]
fn who_lost_everything_still_has_a_strength() {
    let mut games: Vec<Pairing> = Vec::new();
    for (a, b) in [(0, 1), (1, 0)] {
        games.push(pairing(a, b, 220, 180));
        games.extend([pairing(a, 2, 400, 0), pairing(2, a, 0, 400)]);
    }
    let fit = strengths(3, &games, 0, SideTerm::Attacker).unwrap();
    assert_eq!(fit.added, 1);
    let last = fit.of(2).interval(0.95);
    assert!(last.low > -20.0 && last.high < -4.0, "{last:?}");
    // One drawn game in 401 hardly moves those who did meet their match.
    assert!((fit.of(1).value).abs() < 1e-9);
    assert!((fit.advantage().unwrap().value - (220.0_f64 / 180.0).ln()).abs() < 0.01);
}

#[test]
fn games_that_cannot_tell_say_why() {
    let apart = [pairing(0, 1, 3, 3), pairing(2, 3, 1, 2)];
    let fault = |games: &[Pairing], side| strengths(4, games, 0, side).unwrap_err();
    assert_eq!(fault(&apart, SideTerm::None), NoStrengths::Apart(vec![vec![0, 1], vec![2, 3]]),);
    let one_way = [pairing(0, 1, 3, 3), pairing(0, 2, 3, 3), pairing(0, 3, 3, 3)];
    assert_eq!(fault(&one_way, SideTerm::Attacker), NoStrengths::Sides);
    assert_eq!(fault(&[pairing(0, 4, 1, 1)], SideTerm::None), NoStrengths::Unknown);
    assert_eq!(strengths(0, &[], 0, SideTerm::None), Err(NoStrengths::Unknown));
    assert_eq!(strengths(1, &[], 0, SideTerm::None).unwrap().of(0).value, 0.0);
}

const PLAYERS: usize = 4;

/// Counts of a round robin of four, both sides, some of them with nothing but wins.
fn round_robin() -> impl Strategy<Value = Vec<Pairing>> {
    let cell = (0..9_u64, 0..3_u64, 0..9_u64);
    proptest::collection::vec(cell, PLAYERS * (PLAYERS - 1)).prop_map(|cells| {
        let pairs = (0..PLAYERS).flat_map(|a| (0..PLAYERS).map(move |d| (a, d)));
        let pairs = pairs.filter(|(a, d)| a != d);
        pairs
            .zip(cells)
            .map(|((attacker, defender), (wins, draws, losses))| Pairing {
                attacker,
                defender,
                wins: wins + u64::from(draws + losses == 0),
                draws,
                losses,
            })
            .collect()
    })
}

fn all(fit: &Strengths) -> Vec<LogOdds> {
    (0..PLAYERS).map(|p| fit.of(p)).chain(fit.advantage()).collect()
}

fn alike(found: &[LogOdds], expected: &[LogOdds], se_factor: f64) -> Result<(), TestCaseError> {
    for (f, e) in found.iter().zip(expected) {
        prop_assert!((f.value - e.value).abs() < 1e-8 * e.value.abs().max(1.0), "{f:?} {e:?}");
        let se = e.se * se_factor;
        prop_assert!((f.se - se).abs() <= 1e-7 * se, "{f:?} {e:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn other_numbers_for_the_players_number_their_strengths(
        games in round_robin(),
        by in 0..PLAYERS,
    ) {
        let turn = |p: usize| (p + by) % PLAYERS;
        let turned: Vec<Pairing> = games
            .iter()
            .map(|p| Pairing { attacker: turn(p.attacker), defender: turn(p.defender), ..*p })
            .collect();
        let one = strengths(PLAYERS, &games, 0, SideTerm::Attacker).unwrap();
        let other = strengths(PLAYERS, &turned, turn(0), SideTerm::Attacker).unwrap();
        let back: Vec<LogOdds> =
            (0..PLAYERS).map(|p| other.of(turn(p))).chain(other.advantage()).collect();
        alike(&back, &all(&one), 1.0)?;
    }

    #[test]
    fn twice_the_games_have_half_the_variance(games in round_robin()) {
        let one = strengths(PLAYERS, &games, 1, SideTerm::Attacker).unwrap();
        prop_assume!(one.added == 0);
        let twice: Vec<Pairing> = games
            .iter()
            .map(|p| Pairing { wins: 2 * p.wins, draws: 2 * p.draws, losses: 2 * p.losses, ..*p })
            .collect();
        let other = strengths(PLAYERS, &twice, 1, SideTerm::Attacker).unwrap();
        alike(&all(&other), &all(&one), 0.5_f64.sqrt())?;
        prop_assert!((other.deviance - 2.0 * one.deviance).abs() < 1e-7 * one.deviance.max(1.0));
    }

    /// At the top each player has won as many games as foreseen, and so has the attacker.
    #[test]
    fn foreseen_wins_are_the_wins_there_were(games in round_robin()) {
        let fit = strengths(PLAYERS, &games, 2, SideTerm::Attacker).unwrap();
        let (mut left, mut attackers) = ([0.0; PLAYERS], 0.0);
        for p in &games {
            let draws = p.draws + u64::from(fit.added);
            let count = (p.wins + draws + p.losses) as f64;
            let more = p.wins as f64 + draws as f64 / 2.0
                - count * fit.attacker_chance(p.attacker, p.defender);
            left[p.attacker] += more;
            left[p.defender] -= more;
            attackers += more;
        }
        let even = left.iter().chain([&attackers]).all(|l| l.abs() < 1e-7);
        prop_assert!(even, "{left:?} {attackers}");
    }
}

#[test]
fn drawn_games_between_equals_move_nobody() {
    let mut games = vec![pairing(0, 1, 5, 5), pairing(1, 0, 5, 5)];
    games.extend([
        pairing(0, 2, 7, 3),
        pairing(2, 0, 4, 6),
        pairing(1, 2, 7, 3),
        pairing(2, 1, 4, 6),
    ]);
    let of = |games: &[Pairing]| strengths(3, games, 2, SideTerm::None).unwrap();
    let before = of(&games);
    games.push(pairing(0, 1, 50, 50));
    let after = of(&games);
    assert!((before.of(0).value - after.of(0).value).abs() < 1e-12);
    assert!((before.of(0).value - before.of(1).value).abs() < 1e-12);
    assert!(after.difference(0, 1).se < before.difference(0, 1).se);
}
