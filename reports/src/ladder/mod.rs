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

/// A share and its interval without decimals: "71 % (69–73)".
fn percent_within(share: f64, low: f64, high: f64) -> String {
    let (low, high) = whole(low, high);
    format!("{} ({low}\u{2013}{high})", percent(share))
}

/// The ends of an interval of shares in whole percent. What is above nothing or below all is not
/// rounded away: that would be too sure.
fn whole(low: f64, high: f64) -> (String, String) {
    let low = if low < 1.0 { (100.0 * low).min(99.0) } else { 100.0 };
    let high = if high > 0.0 { (100.0 * high).max(1.0) } else { 0.0 };
    (fixed(low, 0), fixed(high, 0))
}

/// A share of games with its interval; a dash without games.
fn within(share: Option<&LadderShare>) -> String {
    share.map_or_else(|| "\u{2013}".to_owned(), |s| percent_within(s.share, s.low, s.high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_of_an_interval_are_not_surer_than_they_are() {
        assert_eq!(percent_within(0.0, 0.0, 0.002), "0 % (0\u{2013}1)");
        assert_eq!(percent_within(1.0, 0.998, 1.0), "100 % (99\u{2013}100)");
        assert_eq!(percent_within(0.714, 0.691, 0.736), "71 % (69\u{2013}74)");
        assert_eq!(percent_within(0.0, 0.0, 0.0), "0 % (0\u{2013}0)");
    }
}
