//! A game that was taken down, with its name and its end.

use ruleshift_batch::GameEnd;
use ruleshift_reports::watch::Reel;

use super::Take;
use crate::again::Again;

/// The reel of a game.
pub(crate) fn reel(again: &Again, take: Take, end: &GameEnd) -> Reel {
    let (GameEnd::Finished(digest) | GameEnd::Faulted { digest, .. }) = end;
    let last = take.steps.last().map_or("", |step| step.text.as_str());
    let end = match end {
        GameEnd::Finished(_) => last.to_owned(),
        GameEnd::Faulted { fault, .. } => format!("The game stopped: {fault}"),
    };
    Reel {
        arm: again.stack.spec(),
        title: again.title(),
        command: format!("ruleshift replay {}", again.ticket(*digest)),
        end,
        markers: take.markers,
        steps: take.steps,
    }
}
