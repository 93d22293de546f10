//! From the answer of a tuning to the tree of its report.

use ruleshift_record::{Metric, SweepMean, TuneSetting, TuneStanding, TuneSummary};

use super::headline::{coin, plain};
use crate::format::{and, count, counted};
use crate::glossary::MetricNote;
use crate::method_page::{MethodSection, closing};
use crate::report::{
    Block, Chart, Column, Plot, Replay, Report, Response, Section, Table, TicketLine,
};
use crate::words::{label, scale};

/// Builds the report of `summary`.
pub fn build_tune(summary: &TuneSummary) -> Report {
    let metric = Metric::by_name(&summary.metric);
    let settings = metric.map(|metric| Block::Table(settings(summary, metric)));
    let mut front = vec![
        Section::new("The settings", settings.into_iter().collect()),
        Section::new("Keep in mind", vec![Block::Notes(summary.caveats.clone())]),
        Section::new("Games worth a look", tickets(summary)),
    ];
    let chart = metric.and_then(|metric| chart(summary, metric)).map(Block::Chart);
    let mut body = vec![
        Section::new("The curve", chart.into_iter().collect()),
        Section::new("How this was measured", method()),
    ];
    front.retain(|section| !section.blocks.is_empty());
    body.retain(|section| !section.blocks.is_empty());
    Report {
        title: format!("{} for {}", summary.option, label(&summary.metric)),
        facts: facts(summary),
        headline: summary.headline.clone(),
        front,
        body,
        // No cell names it: it is in the captions.
        metrics: metric.map(|metric| MetricNote::of(metric, &[])).into_iter().collect(),
        ..Report::default()
    }
}

fn facts(summary: &TuneSummary) -> String {
    format!(
        "{} over {}, at most {} of each value; upon {}; scenarios {}; seed {}",
        counted(summary.games, "game"),
        counted(summary.settings.iter().filter(|s| s.value.fract() == 0.0).count() as u64, "value"),
        count(u64::from(summary.most_games)),
        summary.stack,
        and(&summary.scenarios),
        summary.seed
    )
}

fn settings(summary: &TuneSummary, metric: Metric) -> Table {
    let scale = scale(metric);
    let row = |s: &TuneSetting| {
        let interval = s.interval.map_or("unknown".to_owned(), |(low, high)| {
            format!("{} to {}", scale.value(low), scale.value(high))
        });
        vec![
            plain(s.value).into(),
            count(u64::from(s.games)).into(),
            s.mean.map_or("unknown".to_owned(), |mean| scale.value(mean)).into(),
            interval.into(),
            standing(s.standing).to_owned().into(),
        ]
    };
    Table {
        caption: format!(
            "{} by {}; halves: a coin before the game decides between two values",
            scale.labelled(metric.spec().label),
            summary.option
        ),
        columns: vec![
            Column::numbers("Value"),
            Column::numbers("Games"),
            Column::numbers("Mean"),
            Column::numbers("Surely within"),
            Column::words("Against the target"),
        ],
        rows: summary.settings.iter().map(row).collect(),
    }
}

fn standing(standing: TuneStanding) -> &'static str {
    match standing {
        TuneStanding::OnTarget => "on target",
        TuneStanding::Below => "below",
        TuneStanding::Above => "above",
        TuneStanding::Open => "open",
    }
}

fn tickets(summary: &TuneSummary) -> Vec<Block> {
    let line = |note: &ruleshift_record::TicketNote| {
        let command = format!("ruleshift replay {}", note.ticket);
        TicketLine::new(note.why.as_str(), vec![Replay { arm: note.arm.clone(), command }])
    };
    let lines: Vec<TicketLine> = summary.tickets.iter().map(line).collect();
    if lines.is_empty() { vec![] } else { vec![Block::Tickets(lines)] }
}

/// The means of the whole values; the bands are those of the answer, which hold all at once.
fn chart(summary: &TuneSummary, metric: Metric) -> Option<Chart> {
    let known =
        |s: &&TuneSetting| s.value.fract() == 0.0 && s.mean.is_some() && s.interval.is_some();
    let drawn: Vec<&TuneSetting> = summary.settings.iter().filter(known).collect();
    if drawn.len() < 2 {
        return None;
    }
    let mean = |s: &&TuneSetting| {
        let (mean, (low, high)) = (s.mean?, s.interval?);
        Some(SweepMean { mean, low, high, band_low: low, band_high: high })
    };
    let scale = scale(metric);
    let told = |s: &&TuneSetting| {
        format!("{} at {}", scale.value(s.mean.unwrap_or_default()), plain(s.value))
    };
    let all: Vec<String> = drawn.iter().map(told).collect();
    Some(Chart {
        title: format!("{} by {}", metric.spec().label, summary.option),
        description: format!(
            "Means: {}. The target is {}.{}",
            and(&all),
            scale.value(summary.target),
            summary.headline.first().map_or(String::new(), |answer| format!(" {answer}"))
        ),
        series: vec![
            "target (dashed)".to_owned(),
            "mean and the band that holds all means at all looks, 95 %".to_owned(),
        ],
        plot: Plot::Response(Box::new(Response {
            x: drawn.iter().map(|s| s.value).collect(),
            means: drawn.iter().filter_map(mean).collect(),
            fitted: vec![],
            reference: None,
            targets: vec![summary.target],
            share: metric.spec().unit == "share",
            axes: (summary.option.clone(), scale.labelled(metric.spec().label)),
        })),
        data: settings(summary, metric),
    })
}

fn method() -> Vec<Block> {
    let coin = coin(2.5);
    let halves = format!(
        "The mean of a half{coin} is exactly the mean of the means of its two values, so it needs no \
         games of its own."
    );
    let mut blocks: Vec<Block> =
        METHOD.iter().map(|text| Block::Paragraph((*text).to_owned())).collect();
    blocks.push(Block::Paragraph(halves));
    blocks.push(Block::Notes(SOURCES.map(str::to_owned).to_vec()));
    blocks.extend(closing(&[MethodSection::Tuning, MethodSection::Looks]));
    blocks
}

const METHOD: [&str; 3] = [
    "All values are played with the same seeds, and judged at looks that were fixed beforehand, each \
     twice as far as the one before. A value that is surely off the target gets no more games, unless \
     the answer hangs on it and its neighbour.",
    "The intervals of all values at all looks together hold the true means with 95 %: the level is \
     shared evenly among the values and spent over the looks. While they hold, everything said here is \
     true, whenever the tuning ended.",
    "A setting is on target when its interval lies nearer to it than the smallest shift worth noticing. \
     The crossing is every place at which the intervals leave a crossing possible.",
];

const SOURCES: [&str; 2] = [
    "Looks: Lan & DeMets (1983), Biometrika 70:659-663; intervals that hold at all of them: Jennison & \
     Turnbull (1989), Journal of the Royal Statistical Society B 51:305-361.",
    "Rates: Wilson (1927), Journal of the American Statistical Association 22:209-212.",
];
