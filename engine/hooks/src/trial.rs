//! Trying event hooks on a made-up game when their script is loaded.

use ruleshift_game::{EventScript, Part, trial_handle, trial_happenings};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::events::StackScript;
use crate::source::Source;

/// Calls of each happening, each with other dice.
const ROUNDS: u64 = 4;

/// Calls the event hooks of a script on the made-up game, with all that goes wrong.
pub(crate) fn run(
    source: &Source,
    constants: &Constants,
    hooks: &[usize],
    own: Part,
) -> Vec<Diagnostic> {
    let mut faults: Vec<Diagnostic> = Vec::new();
    for &hook in hooks {
        let mut script = StackScript::new();
        if let Err(diagnostics) = script.add(source, constants, &[hook], own) {
            return diagnostics.list;
        }
        faults.extend(first_fault(&mut script, hook, own));
    }
    faults
}

/// The first fault of a hook; one that is certain comes before one that the made-up game may
/// have brought about.
fn first_fault(script: &mut StackScript, hook: usize, own: Part) -> Option<Diagnostic> {
    let calls = trial_happenings(hook, own.cards);
    let mut doubtful = None;
    for (happening, round) in calls.into_iter().flat_map(|h| (0..ROUNDS).map(move |n| (h, n))) {
        // Each call is the only one of its game.
        script.begin();
        let Err((_, diagnostic)) = script.run(happening, &mut trial_handle(happening, round))
        else {
            continue;
        };
        if diagnostic.id != Id::Refused {
            return Some(*diagnostic);
        }
        let help =
            "this is how it went in a made-up game with units 0 to 5, of which 2 and 5 are hidden";
        doubtful.get_or_insert_with(|| diagnostic.warning().help(help));
    }
    doubtful
}
