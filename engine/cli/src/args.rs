//! What users may type.

mod diverge;
mod handicap;
mod making;
mod odds;
mod rules;
mod shards;

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

pub(crate) use self::diverge::DivergeArgs;
pub(crate) use self::handicap::HandicapArgs;
pub(crate) use self::making::{
    New, NewArgs, NewManualArgs, NewScenarioArgs, NewScriptArgs, NewTimingArgs,
};
pub(crate) use self::odds::OddsArgs;
pub(crate) use self::rules::{
    CompareArgs, CrossArgs, FieldArgs, RunArgs, Shape, Share, ShowArgs, SweepArgs, TuneArgs, Until,
};
pub(crate) use self::shards::{
    CleanArgs, ClusterArgs, Format, MergeArgs, MissingArgs, Part, Scheduler, ShardArgs,
};
use crate::exit::CODES;

/// Plays an evening of card-activated miniature war thousands of times, under the rules as they
/// are and under a house rule, with the same luck in both, and says what shifts.
#[derive(Debug, Parser)]
#[command(name = "ruleshift", version, after_help = CODES, max_term_width = 100)]
pub(crate) struct Args {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Compare house rules with the base rules, or with each other.
    Compare(CompareArgs),
    /// Rank computer players: everyone plays everyone from both sides.
    Ladder(LadderArgs),
    /// Vary an option over a range: a curve, or a grid of two options.
    Sweep(SweepArgs),
    /// Play house rules with and without each other: what each does, and what they do together.
    Cross(CrossArgs),
    /// Find the value of an option that brings a metric to a target.
    Tune(TuneArgs),
    /// Find what makes a scenario fair: a higher break point or support for a side.
    Handicap(HandicapArgs),
    /// Play a plan again, or one that you have written.
    Run(PlanArgs),
    /// Go on with a run that was interrupted, killed or out of room.
    Resume(ResumeArgs),
    /// Play a part of a plan, so that many machines can play one.
    Shard(ShardArgs),
    /// Tell which parts of a plan have not been played.
    Missing(MissingArgs),
    /// Make one run of all parts.
    Merge(MergeArgs),
    /// Remove what parts of a plan have left behind.
    Clean(CleanArgs),
    /// Print a script that plays a plan on many machines.
    Cluster(ClusterArgs),
    /// Search for a style of play that abuses a house rule.
    Hunt(HuntArgs),
    /// Tell the story of one game from its ticket.
    Replay(ReplayArgs),
    /// Find where a game parts from itself under other rules, and which hook made it.
    Diverge(DivergeArgs),
    /// Find the faults of a house rule and say what it changes.
    Check(CheckArgs),
    /// Tell more about a fault that `check` has found.
    Explain(ExplainArgs),
    /// List what there is to choose from.
    List(ListArgs),
    /// Give exact chances: of the deck, spotting, fire, movement, assault and scatter.
    Odds(OddsArgs),
    /// Make a file to start from.
    New(NewArgs),
}

#[derive(Debug, clap::Args)]
pub(crate) struct PlanArgs {
    /// A plan: a .ron file, or the folder of a run. Files that it names are looked for from here.
    #[arg(value_name = "PLAN")]
    pub(crate) plan: PathBuf,
    /// Folder for the run, which must be new or empty. [default: a new folder under `runs`]
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) show: ShowArgs,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ResumeArgs {
    /// The folder of the run.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    #[command(flatten)]
    pub(crate) show: ShowArgs,
}

#[derive(Debug, clap::Args)]
pub(crate) struct LadderArgs {
    /// Players: shipped doctrines, paths of .ron files, `planner`, each with its options, as in
    /// `planner:playouts=256`; `mixed` stands for all shipped doctrines but chance.
    #[arg(value_name = "PLAYER", default_values = ["chance", "mixed"])]
    pub(crate) players: Vec<String>,
    /// The rule stack to play under.
    #[arg(long, value_name = "STACK", default_value = "base")]
    pub(crate) rules: String,
    /// Scenarios to play, as `compare` takes them.
    #[arg(long = "scenario", value_name = "NAME", num_args = 1.., value_delimiter = ',', default_value = "all")]
    pub(crate) scenarios: Vec<String>,
    /// Games of each attacker against each defender, shared out over the scenarios.
    #[arg(long, value_name = "N", default_value_t = 400, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    pub(crate) games: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}

#[derive(Debug, clap::Args)]
pub(crate) struct HuntArgs {
    /// A shipped variant, the path of a .rhai file, or a stack of them joined with `+`.
    #[arg(value_name = "VARIANT")]
    pub(crate) variant: String,
    /// The rule stack without the variant.
    #[arg(long, value_name = "STACK", default_value = "base")]
    pub(crate) base: String,
    /// Side that a style must gain for. A trick of one side alone shows better when the other side
    /// is left out. [default: both]
    #[arg(long, value_enum)]
    pub(crate) side: Option<Side>,
    /// Players that a style meets, in turn: doctrines, shipped names or paths of .ron files.
    #[arg(long, value_name = "DOCTRINE", num_args = 1.., value_delimiter = ',', default_values = ["cautious", "steady", "bold"])]
    pub(crate) against: Vec<String>,
    /// Scenarios to play, as in `compare`.
    #[arg(long = "scenario", value_name = "NAME", num_args = 1.., value_delimiter = ',', default_value = "all")]
    pub(crate) scenarios: Vec<String>,
    /// Smallest gain worth noticing, in percentage points of games won.
    #[arg(long, value_name = "POINTS", default_value_t = 5, value_parser = clap::value_parser!(u8).range(0..=50))]
    pub(crate) gain: u8,
    /// Styles to try, in whole rounds.
    #[arg(long, value_name = "N", default_value_t = 480, value_parser = clap::value_parser!(u32).range(4..=1_000_000))]
    pub(crate) budget: u32,
    /// Games of each style under each rules, rounded up to as many in each scenario, on each side
    /// and against each player.
    #[arg(long, value_name = "N", default_value_t = 384, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    pub(crate) games: u32,
    /// Seeds that judge the style found, rounded up alike; each is played four times.
    #[arg(long, value_name = "N", default_value_t = 9_600, value_parser = clap::value_parser!(u32).range(2..=10_000_000))]
    pub(crate) judge: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Side {
    Attacker,
    Defender,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ReplayArgs {
    /// The ticket of the game.
    pub(crate) ticket: String,
    /// Play the game again and check its digest; tell no story.
    #[arg(long)]
    pub(crate) verify: bool,
    /// Write a page on which the game can be watched, event by event, in any browser.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["verify", "no_board", "why", "brief"])]
    pub(crate) html: Option<PathBuf>,
    /// Tell the game in one screen: the forces, the opening, the turning points, who did the harm,
    /// losses, luck, and the end.
    #[arg(long, conflicts_with = "verify")]
    pub(crate) brief: bool,
    /// Leave out the pictures of the board.
    #[arg(long)]
    pub(crate) no_board: bool,
    /// Tell at each decision what its player made of the choices; with a number, that decision alone
    /// and all its choices.
    #[arg(long, value_name = "N", num_args = 0..=1, conflicts_with = "verify", value_parser = decision)]
    pub(crate) why: Option<Option<u32>>,
}

fn decision(typed: &str) -> Result<u32, String> {
    let number = typed.parse().ok().filter(|number| *number > 0);
    number.ok_or_else(|| {
        "expected the number of a decision, from 1, or nothing; the ticket comes before `--why`"
            .to_owned()
    })
}

#[derive(Debug, clap::Args)]
pub(crate) struct CheckArgs {
    /// Paths of .rhai files, shipped names, or stacks joined with `+`.
    #[arg(required = true, value_name = "FILE")]
    pub(crate) files: Vec<String>,
    /// Play no trial games: only look at the scripts and their answers.
    #[arg(long)]
    pub(crate) no_games: bool,
    /// Print all findings as one JSON document on standard output, faults included.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ExplainArgs {
    /// The name in brackets behind `error` or `warning`. [default: list them all]
    pub(crate) id: Option<String>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ListArgs {
    /// What to list. [default: everything, in short]
    #[arg(value_enum)]
    pub(crate) what: Option<What>,
    /// With `schemas`: the experiment whose schema to print.
    pub(crate) experiment: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum What {
    Variants,
    Scenarios,
    Players,
    Hooks,
    Metrics,
    /// Force lists that scenarios may name.
    Forces,
    /// Missions and terrains of drawn scenarios.
    Missions,
    /// Schemas of summary.json, for programs that read it.
    Schemas,
}
