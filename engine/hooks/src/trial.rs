//! Trying event hooks on a made-up game when their script is loaded.

use ruleshift_game::{
    Act, Card, EventScript, Happening, Part, Side, trial_handle, trial_happenings,
};

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
    let mut trial = Trial { own, put_in: Vec::new() };
    let (cards, others): (Vec<usize>, Vec<usize>) = hooks.iter().partition(|&&n| about_cards(n));
    let mut faults: Vec<Diagnostic> = Vec::new();
    // What becomes of a card is tried once it is known for whom the script puts it in.
    for hook in others.into_iter().chain(cards) {
        let mut script = StackScript::new();
        if let Err(diagnostics) = script.add(source, constants, &[hook], own) {
            return diagnostics.list;
        }
        faults.extend(trial.first_fault(&mut script, hook));
    }
    faults
}

/// Whether a hook is about cards of the script's own.
fn about_cards(hook: usize) -> bool {
    trial_happenings(hook, 1).first().is_some_and(|happening| card(*happening).is_some())
}

/// The card of the script's own that a happening is about, and whose it is.
fn card(happening: Happening) -> Option<(u8, Option<Side>)> {
    match happening {
        Happening::ExtraCard { card, owner } | Happening::Chosen { card, owner, .. } => {
            Some((card, owner))
        }
        _ => None,
    }
}

struct Trial {
    own: Part,
    /// The script's own cards that it has put into the deck so far, and whose they were.
    put_in: Vec<(u8, Option<Side>)>,
}

impl Trial {
    /// The first fault of a hook; one that is certain comes before one that the made-up game may
    /// have brought about.
    fn first_fault(&mut self, script: &mut StackScript, hook: usize) -> Option<Diagnostic> {
        let calls = trial_happenings(hook, self.own.cards).into_iter();
        let calls: Vec<Happening> = calls.filter(|happening| self.comes_up(*happening)).collect();
        let mut doubtful = None;
        for (happening, round) in calls.into_iter().flat_map(|h| (0..ROUNDS).map(move |n| (h, n))) {
            // Each call is the only one of its game.
            script.begin();
            let mut handle = trial_handle(happening, round);
            let result = script.run(happening, &mut handle);
            self.put_in.extend(handle.acts().iter().filter_map(|act| match act {
                Act::AddCard(Card::Extra(card, owner, _)) => Some((*card, *owner)),
                _ => None,
            }));
            let Err((_, diagnostic)) = result else { continue };
            if diagnostic.id != Id::Refused {
                return Some(*diagnostic);
            }
            let help = "this is how it went in a made-up game with units 0 to 5, of which 2 and 5 are hidden and 4 may ride";
            doubtful.get_or_insert_with(|| diagnostic.warning().help(help));
        }
        doubtful
    }

    /// Whether a card can come up: all can where none was seen to be put in.
    fn comes_up(&self, happening: Happening) -> bool {
        self.put_in.is_empty() || card(happening).is_none_or(|card| self.put_in.contains(&card))
    }
}
