//! The report as a tree that knows no output format.

use ruleshift_record::{CourseTurn, Metric, SweepMean, Verdict};
use serde::Serialize;

use crate::glossary::MetricNote;

/// A whole report: the front fits one screen, the body holds the rest.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Report {
    /// What was compared.
    pub title: String,
    /// The run in one line: games, scenarios, players, seed.
    pub facts: String,
    /// The answer in sentences, one for each arm.
    pub headline: Vec<String>,
    /// What a club asks first, answered in sentences; a screen has no room for it.
    pub short: Option<Section>,
    /// What a reader in a hurry needs.
    pub front: Vec<Section>,
    /// Everything else.
    pub body: Vec<Section>,
    /// The metrics that its tables name, in the order of the table of metrics.
    pub metrics: Vec<MetricNote>,
    /// Pages beside the report, in the same folder.
    pub pages: Vec<PageLink>,
}

/// A page beside a report.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PageLink {
    /// What a reader clicks.
    pub title: String,
    /// Name of the file, of letters, digits and `-_+=,.` alone.
    pub file: String,
}

/// Blocks under a heading.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Section {
    /// The heading, without markup.
    pub heading: String,
    /// What stands below it.
    pub blocks: Vec<Block>,
}

/// One piece of a report.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", content = "content", rename_all = "snake_case")]
pub enum Block {
    /// Running text.
    Paragraph(String),
    /// Something a reader must not overlook.
    Warning(String),
    /// Short remarks.
    Notes(Vec<String>),
    /// Rows and columns.
    Table(Table),
    /// A picture with its data.
    Chart(Chart),
    /// Games to play again, and what else to type.
    Tickets(Vec<TicketLine>),
}

/// A table: every row has a cell for every column.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Table {
    /// What the table shows, in a few words.
    pub caption: String,
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// The head of a column.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Column {
    /// Its heading.
    pub heading: String,
    /// Whether its cells line up on the right, as numbers do.
    pub numeric: bool,
}

/// One cell of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cell {
    /// What it says.
    pub text: String,
    /// The verdict it stands for, which a renderer may colour.
    pub verdict: Option<Verdict>,
    /// The metric whose label it is, which a renderer may explain.
    #[serde(serialize_with = "by_name")]
    pub metric: Option<Metric>,
}

/// A metric as the name of its column.
fn by_name<S: serde::Serializer>(metric: &Option<Metric>, to: S) -> Result<S::Ok, S::Error> {
    metric.map(|metric| metric.spec().name).serialize(to)
}

/// A picture that can also be read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chart {
    /// Its title.
    pub title: String,
    /// What it shows, for who cannot see it.
    pub description: String,
    /// Names of its series, in drawing order.
    pub series: Vec<String>,
    /// What to draw.
    pub plot: Plot,
    /// The same data as a table.
    pub data: Table,
}

/// The data of a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Plot {
    /// Shifts with their intervals, in multiples of the smallest shift worth noticing.
    Forest {
        /// One row per metric, from top to bottom.
        rows: Vec<ForestRow>,
    },
    /// Shares of games by value.
    Distribution {
        /// Lower edge of the first bin.
        start: f64,
        /// Width of every bin.
        width: f64,
        /// Per series, the share in each bin.
        shares: Vec<Vec<f64>>,
        /// Label of the value axis.
        axis: String,
    },
    /// Shares of games that fall step by step.
    Steps {
        /// Per series, from where on which share is in force.
        curves: Vec<Vec<(f64, f64)>>,
        /// Label of the value axis.
        axis: String,
    },
    /// Means over a range of values.
    Response(Box<Response>),
    /// Means over a grid.
    Heat(Box<Heat>),
    /// Shares with their intervals, around a half.
    Shares {
        /// One row for each part, from top to bottom.
        rows: Vec<ShareRow>,
        /// Between which shares it counts as even.
        even: (f64, f64),
        /// Label of the axis.
        axis: String,
    },
    /// The margin by turn, in panels beside each other.
    Course {
        /// One for each series.
        panels: Vec<CoursePanel>,
    },
    /// Effects by size against what chance alone would give (Daniel 1959).
    HalfNormal {
        /// The effects.
        marks: Vec<HalfNormalMark>,
    },
}

/// How a metric goes with an option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Response {
    /// Values of the option, rising.
    pub x: Vec<f64>,
    /// At each value the mean, its interval, and the band of all means at once.
    pub means: Vec<SweepMean>,
    /// Points of the fitted curve; none without one.
    pub fitted: Vec<(f64, f64)>,
    /// The mean under the reference.
    pub reference: Option<f64>,
    /// Values of the metric that are sought.
    pub targets: Vec<f64>,
    /// Whether the metric is a share, which prints as percent.
    pub share: bool,
    /// Labels of both axes.
    pub axes: (String, String),
}

/// Cells of numbers, the larger the stronger their colour.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Heat {
    /// Name of the option of the rows, and its values.
    pub rows: (String, Vec<String>),
    /// Name of the option of the columns, and its values.
    pub columns: (String, Vec<String>),
    /// Per row and column, how strong its colour is from 0 to 1, and what it says.
    pub cells: Vec<Vec<(f64, String)>>,
}

/// An effect among others by size.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HalfNormalMark {
    /// Where chance alone would put an effect of this place.
    pub expected: f64,
    /// Its distance from zero in standard errors.
    pub errors: f64,
    /// Its name.
    pub label: String,
    /// Whether it is surely not zero.
    pub sure: bool,
}

/// One row of a forest chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ForestRow {
    /// Label of the metric.
    pub label: String,
    /// Per series the shift and the ends of its interval; `None` when it was not compared.
    pub marks: Vec<Option<ForestMark>>,
}

/// A shift with its interval, in multiples of the smallest shift worth noticing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ForestMark {
    /// The shift.
    pub shift: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end of its interval.
    pub high: f64,
}

/// One row of a chart of shares.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShareRow {
    /// Label of the part.
    pub label: String,
    /// Per series the share and the ends of its interval; `None` without games.
    pub marks: Vec<Option<ShareMark>>,
}

/// A share, from 0 to 1, with its interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShareMark {
    /// The share.
    pub share: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end of its interval.
    pub high: f64,
}

/// The margin by turn of one series.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CoursePanel {
    /// Whose games they are.
    pub title: String,
    /// Median and bands of each turn.
    pub turns: Vec<CourseTurn>,
}

/// A game to play again, alone or beside the same game under other rules; or what else to type.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TicketLine {
    /// Why it is worth a look.
    pub why: String,
    /// The game, then those to see beside it.
    pub games: Vec<Replay>,
    /// The page beside the report on which they can be watched, if there is one.
    pub page: Option<String>,
}

/// How to see one game, or whatever else there is to type.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Replay {
    /// Arm it was played in, or is about.
    pub arm: String,
    /// What to type.
    pub command: String,
}

impl Report {
    /// All sections in the order of reading.
    pub fn sections(&self) -> impl Iterator<Item = &Section> {
        self.short.iter().chain(&self.front).chain(&self.body)
    }
}

impl TicketLine {
    /// Games without a page to watch them on.
    pub fn new(why: impl Into<String>, games: Vec<Replay>) -> TicketLine {
        TicketLine { why: why.into(), games, page: None }
    }
}

impl Section {
    /// A section of those blocks.
    pub fn new(heading: impl Into<String>, blocks: Vec<Block>) -> Section {
        Section { heading: heading.into(), blocks }
    }
}

impl Column {
    /// A column of words.
    pub fn words(heading: impl Into<String>) -> Column {
        Column { heading: heading.into(), numeric: false }
    }

    /// A column of numbers.
    pub fn numbers(heading: impl Into<String>) -> Column {
        Column { heading: heading.into(), numeric: true }
    }
}

impl Cell {
    /// The label of the metric of that name.
    pub fn metric(name: &str, label: impl Into<String>) -> Cell {
        Cell { text: label.into(), verdict: None, metric: Metric::by_name(name) }
    }

    /// A number with the verdict on it, as far as there is one.
    pub fn judged(text: String, verdict: Option<Verdict>) -> Cell {
        Cell { text, verdict, metric: None }
    }

    /// The sign of the cell's verdict, for readers who cannot see colours; `None` without a
    /// verdict, or when the cell spells it out.
    pub fn sign(&self) -> Option<char> {
        self.verdict.filter(|v| v.word() != self.text).map(sign)
    }
}

/// The sign of a verdict.
pub(crate) fn sign(verdict: Verdict) -> char {
    match verdict {
        Verdict::ClearShift => '\u{25b2}',
        Verdict::TooSmall => '\u{25b3}',
        Verdict::NoDifference => '=',
        Verdict::Undecided => '?',
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Cell {
        Cell { text, verdict: None, metric: None }
    }
}

impl From<Verdict> for Cell {
    fn from(verdict: Verdict) -> Cell {
        Cell::judged(verdict.word().to_owned(), Some(verdict))
    }
}
