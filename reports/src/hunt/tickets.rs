//! A game that shows the gain: the style found wins where the usual one loses with the same luck.

use ruleshift_record::{GameRow, Metric, RunRecord, Seat, TicketNote};

use super::games::{FOUND, Four, USUAL};
use crate::format::Scale;

/// Both games under the variant, that of the style found first; none when it never turns a defeat
/// into a win. Rather a game that the base rules would not have turned, and of those the one with
/// the largest swing.
pub(super) fn tickets(run: &RunRecord, fours: &[Four]) -> Vec<TicketNote> {
    let turned = fours.iter().filter(|four| four.edge(true) == 1.0);
    let rank = |four: &Four| (four.surplus() >= 1.0, swing(four));
    let best = turned.fold(None, |best: Option<&Four>, four| match best {
        Some(known) if rank(known) >= rank(four) => best,
        _ => Some(four),
    });
    let Some(four) = best else { return vec![] };
    let side = match four.seat {
        Seat::Attacker => "attacker",
        Seat::Defender => "defender",
    };
    let (found, usual) = (four.game(FOUND, true), four.game(USUAL, true));
    let why = format!(
        "The style found wins as the {side}, {}; the usual one loses with the same luck, {}",
        end(found),
        end(usual)
    );
    vec![note(run, found, why), note(run, usual, "The same game, usual style".to_owned())]
}

/// How much the margin moves towards the style.
fn swing(four: &Four) -> f64 {
    let swing =
        four.game(FOUND, true).get(Metric::Margin) - four.game(USUAL, true).get(Metric::Margin);
    match four.seat {
        Seat::Attacker => swing,
        Seat::Defender => -swing,
    }
}

fn end(game: &GameRow) -> String {
    let (whole, turns) = (Scale::new("turns", 10.0), game.get(Metric::Turns));
    format!("margin {} after {}", whole.signed(game.get(Metric::Margin)), whole.amount(turns))
}

fn note(run: &RunRecord, game: &GameRow, why: String) -> TicketNote {
    TicketNote {
        why,
        arm: run.plan.arms[game.arm].name.clone(),
        ticket: run.ticket(game).to_string(),
    }
}
