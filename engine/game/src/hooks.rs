//! The manifest of value hooks: every named number and decision of the rules, with its base rule.
//!
//! One declaration gives the typed question the engine asks ([`Rules::marker_actions`] and so on),
//! the argument checks, and everything scripts are told about the hook.

use crate::hook::{Arg, Domain, HookSpec};
use crate::kinds::{Cover, Effect, Ground, Kind, Quality, Side};
use crate::limits::{MAX_MEN, MAX_PINS, MAX_RANGE};
use crate::rules::{FromCell, Rules};

use Domain::{Flag, Int, Named};

const KIND: Domain = Named(Kind::CONSTANTS);
const QUALITY: Domain = Named(Quality::CONSTANTS);
const COVER: Domain = Named(Cover::CONSTANTS);
const GROUND: Domain = Named(Ground::CONSTANTS);
const EFFECT: Domain = Named(Effect::CONSTANTS);
const SIDE: Domain = Named(Side::CONSTANTS);
const GRADE: Domain = Int(1, 3);
const MEN: Domain = Int(1, MAX_MEN as i32);
const PINS: Domain = Int(0, MAX_PINS as i32);
const RANGE: Domain = Int(0, MAX_RANGE as i32);
const BAND: Domain = Int(0, 3);
const DICE: Domain = Int(0, 24);
const DIE_NUMBER: Domain = Int(2, 7);
const TWO_DICE_NUMBER: Domain = Int(2, 13);
const INCHES: Domain = Int(0, 48);

const SECTION: i32 = Kind::Section as i32;
const LIGHT_GUN: i32 = Kind::LightGun as i32;
const TRIPOD_GUN: i32 = Kind::TripodGun as i32;
const LIGHT_MORTAR: i32 = Kind::LightMortar as i32;
const LEADER: i32 = Kind::Leader as i32;
const VETERAN: i32 = Quality::Veteran as i32;
const HARD: i32 = Cover::Hard as i32;

macro_rules! value_hooks {
    ($(
        $id:ident $name:ident ( $($arg:ident : $domain:expr, $arg_about:literal);* ) -> $answer:ty, $result:expr,
        $paragraph:literal $about:literal
        $base_rule:literal => $base:expr;
    )*) => {
        /// Every value hook.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u8)]
        pub enum Hook { $(#[doc = $about] $id),* }

        /// What is known of each value hook, indexed by [`Hook`] as a number.
        pub static HOOKS: [HookSpec; Hook::ALL.len()] = SPECS;

        const SPECS: [HookSpec; Hook::ALL.len()] = [$(
            HookSpec {
                name: stringify!($name),
                args: &[$(Arg { name: stringify!($arg), domain: $domain, about: $arg_about }),*],
                result: $result,
                about: $about,
                base_rule: $base_rule,
                paragraph: $paragraph,
                base: |values| {
                    let [$($arg),*] = *values else { unreachable!("arity is checked when a cell is named") };
                    $base
                },
            }
        ),*];

        /// Cells of each hook's table.
        pub(crate) const CELLS: [usize; Hook::ALL.len()] = {
            let mut cells = [0; Hook::ALL.len()];
            let mut n = 0;
            while n < cells.len() {
                cells[n] = SPECS[n].cells();
                n += 1;
            }
            cells
        };

        impl Hook {
            /// All hooks in order.
            pub const ALL: &'static [Hook] = &[$(Hook::$id),*];
        }

        /// The questions the engine asks; each panics outside the declared range of an argument,
        /// which would be a fault of the engine.
        impl Rules {
            $(
                #[doc = $about]
                #[doc = ""]
                #[doc = concat!("Base rule: ", $base_rule, " (RULES ", $paragraph, ")")]
                #[inline]
                #[allow(unused_mut, reason = "a hook without arguments has one cell")]
                pub fn $name(&self $(, $arg: impl Into<i32>)*) -> $answer {
                    let mut cell = 0;
                    $(
                        const { assert!($domain.len() > 0) };
                        let (value, domain): (i32, Domain) = ($arg.into(), $domain);
                        assert!(domain.contains(value), "{}: {} = {value}", stringify!($name), stringify!($arg));
                        cell = cell * const { $domain.len() } + (value - const { $domain.lowest() }) as usize;
                    )*
                    <$answer>::from_cell(self.cell(Hook::$id, cell))
                }
            )*
        }
    };
}

value_hooks! {
    // The deck.
    TurnEndCards turn_end_cards() -> i32, Int(1, 6),
        "2.2" "Turn-end cards in the deck."
        "One." => 1;
    TurnEnds turn_ends(drawn: Int(1, 6), "turn-end cards drawn this turn"; in_deck: Int(1, 6), "turn-end cards in the deck") -> bool, Flag,
        "2.4" "Whether the turn-end card just drawn ends the turn."
        "The first one ends it." => i32::from(drawn >= 1 && in_deck >= 1);
    MarkerCards marker_cards(markers: Int(1, 20), "markers the side has on the table") -> i32, Int(0, 4),
        "2.2" "Marker cards of a side that has markers."
        "One." => { let _ = markers; 1 };
    GroupCards group_cards(units: Int(1, 24), "units of the group on the table") -> i32, Int(0, 3),
        "2.2" "Cards of a group with units on the table."
        "One." => { let _ = units; 1 };
    LeaderCards leader_cards(grade: GRADE, "grade of the leader") -> i32, Int(0, 3),
        "2.2" "Cards of a leader on the table."
        "One." => { let _ = grade; 1 };

    // Markers.
    DummyMarkers dummy_markers(side: SIDE, "side that owns them"; listed: Int(0, 6), "number the scenario lists") -> i32, Int(0, 8),
        "4.1" "Dummy markers a side starts with."
        "As many as the scenario lists." => { let _ = side; listed };
    MarkerActions marker_actions() -> i32, Int(0, 8),
        "4.2" "Actions of each marker on the marker card."
        "Four." => 4;
    MarkerMoveDice marker_move_dice() -> i32, Int(0, 4),
        "4.3" "Dice rolled for a marker's move, in inches."
        "One." => 1;
    MarkerSlowing marker_slowing() -> i32, Int(0, 100),
        "4.3" "How much of the extra cost of rough ground a marker pays, in percent."
        "Half of it." => 50;
    MarkerMaySpot marker_may_spot() -> bool, Flag,
        "4.4" "Whether a marker may use actions to spot."
        "It may." => 1;
    SureSpotting sure_spotting(cover: COVER, "cover the marker is in") -> i32, INCHES,
        "4.5" "Distance in inches within which a seen marker is revealed without a roll."
        "6 in in the open, 4 in in light cover, 2 in in hard cover." => 6 - 2 * cover;
    ContactDistance contact_distance() -> i32, Int(1, 6),
        "4.6" "Distance in inches at which a marker touches the enemy."
        "1 in." => 1;
    MayOpenFire may_open_fire(used: Int(0, 8), "actions the marker has used this turn") -> bool, Flag,
        "4.7" "Whether a marker may be replaced by its troops of its owner's own will."
        "Only with no action used." => i32::from(used == 0);
    DeployDistance deploy_distance() -> i32, Int(0, 8),
        "4.8" "Distance in inches beyond the marker's area within which troops are placed."
        "2 in." => 2;
    ActionsCarried actions_carried(used: Int(0, 8), "actions the marker has used this turn") -> i32, Int(0, 8),
        "4.9" "Actions taken off each unit that was under a marker this turn."
        "As many as the marker used." => used;

    // Actions and moving.
    UnitActions unit_actions(kind: KIND, "kind of unit"; quality: QUALITY, "quality of the unit"; strength: Int(1, 4), "men left, in quarters of its first strength, rounded up"; pins: PINS, "pins on the unit") -> i32, Int(0, 8),
        "5.1" "Actions of a unit when its card is drawn."
        "Green 2, regular 3, veteran 4; one less at half strength or below, one less with 3 pins or more; a leader one less; at least 1." =>
            (2 + quality - i32::from(strength <= 2) - i32::from(pins >= 3) - i32::from(kind == LEADER)).max(1);
    ShotsAllowed shots_allowed(kind: KIND, "kind of unit") -> i32, Int(0, 4),
        "5.2" "Times a unit may fire in one activation."
        "Once; machine guns twice." => 1 + i32::from(kind == LIGHT_GUN || kind == TRIPOD_GUN);
    MoveDice move_dice(kind: KIND, "kind of unit") -> i32, Int(0, 4),
        "5.3" "Dice rolled for a move, in inches."
        "One; a leader two." => 1 + i32::from(kind == LEADER);
    PinnedMove pinned_move(rolled: Int(0, 24), "inches rolled"; pins: PINS, "pins on the unit") -> i32, Int(0, 24),
        "5.4" "Inches a unit may move after its roll."
        "The roll, less 1 in for every 2 pins." => (rolled - pins / 2).max(0);
    GroundCost ground_cost(ground: GROUND, "ground entered") -> i32, Int(50, 800),
        "3.2" "Cost of moving one inch over this ground on foot, in hundredths of an inch."
        "Open, road, bridge, hill 100; crops 125; scrub, hedge, ford 150; wood, wall, building 200; rubble, stream 250." =>
            [100, 100, 125, 150, 200, 150, 200, 250, 150, 100, 200, 250, 100][ground as usize];

    // Spotting.
    SpotBand spot_band(range: RANGE, "range in inches") -> i32, BAND,
        "6.2" "Band of a spotting range: 0 near to 3 far."
        "To 8 in 0, to 16 in 1, to 32 in 2, beyond 3." =>
            if range <= 8 { 0 } else if range <= 16 { 1 } else if range <= 32 { 2 } else { 3 };
    SpottingNumber spotting_number(band: BAND, "band of the range"; cover: COVER, "cover the marker is in"; moved: Flag, "whether the marker has moved this turn") -> i32, TWO_DICE_NUMBER,
        "6.3" "Two-dice total needed to spot a marker."
        "7, 9, 10, 11 by band; 1 more in light cover, 2 more in hard; 2 less if it moved." =>
            ([7, 9, 10, 11][band as usize] + cover - 2 * moved).clamp(2, 13);

    // Fire.
    RangeBand range_band(kind: KIND, "kind of the firing unit"; range: RANGE, "range in inches") -> i32, BAND,
        "7.2" "Band of a firing range: 0 near, 1 middle, 2 far, 3 out of range."
        "Section 6, 15, 30 in; light machine gun 8, 24, 48 in; tripod machine gun 12, 36, 72 in; light mortar 6, 24, 48 in; leader 6, 6, 6 in." => {
            let limits = match kind {
                LIGHT_GUN => [8, 24, 48],
                TRIPOD_GUN => [12, 36, 72],
                LIGHT_MORTAR => [6, 24, 48],
                LEADER => [6, 6, 6],
                _ => [6, 15, 30],
            };
            limits.iter().filter(|&&limit| range > limit).count() as i32
        };
    FireDice fire_dice(kind: KIND, "kind of the firing unit"; men: MEN, "men still able to fire"; pins: PINS, "pins on the firing unit") -> i32, DICE,
        "7.3" "Dice a unit rolls when it fires."
        "Section one for two men and one for its automatic weapon; light machine gun 4, tripod machine gun 6, one less for each man short of three; light mortar 3; leader 1; one less for every 2 pins." => {
            let full = match kind {
                SECTION => (men + 1) / 2 + 1,
                LIGHT_GUN => 4 - (3 - men).max(0),
                TRIPOD_GUN => 6 - (3 - men).max(0),
                LIGHT_MORTAR => 3,
                _ => 1,
            };
            (full - (pins + 1) / 2).max(0)
        };
    HitNumber hit_number(kind: KIND, "kind of the firing unit"; band: BAND, "band of the range"; moved: Flag, "whether the firing unit has moved in this activation") -> i32, DIE_NUMBER,
        "7.4" "Number a die must reach to hit; 7 never hits."
        "4, 5, 6 by band, out of range never; a light mortar 5, 5, 5; one more for a unit that moved, two more for a tripod or a mortar." => {
            let heavy = kind == TRIPOD_GUN || kind == LIGHT_MORTAR;
            let still = if kind == LIGHT_MORTAR { [5, 5, 5, 7] } else { [4, 5, 6, 7] };
            (still[band as usize] + moved * (1 + i32::from(heavy))).min(7)
        };
    HitEffect effect(kind: KIND, "kind of the firing unit"; cover: COVER, "cover of the target"; die: Int(1, 6), "die rolled for the hit") -> Effect, EFFECT,
        "7.5" "What one hit does."
        "No cover: 1-3 pin, 4-6 loss; light: 1-4 pin, 5-6 loss; hard: 1-2 nothing, 3-5 pin, 6 loss." => {
            let _ = kind;
            let (pin, loss) = [(1, 4), (1, 5), (3, 6)][cover as usize];
            i32::from(die >= pin) + i32::from(die >= loss)
        };
    BlastRadius blast_radius(kind: KIND, "kind of the firing unit") -> i32, Int(0, 6),
        "7.6" "Distance in inches around the target within which everyone is fired at too."
        "2 in for a light mortar, otherwise none." => 2 * i32::from(kind == LIGHT_MORTAR);
    LateFireAllowed late_fire_allowed(kind: KIND, "kind of unit"; quality: QUALITY, "quality of the unit") -> bool, Flag,
        "8.1" "Whether a unit that had no activation may fire at turn end."
        "It may." => { let _ = (kind, quality); 1 };
    LateFireDice late_fire_dice(dice: DICE, "dice the unit would roll on its card") -> i32, DICE,
        "8.2" "Dice rolled for late fire."
        "As many as on its card." => dice;

    // Pins and will.
    SuppressionThreshold suppression_threshold(men: MEN, "men in the unit"; quality: QUALITY, "quality of the unit") -> i32, Int(1, 60),
        "9.2" "Pins at which a unit is suppressed."
        "As many as its men, at least 2." => { let _ = quality; men.max(2) };
    BreakThreshold break_threshold(men: MEN, "men in the unit"; quality: QUALITY, "quality of the unit") -> i32, Int(1, 60),
        "9.3" "Pins at which a unit breaks."
        "Twice as many as its men, at least 4." => { let _ = quality; (2 * men).max(4) };
    PinsRecovered pins_recovered(pins: PINS, "pins on the unit"; quality: QUALITY, "quality of the unit"; cover: COVER, "cover the unit is in"; led: Flag, "whether a leader is near") -> i32, PINS,
        "9.5" "Pins a unit loses at turn end."
        "1; one more with a leader near, one more in hard cover, one more for veterans." => {
            let _ = pins;
            1 + led + i32::from(cover == HARD) + i32::from(quality == VETERAN)
        };
    RecoveryUnderFire recovery_under_fire(quality: QUALITY, "quality of the unit"; led: Flag, "whether a leader is near") -> bool, Flag,
        "9.6" "Whether a unit that was fired at this turn recovers pins."
        "Only with a leader near." => { let _ = quality; led };
    RallyAmount rally_amount(grade: Int(0, 3), "grade of the leader who gives the order, 0 for a unit on its own"; quality: QUALITY, "quality of the unit") -> i32, PINS,
        "9.7" "Pins that a rally takes off."
        "1 on its own, 1 and the leader's grade by order." => { let _ = quality; 1 + grade };
    LeaderOrders leader_orders(grade: GRADE, "grade of the leader") -> i32, Int(0, 8),
        "10.1" "Orders a leader gives on his card."
        "As many as his grade, and one." => grade + 1;
    OrdersWithGroup orders_with_group(grade: GRADE, "grade of the leader") -> i32, Int(0, 8),
        "10.2" "Orders a leader gives when the card of his group is drawn."
        "One." => { let _ = grade; 1 };
    LeaderRadius leader_radius(grade: GRADE, "grade of the leader") -> i32, INCHES,
        "10.3" "Distance in inches over which a leader leads."
        "4 in and 1 in for each grade." => 4 + grade;
    LeaderHitNumber leader_hit_number() -> i32, TWO_DICE_NUMBER,
        "10.5" "Two-dice total at which a leader near a unit that loses men is hit."
        "11." => 11;
    GroupBattered group_battered(lost: Int(0, 100), "men lost or fled, in percent of the group's first strength") -> bool, Flag,
        "9.8" "Whether a group that lost men this turn must test."
        "From a half lost." => i32::from(lost >= 50);
    GroupTestNumber group_test_number(lost: Int(0, 100), "men lost or fled, in percent of the group's first strength"; quality: QUALITY, "quality of the group"; led: Flag, "whether its leader is on the table") -> i32, TWO_DICE_NUMBER,
        "9.9" "Two-dice total a battered group needs to stand."
        "7; one less for each step of quality, one less with a leader, one more from three quarters lost." =>
            (7 - quality - led + i32::from(lost >= 75)).clamp(2, 13);
    BreakPoint break_point(side: SIDE, "side"; listed: Int(1, 100), "percentage the scenario lists") -> i32, Int(1, 101),
        "9.10" "Men lost or fled, in percent, from which a side must test; 101 for never."
        "As the scenario lists." => { let _ = side; listed };
    SideTestNumber side_test_number(over: Int(0, 100), "percentage points beyond the break point") -> i32, TWO_DICE_NUMBER,
        "9.11" "Two-dice total a side past its break point needs to fight on."
        "6, and one more for every 5 points beyond." => (6 + over / 5).min(13);

    // Objectives and length.
    HoldingDistance holding_distance() -> i32, INCHES,
        "11.1" "Distance in inches from an objective within which troops hold it."
        "3 in." => 3;
    ObjectivePoints objective_points(side: SIDE, "side that holds it"; listed: Int(0, 20), "points the scenario lists") -> i32, Int(0, 40),
        "11.2" "Points for an objective held at the end of a turn."
        "As the scenario lists." => { let _ = side; listed };
    FinalPoints final_points(side: SIDE, "side that holds it"; listed: Int(0, 20), "points the scenario lists") -> i32, Int(0, 40),
        "11.3" "Points for an objective held at the end of the game."
        "As the scenario lists." => { let _ = side; listed };
    GroupBrokenPoints group_broken_points(units: Int(1, 24), "units the group had") -> i32, Int(0, 20),
        "11.4" "Points for an enemy group with no unit left."
        "1." => { let _ = units; 1 };
    FieldPoints field_points() -> i32, Int(0, 20),
        "11.7" "Points for the side that holds the field when the other is beaten."
        "5." => 5;
    TurnLimit turn_limit(listed: Int(1, 30), "turns the scenario lists") -> i32, Int(1, 40),
        "11.6" "Turns after which the game ends."
        "As the scenario lists." => listed;
}

/// The hook of that name.
pub fn hook_by_name(name: &str) -> Option<Hook> {
    Hook::ALL.iter().copied().find(|hook| hook.spec().name == name)
}

impl Hook {
    /// What is known of the hook.
    pub fn spec(self) -> &'static HookSpec {
        &HOOKS[self as usize]
    }
}
