//! How the numbers of a sweep came about.

use ruleshift_record::SweepSummary;

use crate::build::method;
use crate::method_page::{MethodSection, closing};
use crate::report::Block;

/// The closing section.
pub(super) fn blocks(summary: &SweepSummary) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(method::play(&summary.comparison))];
    blocks.extend(METHOD.map(|text| Block::Paragraph(text.to_owned())));
    if summary.plan.second.is_some() {
        blocks.push(Block::Paragraph(GRID.to_owned()));
    }
    blocks.push(Block::Table(method::words()));
    blocks.push(Block::Notes(SOURCES.map(str::to_owned).to_vec()));
    blocks.extend(closing(&SECTIONS));
    blocks
}

const METHOD: [&str; 4] = [
    "Each value against the reference is a comparison like any other: pairs of games with the same \
     luck, verdicts by Holm's method over all headline metrics and values. Each value against the one \
     before it is asked the same way, and all of these make a family of their own.",
    "Means count the games that every value has, each scenario with each pairing of players a stratum. \
     The interval of a single mean is Student's t, for rates Wilson's at the number of independent \
     games that would be as sure, at most those played. The band holds all means at once: its \
     intervals are as wide as the largest of all errors asks for, drawn from a normal distribution \
     with the covariance of the means, since games of all values share their luck.",
    "A trend is the slope of a straight line through each game's values, times the range, by Student's \
     t; Holm's method goes over all trends of the headline. A metric goes up or down when its trend or \
     a step surely does and nothing surely goes the other way; then the monotone curve nearest to the \
     means is in the data as well. Through rates goes a logistic curve, through numbers a straight \
     line, with errors from the covariance of the means; its fit is tested by the distance of the means \
     from it.",
    "Where a curve is not refused at 5 %, a target is read off it, with Fieller's interval; else off \
     the means joined by straight lines, and possible is every value at which the band holds the \
     target. Nothing is said of values beyond those tried.",
];

const GRID: &str = "In a grid, a curve along one option takes for each game the mean over all values \
    of the other. How much the trend along the first option depends on the second is asked at the \
    ends of the second.";

const SOURCES: [&str; 7] = [
    "Band of all means: Hothorn, Bretz & Westfall (2008), Biometrical Journal 50:346-363.",
    "Trend: scores of Armitage (1955), Biometrics 11:375-386, within games of the same luck.",
    "Logistic curve: Berkson (1944), Journal of the American Statistical Association 39:357-365; its \
     errors: Liang & Zeger (1986), Biometrika 73:13-22.",
    "Monotone curve: Ayer, Brunk, Ewing, Reid & Silverman (1955), Annals of Mathematical Statistics \
     26:641-647.",
    "Target off a curve: Fieller (1954), Journal of the Royal Statistical Society B 16:175-185.",
    "Target off a band: Lieberman, Miller & Hamilton (1967), Biometrika 54:133-145.",
    "Many tests: Holm (1979), Scandinavian Journal of Statistics 6:65-70.",
];

/// Sections of the method page on what such a run asks.
const SECTIONS: [MethodSection; 3] =
    [MethodSection::Sweeps, MethodSection::Verdicts, MethodSection::Metrics];
