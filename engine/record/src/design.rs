//! Two-level designs: which variants are on in which arm, and what that leaves untold.
//!
//! Fractions are the ones of highest resolution for their size (Box, Hunter & Hunter 2005,
//! Statistics for Experimenters, 2nd edition, table 6.22, from memory), with the signs chosen such
//! that the arm without any variant is among those played: a variant is on when an odd number of
//! the variants it follows from is on. Signs do not change the resolution.

/// How many of the combinations are played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fraction {
    /// Every one.
    Full,
    /// Every second one.
    Half,
    /// Every fourth one.
    Quarter,
}

/// Fewest and most variants to cross.
pub const CROSSED: (usize, usize) = (2, 6);

/// A product of variants with its sign: bit n of the mask stands for variant n.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// The variants.
    pub mask: u8,
    /// Whether the product has a minus before it.
    pub minus: bool,
}

impl Word {
    /// The word times another: variants in both fall out, as their square is one.
    pub fn times(self, other: Word) -> Word {
        Word { mask: self.mask ^ other.mask, minus: self.minus ^ other.minus }
    }

    /// Its letters with its sign: `ABC`, `-AD`; the empty product is `I`.
    pub fn letters(self) -> String {
        format!("{}{}", if self.minus { "-" } else { "" }, letters(self.mask))
    }
}

/// The letters of a mask, A for the first variant; `I` for none.
pub fn letters(mask: u8) -> String {
    let letters: String =
        (0..8_u8).filter(|n| mask >> n & 1 == 1).map(|n| char::from(b'A' + n)).collect();
    if letters.is_empty() { "I".to_owned() } else { letters }
}

/// The variants that follow from others, each as the mask of those, for `count` variants; `None`
/// for a fraction that has no design here.
fn followers(count: usize, fraction: Fraction) -> Option<&'static [u8]> {
    Some(match (count, fraction) {
        (2..=6, Fraction::Full) => &[],
        (4, Fraction::Half) => &[0b0111],
        (5, Fraction::Half) => &[0b1111],
        (6, Fraction::Half) => &[0b1_1111],
        (5, Fraction::Quarter) => &[0b011, 0b101],
        (6, Fraction::Quarter) => &[0b0111, 0b1110],
        _ => return None,
    })
}

/// The arms of a design for `count` variants as masks, in standard order (Yates 1937): none first,
/// the first variant changing fastest. `None` when there is no such design: with fewer than two or
/// more than six variants, and for fractions other than a half of 4 to 6 or a quarter of 5 or 6.
pub fn cross_design(count: usize, fraction: Fraction) -> Option<Vec<u8>> {
    let followers = followers(count, fraction)?;
    let free = count - followers.len();
    let arm = |base: u8| {
        let on = |(n, of): (usize, &u8)| ((base & of).count_ones() as u8 & 1) << (free + n);
        base | followers.iter().enumerate().map(on).sum::<u8>()
    };
    Some((0..1_u8 << free).map(arm).collect())
}

/// How the last variants of a design follow from the first ones, as in `D = ABC`.
pub fn cross_generators(count: usize, fraction: Fraction) -> Option<Vec<String>> {
    let followers = followers(count, fraction)?;
    let free = count - followers.len();
    let line = |(n, &of): (usize, &u8)| {
        // An odd number on is a plus for an odd number of letters and a minus for an even one.
        let word = Word { mask: of, minus: of.count_ones().is_multiple_of(2) };
        format!("{} = {}", letters(1 << (free + n)), word.letters())
    };
    Some(followers.iter().enumerate().map(line).collect())
}

/// The sign of a product of variants in an arm: a variant counts as plus when it is on.
pub fn effect_sign(word: u8, arm: u8) -> f64 {
    if (word & !arm).count_ones().is_multiple_of(2) { 1.0 } else { -1.0 }
}

/// The defining relation of `arms`: all products of variants that have one sign in every arm, by
/// number of letters (Box & Hunter 1961, Technometrics 3:311-351, from memory).
pub fn defining_relation(count: usize, arms: &[u8]) -> Vec<Word> {
    let Some(&first) = arms.first() else { return vec![] };
    let same = |mask: u8| {
        let one = effect_sign(mask, first);
        let all = arms.iter().all(|&arm| effect_sign(mask, arm) == one);
        all.then_some(Word { mask, minus: one < 0.0 })
    };
    let last = if count >= 8 { u8::MAX } else { (1 << count) - 1 };
    let mut words: Vec<Word> = (1..=last).filter_map(same).collect();
    words.sort_by_key(|word| (word.mask.count_ones(), letters(word.mask)));
    words
}

/// The effects that arms of such a relation cannot tell from that of `mask`, with the sign they have
/// in it, by number of letters.
pub fn aliases(mask: u8, relation: &[Word]) -> Vec<Word> {
    let mut words: Vec<Word> =
        relation.iter().map(|&word| word.times(Word { mask, minus: false })).collect();
    words.sort_by_key(|word| (word.mask.count_ones(), letters(word.mask)));
    words
}

/// The number of letters of the shortest word of a relation; `None` when every combination is
/// played. With three, main effects look like interactions of two; with four, interactions of two
/// look like each other.
pub fn resolution(relation: &[Word]) -> Option<u32> {
    relation.iter().map(|word| word.mask.count_ones()).min()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn told(words: &[Word]) -> Vec<String> {
        words.iter().map(|w| w.letters()).collect()
    }

    #[test]
    fn every_combination_stands_in_standard_order() {
        assert_eq!(cross_design(3, Fraction::Full).unwrap(), [0, 1, 2, 3, 4, 5, 6, 7]);
        assert_eq!(cross_generators(3, Fraction::Full).unwrap(), Vec::<String>::new());
        assert_eq!(defining_relation(3, &cross_design(3, Fraction::Full).unwrap()), []);
        assert_eq!(defining_relation(3, &[]), []);
    }

    #[test]
    fn designs_there_are_none_of_are_refused() {
        for (count, fraction) in
            [(1, Fraction::Full), (7, Fraction::Full), (3, Fraction::Half), (4, Fraction::Quarter)]
        {
            assert_eq!(cross_design(count, fraction), None, "{count} {fraction:?}");
            assert_eq!(cross_generators(count, fraction), None);
        }
    }

    /// Resolutions as tabled by Box, Hunter & Hunter.
    #[test]
    fn fractions_have_their_resolution_and_hold_the_arm_without_variants() {
        let designs = [
            (4, Fraction::Half, 8, 4, "D = ABC"),
            (5, Fraction::Half, 16, 5, "E = -ABCD"),
            (6, Fraction::Half, 32, 6, "F = ABCDE"),
            (5, Fraction::Quarter, 8, 3, "D = -AB, E = -AC"),
            (6, Fraction::Quarter, 16, 4, "E = ABC, F = BCD"),
        ];
        for (count, fraction, size, expected, generators) in designs {
            let arms = cross_design(count, fraction).unwrap();
            let mut seen = arms.clone();
            seen.sort_unstable();
            seen.dedup();
            assert_eq!((arms.len(), seen.len(), arms[0]), (size, size, 0));
            assert_eq!(resolution(&defining_relation(count, &arms)), Some(expected));
            assert_eq!(cross_generators(count, fraction).unwrap().join(", "), generators);
        }
    }

    #[test]
    fn the_relation_names_what_cannot_be_told_apart() {
        let arms = cross_design(6, Fraction::Quarter).unwrap();
        let relation = defining_relation(6, &arms);
        // E = ABC and F = BCD: I = ABCE = BCDF = ADEF.
        assert_eq!(told(&relation), ["ABCE", "ADEF", "BCDF"]);
        assert_eq!(told(&aliases(0b11, &relation)), ["CE", "ACDF", "BDEF"]);
        let small = defining_relation(5, &cross_design(5, Fraction::Quarter).unwrap());
        // D = -AB and E = -AC: I = -ABD = -ACE = BCDE.
        assert_eq!(told(&small), ["-ABD", "-ACE", "BCDE"]);
        assert_eq!(told(&aliases(0b1, &small)), ["-BD", "-CE", "ABCDE"]);
    }

    proptest! {
        #[test]
        fn aliases_have_the_same_column_in_every_arm(mask in 1_u8..64, quarter in any::<bool>()) {
            let fraction = if quarter { Fraction::Quarter } else { Fraction::Half };
            let arms = cross_design(6, fraction).unwrap();
            for alias in aliases(mask, &defining_relation(6, &arms)) {
                let turned = if alias.minus { -1.0 } else { 1.0 };
                for &arm in &arms {
                    prop_assert_eq!(effect_sign(mask, arm), turned * effect_sign(alias.mask, arm));
                }
            }
        }
    }
}
