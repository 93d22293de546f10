//! The method page, and which of its sections tell more of a report.

use crate::format::and;
use crate::report::Block;

/// The page, by its path in the repository.
pub const METHOD_PAGE: &str = "reports/METHOD.md";

macro_rules! sections {
    ($($id:ident $heading:literal;)*) => {
        /// A section of the method page on one question.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum MethodSection { $(#[doc = $heading] $id),* }

        impl MethodSection {
            /// All of them, in the order of the page.
            pub const ALL: &'static [MethodSection] = &[$(MethodSection::$id),*];

            /// Its heading, word for word.
            pub const fn heading(self) -> &'static str {
                match self { $(MethodSection::$id => $heading),* }
            }
        }
    };
}

sections! {
    PairedMeans "Paired stratified means";
    PairedRates "Paired rates";
    SingleShares "Single shares";
    Verdicts "Verdicts and families";
    Equivalence "Equivalence";
    Looks "Looks";
    FixedWidth "Fixed width";
    Landmarks "Medians, quantiles and tails";
    CutLength "Length cut by the turn limit";
    ScenariosAndPlayers "Scenarios and players";
    FalseDiscovery "False discovery";
    SampleSizes "Sample sizes";
    VarianceReduction "Variance reduction";
    Sweeps "Sweeps";
    Crossed "Crossed variants";
    Tuning "Tuning";
    Ladder "Ladder";
    Hunt "Hunt";
    SkillEdge "Skill edge";
    Importance "Importance";
    Metrics "Metrics with published definitions";
}

impl MethodSection {
    /// The part of a link after the `#`, as pages of Markdown make it of a heading: small letters,
    /// hyphens for spaces, nothing else.
    pub fn anchor(self) -> String {
        let kept =
            self.heading().chars().filter(|c| c.is_ascii_alphanumeric() || " -".contains(*c));
        kept.map(|c| if c == ' ' { '-' } else { c.to_ascii_lowercase() }).collect()
    }

    /// The link to it from the root of the repository.
    pub fn link(self) -> String {
        format!("{METHOD_PAGE}#{}", self.anchor())
    }
}

/// The sentence of a report that leads to `sections`.
pub(crate) fn more(sections: &[MethodSection]) -> String {
    let named: Vec<String> = sections.iter().map(|s| format!("\"{}\"", s.heading())).collect();
    let word = if named.len() == 1 { "section" } else { "sections" };
    format!(
        "What each method assumes, how often it errs and which test shows that: {METHOD_PAGE}, {word} \
         {}.",
        and(&named)
    )
}

/// How the run is played again, which is the last thing that a report says.
pub(crate) const AGAIN: &str = "The plan of the run is plan.ron, in the folder of this report. “ruleshift run FOLDER” \
plays the same games again, to the last die and on any machine, as long as the rules of the game have the \
same version; a ticket does so for one game.";

/// The last paragraphs of a report on a run whose plan can be played again.
pub(crate) fn closing(sections: &[MethodSection]) -> [Block; 2] {
    [Block::Paragraph(more(sections)), Block::Paragraph(AGAIN.to_owned())]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_anchor_is_the_heading_in_small_letters() {
        let landmarks = MethodSection::Landmarks;
        assert_eq!(landmarks.anchor(), "medians-quantiles-and-tails");
        assert_eq!(MethodSection::Hunt.link(), "reports/METHOD.md#hunt");
    }

    #[test]
    fn a_report_names_the_sections() {
        let one = more(&[MethodSection::Hunt]);
        assert!(one.ends_with(": reports/METHOD.md, section \"Hunt\"."), "{one}");
        let two = more(&[MethodSection::Hunt, MethodSection::Ladder]);
        assert!(two.ends_with("sections \"Hunt\" and \"Ladder\"."), "{two}");
    }
}
