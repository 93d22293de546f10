//! Players ready to be made: what was typed, looked up.

use std::fmt::Display;

use ruleshift_game::{Digest, EventScript, Player, Rules};

use crate::doctrine::Doctrine;
use crate::nearest::unknown;
use crate::restrict::{Behaviour, Restricted};
use crate::spec::PlayerSpec;

/// Makes the event hooks of a rule stack.
pub type MakeScript<'a> = &'a dyn Fn() -> Box<dyn EventScript>;

/// The option that forbids behaviours.
const WITHOUT: &str = "without";

/// How a player plays, apart from any rules.
#[derive(Clone, Debug)]
pub struct Strategy {
    doctrine: Doctrine,
    /// What is forbidden to it, each once, in the order of [`Behaviour::ALL`].
    without: Vec<Behaviour>,
}

impl Strategy {
    /// The strategy that `spec` names; `find` looks up a doctrine.
    ///
    /// # Errors
    /// All that is wrong with the name and the options, as `find` or this says it.
    pub fn new<E: From<String> + Display>(
        spec: &PlayerSpec,
        find: &mut dyn FnMut(&str) -> Result<Doctrine, E>,
    ) -> Result<Strategy, E> {
        let found = find(&spec.name);
        let (mut without, mut wrong) = (vec![], vec![]);
        for (option, value) in &spec.options {
            let words = if option == WITHOUT {
                behaviours(value)
            } else {
                Err(unknown("option of a player", option, &[WITHOUT]))
            };
            words.map_or_else(|told| wrong.push(told), |words| without = words);
        }
        match found {
            Ok(doctrine) if wrong.is_empty() => Ok(Strategy { doctrine, without }),
            Ok(_) => Err(wrong.join("\n").into()),
            Err(told) if wrong.is_empty() => Err(told),
            Err(told) => Err(format!("{told}\n{}", wrong.join("\n")).into()),
        }
    }

    /// The same strategy, to which one more behaviour is forbidden.
    #[must_use]
    pub fn forbid(mut self, behaviour: Behaviour) -> Strategy {
        self.without.push(behaviour);
        self.without = in_order(&self.without);
        self
    }

    /// Whether that behaviour is forbidden to it.
    pub fn lacks(&self, behaviour: Behaviour) -> bool {
        self.without.contains(&behaviour)
    }

    /// A player of this strategy under the rules of a stack, ready for any number of games.
    pub fn player(&self, rules: &Rules, _script: Option<MakeScript<'_>>) -> Box<dyn Player> {
        let player = crate::player(&self.doctrine, rules);
        if self.without.is_empty() {
            player
        } else {
            Box::new(Restricted::new(player, &self.without))
        }
    }

    /// A short digest of how it plays, apart from its name: 8 hexadecimal digits.
    pub fn digest(&self) -> String {
        let mut digest = Digest::new();
        self.doctrine.digest(&mut digest);
        for behaviour in &self.without {
            digest.text(behaviour.word());
        }
        digest.short()
    }
}

/// The behaviours of a list of words joined with commas, each once.
///
/// # Errors
/// Every word that names none, with the nearest one.
pub fn behaviours(text: &str) -> Result<Vec<Behaviour>, String> {
    let (mut found, mut wrong) = (vec![], vec![]);
    for word in text.split(',') {
        Behaviour::by_word(word.trim()).map_or_else(|told| wrong.push(told), |b| found.push(b));
    }
    if wrong.is_empty() { Ok(in_order(&found)) } else { Err(wrong.join("\n")) }
}

fn in_order(some: &[Behaviour]) -> Vec<Behaviour> {
    Behaviour::ALL.into_iter().filter(|behaviour| some.contains(behaviour)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::doctrine::shipped;

    fn strategy(text: &str) -> Result<Strategy, String> {
        let mut find = |name: &str| {
            let named = shipped().into_iter().find(|d| d.name == name);
            named.ok_or_else(|| format!("there is no doctrine called `{name}`"))
        };
        Strategy::new(&text.parse()?, &mut find)
    }

    #[test]
    fn the_digest_tells_what_is_forbidden_and_not_how_it_was_typed() {
        let digest = |text: &str| strategy(text).unwrap().digest();
        assert_ne!(digest("bold"), digest("bold:without=rally"));
        assert_eq!(digest("bold:without=rally,orders"), digest("bold:without=orders,rally,orders"));
        let forbidden = strategy("bold:without=orders").unwrap().forbid(Behaviour::Rally);
        assert_eq!(forbidden.digest(), digest("bold:without=rally,orders"));
        assert!(forbidden.lacks(Behaviour::Rally) && !forbidden.lacks(Behaviour::Assault));
    }

    #[test]
    fn all_that_is_wrong_is_told_at_once() {
        let told = strategy("blod:without=raly,oders:wihtout=rally").unwrap_err();
        for part in ["`blod`", "mean `rally`?", "mean `orders`?", "mean `without`?"] {
            assert!(told.contains(part), "{part}: {told}");
        }
    }
}
