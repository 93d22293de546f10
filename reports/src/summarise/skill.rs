//! Whether skill tells: the stronger player's share of wins under each arm, and its shift.

use ruleshift_record::{Metric, RunRecord, SkillEdge, Verdict};

use super::pairs::{Pair, Pairs};
use crate::stats::{CONFIDENCE, Contest, Edge, Evidence, LEVEL, edge, holm, verdict};

/// The edge of skill under each arm; none without a roster or with too few games.
pub(super) fn edges(run: &RunRecord, pairs: &[Pairs]) -> Vec<SkillEdge> {
    let players = run.plan.roster.len();
    if players < 2 {
        return vec![];
    }
    let contest = |(pair, points): (Pair, (f64, f64))| {
        let pairing = run.plan.pairing(pair.game);
        Contest {
            scenario: pair.scenario,
            round: pair.game / run.plan.pairings.len() as u32,
            attacker: pairing / players,
            defender: pairing % players,
            points,
        }
    };
    let contests = |p: &Pairs| p.all().zip(p.points()).map(contest).collect::<Vec<_>>();
    let found: Vec<(&Pairs, Edge)> =
        pairs.iter().filter_map(|p| Some((p, edge(players, &contests(p))?))).collect();
    let adjusted = holm(&found.iter().map(|(_, e)| e.shift.p()).collect::<Vec<f64>>());
    found
        .iter()
        .zip(adjusted)
        .map(|((p, edge), p_adjusted)| told(run, p, edge, p_adjusted))
        .collect()
}

fn told(run: &RunRecord, pairs: &Pairs, edge: &Edge, p_adjusted: f64) -> SkillEdge {
    let notice = run.plan.notice(Metric::AttackerWins);
    let [reference, share, shift] =
        [&edge.reference, &edge.arm, &edge.shift].map(|e| e.interval(CONFIDENCE));
    let word: Verdict = verdict(&Evidence {
        p_adjusted,
        interval: shift,
        equivalent: edge.shift.equivalence_p(notice) < LEVEL,
        notice,
    });
    SkillEdge {
        arm: run.plan.arms[pairs.arm].name.clone(),
        order: edge.order.iter().map(|&n| run.plan.roster[n].clone()).collect(),
        pairs: u32::try_from(edge.shift.count).unwrap_or(u32::MAX),
        reference: edge.reference.value,
        reference_low: reference.low,
        reference_high: reference.high,
        share: edge.arm.value,
        share_low: share.low,
        share_high: share.high,
        shift: edge.shift.value,
        low: shift.low,
        high: shift.high,
        p: edge.shift.p(),
        p_adjusted,
        notice,
        verdict: word,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    /// Two players; under the reference the first always wins, under the arm it wins `of` 10 games.
    fn run(of: u32) -> RunRecord {
        let games = |blunt: bool| -> Vec<sample::Made> {
            let margin = |g: u32| {
                let (attacker, defender) = (g % 4 / 2, g % 2);
                let first_wins = !blunt || g / 4 % 10 < of;
                let up = if attacker == defender {
                    g.is_multiple_of(3)
                } else {
                    (attacker == 0) == first_wins
                };
                if up { 2.0 } else { -2.0 }
            };
            (0..2).flat_map(|s| (0..160).map(move |g| (s, g, margin(g)))).collect()
        };
        let mut run = sample::run(&[games(false), games(true)]);
        sample::roster(&mut run, &["keen", "dull"]);
        run
    }

    #[test]
    fn a_tweak_that_turns_the_game_into_luck_takes_the_edge_away() {
        let edge = summarise(&run(5)).skill.remove(0);
        assert_eq!((edge.order[0].as_str(), edge.reference), ("keen", 1.0));
        // 40 rounds, of which every fourth ranks; two games of each count, in two scenarios.
        assert_eq!(edge.pairs, 2 * 2 * 30);
        assert!((edge.share - 0.5).abs() < 0.05 && edge.high < -0.3, "{edge:?}");
        assert_eq!(edge.verdict, Verdict::ClearShift);
    }

    #[test]
    fn a_tweak_that_leaves_the_winners_alone_leaves_the_edge() {
        let edge = summarise(&run(10)).skill.remove(0);
        assert_eq!((edge.shift, edge.low, edge.high), (0.0, 0.0, 0.0));
        assert_eq!(edge.verdict, Verdict::NoDifference);
    }
}
