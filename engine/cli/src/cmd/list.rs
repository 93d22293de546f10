//! `ruleshift list`: what there is to choose from.

mod schemas;

use std::fmt::Write;

use ruleshift_game::{EVENT_HOOKS, HOOKS};
use ruleshift_hooks::{Overrides, SHIPPED, Source, Variant};
use ruleshift_players::{Behaviour, PLANNER, Planning, Weights};
use ruleshift_record::{METRICS, MetricSpec, Theme};
use ruleshift_scenarios::{FORCE_HEADS, Mission, Terrain, force_lists};

use crate::account::page::{fold_to, hang};
use crate::args::{ListArgs, What};
use crate::exit::Failure;
use crate::screen;

pub(crate) fn run(args: &ListArgs) -> Result<(), Failure> {
    if let Some(experiment) = &args.experiment {
        screen::show(&schemas::one(args.what, experiment)?);
        return Ok(());
    }
    let text = match args.what {
        Some(What::Variants) => variants(),
        Some(What::Scenarios) => scenarios(),
        Some(What::Players) => players(),
        Some(What::Hooks) => hooks(),
        Some(What::Metrics) => metrics(),
        Some(What::Forces) => forces(),
        Some(What::Missions) => missions(),
        Some(What::Schemas) => schemas::all(),
        None => [variants(), scenarios(), players(), counts()].join("\n"),
    };
    screen::show(&text);
    Ok(())
}

/// Names in a column, each with its description.
fn column<'a>(heading: &str, rows: impl IntoIterator<Item = (&'a str, String)>) -> String {
    let rows: Vec<(&str, String)> = rows.into_iter().collect();
    let width = rows.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
    let mut text = format!("{heading}\n");
    for (name, about) in rows {
        text += &row(&format!("  {name:width$}  "), &about);
    }
    text
}

/// A label and what stands behind it, folded beside the label.
fn row(label: &str, about: &str) -> String {
    hang(label, about, label.chars().count(), screen::width()) + "\n"
}

/// A line, folded where it is too long.
fn line(text: &str) -> String {
    fold_to(text, screen::width()) + "\n"
}

fn variants() -> String {
    let about = |name, text| {
        let variant = Variant::load(&Source::new(name, text), &Overrides::none());
        variant.map_or_else(|e| e.to_string(), |v| v.question().unwrap_or(v.summary()).to_owned())
    };
    column(
        "Variants, with the question each asks:",
        SHIPPED.iter().map(|v| (v.name, about(v.name, v.text))),
    )
}

fn scenarios() -> String {
    let about = |name| {
        ruleshift_scenarios::shipped(name)
            .map_or_else(String::new, |s| format!("{}. {}", s.title(), s.about))
    };
    let rows = ruleshift_scenarios::SHIPPED.iter().map(|(name, _)| (*name, about(name)));
    let drawn = "Drawn ones: `ruleshift list missions`; your own: `ruleshift new scenario`\n";
    column("Scenarios:", rows) + drawn
}

/// Force lists as a table, nation by nation.
fn forces() -> String {
    let lists = force_lists();
    let rows: Vec<_> = lists.iter().map(|list| list.row()).collect();
    let width = |n: usize| rows.iter().map(|row| row[n].len()).max().unwrap_or(0);
    let widths: [usize; FORCE_HEADS.len()] =
        std::array::from_fn(|n| width(n).max(FORCE_HEADS[n].len()));
    let line = |cells: [&str; FORCE_HEADS.len()]| {
        let [name, units, men, on_table, about] = cells;
        let [w0, w1, w2, w3, _] = widths;
        row(&format!("  {name:w0$}  {units:>w1$}  {men:>w2$}  {on_table:>w3$}  "), about)
    };
    let mut text =
        "Force lists, for `list` in scenario files; those of several groups say so:\n".to_owned();
    let mut nation = "";
    for (list, row) in lists.iter().zip(&rows) {
        if list.nation != nation {
            nation = &list.nation;
            let _ = writeln!(text, "\n{nation}");
            text += &line(FORCE_HEADS);
        }
        let mut cells = row.each_ref().map(String::as_str);
        let about = format!("{} (several groups)", list.about);
        if !list.one_group {
            cells[FORCE_HEADS.len() - 1] = &about;
        }
        text += &line(cells);
    }
    text
}

fn missions() -> String {
    let missions = Mission::ALL.iter().map(|m| (m.word(), m.about().to_owned()));
    let terrains = Terrain::ALL.iter().map(|t| (t.word(), t.about().to_owned()));
    [
        column("Missions of drawn scenarios, as in `--scenario sketch-7-attack-close`:", missions),
        column("Terrains:", terrains),
        line(
            "`sketch-7` draws both from its seed; `generated:20` stands for sketch-1 to sketch-20.",
        ),
    ]
    .join("\n")
}

fn players() -> String {
    let shipped = ruleshift_players::shipped();
    let doctrines = shipped.iter().map(|d| (d.name.as_str(), d.about.clone()));
    let planner = "Looks ahead: plays games out from what may be and takes what turns out best.";
    let options = [
        ("playouts", format!("Games played out for each decision, {}.", Planning::PLAYOUTS)),
        ("turns", format!("Turns they go on for after the one under way, {}.", Planning::TURNS)),
        ("style", format!("The doctrine they are played out with, {}.", Planning::STYLE)),
    ];
    let weights = format!(
        "Weights of its own, from 0 to {}, joined with dots behind `steady:weights=`:\n{}",
        Weights::LARGEST,
        line(&format!("  {}", Weights::NAMES.join(" . ")))
    );
    let forbidden = Behaviour::ALL.iter().map(|b| (b.word(), b.about().to_owned()));
    [
        column("Players:", doctrines.chain([(PLANNER, planner.to_owned())])),
        column("Options of the planner, as in `planner:playouts=200:style=bold`:", options),
        column("What a player can be forbidden, as in `bold:without=rally,orders`:", forbidden),
        weights,
    ]
    .join("\n")
}

fn hooks() -> String {
    let value = HOOKS.iter().map(|h| (h.name, format!("{} {}", h.about, h.base_rule)));
    let event = EVENT_HOOKS.iter().map(|h| (h.name, h.about.to_owned()));
    let values = column("Value hooks, each with its base rule:", value);
    [values, column("Event hooks:", event)].join("\n")
}

/// Metrics by theme: name and label, unit, what it is, from what it is computed.
fn metrics() -> String {
    let mut text = line(
        "Metrics, each with its unit and the smallest shift worth noticing; * in the headline family, ~ \
         unusual games are of interest as well:",
    );
    for &theme in Theme::ALL {
        text += &line(&format!("\n{}: {}", theme.word(), theme.about()));
        for metric in METRICS.iter().filter(|metric| metric.theme == theme) {
            text += &metric_lines(metric);
        }
    }
    text
}

fn metric_lines(metric: &MetricSpec) -> String {
    let MetricSpec { name, label, unit, notice, about, from, headline, tail, .. } = *metric;
    let marks: String = [(headline, '*'), (tail, '~')]
        .map(|(is, mark)| if is { mark } else { ' ' })
        .iter()
        .collect();
    [
        format!("{marks} {name}  [{label}; {unit}; worth noticing from {notice}]"),
        format!("     {about}"),
        format!("     From: {from}"),
    ]
    .map(|text| line(&text))
    .concat()
}

fn counts() -> String {
    format!(
        "Hooks: {} value hooks, {} event hooks: `ruleshift list hooks`\nMetrics: {}: `ruleshift list metrics`\nForce lists: {}: `ruleshift list forces`\n",
        HOOKS.len(),
        EVENT_HOOKS.len(),
        METRICS.len(),
        force_lists().len()
    )
}
