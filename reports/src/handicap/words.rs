//! The answer in sentences.

use ruleshift_record::{HandicapChoice, HandicapStanding, HandicapSummary, Seat};

use crate::format::{counted, fixed};

/// A share in percent: "52.3 %".
fn percent(share: f64) -> String {
    fixed(100.0 * share, 1) + " %"
}

/// A share of wins with its interval.
pub(super) fn wins(choice: &HandicapChoice) -> String {
    let Some(share) = choice.share else { return "not played".to_owned() };
    let (low, high) = (fixed(100.0 * choice.low, 1), fixed(100.0 * choice.high, 1));
    format!("{} ({low} to {high})", percent(share))
}

/// What a choice adds.
pub(super) fn adds(choice: &HandicapChoice) -> &str {
    if choice.adds.is_empty() { "nothing" } else { &choice.adds }
}

/// The word for a standing.
pub(super) fn word(standing: HandicapStanding) -> &'static str {
    match standing {
        HandicapStanding::Fair => "fair",
        HandicapStanding::TooSeldom => "too seldom",
        HandicapStanding::TooOften => "too often",
        HandicapStanding::Open => "open",
    }
}

/// Of whatever was tried, what is nearest, and what is surely fair.
pub(super) fn headline(summary: &HandicapSummary) -> Vec<String> {
    let Some(place) = summary.nearest else { return vec!["Nothing was played.".to_owned()] };
    let (plain, nearest) = (&summary.choices[0], &summary.choices[place]);
    let choices = &summary.choices[1..];
    let found = |standing| choices.iter().filter(|c| c.standing == standing).count();
    let (fair, open) = (found(HandicapStanding::Fair), found(HandicapStanding::Open));
    let all = counted(choices.len() as u64, "choice");
    let as_it_is = match plain.standing {
        HandicapStanding::Open => "whether that is fair is open",
        standing => word(standing),
    };
    let mut told =
        vec![format!("As it is, the attacker wins {} of games: {as_it_is}.", wins(plain))];
    let others = may_be_nearest(&summary.choices).saturating_sub(1) as u64;
    told.push(match (place, others) {
        (0, 0) => "No choice brings that nearer to a half.".to_owned(),
        (0, _) => {
            format!("In these games no choice came nearer to a half, though {others} may be.")
        }
        (_, 0) => format!("Nearest to a half comes {}: {}.", adds(nearest), wins(nearest)),
        _ => {
            let others = counted(others, "other");
            let (nearest, wins) = (adds(nearest), wins(nearest));
            format!("Nearest to a half came {nearest}: {wins}; {others} may be nearer.")
        }
    });
    let range =
        format!("{} to {} %", fixed(100.0 * summary.least, 0), fixed(100.0 * summary.most, 0));
    told.push(match (fair, open) {
        (0, 0) => format!("None of {all} is fair within {range}."),
        (0, _) => {
            format!("None of {all} is surely fair within {range}; {open} may be: play more games.")
        }
        _ => format!("Surely fair within {range}: {fair} of {all}."),
    });
    let seldom = |choice: &HandicapChoice| choice.standing == HandicapStanding::TooSeldom;
    let often = |choice: &HandicapChoice| choice.standing == HandicapStanding::TooOften;
    let wrong_side = match summary.side {
        Seat::Attacker => often(plain),
        Seat::Defender => seldom(plain),
    };
    if wrong_side {
        told.push(format!(
            "It is the other side than the {} that needs help.",
            summary.side.word()
        ));
    }
    told
}

/// How many may be the nearest to a half, as far as the intervals tell: those that may be as near as
/// one surely is. While all intervals hold, the nearest is among them.
fn may_be_nearest(choices: &[HandicapChoice]) -> usize {
    let away = |share: f64| (share - 0.5).abs();
    let most = |choice: &HandicapChoice| away(choice.low).max(away(choice.high));
    let least = |choice: &HandicapChoice| match choice {
        HandicapChoice { low, high, .. } if *low <= 0.5 && 0.5 <= *high => 0.0,
        HandicapChoice { low, high, .. } => away(*low).min(away(*high)),
    };
    let played = || choices.iter().filter(|choice| choice.games > 0);
    let surely = played().map(most).fold(f64::INFINITY, f64::min);
    played().filter(|choice| least(choice) <= surely).count()
}

/// What the reader must keep in mind.
pub(super) fn caveats(summary: &HandicapSummary) -> Vec<String> {
    let mut caveats = vec![
        "Computer players are not your club: what is fair between them is evidence, the table decides."
            .to_owned(),
        "Fair within 40 to 60 % is common practice, from no source; an evening has other virtues."
            .to_owned(),
        "The interval of the choice that comes nearest holds although it was picked for coming nearest: \
         all intervals hold at once with 95 %."
            .to_owned(),
    ];
    if summary.choices.iter().any(|choice| choice.draws > 0) {
        caveats.push("Games that nobody wins count as games the attacker does not win.".to_owned());
    }
    caveats
}
