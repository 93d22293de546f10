//! A ladder: everyone plays everyone from both sides, and the results rank them.
//!
//! [`rank`] turns the games into the answer, [`build_ladder`] the answer into a report.

mod build;
mod caveats;
mod games;
mod headline;
mod method;
mod places;
mod rank;
mod rivals;
#[cfg(test)]
mod sample;
mod shares;
mod tables;

pub use build::build_ladder;
pub use games::{LadderGames, LadderRow, Outcome};
pub use rank::rank;

use ruleshift_record::LadderShare;

use crate::format::fixed;

/// A share of games without decimals: "71 %".
fn percent(share: f64) -> String {
    fixed(100.0 * share, 0) + " %"
}

/// A share and its interval without decimals: "71 % (69 to 73)".
fn percent_within(share: f64, low: f64, high: f64) -> String {
    let whole = |part: f64| fixed(100.0 * part, 0);
    format!("{} ({} to {})", percent(share), whole(low), whole(high))
}

/// A share of games with its interval; a dash without games.
fn within(share: Option<&LadderShare>) -> String {
    share.map_or_else(|| "\u{2013}".to_owned(), |s| percent_within(s.share, s.low, s.high))
}
