//! Chances of one shot: hits, what they do, what becomes of the target (RULES 7, 8.2, 9.1-9.3,
//! 17.1), and of a gun at armour (RULES 13.5-13.7).

use ruleshift_game::limits::MAX_PINS;
use ruleshift_game::{Cover, Damage, Effect, Hook, Kind, Rules};

use super::chances::Chances;
use super::dice::{die, hits, one_reaches, two_reach};
use super::page::{Group, Value};
use super::ranges::{Stretch, stretches};
use super::scene::{Force, Scene, capital, pins, place};
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] = &[
    Hook::RangeBand,
    Hook::FireDice,
    Hook::HitNumber,
    Hook::HitsKept,
    Hook::HitEffect,
    Hook::LateFireDice,
    Hook::HeldFireDice,
    Hook::SuppressionThreshold,
    Hook::BreakThreshold,
    Hook::GunHitNumber,
    Hook::PenetrationNumber,
    Hook::HitDamage,
];

/// Millimetres by which a gun is better than the plate it strikes.
const MARGINS: [i32; 5] = [-20, -10, 0, 10, 20];

/// What a table cannot show and is held fixed.
pub(crate) fn held(scene: &Scene) -> Vec<String> {
    let enemy = scene.enemy.told();
    let moved = if scene.moved { "a unit that has moved" } else { "a unit that has not moved" };
    vec![
        format!("Fire: one shot of {moved}, {}; at {enemy}.", pins(scene.pins)),
        "Leaders near the target, and others within the blast, are left out.".to_owned(),
    ]
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let scene = sheet.scene;
    let covers = scene.covers_or(&[Cover::None, Cover::Light, Cover::Hard], Cover::ALL);
    let mut groups = Vec::new();
    for kind in scene.kinds_or(&[Kind::Section]) {
        let mut within = in_range(sheet, kind);
        if !scene.full && scene.ranges.is_none() {
            // The middle one of the usual three stands for all on a short page.
            within = within.into_iter().nth(1).into_iter().collect();
        }
        for stretch in within {
            groups.extend(covers.iter().map(|&cover| case(sheet, kind, &stretch, cover)));
        }
    }
    if scene.full {
        groups.extend(late(sheet));
        groups.extend([at_armour(sheet, &covers), through_armour(sheet.rules)]);
    }
    groups
}

/// Stretches of range at which one of the rules lets the weapon fire; ranges that were typed are
/// all shown.
fn in_range(sheet: &Sheet<'_>, kind: Kind) -> Vec<Stretch> {
    let bands = |range| sheet.all.iter().map(|rules| band(rules, kind, range)).collect();
    let mut all = stretches(sheet.scene.ranges.as_deref(), bands);
    if sheet.scene.ranges.is_none() {
        all.retain(|stretch| sheet.all.iter().any(|rules| band(rules, kind, stretch.range) < 3));
    }
    all
}

/// A battery's shells know no range.
fn band(rules: &Rules, kind: Kind, range: i32) -> i32 {
    if kind == Kind::Battery { 0 } else { rules.range_band(kind, range) }
}

/// One shot as it is rolled.
#[derive(Clone, Copy)]
pub(crate) struct Shot {
    pub(crate) kind: Kind,
    pub(crate) dice: i32,
    pub(crate) needed: i32,
    pub(crate) cover: Cover,
}

/// What a shot leaves of its target.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Struck {
    /// Hits that count.
    pub(crate) hits: i32,
    /// Pins that the hits make.
    pub(crate) pins: i32,
    /// Men lost.
    pub(crate) men: i32,
}

impl Shot {
    /// What may come of it: hits that count are dealt an effect each.
    pub(crate) fn outcomes(&self, rules: &Rules, men: i32) -> Chances<Struck> {
        let Shot { kind, dice, needed, cover } = *self;
        let effect = die().map(|&face| match rules.effect(kind, cover, face) {
            Effect::Nothing => (0, 0),
            Effect::Pin => (1, 0),
            Effect::Loss => (1, 1),
        });
        // The effects of 0, 1, 2, ... hits: each adds one to those before it.
        let mut effects = vec![Chances::certain((0, 0))];
        for before in 0..24 {
            let next = effects[before]
                .then(|&(pins, lost)| effect.map(|&(pin, man)| (pins + pin, lost + man)));
            effects.push(next);
        }
        let counted = hits(dice, needed).map(|&hits| rules.hits_kept(kind, cover, hits));
        counted.then(|&hits| {
            effects[hits as usize].map(|&(pins, lost)| Struck { hits, pins, men: lost.min(men) })
        })
    }
}

/// What became of a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fate {
    /// It is on the table and may act.
    Stands,
    /// It is on the table, suppressed.
    Suppressed,
    /// It broke.
    Broken,
    /// Its last man is lost.
    Lost,
}

impl Struck {
    /// The fate of a unit that suffers this: losses first, then, if anyone is left, all pins
    /// (RULES 7.5); it breaks only when it is given pins (RULES 9.3).
    pub(crate) fn fate(&self, rules: &Rules, enemy: &Force) -> Fate {
        let men = enemy.men - self.men;
        if men <= 0 {
            return Fate::Lost;
        }
        let pins = (enemy.pins + self.pins).min(MAX_PINS.into());
        if self.pins > 0 && pins >= rules.break_threshold(men, enemy.quality) {
            Fate::Broken
        } else if pins > 0 && pins >= rules.suppression_threshold(men, enemy.quality) {
            Fate::Suppressed
        } else {
            Fate::Stands
        }
    }
}

fn case(sheet: &Sheet<'_>, kind: Kind, stretch: &Stretch, cover: Cover) -> Group {
    let (rules, force) = (sheet.rules, sheet.scene.force_of(kind));
    let who = capital(&force.short());
    let mut group = Group::new(format!("{who}, {}, target {}", stretch.label, place(cover)));
    let band = band(rules, kind, stretch.range);
    let able = band < 3 && !force.suppressed(rules);
    let dice = if able { rules.fire_dice(kind, force.men, force.pins) } else { 0 };
    let moved = sheet.scene.moved && kind != Kind::Battery;
    let needed = rules.hit_number(kind, band, moved);
    let told = match able {
        true => Value::Number(dice),
        false if band < 3 => Value::Word("suppressed"),
        false => Value::Word("no shot"),
    };
    group.row("dice", told);
    group.row("a die hits", Value::Needed(needed, one_reaches(needed)));
    harm(&mut group, rules, Shot { kind, dice, needed, cover }, &sheet.scene.enemy);
    group
}

/// Rows about what a shot does to the enemy.
pub(crate) fn harm(group: &mut Group, rules: &Rules, shot: Shot, enemy: &Force) {
    let outcomes = shot.outcomes(rules, enemy.men);
    let fate = |wanted: Fate| Value::Chance(outcomes.chance(|o| o.fate(rules, enemy) == wanted));
    let gone = outcomes.chance(|o| matches!(o.fate(rules, enemy), Fate::Broken | Fate::Lost));
    group.detail("hits that count, mean", Value::Mean(outcomes.mean(|o| o.hits)));
    group.detail("no hit counts", Value::Chance(outcomes.chance(|o| o.hits == 0)));
    group.row("at least one hit counts", Value::Chance(outcomes.chance(|o| o.hits > 0)));
    group.detail("pins, mean", Value::Mean(outcomes.mean(|o| o.pins)));
    group.row("men lost, mean", Value::Mean(outcomes.mean(|o| o.men)));
    group.row("the target is suppressed", fate(Fate::Suppressed));
    group.detail("the target breaks or is lost", Value::Chance(gone));
    group.spread("hits that count", &outcomes.map(|o| o.hits));
    group.spread("pins", &outcomes.map(|o| o.pins));
    group.spread("men lost", &outcomes.map(|o| o.men));
}

/// Late fire and fire that was held differ from other fire in their dice.
fn late(sheet: &Sheet<'_>) -> Vec<Group> {
    let rules = sheet.rules;
    let mut group = Group::new("Late fire (and fire that was held)");
    for kind in sheet.scene.kinds_or(&[Kind::Section]) {
        let force = sheet.scene.force_of(kind);
        let dice = rules.fire_dice(kind, force.men, force.pins);
        group.row(format!("{}: dice", force.short()), Value::Number(rules.late_fire_dice(dice)));
        group.row("  held", Value::Number(rules.held_fire_dice(dice)));
    }
    vec![group]
}

fn at_armour(sheet: &Sheet<'_>, covers: &[Cover]) -> Group {
    let (rules, kind) = (sheet.rules, Kind::AntiTankGun);
    let mut group = Group::new("A gun at an armoured vehicle that has not moved: it hits");
    for &cover in covers {
        for stretch in in_range(sheet, kind) {
            let band = band(rules, kind, stretch.range);
            let needed = rules.gun_hit_number(band, cover, sheet.scene.moved, false);
            let what = format!("{}, {}", stretch.label, place(cover));
            group.row(what, Value::Needed(needed, two_reach(needed)));
        }
    }
    group
}

fn through_armour(rules: &Rules) -> Group {
    let mut group = Group::new("A hit on armour");
    for margin in MARGINS {
        let needed = rules.penetration_number(margin);
        let what = match margin {
            0 => "goes through, gun and plate even".to_owned(),
            1.. => format!("goes through, gun {margin} mm better"),
            _ => format!("goes through, gun {} mm worse", -margin),
        };
        group.row(what, Value::Needed(needed, two_reach(needed)));
    }
    let damage = die().map(|&face| rules.damage(face) as i32);
    for &kind in Damage::ALL {
        let chance = damage.chance(|&done| done == kind as i32);
        group.row(format!("once through: {}", kind.label()), Value::Chance(chance));
    }
    group
}
