//! What a report says of players: who they are, whether a shift is the same for all, and skill.

use ruleshift_record::{
    ArmSummary, Metric, MetricShift, PairingShift, PlayerDependence, Seat, SkillEdge, Summary,
    Verdict, WithoutPlayer,
};

use super::tables::{label, others, reference};
use crate::format::{Scale, and, count, counted, fixed, p_value};
use crate::report::{Block, Cell, Column, Section, Table};

/// Who plays whom, in a few words.
pub(super) fn facts(summary: &Summary) -> String {
    match (&summary.pairings[..], &summary.roster[..]) {
        ([(attacker, defender)], _) => format!("attacker {attacker}, defender {defender}"),
        (pairings, []) => format!("{} of players", counted(pairings.len() as u64, "pairing")),
        (pairings, roster) => format!(
            "{} of {}{}",
            counted(pairings.len() as u64, "pairing"),
            and(roster),
            forbidden(summary)
        ),
    }
}

/// What was forbidden to a side; with one pairing the players' names say it.
fn forbidden(summary: &Summary) -> String {
    let of = |side: Seat| -> String {
        let own = summary.restricted.iter().filter(|r| r.side == side);
        let words: Vec<String> = own.map(|r| r.without.clone()).collect();
        match words.is_empty() {
            true => String::new(),
            false => format!(", the {} without {}", side.word(), and(&words)),
        }
    };
    Seat::ALL.map(of).concat()
}

/// Whether skill still tells, one sentence for each arm.
pub(super) fn front(summary: &Summary) -> Option<Section> {
    let notes: Vec<String> = summary.skill.iter().map(|edge| sentence(summary, edge)).collect();
    (!notes.is_empty()).then(|| Section::new("Does skill tell?", vec![Block::Notes(notes)]))
}

fn title<'a>(summary: &'a Summary, arm: &'a str) -> &'a str {
    summary.arms.iter().find(|a| a.name == arm).map_or(arm, |a| a.title.as_str())
}

fn share(edge: &SkillEdge) -> Scale<'static> {
    Scale::new("share", edge.notice)
}

fn sentence(summary: &Summary, edge: &SkillEdge) -> String {
    let (scale, title) = (share(edge), title(summary, &edge.arm));
    if edge.reference_low <= 0.5 && edge.verdict != Verdict::ClearShift {
        return format!(
            "{title}: nothing can be said: under {} no player is shown to be the stronger (the one \
             who seemed so wins {}, 95 % {} to {}).",
            summary.arms.first().map_or("", |arm| arm.title.as_str()),
            scale.value(edge.reference),
            scale.value(edge.reference_low),
            scale.value(edge.reference_high)
        );
    }
    let end = match edge.verdict {
        Verdict::ClearShift if edge.shift < 0.0 && edge.share_low < 0.5 => {
            "hardly any skill is left to tell"
        }
        Verdict::ClearShift if edge.shift < 0.0 => "the tweak moves the game towards luck",
        Verdict::ClearShift => "the tweak makes skill tell more",
        Verdict::TooSmall => "a shift too small to notice",
        Verdict::NoDifference => "no difference worth noticing",
        Verdict::Undecided => "whether that changes is undecided",
    };
    format!(
        "{title}: the stronger player wins {} of games instead of {} ({}, 95 % {}): {end}.",
        scale.value(edge.share),
        scale.value(edge.reference),
        scale.shift(edge.shift),
        scale.interval(edge.low, edge.high)
    )
}

/// The tables that follow those of the scenarios.
pub(super) fn sections(summary: &Summary) -> Vec<Section> {
    let mut blocks: Vec<Block> = Vec::new();
    for arm in others(summary) {
        let tables = [by_pairing(summary, arm), agreement(summary, arm), left_out(summary, arm)];
        blocks.extend(tables.into_iter().filter(|t| !t.rows.is_empty()).map(Block::Table));
    }
    let skill = skill(summary);
    let skill = if skill.rows.is_empty() { vec![] } else { vec![Block::Table(skill)] };
    [Section::new("By players", blocks), Section::new("The edge of skill", skill)]
        .into_iter()
        .filter(|s| !s.blocks.is_empty())
        .collect()
}

/// The shifts that were looked at for their players, in order.
fn looked_at<'a>(
    summary: &'a Summary,
    arm: &'a ArmSummary,
) -> impl Iterator<Item = (&'a PlayerDependence, &'a MetricShift)> {
    let of = |d: &'a PlayerDependence| {
        let shift = summary.metrics.iter().find(|m| m.arm == d.arm && m.metric == d.metric)?;
        Some((d, shift))
    };
    summary.players.iter().filter(|d| d.arm == arm.name).filter_map(of)
}

fn by_pairing(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |(m, p): (&MetricShift, &PairingShift)| -> Vec<Cell> {
        let scale = Scale::of(m);
        vec![
            Cell::metric(&m.metric, scale.labelled(label(m))),
            p.attacker.clone().into(),
            p.defender.clone().into(),
            count(u64::from(p.pairs)).into(),
            scale.value(p.reference_mean).into(),
            scale.value(p.mean).into(),
            scale.shift(p.shift).into(),
            scale.interval(p.low, p.high).into(),
        ]
    };
    let rows = looked_at(summary, arm).flat_map(|(_, m)| m.by_pairing.iter().map(move |p| (m, p)));
    Table {
        caption: format!("{}, with each pairing of players", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::words("Attacker"),
            Column::words("Defender"),
            Column::numbers("Pairs"),
            Column::numbers(reference(summary)),
            Column::numbers(arm.name.as_str()),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
        ],
        rows: rows.map(row).collect(),
    }
}

fn agreement(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |(d, m): (&PlayerDependence, &MetricShift)| -> Vec<Cell> {
        vec![
            Cell::metric(&m.metric, label(m)),
            format!("{} on {}", fixed(d.q, 1), fixed(d.df, 0)).into(),
            format!("{} %", fixed(100.0 * d.i2, 0)).into(),
            p_value(d.p).into(),
            p_value(d.p_adjusted).into(),
        ]
    };
    Table {
        caption: format!("{}, whether the pairings agree", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Q on degrees of freedom"),
            Column::numbers("I²"),
            Column::numbers("p of the same shift"),
            Column::numbers("p after Holm"),
        ],
        rows: looked_at(summary, arm).map(row).collect(),
    }
}

fn left_out(summary: &Summary, arm: &ArmSummary) -> Table {
    let row = |(m, w): (&MetricShift, &WithoutPlayer)| -> Vec<Cell> {
        let scale = Scale::of(m);
        vec![
            Cell::metric(&m.metric, scale.labelled(label(m))),
            w.player.clone().into(),
            count(u64::from(w.pairs)).into(),
            scale.shift(w.shift).into(),
            scale.interval(w.low, w.high).into(),
            p_value(w.p_adjusted).into(),
            if w.hangs { "yes" } else { "no" }.to_owned().into(),
        ]
    };
    let rows = looked_at(summary, arm).flat_map(|(d, m)| d.without.iter().map(move |w| (m, w)));
    Table {
        caption: format!("{}, in the games without one player", arm.title),
        columns: vec![
            Column::words("Metric"),
            Column::words("Without"),
            Column::numbers("Pairs"),
            Column::numbers("Shift"),
            Column::numbers("95 % interval"),
            Column::numbers("p of the same with it"),
            Column::words("Hangs on it"),
        ],
        rows: rows.map(row).collect(),
    }
}

fn skill(summary: &Summary) -> Table {
    let row = |edge: &SkillEdge| -> Vec<Cell> {
        let scale = share(edge);
        let ends = |low: f64, high: f64| format!("{} to {}", scale.value(low), scale.value(high));
        vec![
            title(summary, &edge.arm).to_owned().into(),
            edge.order.join(", ").into(),
            count(u64::from(edge.pairs)).into(),
            format!(
                "{} ({})",
                scale.value(edge.reference),
                ends(edge.reference_low, edge.reference_high)
            )
            .into(),
            format!("{} ({})", scale.value(edge.share), ends(edge.share_low, edge.share_high))
                .into(),
            format!("{} ({})", scale.shift(edge.shift), scale.interval(edge.low, edge.high)).into(),
            edge.verdict.into(),
        ]
    };
    Table {
        caption: format!(
            "The stronger player's share of wins, a draw for half; worth noticing from {}",
            Scale::new("share", Metric::AttackerWins.spec().notice)
                .amount(Metric::AttackerWins.spec().notice)
        ),
        columns: vec![
            Column::words("Rules"),
            Column::words("From strong to weak"),
            Column::numbers("Pairs counted"),
            Column::numbers(reference(summary)),
            Column::numbers("with the tweak"),
            Column::numbers("Shift"),
            Column::words("Verdict"),
        ],
        rows: summary.skill.iter().map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    fn summary() -> Summary {
        let games = sample::games(720);
        let better = games.iter().map(|&(s, g, m)| (s, g, m + f64::from(g % 9))).collect();
        let mut run = sample::run(&[games, better]);
        sample::roster(&mut run, &["steady", "bold", "cautious"]);
        summarise(&run)
    }

    #[test]
    fn the_facts_name_the_players_and_what_is_forbidden() {
        let mut summary = summary();
        assert_eq!(facts(&summary), "9 pairings of steady, bold and cautious");
        let forbid = |side, without: &str| ruleshift_record::Restriction {
            side,
            without: without.to_owned(),
        };
        summary.restricted =
            vec![forbid(Seat::Defender, "rally"), forbid(Seat::Defender, "orders")];
        assert_eq!(
            facts(&summary),
            "9 pairings of steady, bold and cautious, the defender without rally and orders"
        );
    }

    #[test]
    fn each_pairing_and_each_player_left_out_has_a_row() {
        let sections = sections(&summary());
        let rows: Vec<usize> = sections
            .iter()
            .flat_map(|s| &s.blocks)
            .map(|b| match b {
                Block::Table(table) => table.rows.len(),
                other => panic!("{other:?}"),
            })
            .collect();
        // The length never shifts here and has no spread: only the balance can be tested.
        assert_eq!(rows, [2 * 9, 2, 2 * 3, 1]);
    }

    #[test]
    fn the_sentence_on_skill_follows_the_verdict() {
        let summary = summary();
        let mut edge = SkillEdge { reference_low: 0.55, ..summary.skill[0].clone() };
        let mut said = |verdict, shift: f64, share_low| {
            (edge.verdict, edge.shift, edge.share_low) = (verdict, shift, share_low);
            sentence(&summary, &edge)
        };
        assert!(said(Verdict::ClearShift, -0.1, 0.52).ends_with("moves the game towards luck."));
        assert!(
            said(Verdict::ClearShift, -0.1, 0.49).ends_with("hardly any skill is left to tell.")
        );
        assert!(said(Verdict::ClearShift, 0.1, 0.52).ends_with("makes skill tell more."));
        assert!(said(Verdict::Undecided, 0.1, 0.52).ends_with("is undecided."));
        edge.reference_low = 0.49;
        assert!(sentence(&summary, &edge).contains("no player is shown to be the stronger"));
    }
}
