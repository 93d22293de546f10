//! What a report says of the worth of behaviours.

use ruleshift_record::{ArmSummary, Importance, ImportanceShift, Metric, Seat, Summary};

use super::tables::{SIDE_BY_SIDE, others, reference};
use crate::format::{Scale, and, count, p_value};
use crate::report::{Block, Cell, Column, Section, Table};
use crate::stats::{Interval, LEVEL};

fn scale() -> Scale<'static> {
    Scale::new("share", notice())
}

/// Worth nearer to zero than this is nearly pointless: what nobody would notice of wins.
fn notice() -> f64 {
    Metric::AttackerWins.spec().notice
}

fn of<'a>(summary: &'a Summary, arm: &'a str) -> impl Iterator<Item = &'a Importance> {
    summary.importance.iter().filter(move |i| i.arm == arm)
}

/// The same behaviour under another arm.
fn same<'a>(summary: &'a Summary, arm: &str, like: &Importance) -> Option<&'a Importance> {
    let same =
        |i: &&Importance| i.arm == arm && i.side == like.side && i.behaviour == like.behaviour;
    summary.importance.iter().find(same)
}

/// The behaviour of a side: "the attacker's marker moves".
fn named(i: &Importance) -> String {
    format!("the {}'s {}", i.side.word(), i.behaviour.replace('-', " "))
}

/// What behaviours are worth, and what is to be said of it.
pub(super) fn front(summary: &Summary) -> Option<Section> {
    let arms = others(summary);
    let table = match arms {
        [] => return None,
        [arm] => shifts(summary, arm),
        arms => side_by_side(summary, &arms[..arms.len().min(SIDE_BY_SIDE)]),
    };
    let mut notes: Vec<String> = arms.iter().flat_map(|arm| findings(summary, arm)).collect();
    notes.extend(summary.arms.iter().filter_map(|arm| never(summary, arm)));
    let blocks = vec![
        Block::Table(table),
        Block::Paragraph(WORDS.to_owned()),
        Block::Notes(if notes.is_empty() { vec![NOTHING.to_owned()] } else { notes }),
    ];
    (!summary.importance.is_empty()).then(|| Section::new("What behaviours are worth", blocks))
}

const WORDS: &str = "Worth: what the side's share of wins loses when it must do without, with the same \
                     luck; a draw is half a win.";
const NOTHING: &str = "No shift of a behaviour's worth is shown.";

/// The tables in full: the worth under each arm, and the shifts of several arms.
pub(super) fn sections(summary: &Summary) -> Vec<Section> {
    let worth = summary.arms.iter().map(|arm| worth(summary, arm));
    let arms = others(summary);
    let shifts = arms.iter().filter(|_| arms.len() > 1).map(|arm| shifts(summary, arm));
    let tables = worth.chain(shifts).filter(|t| !t.rows.is_empty());
    let blocks: Vec<Block> = tables.map(Block::Table).collect();
    let section = Section::new("The worth of behaviours in full", blocks);
    if section.blocks.is_empty() { vec![] } else { vec![section] }
}

fn worth(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |i: &Importance| -> Vec<Cell> {
        vec![
            i.side.word().to_owned().into(),
            i.behaviour.clone().into(),
            scale().value(i.with).into(),
            scale().value(i.without).into(),
            scale().shift(i.value).into(),
            scale().interval(i.low, i.high).into(),
            p_value(i.p_adjusted).into(),
            format!("{} of {}", count(u64::from(i.differing)), count(u64::from(i.pairs))).into(),
        ]
    };
    Table {
        caption: format!("{}, the worth of each behaviour", arm.title),
        columns: vec![
            Column::words("Side"),
            Column::words("Behaviour"),
            Column::numbers("Wins with"),
            Column::numbers("Wins without"),
            Column::numbers("Worth"),
            Column::numbers("95 % interval"),
            Column::numbers("p after Holm"),
            Column::numbers("Games that differ"),
        ],
        rows: of(summary, &arm.name).map(row).collect(),
    }
}

fn shifts(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |i: &Importance| -> Option<Vec<Cell>> {
        let (base, shift) = (same(summary, reference(summary), i)?, i.shift.as_ref()?);
        Some(vec![
            format!("{}: {}", i.side.word(), i.behaviour).into(),
            points(base).into(),
            points(i).into(),
            scale().shift(shift.shift).into(),
            scale().interval(shift.low, shift.high).into(),
            word(base, i, shift).to_owned().into(),
        ])
    };
    Table {
        caption: format!("{}, worth of each behaviour", arm.title),
        columns: vec![
            Column::words("Behaviour"),
            Column::numbers(reference(summary)),
            Column::numbers(arm.name.as_str()),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
            Column::words("Finding"),
        ],
        rows: of(summary, &arm.name).filter_map(row).collect(),
    }
}

/// The worth under several arms.
fn side_by_side(summary: &Summary, arms: &[ArmSummary]) -> Table {
    let row = |i: &Importance| -> Vec<Cell> {
        let name = format!("{}: {}", i.side.word(), i.behaviour);
        let cell = |arm: &ArmSummary| -> Cell {
            same(summary, &arm.name, i).map_or("too few games".to_owned(), points).into()
        };
        [name.into(), points(i).into()].into_iter().chain(arms.iter().map(cell)).collect()
    };
    let columns = arms.iter().map(|arm| Column::numbers(arm.name.as_str()));
    Table {
        caption: "Worth of each behaviour".to_owned(),
        columns: [Column::words("Behaviour"), Column::numbers(reference(summary))]
            .into_iter()
            .chain(columns)
            .collect(),
        rows: of(summary, reference(summary)).map(row).collect(),
    }
}

/// The worth with its unit and without a plus.
fn points(i: &Importance) -> String {
    match i.differing {
        0 => "never occurs".to_owned(),
        _ => scale().shift(i.value).trim_start_matches('+').to_owned(),
    }
}

/// Whether all of the interval of the worth is nearer to zero than anybody notices.
fn pointless(i: &Importance) -> bool {
    Interval { low: i.low, high: i.high }.within(notice())
}

/// What is found of one behaviour, in a word or two.
fn word(base: &Importance, i: &Importance, shift: &ImportanceShift) -> &'static str {
    let shown = shift.p_adjusted < LEVEL;
    match shift.shift {
        _ if base.differing == 0 && i.differing == 0 => "never occurs",
        _ if !shown => "no shift shown",
        s if s < 0.0 && pointless(i) && !pointless(base) => "nearly pointless",
        s if s < 0.0 => "matters less",
        _ => "matters more",
    }
}

/// One sentence for each shift that is shown, the largest first.
fn findings(summary: &Summary, arm: &ArmSummary) -> Vec<String> {
    let mut shown: Vec<(&Importance, &ImportanceShift)> = of(summary, &arm.name)
        .filter_map(|i| Some((i, i.shift.as_ref()?)))
        .filter(|(_, shift)| shift.p_adjusted < LEVEL)
        .collect();
    shown.sort_by(|a, b| b.1.shift.abs().total_cmp(&a.1.shift.abs()));
    shown.into_iter().filter_map(|(i, shift)| finding(summary, arm, i, shift)).collect()
}

fn finding(
    summary: &Summary,
    arm: &ArmSummary,
    i: &Importance,
    shift: &ImportanceShift,
) -> Option<String> {
    let base = same(summary, reference(summary), i)?;
    let under = summary.arms.first()?.title.as_str();
    let plural = i.behaviour.ends_with('s');
    let end = match word(base, i, shift) {
        "nearly pointless" if plural => ": this tweak makes them nearly pointless",
        "nearly pointless" => ": this tweak makes it nearly pointless",
        _ if i.high < 0.0 => ": these players do better without",
        _ => "",
    };
    Some(format!(
        "{}: {} {} {}: {} against {} under {under} (shift {}, 95 % {}){end}.",
        arm.title,
        named(i),
        if plural { "matter" } else { "matters" },
        if shift.shift < 0.0 { "less" } else { "more" },
        points(i),
        points(base),
        scale().signed(shift.shift),
        scale().interval(shift.low, shift.high)
    ))
}

/// Behaviours that never occur under an arm.
fn never(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let all = |side: Seat| -> Option<String> {
        let own = of(summary, &arm.name).filter(|i| i.side == side && i.differing == 0);
        let words: Vec<String> = own.map(|i| i.behaviour.replace('-', " ")).collect();
        (!words.is_empty()).then(|| format!("the {}'s {}", side.word(), and(&words)))
    };
    let sides: Vec<String> = Seat::ALL.into_iter().filter_map(all).collect();
    (!sides.is_empty()).then(|| {
        format!(
            "{}: never seen in these games: {}. They are worth exactly nothing here: no game \
             differs without them.",
            arm.title,
            sides.join("; ")
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    fn importance(arm: &str, value: f64, spread: f64, differing: u32) -> Importance {
        Importance {
            arm: arm.into(),
            side: Seat::Defender,
            behaviour: "orders".into(),
            pairs: 500,
            differing,
            with: 0.5,
            without: 0.5 - value,
            value,
            low: value - spread,
            high: value + spread,
            p: 0.001,
            p_adjusted: 0.002,
            shift: None,
        }
    }

    /// A summary in which the defender's orders are worth 14.3 points under base.
    fn summary(value: f64, differing: u32) -> Summary {
        let games = sample::games(20);
        let mut summary = summarise(&sample::run(&[games.clone(), games]));
        let shift = value - 0.143;
        let shift = ImportanceShift {
            games: 500,
            shift,
            low: shift - 0.017,
            high: shift + 0.017,
            p: 0.001,
            p_adjusted: 0.002,
        };
        summary.importance = vec![
            importance("base", 0.143, 0.01, 400),
            Importance { shift: Some(shift), ..importance("arm-1", value, 0.01, differing) },
        ];
        summary
    }

    fn notes(summary: &Summary) -> Vec<String> {
        match front(summary).unwrap().blocks.pop() {
            Some(Block::Notes(notes)) => notes,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_finding_reads_as_a_sentence() {
        assert_eq!(
            notes(&summary(0.091, 300)),
            [
                "Arm 1: the defender's orders matter less: 9.1 pp against 14.3 pp under Base rules (shift \
             −5.2, 95 % −6.9 to −3.5)."
            ]
        );
        let pointless = notes(&summary(0.005, 300));
        assert!(
            pointless[0].ends_with(": this tweak makes them nearly pointless."),
            "{pointless:?}"
        );
        let harmful = notes(&summary(-0.2, 300));
        assert!(harmful[0].ends_with(": these players do better without."), "{harmful:?}");
        assert!(notes(&summary(0.3, 300))[0].contains("orders matter more: 30.0 pp against"));
    }

    #[test]
    fn what_never_occurs_is_said_to_be_worth_exactly_nothing() {
        let never = &notes(&summary(0.0, 0))[1];
        assert!(
            never.starts_with("Arm 1: never seen in these games: the defender's orders."),
            "{never}"
        );
    }

    #[test]
    fn nothing_is_said_of_behaviours_that_were_not_asked_about() {
        let mut summary = summary(0.1, 10);
        summary.importance.clear();
        assert!(front(&summary).is_none() && sections(&summary).is_empty());
    }
}
