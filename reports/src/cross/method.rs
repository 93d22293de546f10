//! How the numbers of crossed variants came about.

use ruleshift_record::CrossSummary;

use crate::build::method;
use crate::method_page::{MethodSection, closing};
use crate::report::Block;

/// The closing section.
pub(super) fn blocks(summary: &CrossSummary) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(method::play(&summary.comparison))];
    blocks.extend(METHOD.map(|text| Block::Paragraph(text.to_owned())));
    if !summary.relation.is_empty() {
        blocks.push(Block::Paragraph(format!(
            "Only a part of the combinations was played, {}. In every arm, these products of signs are \
             the same (a variant that is on counts as plus): I = {}. An effect times any of them is an \
             effect that these arms cannot tell from it; both then stand in one row.",
            summary.plan.generators.join(", "),
            summary.relation.join(" = ")
        )));
    }
    blocks.push(Block::Table(method::words()));
    blocks.push(Block::Notes(SOURCES.map(str::to_owned).to_vec()));
    blocks.extend(closing(&SECTIONS));
    blocks
}

const METHOD: [&str; 3] = [
    "An effect is the mean of the arms with a variant less the mean of those without it; that of \
     several variants, of the arms in which an even number of them is off less the others. Since all \
     arms share their luck, each game has a value of its own for each effect, rates too; their mean, each \
     scenario with each pairing of players a stratum, has its interval and p-value by Student's t. \
     Holm's method goes over all effects on all headline metrics.",
    "The surplus of a pair is its joint shift less the shifts of both alone. Two variants cancel when \
     both shift clearly alone, one up and one down, and their joint shift is not worth noticing. They \
     add up when both shift clearly and the surplus is not worth noticing. A clear surplus makes one \
     stronger or weaker: both when they shift the same way, else the one in whose direction it goes is \
     stronger. Shifts alone, joint shifts and surpluses are three families for Holm's method.",
    "In the pictures, effects that are nothing but chance lie about the line.",
];

const SOURCES: [&str; 4] = [
    "Effects: Yates (1937), The Design and Analysis of Factorial Experiments; Box, Hunter & Hunter \
     (2005), Statistics for Experimenters, 2nd edition, chapters 5 and 6.",
    "Picture: Daniel (1959), Technometrics 1:311-341.",
    "Parts of all combinations: Box & Hunter (1961), Technometrics 3:311-351.",
    "Many tests: Holm (1979), Scandinavian Journal of Statistics 6:65-70.",
];

/// Sections of the method page on what such a run asks.
const SECTIONS: [MethodSection; 3] =
    [MethodSection::Crossed, MethodSection::Verdicts, MethodSection::Metrics];
