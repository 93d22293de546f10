//! The tables of a hunt's report.

use ruleshift_record::{
    HuntEdge, HuntGain, HuntHabit, HuntPart, HuntPlan, HuntSummary, Metric, Seat,
};

use super::words::{share, usual};
use crate::format::{Scale, count};
use crate::report::{Cell, Column, Table};

/// What the style gains under either rules, and what of it comes from the variant.
pub(super) fn gains(hunt: &HuntPlan, summary: &HuntSummary) -> Table {
    let edge = |name: &str, edge: &HuntEdge| {
        let shares = [share().value(edge.usual), share().value(edge.found)];
        row([name.to_owned()].into_iter().chain(shares).chain(told(&edge.gain)))
    };
    let surplus = ["from the variant".to_owned(), String::new(), String::new()];
    Table {
        caption: "Games won by the style found".to_owned(),
        columns: vec![
            Column::words("Rules"),
            Column::numbers(usual(hunt)),
            Column::numbers("style found"),
            Column::numbers("Gain"),
            Column::numbers("95 % interval"),
        ],
        rows: vec![
            edge(&summary.base, &summary.whole.base),
            edge(&summary.variant, &summary.whole.variant),
            row(surplus.into_iter().chain(told(&summary.whole.surplus))),
        ],
    }
}

/// The same by side or by scenario.
pub(super) fn parts(summary: &HuntSummary, what: &str, parts: &[HuntPart]) -> Table {
    let gains = |part: &HuntPart| {
        [part.base.gain, part.variant.gain, part.surplus].iter().flat_map(told).collect::<Vec<_>>()
    };
    let line = |part: &HuntPart| {
        row([part.part.clone(), count(u64::from(part.seeds))].into_iter().chain(gains(part)))
    };
    let numbers = [
        "Seeds",
        &format!("Gain under {}", summary.base),
        "95 %",
        &format!("Gain under {}", summary.variant),
        "95 %",
        "From the variant",
        "95 %",
    ]
    .map(Column::numbers);
    Table {
        caption: format!("What the style found gains, by {}", what.to_lowercase()),
        columns: std::iter::once(Column::words(what)).chain(numbers).collect(),
        rows: parts.iter().map(line).collect(),
    }
}

/// What the style does differently.
pub(super) fn habits(hunt: &HuntPlan, habits: &[HuntHabit]) -> Table {
    let line = |habit: &HuntHabit| {
        let metric = Metric::by_name(&habit.metric).expect("the summary names metrics there are");
        let spec = metric.spec();
        let scale = Scale::new(spec.unit, spec.notice);
        let (side, shift) = (side(habit.side).to_owned(), &habit.shift);
        let cells = row([
            side,
            scale.value(habit.usual),
            scale.value(habit.found),
            scale.shift(shift.value),
            scale.interval(shift.low, shift.high),
        ]);
        let label = Cell::metric(spec.name, scale.labelled(spec.label));
        std::iter::once(label).chain(cells).collect()
    };
    Table {
        caption: "What the style found does differently under the variant".to_owned(),
        columns: vec![
            Column::words("Metric"),
            Column::words("As the"),
            Column::numbers(usual(hunt)),
            Column::numbers("style found"),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
        ],
        rows: habits.iter().map(line).collect(),
    }
}

/// The weights of the style beside the usual ones.
pub(super) fn weights(hunt: &HuntPlan, summary: &HuntSummary) -> Table {
    let weights = summary.trail.weights.iter();
    Table {
        caption: "The weights of the style found".to_owned(),
        columns: vec![
            Column::words("Weight"),
            Column::numbers(usual(hunt)),
            Column::numbers("style found"),
        ],
        rows: weights
            .map(|w| row([w.name.clone(), w.usual.to_string(), w.found.to_string()]))
            .collect(),
    }
}

/// How the search went on.
pub(super) fn rounds(summary: &HuntSummary) -> Table {
    let line = |(n, (mean, best)): (usize, &(f64, f64))| {
        row([(n + 1).to_string(), share().shift(*mean), share().shift(*best)])
    };
    Table {
        caption: "What the styles of each round seemed to gain from the variant".to_owned(),
        columns: ["Round", "Mean of its styles", "Best of them"].map(Column::numbers).to_vec(),
        rows: summary.trail.rounds.iter().enumerate().map(line).collect(),
    }
}

/// The styles that were played again.
pub(super) fn finalists(summary: &HuntSummary) -> Table {
    let line = |(seemed, again): &(f64, f64)| row([share().shift(*seemed), share().shift(*again)]);
    Table {
        caption: "The styles that were played again; the best of them is judged".to_owned(),
        columns: ["Seemed to gain", "On other seeds"].map(Column::numbers).to_vec(),
        rows: summary.trail.finalists.iter().map(line).collect(),
    }
}

pub(super) fn side(side: Seat) -> &'static str {
    match side {
        Seat::Attacker => "attacker",
        Seat::Defender => "defender",
    }
}

fn told(gain: &HuntGain) -> [String; 2] {
    [share().shift(gain.value), share().interval(gain.low, gain.high)]
}

fn row(cells: impl IntoIterator<Item = String>) -> Vec<Cell> {
    cells.into_iter().map(Cell::from).collect()
}
