//! Trying event hooks on a made-up game when their script is loaded.

use ruleshift_game::{CARD_KINDS, Happening, trial_handle};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::events::StackScript;
use crate::source::Source;

/// Calls of each happening, each with other dice.
const ROUNDS: usize = 4;

/// Calls the event hooks of a script on the made-up game, with all that goes wrong.
pub(crate) fn run(source: &Source, constants: &Constants, hooks: &[usize]) -> Vec<Diagnostic> {
    let mut faults: Vec<Diagnostic> = Vec::new();
    for &hook in hooks {
        let mut script = StackScript::new();
        if let Err(diagnostics) = script.add(source, constants, &[hook]) {
            return diagnostics.list;
        }
        faults.extend(first_fault(&mut script, hook));
    }
    faults
}

/// The first fault of a hook; one that is certain comes before one that the made-up game may
/// have brought about.
fn first_fault(script: &mut StackScript, hook: usize) -> Option<Diagnostic> {
    let calls = happenings().into_iter().filter(|happening| happening.index() == hook);
    let mut doubtful = None;
    for (happening, round) in calls.flat_map(|h| (0..ROUNDS).map(move |round| (h, round))) {
        let mut handle = trial_handle();
        (0..round).for_each(|_| _ = handle.roll());
        let Err((_, diagnostic)) = script.run(happening, &mut handle) else { continue };
        if diagnostic.id != Id::Refused {
            return Some(*diagnostic);
        }
        let help =
            "this is how it went in a made-up game with units 0 to 5, of which 2 and 5 are hidden";
        doubtful.get_or_insert_with(|| diagnostic.warning().help(help));
    }
    doubtful
}

/// Things that may happen in the made-up game, where units 0, 1, 3 and 4 are on the table.
fn happenings() -> Vec<Happening> {
    let mut all = vec![Happening::GameStart];
    all.push(Happening::CardDrawn { card: 0, owner: 2 });
    for card in 1..CARD_KINDS.len() as u8 {
        all.extend([0, 1].map(|owner| Happening::CardDrawn { card, owner }));
    }
    for unit in [0, 1, 3, 4] {
        all.push(Happening::UnitActivated { unit });
        all.extend([1, 3].map(|pins| Happening::UnitPinned { unit, pins }));
    }
    all.extend([1, 2, 8].map(|turn| Happening::TurnEnd { turn }));
    all
}
