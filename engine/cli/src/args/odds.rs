//! What `odds` takes.

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
