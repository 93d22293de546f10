//! What commands that ask about rules take.

use std::path::PathBuf;

use clap::ValueEnum;

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
    /// Play nothing: write the plan to a new file that ends in .ron, for `run` or for `shard`.
    #[arg(long, value_name = "FILE", conflicts_with = "out")]
    pub(crate) plan_only: Option<PathBuf>,
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
    /// Write the games as text, too: games.csv beside games.parquet.
    #[arg(long)]
    pub(crate) csv: bool,
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
    /// ones whatever the seed of the run. Up to 1000; each takes 2 MB of memory and a
    /// twentieth of a second before the first game.
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
pub(crate) struct SweepArgs {
    /// An option and its values: `two-turn-end-cards:cards=1..4`, with steps as in `10..50/10`, or a
    /// list as in `1,3,9`; without values, those that the script allows. A second one makes a grid.
    #[arg(required = true, value_name = "VARIANT:OPTION=VALUES", num_args = 1..=2)]
    pub(crate) options: Vec<String>,
    /// A value of a metric at which the option is sought, as in `minutes=180`. May be given several
    /// times. [default: attacker_wins=50%]
    #[arg(long = "target", value_name = "METRIC=VALUE")]
    pub(crate) targets: Vec<String>,
    #[command(flatten)]
    pub(crate) field: FieldArgs,
    /// Games of each value, shared out over the scenarios.
    #[arg(long, value_name = "N", default_value_t = 20_000, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) games: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}

/// How many of the combinations are played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Share {
    /// All of them.
    Full,
    /// Every second one, of four to six variants.
    Half,
    /// Every fourth one, of five or six variants.
    Quarter,
}

#[derive(Debug, clap::Args)]
pub(crate) struct CrossArgs {
    /// Two to six variants or stacks; each is put on top of those before it.
    #[arg(required = true, value_name = "VARIANT", num_args = 2..=6)]
    pub(crate) variants: Vec<String>,
    /// How many of the combinations are played.
    #[arg(long, value_name = "SHARE", default_value = "full")]
    pub(crate) fraction: Share,
    #[command(flatten)]
    pub(crate) field: FieldArgs,
    /// Games of each combination, shared out over the scenarios.
    #[arg(long, value_name = "N", default_value_t = 20_000, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) games: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}

/// What is known of a metric as an option rises.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Shape {
    /// Nothing.
    Any,
    /// It never falls.
    Rising,
    /// It never rises.
    Falling,
}

#[derive(Debug, clap::Args)]
pub(crate) struct TuneArgs {
    /// An option and the values to try, as `sweep` takes them.
    #[arg(value_name = "VARIANT:OPTION=VALUES")]
    pub(crate) option: String,
    /// The metric and the mean that is wanted, as in `attacker_wins=50%` or `minutes=180`.
    #[arg(long, value_name = "METRIC=VALUE", default_value = "attacker_wins=50%")]
    pub(crate) target: String,
    /// What is known of the metric as the option rises; it is believed unless the games refute it,
    /// and saves games.
    #[arg(long, value_name = "SHAPE", default_value = "any")]
    pub(crate) shape: Shape,
    #[command(flatten)]
    pub(crate) field: FieldArgs,
    /// Most games of each value, shared out over the scenarios; values that are surely off the target
    /// get fewer.
    #[arg(long, value_name = "N", default_value_t = 20_000, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) games: u32,
    #[command(flatten)]
    pub(crate) run: RunArgs,
}
