//! Players ready to be made: what was typed, looked up.

use ruleshift_game::{Digest, EventScript, Rules};

use crate::doctrine::Doctrine;
use crate::planner::{Planner, Planning};
use crate::spec::PlayerSpec;
use crate::weighing::Weighing;

/// Makes the event hooks of a rule stack.
pub type MakeScript<'a> = &'a dyn Fn() -> Box<dyn EventScript>;

/// How a player plays, apart from any rules.
#[derive(Clone, Debug)]
pub struct Strategy(Mind);

#[derive(Clone, Debug)]
enum Mind {
    Doctrine(Doctrine),
    Planner(Planning),
}

/// Name of the player that looks ahead.
pub const PLANNER: &str = "planner";
/// The doctrine it plays games out with, unless told otherwise.
const STYLE: &str = "steady";
/// Games it plays out for each decision, unless told otherwise.
const PLAYOUTS: u32 = 64;
/// Turns it looks ahead, unless told otherwise.
const TURNS: u16 = 1;
/// Rises whenever a planner of the same options plays otherwise.
const VERSION: u64 = 1;

impl Strategy {
    /// The strategy that `spec` names; `find` looks up a doctrine.
    ///
    /// # Errors
    /// What is wrong with the name or an option, as `find` or this says it.
    pub fn new<E: From<String>>(
        spec: &PlayerSpec,
        find: &mut dyn FnMut(&str) -> Result<Doctrine, E>,
    ) -> Result<Strategy, E> {
        if spec.name == PLANNER {
            let mut planning = Planning { style: find(STYLE)?, playouts: PLAYOUTS, turns: TURNS };
            for (option, value) in &spec.options {
                match option.as_str() {
                    "playouts" => planning.playouts = number(option, value, 2, 100_000)?,
                    "turns" => planning.turns = number(option, value, 0, 200)?,
                    "style" => planning.style = find(value)?,
                    _ => return Err(format!("a planner has no option `{option}`").into()),
                }
            }
            return Ok(Strategy(Mind::Planner(planning)));
        }
        if let Some((option, _)) = spec.options.first() {
            return Err(format!("a player has no option `{option}`").into());
        }
        Ok(Strategy(Mind::Doctrine(find(&spec.name)?)))
    }

    /// A player of this strategy under the rules of a stack, ready for any number of games.
    pub fn player(&self, rules: &Rules, script: Option<MakeScript<'_>>) -> Box<dyn Weighing> {
        match &self.0 {
            Mind::Doctrine(doctrine) => crate::player(doctrine, rules),
            Mind::Planner(planning) => {
                Box::new(Planner::new(planning, rules, script.map(|make| make())))
            }
        }
    }

    /// A short digest of how it plays, apart from its name: 8 hexadecimal digits.
    pub fn digest(&self) -> String {
        let mut digest = Digest::new();
        match &self.0 {
            Mind::Doctrine(doctrine) => doctrine.digest(&mut digest),
            Mind::Planner(Planning { style, playouts, turns }) => {
                digest.word(VERSION);
                digest.word((*playouts).into());
                digest.word((*turns).into());
                style.digest(&mut digest);
            }
        }
        digest.short()
    }
}

fn number<T, E>(option: &str, value: &str, least: T, most: T) -> Result<T, E>
where
    T: std::str::FromStr + PartialOrd + std::fmt::Display,
    E: From<String>,
{
    let fits = |number: &T| *number >= least && *number <= most;
    value.parse().ok().filter(fits).ok_or_else(|| {
        format!("`{option}` of a player is a number from {least} to {most}, not `{value}`").into()
    })
}
