//! How a ladder came about, and how to read it.

use ruleshift_record::LadderSummary;

use super::build::games;
use crate::format::{count, fixed, p_value};
use crate::method_page::{MethodSection, closing};
use crate::report::Block;

/// The closing section.
pub(super) fn blocks(summary: &LadderSummary) -> Vec<Block> {
    let texts = [Some(play(summary)), fit(summary)].into_iter().flatten();
    let texts = texts.chain(METHOD.iter().map(|text| (*text).to_owned()));
    let sources = SOURCES.iter().map(|source| (*source).to_owned()).collect();
    let closing = closing(&[MethodSection::Ladder]);
    texts.map(Block::Paragraph).chain([Block::Notes(sources)]).chain(closing).collect()
}

fn play(summary: &LadderSummary) -> String {
    format!(
        "Every player was to meet every other as attacker and as defender: {} games in all, those \
         of a pairing shared out evenly over the scenarios, from seed {}, under version {} of the \
         rules.",
        count(games(summary)),
        summary.seed,
        summary.rules
    )
}

fn fit(summary: &LadderSummary) -> Option<String> {
    let fit = summary.fit?;
    Some(format!(
        "Against a share of its own for every pairing, strengths lose a deviance of {} on {} \
         degrees of freedom (p {}, as if every game had luck of its own).",
        fixed(fit.deviance, 1),
        fit.df,
        if fit.p < 0.001 { p_value(fit.p) } else { format!("= {}", p_value(fit.p)) }
    ))
}

const METHOD: [&str; 3] = [
    "Strengths are those of Bradley and Terry: the log odds of the attacker's win are his strength \
     less the defender's plus one advantage of the side, and the strengths are those under which \
     the results are likeliest. A draw is half a win for each. When somebody won or lost \
     everything no strengths are likeliest, and one drawn game is added to every pairing; that is \
     then said.",
    "Shares are means over scenarios, each counting alike. Games of one scenario with one seed \
     share their luck, whoever plays them; intervals of shares and strengths go by how much one \
     seed differs from another within a scenario. Those of shares are Wilson's at the number of \
     independent games that would be as sure. A pairing that always ended alike \
     shows no such difference: where games were added, it has the spread that strengths foresee.",
    "Two players are told apart when their strengths differ by Holm's method over all pairs: the \
     chance of even one wrong order is at most 5 %. The intervals are not adjusted, so two may lie \
     apart where the places still overlap. Whether the scenario decides between two players is \
     Cochran's Q of their shares, by Holm's method too.",
];

const SOURCES: [&str; 8] = [
    "Bradley RA, Terry ME (1952) Biometrika 39:324-345: strengths",
    "Agresti A (2002) Categorical Data Analysis, 2nd ed., section 10.6: the advantage of a side",
    "Ford LR (1957) The American Mathematical Monthly 64(8) part 2:28-33: when strengths exist",
    "Binder DA (1983) International Statistical Review 51:279-292: errors from the spread within \
     strata",
    "Wilson EB (1927) Journal of the American Statistical Association 22:209-212, with Korn EL, \
     Graubard BI (1998) Survey Methodology 24:193-201: shares",
    "Holm S (1979) Scandinavian Journal of Statistics 6:65-70: families of questions",
    "Goldstein H, Spiegelhalter DJ (1996) Journal of the Royal Statistical Society A 159:385-443: \
     places that overlap",
    "Cochran WG (1954) Biometrics 10:101-129: disagreement between scenarios",
];
