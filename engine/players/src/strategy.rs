//! Players ready to be made: what was typed, looked up.

use std::fmt::Display;
use std::str::FromStr;

use ruleshift_game::{Digest, EventScript, Rules};

use crate::doctrine::Doctrine;
use crate::nearest::unknown;
use crate::planner::{Planner, Planning};
use crate::restrict::{Behaviour, Restricted};
use crate::spec::PlayerSpec;
use crate::weighing::Weighing;

/// Makes the event hooks of a rule stack.
pub type MakeScript<'a> = &'a dyn Fn() -> Box<dyn EventScript>;

/// Name of the player that looks ahead.
pub const PLANNER: &str = "planner";

/// The option that forbids behaviours.
const WITHOUT: &str = "without";
/// The option that gives a doctrine weights of its own.
pub const WEIGHTS: &str = "weights";
/// The options of a planner besides.
const PLAYOUTS: &str = "playouts";
const TURNS: &str = "turns";
const STYLE: &str = "style";

/// How a player plays, apart from any rules.
#[derive(Clone, Debug)]
pub struct Strategy {
    mind: Mind,
    /// What is forbidden to it, each once, in the order of [`Behaviour::ALL`].
    without: Vec<Behaviour>,
}

#[derive(Clone, Debug)]
enum Mind {
    Doctrine(Doctrine),
    Planner(Planning),
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
        let planner = spec.name == PLANNER;
        let value = |option: &str| {
            let typed = spec.options.iter().find(|(name, _)| name == option);
            typed.map(|(_, value)| value.as_str())
        };
        let known: &[&str] =
            if planner { &[PLAYOUTS, TURNS, STYLE, WITHOUT] } else { &[WITHOUT, WEIGHTS] };
        let mut wrong: Vec<String> = (spec.options.iter())
            .filter(|(option, _)| !known.contains(&option.as_str()))
            .map(|(option, _)| unknown("option of a player", option, known))
            .collect();
        let mut note = |told: String| wrong.push(told);
        let without = value(WITHOUT).map_or(Ok(vec![]), behaviours);
        let without = without.map_err(&mut note).unwrap_or_default();
        let name = if planner { value(STYLE).unwrap_or(Planning::STYLE) } else { &spec.name };
        let found = find(name).and_then(|doctrine| match value(WEIGHTS).filter(|_| !planner) {
            Some(weights) => doctrine.weighted(weights).map_err(E::from),
            None => Ok(doctrine),
        });
        let playouts = number(PLAYOUTS, value(PLAYOUTS), Planning::PLAYOUTS, (2, 100_000));
        let playouts = playouts.map_err(&mut note);
        let turns = number(TURNS, value(TURNS), Planning::TURNS, (0, 200)).map_err(&mut note);
        let mind = |doctrine, playouts, turns| {
            if planner {
                Mind::Planner(Planning { style: doctrine, playouts, turns })
            } else {
                Mind::Doctrine(doctrine)
            }
        };
        match (found, playouts, turns) {
            (Ok(doctrine), Ok(playouts), Ok(turns)) if wrong.is_empty() => {
                Ok(Strategy { mind: mind(doctrine, playouts, turns), without })
            }
            (Ok(_), ..) => Err(wrong.join("\n").into()),
            (Err(told), ..) if wrong.is_empty() => Err(told),
            (Err(told), ..) => Err(format!("{told}\n{}", wrong.join("\n")).into()),
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

    /// A player of this strategy under the rules of a stack, ready for any number of games; `script`
    /// makes the stack's event hooks, if it has any.
    pub fn player(&self, rules: &Rules, script: Option<MakeScript<'_>>) -> Box<dyn Weighing> {
        let player: Box<dyn Weighing> = match &self.mind {
            Mind::Doctrine(doctrine) => crate::player(doctrine, rules),
            Mind::Planner(planning) => {
                let script = script.map(|make| make());
                Box::new(Planner::new(planning, &self.without, rules, script))
            }
        };
        restricted(player, &self.without)
    }

    /// A short digest of how it plays, apart from its name: 8 hexadecimal digits.
    pub fn digest(&self) -> String {
        let mut digest = Digest::new();
        match &self.mind {
            Mind::Doctrine(doctrine) => doctrine.digest(&mut digest),
            Mind::Planner(planning) => planning.digest(&mut digest),
        }
        for behaviour in &self.without {
            digest.text(behaviour.word());
        }
        digest.short()
    }
}

/// A player to whom these behaviours are forbidden.
pub(crate) fn restricted(player: Box<dyn Weighing>, without: &[Behaviour]) -> Box<dyn Weighing> {
    if without.is_empty() { player } else { Box::new(Restricted::new(player, without)) }
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

/// The number of an option, or the usual one when it was not typed.
fn number<T: FromStr + PartialOrd + Display + Copy>(
    option: &str,
    typed: Option<&str>,
    usual: T,
    (least, most): (T, T),
) -> Result<T, String> {
    let Some(typed) = typed else { return Ok(usual) };
    let fits = |number: &T| *number >= least && *number <= most;
    typed.parse().ok().filter(fits).ok_or_else(|| {
        format!("`{option}` of a planner is a number from {least} to {most}, not `{typed}`")
    })
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
    fn weights_of_its_own_are_told_by_the_digest_and_the_name_is_not() {
        let weights = |name: &str| {
            let found = shipped().into_iter().find(|d| d.name == name).unwrap();
            found.weights.unwrap().named().map(|(_, value)| value.to_string()).join(".")
        };
        let digest = |text: &str| strategy(text).unwrap().digest();
        assert_eq!(digest(&format!("steady:weights={}", weights("bold"))), digest("bold"));
        assert_ne!(digest("steady"), digest("bold"));
        let both = format!("bold:weights={}:without=rally", weights("steady"));
        assert_eq!(digest(&both), digest("steady:without=rally"));
        let told = strategy("planner:weights=1").unwrap_err();
        assert!(told.contains("weights"), "{told}");
    }

    #[test]
    fn the_digest_of_a_planner_tells_how_it_thinks() {
        let digest = |text: &str| strategy(text).unwrap().digest();
        let usual = format!("planner:playouts={}:turns={}", Planning::PLAYOUTS, Planning::TURNS);
        assert_eq!(digest("planner"), digest(&format!("{usual}:style={}", Planning::STYLE)));
        let others = ["planner:playouts=7", "planner:turns=9", "planner:style=bold", "steady"];
        for other in others {
            assert_ne!(digest("planner"), digest(other), "{other}");
        }
    }

    #[test]
    fn all_that_is_wrong_is_told_at_once() {
        let told = strategy("blod:without=raly,oders:wihtout=rally").unwrap_err();
        for part in ["`blod`", "mean `rally`?", "mean `orders`?", "mean `without`?"] {
            assert!(told.contains(part), "{part}: {told}");
        }
        let told = strategy("planner:playouts=1:turns=x:stile=bold").unwrap_err();
        for part in ["`playouts` of a planner is a number from 2", "not `x`", "mean `style`?"] {
            assert!(told.contains(part), "{part}: {told}");
        }
    }
}
