//! How luck fell: hits of fire against what the dice and the numbers needed promised.

use num_traits::Zero;
use ruleshift_game::{BySide, Cover, Event, Kind, Rules, Side, State};

use super::things::Things;
use crate::odds::{Fraction, decimal, hits, two_reach};
use crate::story::capital;

/// Tries of one kind: how many came off, and how many were to be expected.
#[derive(Clone, Debug)]
pub(super) struct Tries {
    /// Dice of fire, or throws of two dice.
    pub(super) tried: u32,
    /// Hits that counted.
    pub(super) came: u32,
    /// Mean of what comes off, exactly.
    pub(super) mean: Fraction,
    /// Its variance, exactly.
    variance: Fraction,
}

/// Tries of both sides.
#[derive(Debug)]
pub(super) struct Luck {
    /// Dice of fire of units and batteries, late fire and blasts included.
    pub(super) fire: BySide<Tries>,
    /// Shots of guns at armour.
    pub(super) guns: BySide<Tries>,
}

impl Tries {
    fn none() -> Tries {
        Tries { tried: 0, came: 0, mean: Fraction::zero(), variance: Fraction::zero() }
    }

    /// Dice of one shot, of which hits against such cover count as the rules have it (RULES 7.4, 7.7).
    fn shot(&mut self, rules: &Rules, kind: Kind, cover: Cover, [dice, needed, came]: [u8; 3]) {
        self.tried += u32::from(dice);
        self.came += u32::from(came);
        let kept = hits(dice.into(), needed.into()).map(|&hits| rules.hits_kept(kind, cover, hits));
        let mean = kept.mean(|&kept| kept);
        self.variance += kept.mean(|&kept| kept * kept) - &mean * &mean;
        self.mean += mean;
    }

    /// One throw of two dice (RULES 13.6).
    fn throw(&mut self, needed: u8, came: bool) {
        self.tried += 1;
        self.came += u32::from(came);
        let chance = two_reach(needed.into());
        self.variance += &chance - &chance * &chance;
        self.mean += chance;
    }

    /// What was to be expected, and by how much chance alone makes it differ: one standard deviation,
    /// within which about two of three games lie.
    fn expected(&self) -> String {
        format!("{:.1} ± {:.1}", decimal(&self.mean), decimal(&self.variance).sqrt())
    }
}

impl Luck {
    pub(super) fn none() -> Luck {
        let none = || BySide([Tries::none(), Tries::none()]);
        Luck { fire: none(), guns: none() }
    }

    pub(super) fn event(&mut self, event: &Event, things: &Things<'_>, state: &State) {
        let unit = |id: u8| state.units()[id as usize];
        let cover = |id: u8| state.cover(things.arena, &unit(id));
        match *event {
            Event::Fired { unit: id, target, dice, needed, hits, .. } => {
                let (side, kind) = (unit(id).side, unit(id).kind);
                let rolled = [dice, needed, hits];
                self.fire[side].shot(things.rules, kind, cover(target), rolled);
            }
            Event::Shelled { battery, target, dice, needed, hits } => {
                let side = state.batteries()[battery as usize].side;
                let rolled = [dice, needed, hits];
                self.fire[side].shot(things.rules, Kind::Battery, cover(target), rolled);
            }
            Event::GunFired { unit: id, rolled, needed, .. } => {
                self.guns[unit(id).side].throw(needed, rolled >= needed);
            }
            _ => {}
        }
    }

    /// A line for each side.
    pub(super) fn lines(&self) -> Vec<String> {
        let line = |&side: &Side| {
            let (fire, guns) = (&self.fire[side], &self.guns[side]);
            let (came, tried) = (fire.came, fire.tried);
            let side = capital(side);
            let mut text =
                format!("  {side}: {came} hits of {tried} dice, expected {}", fire.expected());
            if guns.tried > 0 {
                let (came, tried) = (guns.came, guns.tried);
                text += &format!("; at armour {came} of {tried}, {}", guns.expected());
            }
            text
        };
        Side::ALL.iter().map(line).collect()
    }
}
