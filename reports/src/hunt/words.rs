//! The answer of a hunt in sentences.

use ruleshift_record::{HuntGain, HuntPlan, HuntSummary, HuntVerdict, Seat};

use crate::format::{Scale, counted};

/// How shares of games won print, and what they shift by.
pub(super) fn share() -> Scale<'static> {
    Scale::new("share", 0.01)
}

/// A gain with its interval: "+4.1 pp, 95 % +3.0 to +5.2".
fn told(gain: &HuntGain) -> String {
    format!("{}, 95 % {}", share().shift(gain.value), share().interval(gain.low, gain.high))
}

/// The name of the usual style.
pub(super) fn usual(hunt: &HuntPlan) -> &str {
    let pairing = hunt.judged.pairings.first().zip(hunt.seats.first());
    pairing.map_or("", |(pairing, seat)| match seat {
        Seat::Attacker => &pairing.attacker.name,
        Seat::Defender => &pairing.defender.name,
    })
}

pub(super) fn headline(hunt: &HuntPlan, summary: &HuntSummary) -> Vec<String> {
    let (whole, title) = (&summary.whole, &summary.title);
    let (usual, base) = (usual(hunt), &hunt.judged.arms[0].title);
    let tried = counted(u64::from(summary.trail.tried), "style");
    let shares = format!(
        "the style found wins {} of games under it, {usual} {} in the same seats with the same luck \
         ({})",
        share().value(whole.variant.found),
        share().value(whole.variant.usual),
        told(&whole.variant.gain)
    );
    let without = format!(
        "under {} it gains {}, so that the variant gives it {} ({})",
        lower(base),
        share().shift(whole.base.gain.value),
        share().shift(whole.surplus.value),
        share().interval(whole.surplus.low, whole.surplus.high)
    );
    let word = summary.verdict.word();
    match summary.verdict {
        HuntVerdict::Exploit => vec![format!(
            "{title} {word}: {shares}; {without}. Both are surely more than the {} worth noticing.",
            share().amount(summary.gain)
        )],
        HuntVerdict::NotFound => vec![
            format!(
                "{title}: {word}. The best of {tried}: {shares}; {without}. {}",
                at_most(summary.at_most)
            ),
            "Not finding is no proof: a style that was not tried may gain more.".to_owned(),
        ],
    }
}

/// What is not ruled out.
fn at_most(most: f64) -> String {
    if most > 0.0 {
        format!("From the variant a style like it could still gain up to {}.", share().amount(most))
    } else {
        "From the variant it surely gains nothing.".to_owned()
    }
}

/// "Base rules" in the middle of a sentence.
fn lower(title: &str) -> String {
    if title == "Base rules" { "the base rules".to_owned() } else { title.to_owned() }
}
