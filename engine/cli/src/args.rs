//! What users may type.

mod handicap;

use std::path::PathBuf;

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Parser, Subcommand, ValueEnum};
use ruleshift_scenarios::{Mission, Terrain};

use crate::exit::CODES;

pub(crate) use handicap::HandicapArgs;

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
    /// Find what makes a scenario fair: a higher break point or support for a side.
    Handicap(HandicapArgs),
    /// Play a plan again, or one that you have written.
    Run(PlanArgs),
    /// Go on with a run that was interrupted, killed or out of room.
    Resume(ResumeArgs),
    /// Search for a style of play that abuses a house rule.
    Hunt(HuntArgs),
    /// Tell the story of one game from its ticket.
    Replay(ReplayArgs),
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
pub(crate) struct CompareArgs {
    /// Shipped variants, paths of .rhai files, or stacks of them joined with `+`.
    #[arg(required = true, value_name = "VARIANT")]
    pub(crate) variants: Vec<String>,
    #[command(flatten)]
    pub(crate) field: FieldArgs,
    /// Play further games in which a side must do without a behaviour, under each rule stack, and
    /// say what the behaviour is worth: all of them, or those of a list as in `=rally,orders`.
    #[arg(long, value_name = "BEHAVIOUR", num_args = 0..=1, require_equals = true, default_missing_value = "all")]
    pub(crate) importance: Option<String>,
    /// Games of each of these further arms. [default: a tenth of --games]
    #[arg(long, value_name = "N", requires = "importance", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) importance_games: Option<u32>,
    /// Games in each arm, shared out over the scenarios.
    #[arg(long, value_name = "N", default_value_t = 100_000, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) games: u32,
    /// Stop before that when every headline metric is decided. The run looks at what it has after
    /// half of the games, a quarter, and so on, by limits that keep the sureness of the answer.
    #[arg(long, value_name = "WHEN", conflicts_with = "precision")]
    pub(crate) until: Option<Until>,
    /// Stop before that when the interval of the shift in the attacker's wins reaches no farther than
    /// that to either side, as in `1%`.
    #[arg(long, value_name = "SHARE", value_parser = share)]
    pub(crate) precision: Option<f64>,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}

// What all commands that make a run take. A doc comment here would become the help of each of them.
#[derive(Debug, clap::Args)]
pub(crate) struct RunArgs {
    /// Seed of all luck: the same seed gives the same run.
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Folder for the run, which must be new or empty. [default: a new folder under `runs`]
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) show: ShowArgs,
}

// What changes no result.
#[derive(Debug, clap::Args)]
pub(crate) struct ShowArgs {
    /// Threads to play on; never changes a result. [default: as many as the machine has cores]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub(crate) threads: Option<u16>,
    /// Print the summary as JSON, and nothing else, on standard output.
    #[arg(long)]
    pub(crate) json: bool,
    /// No progress bars and no screen: only the files.
    #[arg(long)]
    pub(crate) quiet: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Until {
    /// Every headline metric has a clear shift, or none that anyone would notice.
    Clear,
}

/// A share of games: `1%`, or `0.01`.
fn share(typed: &str) -> Result<f64, String> {
    let (number, unit) = match typed.strip_suffix('%') {
        Some(percent) => (percent.trim(), 100.0),
        None => (typed, 1.0),
    };
    let share = number.parse::<f64>().ok().map(|number| number / unit);
    share.filter(|share| *share > 0.0 && *share <= 0.5).ok_or_else(|| {
        "expected a share of games above 0 and up to 50 %, as in `1%` or `0.01`".to_owned()
    })
}

// What is played, by whom, and what is looked at, for all commands that ask about rules.
#[derive(Debug, clap::Args)]
pub(crate) struct FieldArgs {
    /// The rule stack to compare with.
    #[arg(long, value_name = "STACK", default_value = "base")]
    pub(crate) base: String,
    /// Scenarios to play: shipped names, paths of .ron files, drawn ones such as `sketch-7` or
    /// `sketch-7-attack-close`, or `all` shipped ones.
    ///
    /// `generated:20` stands for 20 drawn ones, sketch-1 to sketch-20, each of a mission and terrain
    /// of its own; `generated:20:attack:close` for 20 of one mission and terrain. They are the same
    /// ones whatever the seed of the run. Up to 1000; each takes 2 MB of memory and a fifth of a
    /// second before the first game.
    ///
    /// `probe+defender:german-machine-gun-section` is the scenario with support for a side, a piece of
    /// the force lists that `ruleshift list forces` shows; `+attacker:german-panther-platoon:2` adds
    /// two tanks of one. Several may follow each other, behind any name, path, `all` or `generated:20`.
    #[arg(long = "scenario", value_name = "NAME", num_args = 1.., value_delimiter = ',', default_value = "all")]
    pub(crate) scenarios: Vec<String>,
    /// Doctrine of the attacker: a shipped name or the path of a .ron file.
    #[arg(long, value_name = "DOCTRINE", default_value = "steady")]
    pub(crate) attacker: String,
    /// Doctrine of the defender: a shipped name or the path of a .ron file.
    #[arg(long, value_name = "DOCTRINE", default_value = "steady")]
    pub(crate) defender: String,
    /// Players of whom each meets each on either side, instead of one for each side: doctrines, or
    /// `mixed` for all shipped ones but chance. The games are shared out evenly.
    #[arg(long, value_name = "PLAYER", num_args = 1.., conflicts_with_all = ["attacker", "defender"])]
    pub(crate) players: Vec<String>,
    /// Forbid a side a behaviour in all games, as in `attacker=rally` or `defender=rally,orders`.
    ///
    /// Behaviours: rally, spotting, assault, marker-moves, opening-fire, batteries, orders. May be
    /// given several times. A single player is restricted by his name: `steady:without=rally`.
    #[arg(long, value_name = "SIDE=BEHAVIOUR")]
    pub(crate) restrict: Vec<String>,
    /// Metrics to judge as the headline. [default: those marked by `ruleshift list metrics`]
    #[arg(long = "metric", value_name = "NAME", num_args = 1.., value_delimiter = ',')]
    pub(crate) metrics: Vec<String>,
    /// The smallest shift of a metric worth noticing, when it is not the usual one, as in
    /// `minutes=10` or `attacker_wins=0.05`. May be given several times.
    #[arg(long, value_name = "METRIC=SIZE")]
    pub(crate) notice: Vec<String>,
    /// How long things take at the table: a file as `ruleshift new timing` writes it.
    #[arg(long, value_name = "FILE")]
    pub(crate) timing: Option<PathBuf>,
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
}

#[derive(Debug, clap::Args)]
pub(crate) struct OddsArgs {
    /// The rule stack, shown beside the base rules.
    #[arg(default_value = "base", value_name = "STACK")]
    pub(crate) stack: String,
    /// What to tell in full: deck, spotting, fire, movement, assault, scatter. [default: a short page
    /// of all]
    #[arg(long = "topic", value_name = "TOPIC", num_args = 1.., value_delimiter = ',')]
    pub(crate) topics: Vec<String>,
    /// Deck: cards besides the turn-end cards, 1 to 60. [default: 10; in full 6, 10 and 20]
    #[arg(long, value_name = "N", num_args = 1.., value_delimiter = ',')]
    pub(crate) cards: Vec<String>,
    /// Spotting, fire: ranges in inches. [default: all that the rules tell apart]
    #[arg(long = "range", value_name = "INCHES", num_args = 1.., value_delimiter = ',')]
    pub(crate) ranges: Vec<String>,
    /// Cover of whoever is looked for, fired at or assaulted: open, light, hard, dug-in.
    #[arg(long = "cover", value_name = "COVER", num_args = 1.., value_delimiter = ',')]
    pub(crate) covers: Vec<String>,
    /// Kinds of unit that fire, move or assault, as in `section` or `tripod-gun`.
    #[arg(long = "kind", value_name = "KIND", num_args = 1.., value_delimiter = ',')]
    pub(crate) kinds: Vec<String>,
    /// Men of the unit that fires or assaults, 1 to 13. [default: 8 of a section]
    #[arg(long, value_name = "N")]
    pub(crate) men: Option<String>,
    /// Its pins, 0 to 30. [default: 0]
    #[arg(long, value_name = "N")]
    pub(crate) pins: Option<String>,
    /// Quality of the unit that assaults: green, regular, veteran. [default: regular]
    #[arg(long, value_name = "QUALITY")]
    pub(crate) quality: Option<String>,
    /// The unit that fires has moved.
    #[arg(long)]
    pub(crate) moved: bool,
    /// A leader is near the unit that assaults.
    #[arg(long)]
    pub(crate) led: bool,
    /// Kind of the unit that is assaulted. [default: section]
    #[arg(long, value_name = "KIND")]
    pub(crate) enemy_kind: Option<String>,
    /// Men of the unit that is fired at or assaulted. [default: 8]
    #[arg(long, value_name = "N")]
    pub(crate) enemy_men: Option<String>,
    /// Its pins. [default: 0]
    #[arg(long, value_name = "N")]
    pub(crate) enemy_pins: Option<String>,
    /// Its quality. [default: regular]
    #[arg(long, value_name = "QUALITY")]
    pub(crate) enemy_quality: Option<String>,
    /// A leader is near it.
    #[arg(long)]
    pub(crate) enemy_led: bool,
    /// Print all as JSON, with whole distributions.
    #[arg(long)]
    pub(crate) json: bool,
}

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
