//! What `ruleshift handicap` takes.

use super::{RunArgs, Side};

#[derive(Debug, clap::Args)]
pub(crate) struct HandicapArgs {
    /// The scenario: a shipped name, the path of a .ron file or a drawn one, with support or without.
    #[arg(value_name = "SCENARIO")]
    pub(crate) scenario: String,
    /// The side that gets a higher break point or support.
    #[arg(long, value_enum)]
    pub(crate) side: Side,
    /// Whose force lists the support is from: `us`, `british`, `german` or `soviet`. [default: that of
    /// the side's own lists; none where they tell no nation]
    #[arg(long, value_name = "NATION")]
    pub(crate) nation: Option<String>,
    /// The rule stack to play under.
    #[arg(long, value_name = "STACK", default_value = "base")]
    pub(crate) rules: String,
    /// The attacker's player.
    #[arg(long, value_name = "PLAYER", default_value = "steady")]
    pub(crate) attacker: String,
    /// The defender's player.
    #[arg(long, value_name = "PLAYER", default_value = "steady")]
    pub(crate) defender: String,
    /// Games with each choice.
    #[arg(long, value_name = "N", default_value_t = 2000, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub(crate) games: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}
