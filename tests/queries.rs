//! Tables of games as other programs read them: DuckDB and pyarrow, by a Python that has both, whose path is in
//! `RULESHIFT_PYTHON`. Without it these tests are skipped and say so.

use std::process::Command;

use ruleshift_record::{METRICS, Metric};
use serde_json::Value;

use crate::support::run::mean;
use crate::support::{Run, repository};

/// The run that README asks.
const RUN: &str = "two-turn-end-cards --games 400";

/// Prints what every query says, as rows, and what pyarrow makes of the file, as one JSON document.
const ASK: &str = r"
import json, sys, os, duckdb, pyarrow.parquet as pq
file, queries = sys.argv[1], json.load(sys.stdin)
os.makedirs('runs'); os.symlink(os.path.dirname(file), 'runs/two-turn-end-cards')
table = pq.read_table(file)
print(json.dumps({
    'answers': [[list(row) for row in duckdb.sql(query).fetchall()] for query in queries],
    'names': table.column_names, 'rows': table.num_rows,
    'wins': table['attacker_wins'].to_pylist(), 'games': table['game'].to_pylist(),
    'margins': table['margins'].to_pylist(), 'tickets': table['ticket'].to_pylist(),
}))
";

#[allow(clippy::print_stderr, reason = "a test that is skipped says so")]
fn python() -> Option<String> {
    let python = std::env::var("RULESHIFT_PYTHON").ok();
    if python.is_none() {
        eprintln!("skipped: RULESHIFT_PYTHON names no Python with duckdb and pyarrow");
    }
    python
}

/// The queries of README.
fn queries() -> Vec<String> {
    let readme = repository::text("README.md");
    let parts = readme.split("```sql\n").skip(1);
    parts
        .map(|part| part.split("```").next().unwrap().trim().trim_end_matches(';').to_owned())
        .collect()
}

fn ask(python: &str, run: &Run, queries: &[String]) -> Value {
    use std::io::Write;
    use std::process::Stdio;
    let folder = tempfile::tempdir().unwrap();
    let mut command = Command::new(python);
    command.arg("-c").arg(ASK).arg(run.path("games.parquet")).current_dir(folder.path());
    command.stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let text = serde_json::to_vec(queries).unwrap();
    child.stdin.take().unwrap().write_all(&text).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "the queries cannot be asked");
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn the_queries_of_the_readme_say_what_the_games_say() {
    let Some(python) = python() else { return };
    let (run, queries) = (Run::fine(RUN), queries());
    assert_eq!(queries.len(), 3);
    let answers = ask(&python, &run, &queries)["answers"].clone();
    let rows = |n: usize| answers[n].as_array().unwrap().clone();
    let number = |value: &Value| value.as_f64().unwrap();
    let (plan, games) = (run.plan(), run.games());

    // Wins and minutes of every scenario and arm.
    assert_eq!(rows(0).len(), 16);
    for row in rows(0) {
        let arm = plan.arms.iter().position(|arm| row[1] == *arm.name).unwrap();
        let scenario = plan.scenarios.iter().position(|scenario| row[0] == *scenario.name).unwrap();
        let own: Vec<_> =
            games.iter().filter(|g| (g.arm, g.scenario) == (arm, scenario)).cloned().collect();
        assert_eq!(number(&row[2]), own.len() as f64);
        assert!((number(&row[3]) - 100.0 * mean(&own, Metric::AttackerWins)).abs() <= 0.05 + 1e-9);
        assert!((number(&row[4]) - mean(&own, Metric::Minutes)).abs() <= 0.5 + 1e-9);
    }

    // The three largest swings, by the games themselves.
    let (base, house) = (run.arm(0), run.arm(1));
    let swing = |n: usize| house[n].get(Metric::Margin) - base[n].get(Metric::Margin);
    let mut swings: Vec<(f64, String)> = (0..house.len())
        .map(|n| {
            (swing(n), plan.ticket(house[n].key(), house[n].seed, house[n].digest).to_string())
        })
        .collect();
    swings.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    let told: Vec<(f64, String)> =
        rows(1).iter().map(|row| (number(&row[1]), row[0].as_str().unwrap().to_owned())).collect();
    assert_eq!(told, swings[..3]);

    // Margins by turn.
    assert_eq!(rows(2).len(), 12);
    let place = plan.scenarios.iter().position(|scenario| scenario.name == "hasty-attack").unwrap();
    for row in rows(2) {
        let arm = plan.arms.iter().position(|arm| row[0] == *arm.name).unwrap();
        let turn = number(&row[1]) as usize - 1;
        let own = games.iter().filter(|g| (g.arm, g.scenario) == (arm, place));
        let margins: Vec<f64> =
            own.filter_map(|g| g.margins.get(turn).copied()).map(f64::from).collect();
        assert_eq!(number(&row[2]), margins.len() as f64);
        let mean = margins.iter().sum::<f64>() / margins.len() as f64;
        assert!((number(&row[3]) - mean).abs() <= 0.005 + 1e-9);
    }
}

#[test]
fn another_library_reads_the_same_games() {
    let Some(python) = python() else { return };
    let run = Run::fine("no-late-fire --scenario first-evening --games 60");
    let (plan, games) = (run.plan(), run.games());
    let read = ask(&python, &run, &[]);
    let keys = ["arm", "scenario", "attacker", "defender", "game", "seed", "ticket"];
    let names = keys.into_iter().chain(METRICS.iter().map(|metric| metric.name)).chain(["margins"]);
    assert!(read["names"].as_array().unwrap().iter().eq(names));
    assert_eq!(read["rows"], games.len());
    for (n, game) in games.iter().enumerate() {
        assert_eq!(read["games"][n], game.game);
        assert_eq!(read["wins"][n], game.get(Metric::AttackerWins));
        assert_eq!(read["margins"][n], serde_json::json!(game.margins));
        assert_eq!(read["tickets"][n], plan.ticket(game.key(), game.seed, game.digest).to_string());
    }
}
