//! Which arms are drawn beside each other: more than a few lines in one picture say nothing.

use ruleshift_record::{ArmSummary, Summary};

use crate::format::{and, count};

/// Arms besides the reference that are drawn together.
const MOST: usize = 3;

/// How far an arm shifts over the headline metrics, in multiples of what is noticed.
pub(super) fn size(summary: &Summary, arm: &ArmSummary) -> f64 {
    let own = summary.metrics.iter().filter(|m| m.headline && m.arm == arm.name);
    own.map(|m| (m.shift / m.notice).abs()).filter(|size| size.is_finite()).sum()
}

/// The places of the arms that are drawn: the reference and those that shift most, in their order.
pub(super) fn drawn(summary: &Summary) -> Vec<usize> {
    let mut others: Vec<usize> = (1..summary.arms.len()).collect();
    let size = |&n: &usize| size(summary, &summary.arms[n]);
    // Of two that shift alike, the first comes first.
    others.sort_by(|a, b| size(b).total_cmp(&size(a)));
    others.truncate(MOST);
    others.sort_unstable();
    (0..summary.arms.len().min(1)).chain(others).collect()
}

/// The arms that are drawn.
pub(super) fn arms(summary: &Summary) -> Vec<&ArmSummary> {
    drawn(summary).into_iter().map(|n| &summary.arms[n]).collect()
}

/// Their titles, in drawing order.
pub(super) fn titles(summary: &Summary) -> Vec<String> {
    arms(summary).into_iter().map(|arm| arm.title.clone()).collect()
}

/// That only some arms are drawn, as a sentence behind another; nothing when all of them are.
pub(super) fn told(summary: &Summary) -> String {
    let others = summary.arms.len().saturating_sub(1);
    let shown = arms(summary);
    if others <= MOST {
        return String::new();
    }
    let names: Vec<String> = shown.iter().skip(1).map(|arm| arm.name.clone()).collect();
    format!(
        " Of {} arms, only the reference and the three that shift most are drawn: {}.",
        count(1 + others as u64),
        and(&names)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn the_reference_and_the_three_that_shift_most_are_drawn_in_their_order() {
        let games = sample::games(40);
        let by = |more: f64| games.iter().map(|&(s, g, m)| (s, g, m + more)).collect::<Vec<_>>();
        let few = summarise(&sample::run(&[by(0.0), by(1.0), by(3.0), by(2.0)]));
        assert_eq!((drawn(&few), told(&few)), (vec![0, 1, 2, 3], String::new()));
        let many =
            summarise(&sample::run(&[by(0.0), by(1.0), by(3.0), by(0.0), by(-5.0), by(1.5)]));
        assert_eq!(drawn(&many), [0, 2, 4, 5]);
        assert_eq!(
            told(&many),
            " Of 6 arms, only the reference and the three that shift most are drawn: arm-2, arm-4 \
             and arm-5."
        );
        assert!(drawn(&summarise(&sample::run(&[]))).is_empty());
    }
}
