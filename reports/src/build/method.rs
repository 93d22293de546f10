//! How the numbers came about, and how to read the words.

use ruleshift_record::{METRICS, Summary, Verdict};

use crate::format::{Scale, count, counted};
use crate::report::{Block, Cell, Column, Table};

/// The closing section.
pub(super) fn blocks(summary: &Summary) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(play(summary))];
    blocks.extend(METHOD.iter().map(|text| Block::Paragraph((*text).to_owned())));
    blocks.push(Block::Table(words()));
    blocks.push(Block::Table(margins()));
    blocks.push(Block::Notes(SOURCES.iter().map(|s| (*s).to_owned()).collect()));
    blocks
}

/// The players as the subject of a sentence.
fn players(pairings: &[(String, String)]) -> String {
    match pairings {
        [(attacker, defender)] => {
            format!("Computer players {attacker} (attacker) and {defender} (defender)")
        }
        _ => format!("{} of computer players, in turn,", counted(pairings.len() as u64, "pairing")),
    }
}

fn play(summary: &Summary) -> String {
    let played = summary.arms.iter().map(|arm| arm.games).max().unwrap_or(0);
    format!(
        "{} played {} games in each arm, shared out \
         evenly over the scenarios, from seed {}, under version {} of the rules. The games of \
         one number have the same seed in every arm, so dice and cards fall alike until the \
         rules make a difference. A shift is the arm minus the reference, pair by pair.",
        players(&summary.pairings),
        count(u64::from(played)),
        summary.seed,
        summary.rules
    )
}

const METHOD: [&str; 3] = [
    "Numbers: the mean of the paired differences, each scenario a stratum that weighs as many \
     pairs as it has; 95 % interval and p-value by Student's t with Satterthwaite's degrees of \
     freedom. Rates: the difference of two paired shares over all pairs, with Newcombe's \
     square-and-add interval and the mid-p form of McNemar's exact test. A shift found in every \
     game alike has no spread: its interval is a point and its p-value is that of flipping signs.",
    "Two families of questions are kept apart: the headline metrics of all arms, and all other \
     metrics. In each, Holm's method holds the chance of even one false shift at 5 %. The \
     intervals are not adjusted, so one may leave zero out where the verdict still asks for more \
     games. That nothing worth noticing differs is tested at 5 % on either side, which is to ask \
     whether the 90 % interval lies within the margin; for a shift too small to notice all of the \
     95 % interval must. The games that \
     an undecided answer needs are a normal approximation with 80 % power, which takes the \
     shift and spread seen so far for the true ones.",
    "The smallest shift worth noticing is our choice for each metric, not a measurement: about \
     what players would remark on over a few evenings. Who disagrees reads the interval instead \
     of the verdict.",
];

const SOURCES: [&str; 9] = [
    "Cochran WG (1977) Sampling Techniques, 3rd ed.: strata",
    "Satterthwaite FE (1946) Biometrics Bulletin 2:110-114: degrees of freedom",
    "Newcombe RG (1998) Statistics in Medicine 17:2635-2650, method 10: paired shares",
    "Fagerland MW, Lydersen S, Laake P (2013) BMC Medical Research Methodology 13:91: mid-p",
    "Holm S (1979) Scandinavian Journal of Statistics 6:65-70: families of questions",
    "Schuirmann DJ (1987) Journal of Pharmacokinetics and Biopharmaceutics 15:657-680: \
     equivalence",
    "Cochran WG (1954) Biometrics 10:101-129: disagreement between scenarios",
    "Connor RJ (1987) Biometrics 43:207-211, and Chow S-C, Shao J, Wang H (2008) Sample Size \
     Calculations in Clinical Research: games still needed",
    "Law AM, Simulation Modeling and Analysis, chapter 11: the same luck in both arms",
];

/// What each verdict means.
fn words() -> Table {
    let row = |(verdict, meaning): (Verdict, &str)| -> Vec<Cell> {
        vec![verdict.into(), meaning.to_owned().into()]
    };
    let meanings = [
        (Verdict::ClearShift, "The shift is not zero, and may be as large as players notice."),
        (Verdict::TooSmall, "The shift is not zero, but all of its interval is below notice."),
        (Verdict::NoDifference, "Zero is possible, and anything worth noticing is ruled out."),
        (Verdict::Undecided, "Neither is shown: more games are needed."),
    ];
    Table {
        caption: "The verdicts".to_owned(),
        columns: vec![Column::words("Verdict"), Column::words("What it says")],
        rows: meanings.into_iter().map(row).collect(),
    }
}

/// Every metric with its definition and the smallest shift worth noticing.
fn margins() -> Table {
    let row = |spec: &ruleshift_record::MetricSpec| -> Vec<Cell> {
        let notice = Scale::new(spec.unit, spec.notice).amount(spec.notice);
        vec![spec.label.to_owned().into(), spec.about.to_owned().into(), notice.into()]
    };
    Table {
        caption: "The metrics and the smallest shift worth noticing".to_owned(),
        columns: vec![
            Column::words("Metric"),
            Column::words("What it measures"),
            Column::numbers("Worth noticing"),
        ],
        rows: METRICS.iter().map(row).collect(),
    }
}
