//! What `new` takes.

use std::path::PathBuf;

use clap::Subcommand;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap_complete::Shell;
use ruleshift_scenarios::{Mission, Terrain};

#[derive(Debug, clap::Args)]
pub(crate) struct NewArgs {
    #[command(subcommand)]
    pub(crate) what: New,
}

#[derive(Debug, Subcommand)]
pub(crate) enum New {
    /// Draw a scenario from a seed and write its file, to be played or changed.
    Scenario(NewScenarioArgs),
    /// Write a script with the hooks of a house rule, explained, that changes nothing yet.
    #[command(override_usage = "ruleshift new script <NAME> --hook <HOOK>... [--out <FILE>]")]
    Script(NewScriptArgs),
    /// Write the timing table, how many seconds things take at the table, to be changed.
    Timing(NewTimingArgs),
    /// Print what a shell must know to complete commands, options and their values at a tab.
    Completions(NewCompletionsArgs),
    /// Write the pages of the manual, one for the program and one for each command.
    Manual(NewManualArgs),
}

#[derive(Debug, clap::Args)]
pub(crate) struct NewCompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    pub(crate) shell: Shell,
}

#[derive(Debug, clap::Args)]
pub(crate) struct NewManualArgs {
    /// Folder for the pages, which must be new or empty.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: PathBuf,
}

#[derive(Debug, clap::Args)]
pub(crate) struct NewTimingArgs {
    /// File to write, which must be new and end in .ron. [default: standard output]
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct NewScriptArgs {
    /// Name of the house rule: letters, digits and `-`, as in `my-rule`.
    pub(crate) name: String,
    /// Hooks the script is to have, one or more, value hooks or event hooks; `ruleshift list hooks`
    /// shows them.
    #[arg(long = "hook", value_name = "HOOK", num_args = 1.., value_delimiter = ',')]
    pub(crate) hooks: Vec<String>,
    /// File to write, which must be new and end in .rhai. [default: standard output]
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct NewScenarioArgs {
    /// Seed of everything that is drawn: the same seed gives the same scenario.
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub(crate) seed: u64,
    /// What the attacker is there to do. [default: drawn from the seed]
    #[arg(long, value_name = "MISSION", value_parser = mission())]
    pub(crate) mission: Option<Mission>,
    /// How much there is on the table. [default: drawn from the seed]
    #[arg(long, value_name = "TERRAIN", value_parser = terrain())]
    pub(crate) terrain: Option<Terrain>,
    /// File to write, which must be new and end in .ron. [default: standard output]
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

fn mission() -> impl TypedValueParser<Value = Mission> {
    let words = Mission::ALL.iter().map(|m| PossibleValue::new(m.word()).help(m.about()));
    PossibleValuesParser::new(words).try_map(|word| Mission::by_word(&word))
}

fn terrain() -> impl TypedValueParser<Value = Terrain> {
    let words = Terrain::ALL.iter().map(|t| PossibleValue::new(t.word()).help(t.about()));
    PossibleValuesParser::new(words).try_map(|word| Terrain::by_word(&word))
}
