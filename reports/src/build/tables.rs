//! The tables of a report.

use ruleshift_record::{ArmSummary, Metric, MetricShift, ScenarioShift, Summary, Verdict};

use super::headline;
use crate::format::{Scale, count};
use crate::report::{Block, Cell, Column, Section, Table, sign};

/// Arms whose shifts stand side by side in the table of the front.
pub(super) const SIDE_BY_SIDE: usize = 4;

/// The arms that are compared with the reference.
pub(super) fn others(summary: &Summary) -> &[ArmSummary] {
    summary.arms.get(1..).unwrap_or_default()
}

/// The label of the metric of a shift.
pub(super) fn label(shift: &MetricShift) -> &str {
    Metric::by_name(&shift.metric).map_or(shift.metric.as_str(), |m| m.spec().label)
}

pub(super) fn reference(summary: &Summary) -> &str {
    summary.arms.first().map_or("", |a| a.name.as_str())
}

fn of<'a>(summary: &'a Summary, arm: &'a ArmSummary) -> impl Iterator<Item = &'a MetricShift> {
    summary.metrics.iter().filter(move |m| m.arm == arm.name)
}

/// The headline metrics: one arm in full, several side by side; `None` when nothing was compared.
pub(super) fn front(summary: &Summary) -> Option<Table> {
    let table = match others(summary) {
        [] => return None,
        [arm] => shifts(summary, arm, true),
        arms => side_by_side(summary, &arms[..arms.len().min(SIDE_BY_SIDE)]),
    };
    (!table.rows.is_empty()).then_some(table)
}

/// The signs of the verdicts, explained.
pub(crate) fn legend() -> String {
    let verdicts =
        [Verdict::ClearShift, Verdict::TooSmall, Verdict::NoDifference, Verdict::Undecided];
    verdicts.map(|v| format!("{} {}", sign(v), v.word())).join(", ")
}

/// What stands in the table of the front and is not said there; the winner and the margin may seem
/// to contradict each other.
pub(super) fn words(summary: &Summary) -> Option<String> {
    let words: Vec<&str> = [
        (
            "pp: percentage points, one percentage less another.",
            has(summary, |m| m.unit == "share"),
        ),
        (
            "Margin: the attacker's points less the defender's; a side that is beaten loses, \
             whatever the points.",
            has(summary, |m| Metric::by_name(&m.metric) == Some(Metric::Margin)),
        ),
    ]
    .into_iter()
    .filter_map(|(text, stands)| stands.then_some(text))
    .collect();
    (!words.is_empty()).then(|| words.join(" "))
}

/// Whether a shift of that sort is in the table of the front.
fn has(summary: &Summary, sort: impl Fn(&MetricShift) -> bool) -> bool {
    summary.metrics.iter().any(|m| m.headline && sort(m))
}

/// The sections of tables that follow the charts.
pub(super) fn sections(summary: &Summary) -> Vec<Section> {
    let arms = others(summary);
    let each = |of: &dyn Fn(&ArmSummary) -> Table| -> Vec<Block> {
        arms.iter().map(of).filter(|t| !t.rows.is_empty()).map(Block::Table).collect()
    };
    let headline =
        if arms.len() > 1 { each(&|arm| shifts(summary, arm, true)) } else { Vec::new() };
    [
        Section::new("Headline metrics by arm", headline),
        Section::new("By scenario", each(&|arm| by_scenario(summary, arm))),
        Section::new("All other metrics", each(&|arm| shifts(summary, arm, false))),
    ]
    .into_iter()
    .filter(|s| !s.blocks.is_empty())
    .collect()
}

/// The arms: what each changes and how much was played.
pub(crate) fn arms(summary: &Summary) -> Table {
    let row = |arm: &ArmSummary| {
        let text = match arm.summary.as_str() {
            "" => arm.title.clone(),
            summary => format!("{}: {summary}", arm.title),
        };
        vec![arm.name.clone().into(), text.into(), count(u64::from(arm.games)).into()]
    };
    Table {
        caption: format!("The arms; scenarios: {}", summary.scenarios.join(", ")),
        columns: vec![
            Column::words("Arm"),
            Column::words("Rules"),
            Column::numbers("Games finished"),
        ],
        rows: summary.arms.iter().map(row).collect(),
    }
}

/// The shifts of one arm, of headline metrics or of all others.
fn shifts(summary: &Summary, arm: &ArmSummary, headline: bool) -> Table {
    chosen(summary, arm, |m| m.headline == headline)
}

/// The shifts of one arm of the metrics that are wanted.
pub(super) fn chosen(
    summary: &Summary,
    arm: &ArmSummary,
    wanted: impl Fn(&MetricShift) -> bool,
) -> Table {
    let row = |m: &MetricShift| {
        let scale = Scale::of(m);
        vec![
            Cell::metric(&m.metric, scale.labelled(label(m))),
            scale.value(m.reference_mean).into(),
            scale.value(m.mean).into(),
            scale.shift(m.shift).into(),
            scale.interval(m.low, m.high).into(),
            m.verdict.into(),
        ]
    };
    Table {
        caption: arm.title.clone(),
        columns: vec![
            Column::words("Metric"),
            Column::numbers(reference(summary)),
            Column::numbers(arm.name.as_str()),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
            Column::words("Verdict"),
        ],
        rows: of(summary, arm).filter(|m| wanted(m)).map(row).collect(),
    }
}

/// The headline shifts of several arms, with the verdict in each cell.
fn side_by_side(summary: &Summary, arms: &[ArmSummary]) -> Table {
    let cell = |arm: &ArmSummary, metric: &Metric| -> Cell {
        match of(summary, arm).find(|m| m.metric == metric.spec().name) {
            Some(m) => Cell::judged(Scale::of(m).shift(m.shift), Some(m.verdict)),
            None => "too few games".to_owned().into(),
        }
    };
    let row = |metric: &Metric| -> Vec<Cell> {
        let spec = metric.spec();
        let label = Scale::new(spec.unit, spec.notice).labelled(spec.label);
        std::iter::once(Cell::metric(spec.name, label))
            .chain(arms.iter().map(|arm| cell(arm, metric)))
            .collect()
    };
    let columns = arms.iter().map(|a| Column::numbers(a.name.as_str()));
    let left = others(summary).len() - arms.len();
    let rest = if left > 0 { format!(" ({left} more below)") } else { String::new() };
    Table {
        caption: format!("Shifts against {}{rest}", reference(summary)),
        columns: std::iter::once(Column::words("Metric")).chain(columns).collect(),
        rows: headline(summary).map(row).collect(),
    }
}

/// The headline shifts of one arm in every scenario.
fn by_scenario(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |(m, s): (&MetricShift, &ScenarioShift)| -> Vec<Cell> {
        let scale = Scale::of(m);
        vec![
            Cell::metric(&m.metric, scale.labelled(label(m))),
            s.scenario.clone().into(),
            count(u64::from(s.pairs)).into(),
            scale.value(s.reference_mean).into(),
            scale.value(s.mean).into(),
            scale.shift(s.shift).into(),
            scale.interval(s.low, s.high).into(),
        ]
    };
    let parts = of(summary, arm)
        .filter(|m| m.headline)
        .flat_map(|m| m.by_scenario.iter().map(move |s| (m, s)));
    Table {
        caption: arm.title.clone(),
        columns: vec![
            Column::words("Metric"),
            Column::words("Scenario"),
            Column::numbers("Pairs"),
            Column::numbers(reference(summary)),
            Column::numbers(arm.name.as_str()),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
        ],
        rows: parts.map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    fn summary(arms: usize) -> Summary {
        summarise(&sample::run(&vec![sample::games(10); arms]))
    }

    #[test]
    fn one_arm_is_shown_in_full_and_several_side_by_side() {
        assert_eq!(front(&summary(1)), None);
        assert_eq!(front(&summary(2)).unwrap().columns.len(), 6);
        assert_eq!(front(&summary(3)).unwrap().columns.len(), 3);
        let many = front(&summary(7)).unwrap();
        assert_eq!(many.columns.len(), 5);
        assert_eq!(many.caption, "Shifts against base (2 more below)");
    }
}
