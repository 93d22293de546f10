//! Chances of a close assault: the rush, the fight, who is gone (RULES 12.2-12.8).

use ruleshift_game::limits::MAX_PINS;
use ruleshift_game::{Cover, Gait, Ground, Hook, Rules};

use super::chances::Chances;
use super::dice::{hits, total};
use super::movement::cost;
use super::page::{Group, Value};
use super::scene::{Force, Scene, place};
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] = &[
    Hook::AssaultReach,
    Hook::ChargeDice,
    Hook::PinnedMove,
    Hook::ContactDistance,
    Hook::SuppressedDifference,
    Hook::SuppressionThreshold,
    Hook::AssaultDice,
    Hook::AssaultLed,
    Hook::AssaultNumber,
    Hook::AssaultRounds,
    Hook::Surrenders,
    Hook::LoserPins,
    Hook::BreakThreshold,
];

/// Most dice of a side.
const MOST_DICE: i32 = 24;
/// Largest difference that is asked about.
const MOST_DIFFERENCE: i32 = 26;

/// What a table cannot show and is held fixed.
pub(crate) fn held(scene: &Scene) -> Vec<String> {
    vec![
        format!("Assault: by {}; on {}.", scene.assaulting().told(), scene.enemy.told()),
        "The rush is over open ground, straight along a row of squares. Leaders are not hit, and who \
         falls back has room to."
            .to_owned(),
    ]
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let covers = sheet.scene.covers_or(&[Cover::None, Cover::Hard], Cover::ALL);
    let ours = sheet.scene.assaulting();
    let fights = covers.iter().map(|&cover| {
        let fight = Fight { rules: sheet.rules, ours, theirs: sheet.scene.enemy, cover };
        group(&fight)
    });
    std::iter::once(rush(sheet)).chain(fights).collect()
}

fn rush(sheet: &Sheet<'_>) -> Group {
    let (rules, ours) = (sheet.rules, sheet.scene.assaulting());
    let mut group = Group::new(format!("The rush of a {}", ours.short()));
    group.row("farthest that it may begin, in", Value::Number(rules.assault_reach()));
    let inches =
        total(rules.charge_dice(ours.kind)).map(|&rolled| rules.pinned_move(rolled, ours.pins));
    group.detail("inches, mean", Value::Mean(inches.mean(|&n| n)));
    group.spread("inches", &inches);
    let farthest = sheet.all.iter().map(|rules| rules.assault_reach()).max().unwrap_or(0);
    let ranges = 2..=farthest;
    for range in ranges.filter(|range| sheet.scene.full || range % 2 == 0) {
        let squares = range - rules.contact_distance();
        let cost = cost(rules, Gait::Foot, Ground::Open).unwrap_or(0);
        let comes = inches.chance(|&inches| inches * 100 >= squares * cost);
        let value = match range <= rules.assault_reach() {
            _ if ours.suppressed(rules) => Value::Word("suppressed"),
            true => Value::Chance(comes),
            false => Value::Word("too far"),
        };
        group.row(format!("comes to grips from {range} in"), value);
    }
    group
}

/// Two units that have come to grips.
#[derive(Clone, Copy)]
struct Fight<'a> {
    rules: &'a Rules,
    ours: Force,
    theirs: Force,
    cover: Cover,
}

/// How it ended for one of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Fate {
    /// It is on the table.
    Stays,
    /// It has no man left.
    Lost,
    /// It was taken prisoner.
    Taken,
    /// It broke.
    Broken,
}

/// How a fight ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct End {
    /// 1 when the assault won, -1 when it lost, 0 when nothing was decided or nobody is left.
    winner: i32,
    /// Men that hits took.
    lost: [i32; 2],
    fate: [Fate; 2],
}

/// A fight under way: men left, or how it ended.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stage {
    Fighting([i32; 2]),
    Over(End),
}

impl Fight<'_> {
    fn men(&self) -> [i32; 2] {
        [self.ours.men, self.theirs.men]
    }

    /// Every end with its chance: round by round, both sides' hits together.
    fn ends(&self) -> Chances<End> {
        if let Some(end) = self.beaten_at_once() {
            return Chances::certain(end);
        }
        let mut stages = Chances::certain(Stage::Fighting(self.men()));
        for _ in 0..self.rules.assault_rounds(self.cover) {
            stages = stages.then(|&stage| match stage {
                Stage::Fighting(men) => self.round(men),
                over @ Stage::Over(_) => Chances::certain(over),
            });
        }
        stages.map(|&stage| match stage {
            Stage::Over(end) => end,
            Stage::Fighting(men) => self.end(0, men),
        })
    }

    /// A suppressed unit does not stand (RULES 12.3).
    fn beaten_at_once(&self) -> Option<End> {
        let Force { quality, led, .. } = self.theirs;
        let difference = self.rules.suppressed_difference(quality, led);
        let falls = self.theirs.suppressed(self.rules) && difference > 0;
        falls.then(|| self.beaten(1, self.men(), difference))
    }

    /// One round between units with so many men.
    fn round(&self, men: [i32; 2]) -> Chances<Stage> {
        let ours = self.roll(&self.ours, men[0], self.cover, true);
        let theirs = self.roll(&self.theirs, men[1], Cover::None, false);
        ours.then(|&ours| theirs.map(|&theirs| self.after(men, [ours, theirs])))
    }

    fn roll(&self, force: &Force, men: i32, cover: Cover, charging: bool) -> Chances<i32> {
        let mut dice = self.rules.assault_dice(force.kind, men, force.pins);
        if dice > 0 && force.led {
            dice += self.rules.assault_led();
        }
        hits(dice.min(MOST_DICE), self.rules.assault_number(force.quality, cover, charging))
    }

    fn after(&self, men: [i32; 2], [ours, theirs]: [i32; 2]) -> Stage {
        let left = [(men[0] - theirs).max(0), (men[1] - ours).max(0)];
        Stage::Over(match left {
            [0, 0] => self.end(0, left),
            [0, _] => self.end(-1, left),
            [_, 0] => self.end(1, left),
            _ if ours == theirs => return Stage::Fighting(left),
            _ if ours > theirs => self.beaten(1, left, ours - theirs),
            _ => self.beaten(-1, left, theirs - ours),
        })
    }

    /// An end at which nobody is beaten by a difference.
    fn end(&self, winner: i32, left: [i32; 2]) -> End {
        let lost = [self.ours.men - left[0], self.theirs.men - left[1]];
        let fate = left.map(|men| if men == 0 { Fate::Lost } else { Fate::Stays });
        End { winner, lost, fate }
    }

    /// The loser is taken, or is given pins and may break (RULES 12.7, 12.8).
    fn beaten(&self, winner: i32, left: [i32; 2], difference: i32) -> End {
        let mut end = self.end(winner, left);
        let loser = usize::from(winner > 0);
        let force = if loser == 0 { &self.ours } else { &self.theirs };
        let difference = difference.min(MOST_DIFFERENCE);
        let given = self.rules.loser_pins(difference);
        let pins = (force.pins + given).min(MAX_PINS.into());
        if self.rules.surrenders(difference, force.led) {
            end.fate[loser] = Fate::Taken;
        } else if given > 0 && pins >= self.rules.break_threshold(left[loser], force.quality) {
            end.fate[loser] = Fate::Broken;
        }
        end
    }
}

fn group(fight: &Fight<'_>) -> Group {
    let mut group = Group::new(format!("The fight, enemy {}", place(fight.cover)));
    let ends = fight.ends();
    let won = |wanted: i32| {
        let chance = ends.chance(|end| end.winner == wanted && end.fate != [Fate::Lost; 2]);
        Value::Chance(chance)
    };
    group.row("the assault wins", won(1));
    group.row("nothing is decided: it falls back", won(0));
    group.row("the assault is beaten", won(-1));
    group.detail("nobody is left", Value::Chance(ends.chance(|end| end.fate == [Fate::Lost; 2])));
    for (side, who) in ["the assault", "the enemy"].into_iter().enumerate() {
        let fate = |fate: Fate| Value::Chance(ends.chance(|end| end.fate[side] == fate));
        group.row(format!("{who}: men lost, mean"), Value::Mean(ends.mean(|end| end.lost[side])));
        group.detail("  is taken prisoner", fate(Fate::Taken));
        group.detail("  breaks", fate(Fate::Broken));
        let of = ["men the assault loses", "men the enemy loses"][side];
        group.spread(of, &ends.map(|end| end.lost[side]));
    }
    group
}

#[cfg(test)]
mod tests {
    use ruleshift_game::{Kind, Quality};

    use super::super::fraction::fraction;
    use super::*;

    fn force(kind: Kind, men: i32) -> Force {
        Force { kind, men, quality: Quality::Regular, pins: 0, led: false }
    }

    /// One die each that hits on a 6, in the open, one round: 5/36 for either, else nothing; both
    /// hit once in 36, which takes the last man of each.
    #[test]
    fn one_man_against_one_man_is_settled_by_hand() {
        let rules = Rules::base();
        let one = force(Kind::Section, 1);
        let ends = Fight { rules: &rules, ours: one, theirs: one, cover: Cover::None }.ends();
        let chance = |of: fn(&End) -> bool| ends.chance(of);
        assert_eq!(chance(|end| end.winner == 1), fraction(5, 36));
        assert_eq!(chance(|end| end.winner == -1), fraction(5, 36));
        assert_eq!(chance(|end| end.fate == [Fate::Lost; 2]), fraction(1, 36));
        assert_eq!(chance(|_| true), fraction(1, 1));
    }

    /// Three rounds against hard cover, one die each: undecided goes on with 25/36 unless both hit.
    #[test]
    fn rounds_go_on_while_nothing_is_decided() {
        let rules = Rules::base();
        let one = force(Kind::Section, 1);
        let ends = Fight { rules: &rules, ours: one, theirs: one, cover: Cover::Hard }.ends();
        let still = fraction(25, 36);
        let won = fraction(5, 36) * (fraction(1, 1) + &still + &still * &still);
        assert_eq!(ends.chance(|end| end.winner == 1), won);
    }

    /// A suppressed unit is beaten by 3: taken without a leader, else it has 4 pins and breaks if
    /// it had enough of them.
    #[test]
    fn a_suppressed_unit_does_not_stand() {
        let rules = Rules::base();
        let theirs = Force { pins: 8, ..force(Kind::Section, 8) };
        let fight =
            Fight { rules: &rules, ours: force(Kind::Section, 8), theirs, cover: Cover::None };
        let fate = |fight: Fight<'_>| fight.ends().chance(|end| end.fate[1] == Fate::Taken);
        assert_eq!(fate(fight), fraction(1, 1));
        assert_eq!(fate(Fight { theirs: Force { led: true, ..theirs }, ..fight }), fraction(0, 1));
    }

    #[test]
    fn chances_of_a_long_fight_add_up() {
        let rules = Rules::base();
        let (ours, theirs) = (force(Kind::AssaultSection, 10), force(Kind::Section, 9));
        let ends = Fight { rules: &rules, ours, theirs, cover: Cover::DugIn }.ends();
        assert_eq!(ends.chance(|_| true), fraction(1, 1));
    }
}
