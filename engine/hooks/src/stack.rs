//! A rule stack: variants on top of the base rules, in order.

use ruleshift_game::limits::{MAX_COUNTERS, MAX_KINDS_OF_CARD};
use ruleshift_game::{Digest, EventScript, Part, Rules};

use crate::diagnostic::{Diagnostic, Diagnostics, Id};
use crate::evaluate;
use crate::events::StackScript;
use crate::extras::{CardSpec, CounterSpec};
use crate::variant::Variant;

/// Variants in the order in which they change the rules; none for the base rules.
#[derive(Clone, Debug, Default)]
pub struct Stack {
    variants: Vec<Variant>,
}

impl Stack {
    /// A stack of these variants.
    pub fn new(variants: Vec<Variant>) -> Stack {
        Stack { variants }
    }

    /// The variants in order.
    pub fn variants(&self) -> &[Variant] {
        &self.variants
    }

    /// The stack as it is typed: `base`, or the variants joined with `+`.
    pub fn spec(&self) -> String {
        if self.variants.is_empty() {
            return "base".to_owned();
        }
        self.variants.iter().map(Variant::spec).collect::<Vec<_>>().join("+")
    }

    /// The tables of the whole stack.
    ///
    /// # Errors
    /// Answers out of range that come about only because one variant follows another, and more
    /// cards or counters than a game has room for.
    pub fn rules(&self) -> Result<Rules, Diagnostics> {
        Ok(self.steps()?.pop().unwrap_or_default())
    }

    /// The base rules, then the tables after each variant.
    ///
    /// # Errors
    /// As [`Stack::rules`].
    pub fn steps(&self) -> Result<Vec<Rules>, Diagnostics> {
        self.fits()?;
        let mut steps = vec![Rules::base()];
        let Some((first, rest)) = self.variants.split_first() else { return Ok(steps) };
        let mut rules = first.on_base.clone();
        for variant in rest {
            steps.push(rules.clone());
            let hooks = variant.value_hooks();
            let faults = evaluate::apply(&variant.source, &variant.constants, hooks, &mut rules);
            if !faults.is_empty() {
                return Err(Diagnostics::new(&variant.source, faults));
            }
        }
        steps.push(rules);
        Ok(steps)
    }

    /// The cards of all variants in the order in which the game numbers them.
    pub fn cards(&self) -> impl Iterator<Item = &CardSpec> {
        self.variants.iter().flat_map(Variant::cards)
    }

    /// The counters of all variants in the order in which the game numbers them.
    pub fn counters(&self) -> impl Iterator<Item = &CounterSpec> {
        self.variants.iter().flat_map(Variant::counters)
    }

    /// Whether the cards and counters of all variants together find room.
    fn fits(&self) -> Result<(), Diagnostics> {
        let rooms = [("cards", MAX_KINDS_OF_CARD), ("counters", MAX_COUNTERS)];
        let (mut taken, none) = ([0, 0], rhai::Position::NONE);
        for variant in &self.variants {
            let own = [variant.cards().len(), variant.counters().len()];
            for (n, (what, room)) in rooms.iter().enumerate() {
                taken[n] += own[n];
                if taken[n] > *room {
                    let headline = format!(
                        "with this variant the stack has {} {what} of its own, expected at most {room}",
                        taken[n]
                    );
                    let fault = Diagnostic::new(Id::TooLong, &variant.source, none, headline);
                    return Err(Diagnostics::new(&variant.source, vec![fault]));
                }
            }
        }
        Ok(())
    }

    /// Whether any variant has an event hook that does something.
    pub fn has_events(&self) -> bool {
        self.variants.iter().any(|variant| !variant.event_hooks().is_empty())
    }

    /// The event hooks of the stack with an engine of their own, for one worker; none when no
    /// variant has any.
    ///
    /// # Panics
    /// Never for variants that were loaded, since those have been compiled in the same way.
    pub fn script(&self) -> Option<Box<dyn EventScript>> {
        if !self.has_events() {
            return None;
        }
        let mut script = StackScript::new();
        let mut next = Part::default();
        for variant in &self.variants {
            let own = variant.share().behind(next);
            next = own;
            if !variant.event_hooks().is_empty() {
                script
                    .add(&variant.source, &variant.constants, variant.event_hooks(), own)
                    .expect("a variant was compiled when it was loaded");
            }
        }
        Some(Box::new(script))
    }

    /// 8 hexadecimal digits that stand for what the whole stack does.
    ///
    /// # Errors
    /// As [`Stack::rules`].
    pub fn digest(&self) -> Result<String, Diagnostics> {
        let mut digest = Digest::new();
        digest.word(self.rules()?.digest());
        for variant in self.variants.iter().filter(|v| !v.event_hooks().is_empty()) {
            digest.text(&variant.digest());
        }
        Ok(digest.short())
    }
}
