//! A rule stack: variants on top of the base rules, in order.

use ruleshift_game::{Digest, EventScript, Rules};

use crate::diagnostic::Diagnostics;
use crate::evaluate;
use crate::events::StackScript;
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
    /// Answers out of range that come about only because one variant follows another.
    pub fn rules(&self) -> Result<Rules, Diagnostics> {
        Ok(self.steps()?.pop().unwrap_or_default())
    }

    /// The base rules, then the tables after each variant.
    ///
    /// # Errors
    /// As [`Stack::rules`].
    pub fn steps(&self) -> Result<Vec<Rules>, Diagnostics> {
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
        for variant in self.variants.iter().filter(|v| !v.event_hooks().is_empty()) {
            script
                .add(&variant.source, &variant.constants, variant.event_hooks())
                .expect("a variant was compiled when it was loaded");
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
