//! How long an answer takes. Ignored in the usual run, because it measures a machine:
//! `cargo test --release -p ruleshift-reports --test suite speed -- --ignored --nocapture`.

use std::time::Instant;

use crate::made::{self, BASE, CARDS};
use ruleshift_reports::{build, html, summarise};

/// 100,000 games in each of two arms, many of whose values differ from game to game: seconds.
#[test]
#[ignore = "measures a machine"]
fn a_hundred_thousand_games_are_summarised_within_seconds() {
    let run = made::run(&[BASE, CARDS], 100_000);
    let start = Instant::now();
    let summary = summarise(&run);
    let summarised = start.elapsed();
    let page = html(&build(&summary, &run));
    let all = start.elapsed();
    println!(
        "summarised in {summarised:.1?}, with its page of {} kB in {all:.1?}",
        page.len() / 1000
    );
    assert_eq!(summary.closer.tails.len(), 80, "20 metrics with four places");
    assert!(all.as_secs() < 30, "{all:?}");
}
