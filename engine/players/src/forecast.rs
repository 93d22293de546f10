//! What fire and spotting may be expected to do under a set of rules, worked out once.

use ruleshift_game::limits::MAX_RANGE;
use ruleshift_game::{Cover, Effect, Kind, Quality, Rules, Unit};

/// Harm is counted in hundredths of a pin; a man lost counts as this many pins besides his pin.
const LOSS: i32 = 2;

const BANDS: usize = 4;
const FARTHEST: usize = MAX_RANGE as usize;
/// Hits of a usual shot.
const USUAL_HITS: i32 = 3;

/// The band of each range: room for every number that a range could have, so that none needs a check.
type Bands = [u8; 256];
/// Harm of one die by band, moved, cover, in hundredths of a pin.
type Dice = [[[i32; Cover::ALL.len()]; 2]; BANDS];

/// What the dice of one kind of unit may be expected to do.
#[derive(Clone, Copy)]
pub(crate) struct Fire<'a> {
    bands: &'a Bands,
    die: &'a Dice,
}

impl Fire<'_> {
    /// Harm that one die does at `range` to a target in `cover`.
    #[inline]
    pub(crate) fn die(self, range: u8, moved: bool, cover: Cover) -> i32 {
        let band = self.bands[range as usize] as usize % BANDS;
        self.die[band][usize::from(moved)][cover as usize]
    }
}

/// Expectations under one set of rules.
#[derive(Clone, Debug)]
pub struct Forecast {
    /// Band of each range, by kind of firing unit.
    bands: [Bands; Kind::ALL.len()],
    /// Harm of one die by kind, band, moved, cover, in hundredths of a pin.
    die: [Dice; Kind::ALL.len()],
    shots: [i32; Kind::ALL.len()],
}

impl Forecast {
    /// Works out the expectations under `rules`.
    pub fn new(rules: &Rules) -> Forecast {
        let band = |kind: Kind, range: usize| match range {
            // No range is longer.
            0..=FARTHEST => rules.range_band(kind, range as i32) as u8,
            _ => 3,
        };
        let by_kind = |kind: &Kind| std::array::from_fn(|range| band(*kind, range));
        let kinds: [Kind; Kind::ALL.len()] = std::array::from_fn(|n| Kind::ALL[n]);
        Forecast {
            bands: kinds.each_ref().map(by_kind),
            die: kinds.map(|kind| {
                std::array::from_fn(|band| {
                    [false, true].map(|moved| {
                        std::array::from_fn(|cover| {
                            die_harm(rules, kind, band as i32, moved, Cover::ALL[cover])
                        })
                    })
                })
            }),
            shots: kinds.map(|kind| {
                rules.shots_allowed(kind).min(rules.unit_actions(kind, Quality::Regular, 4, 0))
            }),
        }
    }

    /// Harm that one die of a unit of `kind` does at `range` to a target in `cover`.
    #[inline]
    pub fn die(&self, kind: Kind, range: u8, moved: bool, cover: Cover) -> i32 {
        self.of(kind).die(range, moved, cover)
    }

    /// What the dice of units of `kind` do.
    #[inline]
    pub(crate) fn of(&self, kind: Kind) -> Fire<'_> {
        Fire { bands: &self.bands[kind as usize], die: &self.die[kind as usize] }
    }

    /// Harm that `dice` dice do.
    #[inline]
    pub fn harm(&self, kind: Kind, dice: i32, range: u8, moved: bool, cover: Cover) -> i32 {
        dice * self.die(kind, range, moved, cover)
    }

    /// Shots a unit of `kind` may be expected to fire in one activation.
    #[inline]
    pub fn shots(&self, kind: Kind) -> i32 {
        self.shots[kind as usize]
    }
}

/// Expected harm of one die in hundredths of a pin.
fn die_harm(rules: &Rules, kind: Kind, band: i32, moved: bool, cover: Cover) -> i32 {
    if band == 3 {
        return 0;
    }
    let hits = (7 - rules.hit_number(kind, band, moved)).clamp(0, 6);
    let worth = |die: i32| match rules.effect(kind, cover, die) {
        Effect::Nothing => 0,
        Effect::Pin => 1,
        Effect::Loss => 1 + LOSS,
    };
    // What cover leaves of a middling number of hits.
    let kept = rules.hits_kept(kind, cover, USUAL_HITS);
    hits * (1..=6).map(worth).sum::<i32>() * 100 * kept / (36 * USUAL_HITS)
}

/// Ways in 36 that two dice total at least `needed`.
pub(crate) fn two_dice_reach(needed: i32) -> i32 {
    (2..=12).filter(|total| *total >= needed).map(|total| 6 - i32::abs(7 - total)).sum()
}

/// Dice a unit may roll now.
pub(crate) fn dice(rules: &Rules, unit: &Unit) -> i32 {
    rules.fire_dice(unit.kind, unit.men.max(1), unit.pins)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The 36 outcomes of two dice, counted: common knowledge.
    #[test]
    fn two_dice_ways_are_counted() {
        assert_eq!([2, 7, 8, 12, 13].map(two_dice_reach), [36, 21, 15, 1, 0]);
    }

    #[test]
    fn harm_falls_with_range_and_cover() {
        let forecast = Forecast::new(&Rules::base());
        let harm = |range, cover| forecast.harm(Kind::Section, 6, range, false, cover);
        assert!(
            harm(5, Cover::None) > harm(12, Cover::None)
                && harm(12, Cover::None) > harm(25, Cover::None)
        );
        assert!(
            harm(5, Cover::None) > harm(5, Cover::Light)
                && harm(5, Cover::Light) > harm(5, Cover::Hard)
        );
        assert_eq!(harm(60, Cover::None), 0);
    }

    /// One die hits on 4 to 6 in the open near by; four in six hits pin, two cost a man.
    #[test]
    fn harm_is_the_expected_value() {
        let forecast = Forecast::new(&Rules::base());
        assert_eq!(
            forecast.harm(Kind::Section, 1, 3, false, Cover::None),
            3 * (4 + 2 * 3) * 100 / 36
        );
    }
}
