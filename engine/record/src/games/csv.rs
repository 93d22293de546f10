//! `games.csv`: one row per game, written and read.

use std::fmt;
use std::io::{Read, Write};

use super::log::LogError;
use crate::{GameRow, METRICS, Metric, Plan, RunRecord, Ticket};

const KEYS: [&str; 7] = ["arm", "scenario", "attacker", "defender", "game", "seed", "ticket"];

/// Why `games.csv` could not be written or read.
#[derive(Debug)]
pub struct GamesError(String);

impl fmt::Display for GamesError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for GamesError {}

impl From<LogError> for GamesError {
    fn from(error: LogError) -> Self {
        GamesError(error.to_string())
    }
}

impl From<csv::Error> for GamesError {
    fn from(error: csv::Error) -> Self {
        GamesError(error.to_string())
    }
}

/// Writes the games of `run`: arm, scenario, players, number, seed, ticket, then every metric.
///
/// # Errors
/// What the writer `to` reports.
pub fn write_games(run: &RunRecord, to: impl Write) -> Result<(), GamesError> {
    let mut out = csv::Writer::from_writer(to);
    out.write_record(KEYS.iter().copied().chain(METRICS.iter().map(|m| m.name)))?;
    run.games.each(&mut |row| {
        let players = run.plan.players(row.arm, run.plan.pairing(row.game));
        let keys = [
            run.plan.arms[row.arm].name.clone(),
            run.plan.scenarios[row.scenario].name.clone(),
            players.attacker.name.clone(),
            players.defender.name.clone(),
            row.game.to_string(),
            format!("{:016x}", row.seed),
            run.ticket(&row).to_string(),
        ];
        // `{}` prints the shortest decimal that reads back as the same number.
        let fields = keys.into_iter().chain(row.values.iter().map(f64::to_string));
        out.write_record(fields).map_err(|e| LogError::new(e.to_string()))
    })?;
    out.flush().map_err(|e| GamesError(e.to_string()))
}

/// Reads what [`write_games`] wrote under the same plan: all but the margins by turn.
///
/// # Errors
/// The first line that is not a game of `plan`.
pub fn read_games(plan: &Plan, from: impl Read) -> Result<Vec<GameRow>, GamesError> {
    let mut input = csv::Reader::from_reader(from);
    let header = input.headers()?.clone();
    if !header.iter().eq(KEYS.iter().copied().chain(METRICS.iter().map(|m| m.name))) {
        return Err(GamesError("line 1: the columns are not those of this version".to_owned()));
    }
    input
        .records()
        .enumerate()
        .map(|(n, record)| {
            row(plan, &record?).map_err(|e| GamesError(format!("line {}: {e}", n + 2)))
        })
        .collect()
}

fn row(plan: &Plan, record: &csv::StringRecord) -> Result<GameRow, String> {
    let field = |n: usize| record.get(n).unwrap_or_default();
    let number =
        |n: usize| field(n).parse::<f64>().map_err(|_| format!("`{}` is no number", field(n)));
    let ticket: Ticket = field(6).parse().map_err(|e| format!("{e}"))?;
    let mut values = [0.0; Metric::ALL.len()];
    for (n, value) in values.iter_mut().enumerate() {
        *value = number(KEYS.len() + n)?;
    }
    Ok(GameRow {
        arm: place(plan.arms.iter().map(|a| &a.name), field(0), "arm")?,
        scenario: place(plan.scenarios.iter().map(|s| &s.name), field(1), "scenario")?,
        game: field(4).parse().map_err(|_| format!("`{}` is no game number", field(4)))?,
        seed: ticket.seed,
        digest: ticket.digest,
        values,
        margins: vec![],
    })
}

fn place<'a>(
    mut names: impl Iterator<Item = &'a String>,
    name: &str,
    what: &str,
) -> Result<usize, String> {
    names.position(|n| n == name).ok_or_else(|| format!("the plan has no {what} `{name}`"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::tests::plan;

    fn run() -> RunRecord {
        let game = |arm, scenario, game| GameRow {
            arm,
            scenario,
            game,
            seed: u64::from(game) * 77,
            digest: 5,
            values: std::array::from_fn(|n| n as f64 / 3.0 + f64::from(game)),
            margins: vec![],
        };
        RunRecord {
            plan: plan(),
            games: vec![game(0, 0, 0), game(0, 1, 0), game(1, 1, 1)].into(),
            faults: vec![],
        }
    }

    #[test]
    fn games_come_back_to_the_bit() {
        let mut text = Vec::new();
        write_games(&run(), &mut text).unwrap();
        assert_eq!(read_games(&run().plan, &text[..]).unwrap(), *run().games.rows());
    }

    #[test]
    fn a_strange_line_is_named() {
        let mut text = Vec::new();
        write_games(&run(), &mut text).unwrap();
        let text = String::from_utf8(text).unwrap().replacen("no-late-fire,", "elsewhere,", 1);
        let error = read_games(&run().plan, text.as_bytes()).unwrap_err().to_string();
        assert_eq!(error, "line 4: the plan has no arm `elsewhere`");
    }
}
