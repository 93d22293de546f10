//! The tables and pictures of crossed variants.

use ruleshift_record::{
    CrossEffect, CrossPair, CrossSummary, CrossWord, JudgedShift, Metric, Verdict, letters,
};

use super::headline::short;
use crate::format::{fixed, p_value};
use crate::report::{Cell, Chart, Column, HalfNormalMark, Plot, Table};
use crate::words::scale;

/// Pairs in the table of the front.
const PAIRS: usize = 8;

/// The metrics that have effects.
pub(super) fn metrics(summary: &CrossSummary) -> Vec<Metric> {
    let mut names: Vec<&str> = summary.effects.iter().map(|e| e.metric.as_str()).collect();
    names.dedup();
    names.into_iter().filter_map(Metric::by_name).collect()
}

pub(super) fn of(summary: &CrossSummary, metric: Metric) -> impl Iterator<Item = &CrossEffect> {
    summary.effects.iter().filter(move |e| e.metric == metric.spec().name)
}

/// The main effects, variants side by side.
pub(super) fn mains(summary: &CrossSummary) -> Table {
    let variants = || (0..summary.plan.factors.len().min(8)).map(|n| 1_u8 << n);
    let row = |metric: Metric| -> Vec<Cell> {
        let scale = scale(metric);
        let cell = |mask: u8| match of(summary, metric).find(|e| e.mask == mask) {
            Some(e) => Cell::judged(scale.shift(e.effect.value), Some(e.effect.verdict)),
            None => "\u{2013}".to_owned().into(),
        };
        let label = Cell::metric(metric.spec().name, scale.labelled(metric.spec().label));
        std::iter::once(label).chain(variants().map(cell)).collect()
    };
    Table {
        caption: "Main effects: the variant on less the variant off".to_owned(),
        columns: std::iter::once(Column::words("Metric"))
            .chain(variants().map(|mask| Column::numbers(letters(mask))))
            .collect(),
        rows: metrics(summary).into_iter().map(row).collect(),
    }
}

/// Which letter is which variant.
pub(super) fn key(summary: &CrossSummary) -> String {
    let names = summary.plan.factors.iter().take(8).enumerate();
    names.map(|(n, name)| format!("{} {name}", letters(1 << n))).collect::<Vec<_>>().join(", ")
}

/// All effects of one metric.
pub(super) fn effects(summary: &CrossSummary, metric: Metric) -> Table {
    let scale = scale(metric);
    let fraction = !summary.relation.is_empty();
    let row = |e: &CrossEffect| -> Vec<Cell> {
        let mut cells = vec![Cell::from(e.letters.clone())];
        if fraction {
            cells.push(e.aliases.join(", ").into());
        }
        cells.extend(judged(metric, &e.effect));
        cells.push(p_value(e.effect.p_adjusted).into());
        cells
    };
    let aliases = fraction.then(|| Column::words("Or")).into_iter();
    Table {
        caption: scale.labelled(metric.spec().label),
        columns: std::iter::once(Column::words("Variants"))
            .chain(aliases)
            .chain([
                Column::numbers("Effect"),
                Column::numbers("95 % interval"),
                Column::words("Verdict"),
                Column::numbers("p, adjusted"),
            ])
            .collect(),
        rows: of(summary, metric).map(row).collect(),
    }
}

fn judged(metric: Metric, shift: &JudgedShift) -> [Cell; 3] {
    let scale = scale(metric);
    [
        scale.shift(shift.value).into(),
        scale.interval(shift.low, shift.high).into(),
        shift.verdict.into(),
    ]
}

/// Pairs about which there is something to tell, those that change each other before sums.
pub(super) fn front_pairs(summary: &CrossSummary) -> Table {
    let told = |p: &&CrossPair| !matches!(p.word, CrossWord::Apart | CrossWord::Undecided);
    let mut pairs: Vec<&CrossPair> = summary.pairs.iter().filter(told).collect();
    pairs.sort_by_key(|p| (p.word == CrossWord::AddUp, p.word != CrossWord::Cancel));
    let left = pairs.len().saturating_sub(PAIRS);
    let rest = if left > 0 { format!(" ({left} more below)") } else { String::new() };
    pairs.truncate(PAIRS);
    pair_table(format!("What pairs make of each other{rest}"), pairs.into_iter(), true)
}

/// All pairs in one metric.
pub(super) fn pairs(summary: &CrossSummary, metric: Metric) -> Table {
    let own = summary.pairs.iter().filter(|p| p.metric == metric.spec().name);
    pair_table(scale(metric).labelled(metric.spec().label), own, false)
}

fn pair_table<'a>(
    caption: String,
    pairs: impl Iterator<Item = &'a CrossPair>,
    with_metric: bool,
) -> Table {
    let row = |p: &CrossPair| -> Option<Vec<Cell>> {
        let metric = Metric::by_name(&p.metric)?;
        let scale = scale(metric);
        let (a, b) = p.variants;
        let metric = with_metric.then(|| Cell::metric(&p.metric, metric.spec().label));
        let shift = |s: &JudgedShift| Cell::judged(scale.shift(s.value), Some(s.verdict));
        let pair = format!("{} with {}", letters(1 << a), letters(1 << b));
        let shifts = [&p.first, &p.second, &p.together, &p.surplus].map(shift);
        let interval =
            (!with_metric).then(|| Cell::from(scale.interval(p.surplus.low, p.surplus.high)));
        let word = short(p.word).to_owned().into();
        Some(
            [pair.into()]
                .into_iter()
                .chain(metric)
                .chain(shifts)
                .chain(interval)
                .chain([word])
                .collect(),
        )
    };
    let shifts = ["First alone", "Second alone", "Together", "Surplus"].map(Column::numbers);
    Table {
        caption,
        columns: std::iter::once(Column::words("Pair"))
            .chain(with_metric.then(|| Column::words("Metric")))
            .chain(shifts)
            .chain((!with_metric).then(|| Column::numbers("95 % interval of the surplus")))
            .chain([Column::words("They")])
            .collect(),
        rows: pairs.filter_map(row).collect(),
    }
}

/// The effects of a metric by size against what chance alone would give.
pub(super) fn half_normal(summary: &CrossSummary, metric: Metric) -> Option<Chart> {
    let mark = |e: &CrossEffect| HalfNormalMark {
        expected: e.half_normal,
        errors: e.errors.unwrap_or(0.0).abs(),
        label: e.letters.clone(),
        sure: matches!(e.effect.verdict, Verdict::ClearShift | Verdict::TooSmall),
    };
    let marks: Vec<HalfNormalMark> = of(summary, metric).map(mark).collect();
    if marks.len() < 3 || marks.iter().all(|m| m.errors == 0.0) {
        return None;
    }
    let sure: Vec<String> = marks.iter().filter(|m| m.sure).map(|m| m.label.clone()).collect();
    let words = match sure.as_slice() {
        [] => "none is surely more than chance".to_owned(),
        some => format!("surely more than chance: {}", some.join(", ")),
    };
    let row = |m: &HalfNormalMark| -> Vec<Cell> {
        let sure = if m.sure { "yes" } else { "no" };
        vec![
            m.label.clone().into(),
            fixed(m.expected, 2).into(),
            fixed(m.errors, 2).into(),
            sure.to_owned().into(),
        ]
    };
    let label = metric.spec().label;
    Some(Chart {
        title: format!("Which effects on {label} are more than chance"),
        description: format!(
            "Every effect on {label} by its size in standard errors, against where the largest, second \
             largest and so on of as many would lie if all were chance, which is the line: {words}. \
             {}.",
            key(summary)
        ),
        series: vec![
            "chance alone (line)".to_owned(),
            "effect (filled: surely not zero, over all effects)".to_owned(),
        ],
        data: Table {
            caption: "Effects in standard errors".to_owned(),
            columns: vec![
                Column::words("Variants"),
                Column::numbers("By chance"),
                Column::numbers("Size"),
                Column::words("Surely not zero"),
            ],
            rows: marks.iter().map(row).collect(),
        },
        plot: Plot::HalfNormal { marks },
    })
}
