//! What `diverge` takes.

use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct DivergeArgs {
    /// The ticket of a game, or rules to play one by: a shipped variant, the path of a .rhai file, or
    /// a stack of them joined with `+`.
    #[arg(value_name = "TICKET|VARIANT")]
    pub(crate) what: String,
    /// The rules of the other game.
    #[arg(long, value_name = "STACK", default_value = "base")]
    pub(crate) base: String,
    /// Scenario of the game; a ticket names its own. [default: hasty-attack]
    #[arg(long, value_name = "NAME")]
    pub(crate) scenario: Option<String>,
    /// Player of the attacker; a ticket names its own. [default: steady]
    #[arg(long, value_name = "PLAYER")]
    pub(crate) attacker: Option<String>,
    /// Player of the defender; a ticket names its own. [default: steady]
    #[arg(long, value_name = "PLAYER")]
    pub(crate) defender: Option<String>,
    /// Seed of the game's luck: a number, or the 16 digits that tickets and tables of games have; a
    /// ticket names its own. [default: 1]
    #[arg(long, value_name = "SEED", value_parser = seed)]
    pub(crate) seed: Option<u64>,
    /// Write a page on which both games can be watched side by side, in any browser.
    #[arg(long, value_name = "FILE", conflicts_with = "full")]
    pub(crate) html: Option<PathBuf>,
    /// Tell the whole story until the games part.
    #[arg(long)]
    pub(crate) full: bool,
}

/// Digits of a seed as tickets write it.
const DIGITS: usize = 16;

fn seed(typed: &str) -> Result<u64, String> {
    let seed = if typed.len() == DIGITS { u64::from_str_radix(typed, 16) } else { typed.parse() };
    seed.map_err(|_| {
        format!("expected a number, or the {DIGITS} digits (0 to 9, a to f) of the seed of a game")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_is_a_number_or_as_tickets_write_it() {
        assert_eq!(seed("1944"), Ok(1944));
        assert_eq!(seed("00000000000007d0"), Ok(2000));
        assert!(seed("7d0").is_err() && seed("").is_err());
    }
}
