//! How the numbers came about, and how to read the words.

use ruleshift_record::{Looks, Summary, Verdict};

use super::closer::method::method;
use crate::format::{count, counted, fixed};
use crate::method_page::{MethodSection, closing};
use crate::report::{Block, Cell, Column, Table};

/// The closing section.
pub(super) fn blocks(summary: &Summary) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(play(summary))];
    blocks.extend(METHOD.iter().map(|text| Block::Paragraph((*text).to_owned())));
    blocks.extend(summary.looks.as_ref().map(|looks| Block::Paragraph(looked(looks))));
    blocks.extend(besides(summary).map(|(text, _)| Block::Paragraph(text.to_owned())));
    blocks.extend(method(summary).map(|(text, _)| Block::Paragraph(text.to_owned())));
    blocks.push(Block::Table(words()));
    let sources = SOURCES.into_iter().chain(besides(summary).map(|(_, source)| source));
    let sources = sources.chain(method(summary).flat_map(|(_, sources)| sources).copied());
    blocks.push(Block::Notes(sources.map(str::to_owned).collect()));
    blocks.extend(closing(&sections(summary)));
    blocks
}

/// Sections of the method page on what this run asks.
fn sections(summary: &Summary) -> Vec<MethodSection> {
    use MethodSection as S;
    [
        (true, S::PairedMeans),
        (true, S::PairedRates),
        (!summary.balance.is_empty(), S::SingleShares),
        (true, S::Verdicts),
        (true, S::Equivalence),
        (summary.looks.is_some(), S::Looks),
        (!summary.course.is_empty(), S::Landmarks),
        (true, S::ScenariosAndPlayers),
        (true, S::SampleSizes),
        (true, S::VarianceReduction),
        (!summary.skill.is_empty(), S::SkillEdge),
        (!summary.importance.is_empty(), S::Importance),
        (true, S::Metrics),
    ]
    .into_iter()
    .filter_map(|(has, section)| has.then_some(section))
    .collect()
}

/// What only some runs have, with its source.
fn besides(summary: &Summary) -> impl Iterator<Item = (&'static str, &'static str)> {
    [
        (summary.looks.is_some(), LOOKS),
        (!summary.players.is_empty(), PLAYERS),
        (!summary.skill.is_empty(), SKILL),
        (!summary.importance.is_empty(), IMPORTANCE),
    ]
    .into_iter()
    .filter_map(|(has, text)| has.then_some(text))
}

/// How often the run was looked at, and what that cost.
fn looked(looks: &Looks) -> String {
    let (done, all) = (looks.done, looks.planned.len());
    let games = looks.planned.get(done.saturating_sub(1) as usize).copied().unwrap_or_default();
    let end = match (looks.all_decided, done as usize == all) {
        (true, false) => "stopped there, since every headline metric was decided",
        (true, true) => "ended there, with every headline metric decided",
        (false, true) => "ended there, as planned, with some of them open",
        (false, false) => "was interrupted",
    };
    let spent = if looks.spent < 0.0001 {
        "less than 0.01".to_owned()
    } else {
        fixed(100.0 * looks.spent, 2)
    };
    format!(
        "The run took {done} of {all} looks that were planned before it began, the last of them after \
         {} games in each arm, and {end}. Of the 5 % of false alarms that its headline may raise, these \
         looks have spent {spent} %.",
        count(u64::from(games))
    )
}

const LOOKS: (&str, &str) = (
    "Whoever looks often and stops when it suits finds shifts where there are none. So the limits at \
     early looks are far stricter, by the spending function of O'Brien-Fleming type, with Holm's method \
     over the headline metrics at each look; and the intervals, wider than usual, hold the truth with \
     95 % whenever the run stops. P-values are those of the last look alone and decide nothing.",
    "Looks: Lan & DeMets (1983), Biometrika 70:659-663; Holm's method at each look: Tang & Geller (1999), \
     Biometrics 55:1188-1192; intervals: Jennison & Turnbull (1989), Journal of the Royal Statistical \
     Society B 51:305-361.",
);

/// The players as the subject of a sentence.
fn players(pairings: &[(String, String)]) -> String {
    match pairings {
        [(attacker, defender)] => {
            format!("Computer players {attacker} (attacker) and {defender} (defender)")
        }
        _ => format!("{} of computer players, in turn,", counted(pairings.len() as u64, "pairing")),
    }
}

pub(crate) fn play(summary: &Summary) -> String {
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

const PLAYERS: (&str, &str) = (
    "Several pairings of players: each scenario with each pairing is a stratum. Whether the shift is \
     the same with all pairings is Cochran's Q over their shifts, and I² the share of their spread \
     that is not chance; Holm's method runs over the balance metrics and the largest other headline \
     shift of all arms. A shift hangs on a player when it is clear with all, is not shown or not \
     worth noticing in the games without that player, and differs between the games with and \
     without it (Holm over all players, metrics and arms).",
    "Higgins JPT, Thompson SG (2002) Statistics in Medicine 21:1539-1558: I²",
);

const SKILL: (&str, &str) = (
    "Skill: who of two players is the stronger is read off every fourth round of games under the \
     reference, by the mean score against all others on both sides; the other rounds are counted. So \
     equals have no edge but by chance, and the interval of the share is an ordinary one. A player \
     against himself does not count, and a draw is half a win.",
    "Stone M (1974) Journal of the Royal Statistical Society B 36:111-147: what chooses is not \
     what is counted (as idea)",
);

const IMPORTANCE: (&str, &str) = (
    "What a behaviour is worth: the same games are played again by a side that must do without it, \
     and its share of wins is compared, pair by pair. That is worth to these players: a player who \
     does something badly may do better without, and one who is forbidden something does not plan \
     for it. The shift between two rule stacks is the mean difference of these differences, game by \
     game. Holm's method runs over all behaviours that occur, for their worth and for its shifts. A \
     behaviour is nearly pointless when all of the interval of its worth is nearer to zero than the \
     smallest shift of wins worth noticing.",
    "Jaffe A, Miller A, Andersen E, Liu Y-E, Karlin A, Popović Z (2012) Evaluating Competitive Game \
     Balance with Restricted Play, AIIDE: the idea; there the restricted player meets the best \
     opponent in a game small enough to be solved, here a fixed style meets the same luck twice",
);

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
pub(crate) fn words() -> Table {
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
