//! `games.csv`: one row per game, for programs that read nothing better.

use std::fmt;
use std::io::Write;

use super::log::LogError;
use crate::{METRICS, RunRecord};

const KEYS: [&str; 7] = ["arm", "scenario", "attacker", "defender", "game", "seed", "ticket"];

/// Why the games of a run could not be written or read.
#[derive(Debug)]
pub struct GamesError(String);

impl GamesError {
    /// An error with that message.
    pub(crate) fn new(message: impl Into<String>) -> GamesError {
        GamesError(message.into())
    }
}

impl fmt::Display for GamesError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for GamesError {}

impl From<String> for GamesError {
    fn from(message: String) -> GamesError {
        GamesError(message)
    }
}

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
pub fn write_csv(run: &RunRecord, to: impl Write) -> Result<(), GamesError> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::games::table::tests::run;

    #[test]
    fn every_game_is_a_line_of_its_keys_and_metrics() {
        let mut text = Vec::new();
        write_csv(&run(), &mut text).unwrap();
        let mut input = csv::Reader::from_reader(&text[..]);
        let header = input.headers().unwrap().clone();
        assert_eq!(header.iter().take(7).collect::<Vec<_>>(), KEYS);
        let lines: Vec<_> = input.records().map(Result::unwrap).collect();
        let rows = run().games.rows().into_owned();
        assert_eq!(lines.len(), rows.len());
        for (line, row) in lines.iter().zip(&rows) {
            assert_eq!(line[6].parse::<crate::Ticket>().unwrap().digest, row.digest);
            let values = line.iter().skip(7).map(|value| value.parse::<f64>().unwrap());
            assert!(
                values.eq(row.values),
                "the shortest decimals that read back as the same numbers"
            );
        }
    }
}
