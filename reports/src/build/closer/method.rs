//! How the closer look was made.

use ruleshift_record::Summary;

/// What only some runs have, with its source.
pub(in crate::build) fn method(
    summary: &Summary,
) -> impl Iterator<Item = (&'static str, &'static [&'static str])> {
    let closer = &summary.closer;
    [
        (!summary.balance.is_empty(), BALANCE),
        (!summary.course.is_empty(), COURSE),
        (!closer.tails.is_empty(), TAILS),
        (closer.holding.is_some(), HOLDING),
        (!closer.spread.is_empty(), SPREAD),
        (!closer.explored.is_empty(), EXPLORED),
        (!closer.saved.is_empty(), SAVED),
        (!closer.rare.is_empty(), RARE),
    ]
    .into_iter()
    .filter_map(|(has, text)| has.then_some(text))
}

type Text = (&'static str, &'static [&'static str]);

const BALANCE: Text = (
    "Balance: the share of all games of an arm that the attacker wins, with Wilson's interval. It is \
     about that arm alone; whether two arms differ is for the paired shift to say.",
    &["Wilson EB (1927) Journal of the American Statistical Association 22:209-212: shares"],
);

const COURSE: Text = (
    "How games unfold: median and bands of each turn are places among all games, by the method of \
     places among the games. A game that has ended counts with its last margin, so that every turn speaks \
     of the same games. Bands say how games differ; no interval is given of them.",
    &[],
);

const TAILS: Text = (
    "Places among the games: values stand in the middle of the games that share them, with straight \
     lines between, so that a median of whole turns may lie between two of them. Values are first \
     rounded to a tenth of the smallest shift worth noticing, or finer. Intervals are BCa, from 2,000 \
     resamples within scenarios and pairings of players, whose luck follows from the seed of the run. \
     Of more than 400 pairs, about 400 groups of pairs are resampled, at least 25 in each stratum that \
     has so many; by that alone an interval may be 4 % too wide or too narrow. No method for many \
     questions is applied to them.",
    &[
        "Ma Y, Genton MG, Parzen E (2011) Annals of the Institute of Statistical Mathematics \
         63:227-243: quantiles of values that are often equal",
        "Acerbi C, Tasche D (2002) Journal of Banking & Finance 26:1487-1503: mean of a tail",
        "Efron B (1987) Journal of the American Statistical Association 82:171-185: BCa",
    ],
);

const HOLDING: Text = (
    "How long both sides hold out: an event is a side that breaks or has nobody left; a game that the \
     turn limit ends is cut at its last turn. Shares are by Kaplan and Meier in each scenario, then \
     averaged by its games, with Greenwood's variance and intervals on the scale of log(−log). Mean \
     turns are areas under the curves up to the turn limit, in each scenario with each pairing of \
     players up to the longest game that both arms have seen; their shift is paired, by pseudo-values. \
     The log-rank test is stratified and takes the arms as independent, which for games with the same \
     luck errs on the careful side.",
    &[
        "Kaplan EL, Meier P (1958) Journal of the American Statistical Association 53:457-481",
        "Mantel N (1966) Cancer Chemotherapy Reports 50:163-170: log-rank",
        "Royston P, Parmar MKB (2013) BMC Medical Research Methodology 13:152: restricted mean",
        "Andersen PK, Hansen MG, Klein JP (2004) Lifetime Data Analysis 10:335-350: pseudo-values",
    ],
);

const SPREAD: Text = (
    "Where nothing was played: the scenarios, or pairings of players, are taken as drawn from many of \
     their kind, each with a true shift of its own. The scenarios were chosen and not drawn, and \
     pairings share players, so this is a guide and no promise. One that was not played is foretold \
     only when they truly differ by at least the typical standard error of one of them, which is when \
     at least half of what they differ by is more than chance: with less, such intervals were measured \
     to hold the truth 88 times in 100 where they claim 95. At least three with any spread are needed.",
    &[
        "DerSimonian R, Laird N (1986) Controlled Clinical Trials 7:177-188: spread between",
        "Hartung J, Knapp G (2001) Statistics in Medicine 20:3875-3889: interval of the mean",
        "Higgins JPT, Thompson SG, Spiegelhalter DJ (2009) Journal of the Royal Statistical Society A \
         172:137-159: one that was not played",
    ],
);

const EXPLORED: Text = (
    "False discovery rate: the metrics outside the headline, of all arms together, have p-values by \
     Benjamini and Hochberg beside those by Holm. The bound holds for tests that are independent or \
     move together. Headline metrics and all verdicts go by Holm alone.",
    &["Benjamini Y, Hochberg Y (1995) Journal of the Royal Statistical Society B 57:289-300"],
);

const SAVED: Text = (
    "Games saved are ratios of variances: of paired differences to games apart, of strata to one \
     sample of all, and of what a straight line through the margin under the reference leaves, with \
     the price of finding that line.",
    &["Lavenberg SS, Welch PD (1981) Management Science 27:322-335: known luck taken out"],
);

const RARE: Text = (
    "What hardly ever happens: fewer than 20 games of an arm give one of the two answers. Intervals \
     are exact and never too short.",
    &["Clopper CJ, Pearson ES (1934) Biometrika 26:404-413"],
);
