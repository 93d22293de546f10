//! Players ready to be made: what was typed, looked up.

use ruleshift_game::{Digest, EventScript, Player, Rules};

use crate::doctrine::Doctrine;
use crate::spec::PlayerSpec;

/// Makes the event hooks of a rule stack.
pub type MakeScript<'a> = &'a dyn Fn() -> Box<dyn EventScript>;

/// How a player plays, apart from any rules.
#[derive(Clone, Debug)]
pub struct Strategy {
    doctrine: Doctrine,
}

impl Strategy {
    /// The strategy that `spec` names; `find` looks up a doctrine.
    ///
    /// # Errors
    /// What is wrong with the name or an option, as `find` or this says it.
    pub fn new<E: From<String>>(
        spec: &PlayerSpec,
        find: &mut dyn FnMut(&str) -> Result<Doctrine, E>,
    ) -> Result<Strategy, E> {
        if let Some((option, _)) = spec.options.first() {
            return Err(format!("a player has no option `{option}`").into());
        }
        Ok(Strategy { doctrine: find(&spec.name)? })
    }

    /// A player of this strategy under the rules of a stack, ready for any number of games.
    pub fn player(&self, rules: &Rules, _script: Option<MakeScript<'_>>) -> Box<dyn Player> {
        crate::player(&self.doctrine, rules)
    }

    /// A short digest of how it plays, apart from its name: 8 hexadecimal digits.
    pub fn digest(&self) -> String {
        let mut digest = Digest::new();
        self.doctrine.digest(&mut digest);
        digest.short()
    }
}
