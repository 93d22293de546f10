//! The manifest of value hooks: every named number and decision of the rules, with its base rule.

use crate::hook::{Arg, Domain, HookSpec};
use crate::hooks::value_hooks;
use crate::kinds::{Cover, Damage, Effect, Face, Ground, Kind, Quality, Side};
use crate::limits::{MAX_MEN, MAX_PINS, MAX_RANGE, MAX_TURNS};
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
const FACE: Domain = Named(Face::CONSTANTS);
const DAMAGE: Domain = Named(Damage::CONSTANTS);
const TURN: Domain = Int(1, MAX_TURNS as i32);

const SECTION: i32 = Kind::Section as i32;
const ASSAULT_SECTION: i32 = Kind::AssaultSection as i32;
const LIGHT_GUN: i32 = Kind::LightGun as i32;
const TRIPOD_GUN: i32 = Kind::TripodGun as i32;
const LIGHT_MORTAR: i32 = Kind::LightMortar as i32;
const MEDIUM_MORTAR: i32 = Kind::MediumMortar as i32;
const ANTI_TANK_TEAM: i32 = Kind::AntiTankTeam as i32;
const FLAME_TEAM: i32 = Kind::FlameTeam as i32;
const LEADER: i32 = Kind::Leader as i32;
const OBSERVER: i32 = Kind::Observer as i32;
const ANTI_TANK_GUN: i32 = Kind::AntiTankGun as i32;
const TANK: i32 = Kind::Tank as i32;
const ASSAULT_GUN: i32 = Kind::AssaultGun as i32;
const CARRIER: i32 = Kind::Carrier as i32;
const TRUCK: i32 = Kind::Truck as i32;
const BATTERY: i32 = Kind::Battery as i32;
const VETERAN: i32 = Quality::Veteran as i32;
const HARD: i32 = Cover::Hard as i32;
const DUG_IN: i32 = Cover::DugIn as i32;

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
    BatteryCards battery_cards() -> i32, Int(0, 2),
        "2.2" "Cards of a battery that can still fire."
        "One." => 1;
    ShortageCards shortage_cards(side: SIDE, "side") -> i32, Int(0, 2),
        "17.3" "Cards in the deck that leave a side short of ammunition."
        "None." => { let _ = side; 0 };

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
        "6 in in the open, 4 in in light cover, 2 in in hard cover or dug in." => (6 - 2 * cover).max(2);
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
        "Green 2, regular 3, veteran 4; one less at half strength or below, one less with 3 pins or more; a leader, a gun or a vehicle one less; at least 1." => {
            let one_less = i32::from(matches!(kind, LEADER | ANTI_TANK_GUN | TANK | ASSAULT_GUN | CARRIER | TRUCK));
            (2 + quality - i32::from(strength <= 2) - i32::from(pins >= 3) - one_less).max(1)
        };
    ActionsOutOfCommand actions_out_of_command(actions: Int(0, 8), "actions the unit would have") -> i32, Int(0, 8),
        "17.2" "Actions of a unit too far from the leaders of its group."
        "As many as otherwise." => actions;
    ShotsAllowed shots_allowed(kind: KIND, "kind of unit") -> i32, Int(0, 4),
        "5.2" "Times a unit may fire in one activation."
        "Once; machine guns twice." => 1 + i32::from(kind == LIGHT_GUN || kind == TRIPOD_GUN);
    MoveDice move_dice(kind: KIND, "kind of unit") -> i32, Int(0, 4),
        "5.3" "Dice rolled for a move, in inches."
        "One; a leader, a tank or an assault gun two, a carrier or a truck three." => match kind {
            LEADER | TANK | ASSAULT_GUN => 2,
            CARRIER | TRUCK => 3,
            _ => 1,
        };
    PinnedMove pinned_move(rolled: Int(0, 24), "inches rolled"; pins: PINS, "pins on the unit") -> i32, Int(0, 24),
        "5.4" "Inches a unit may move after its roll."
        "The roll, less 1 in for every 2 pins." => (rolled - pins / 2).max(0);
    GroundCost ground_cost(ground: GROUND, "ground entered") -> i32, Int(50, 800),
        "3.2" "Cost of moving one inch over this ground on foot, in hundredths of an inch."
        "Open, road, bridge, hill, minefield 100; crops 125; scrub, hedge, ford, trench 150; wood, wall, building 200; rubble, stream 250; wire 400." =>
            [100, 100, 125, 150, 200, 150, 200, 250, 150, 100, 200, 250, 100, 150, 400, 100][ground as usize];
    VehicleCost vehicle_cost(ground: GROUND, "ground entered") -> i32, Int(0, 800),
        "13.3" "Cost of moving one inch over this ground in a vehicle, in hundredths of an inch; 0 where it cannot go."
        "Road, bridge 40; open, hill, crops, minefield 60; ford, scrub, wire 120; hedge, wall, trench 200; wood, rubble, stream 300; a building not at all." =>
            [60, 40, 60, 120, 300, 200, 200, 300, 120, 40, 0, 300, 60, 200, 120, 60][ground as usize];
    BogNumber bog_number(ground: GROUND, "ground entered") -> i32, Int(0, 6),
        "13.4" "A vehicle that enters this ground sticks in it on this roll of a die or less."
        "Wood, stream, rubble, wall, trench 1; otherwise never." =>
            [0, 0, 0, 0, 1, 0, 1, 1, 0, 0, 0, 1, 0, 1, 0, 0][ground as usize];
    BogFreeNumber bog_free_number() -> i32, DIE_NUMBER,
        "13.4" "Number a die must reach to get a vehicle unstuck."
        "4." => 4;
    FireArc fire_arc(kind: KIND, "kind of the firing unit") -> i32, Int(0, 4),
        "13.2" "Eighths of a turn, each way, within which a unit can fire; 4 for all round."
        "An assault gun or an anti-tank gun 1, all others 4." => if matches!(kind, ASSAULT_GUN | ANTI_TANK_GUN) { 1 } else { 4 };
    Capacity capacity(kind: KIND, "kind of vehicle") -> i32, Int(0, 26),
        "13.9" "Men a vehicle carries."
        "A carrier 12, a truck 20, others none." => match kind { CARRIER => 12, TRUCK => 20, _ => 0 };
    MountingActions mounting_actions(kind: KIND, "kind of the unit that gets in or out") -> i32, Int(1, 6),
        "13.9" "Actions it takes to get in or out, or to hook a gun up or off."
        "One; an anti-tank gun two." => 1 + i32::from(kind == ANTI_TANK_GUN);

    // Spotting.
    SpotBand spot_band(range: RANGE, "range in inches") -> i32, BAND,
        "6.2" "Band of a spotting range: 0 near to 3 far."
        "To 8 in 0, to 16 in 1, to 32 in 2, beyond 3." =>
            if range <= 8 { 0 } else if range <= 16 { 1 } else if range <= 32 { 2 } else { 3 };
    SpottingNumber spotting_number(band: BAND, "band of the range"; cover: COVER, "cover the marker is in"; moved: Flag, "whether the marker has moved this turn") -> i32, TWO_DICE_NUMBER,
        "6.3" "Two-dice total needed to spot a marker."
        "7, 9, 10, 11 by band; 1 more in light cover, 2 more in hard, 3 more dug in; 2 less if it moved." =>
            ([7, 9, 10, 11][band as usize] + cover - 2 * moved).clamp(2, 13);
    SearchNumber search_number(band: BAND, "band of the range"; cover: COVER, "cover of the feature") -> i32, TWO_DICE_NUMBER,
        "15.4" "Two-dice total needed to know what a feature hides."
        "7, 9, 10, 11 by band; 1 more in light cover, 2 more in hard, 3 more dug in." =>
            ([7, 9, 10, 11][band as usize] + cover).clamp(2, 13);
    SightLimit sight_limit(turn: TURN, "turn being played") -> i32, RANGE,
        "17.4" "Farthest range in inches at which anything is seen."
        "86 in, from corner to corner." => { let _ = turn; MAX_RANGE as i32 };

    // Fire.
    RangeBand range_band(kind: KIND, "kind of the firing unit"; range: RANGE, "range in inches") -> i32, BAND,
        "7.2" "Band of a firing range: 0 near, 1 middle, 2 far, 3 out of range."
        "Section 6, 15, 30 in; assault section 6, 10, 15 in; light machine gun 8, 24, 48 in; tripod machine gun 12, 36, 72 in; light mortar 6, 24, 48 in, not below 3 in; medium mortar 12, 48, 86 in, not below 10 in; anti-tank team 3, 6, 10 in; flame team 2, 3, 4 in; leader and observer 6, 6, 6 in; tank, assault gun and anti-tank gun 20, 50, 86 in; carrier 8, 24, 48 in; truck none." => {
            let (least, limits) = match kind {
                ASSAULT_SECTION => (0, [6, 10, 15]),
                LIGHT_GUN | CARRIER => (0, [8, 24, 48]),
                TRIPOD_GUN => (0, [12, 36, 72]),
                LIGHT_MORTAR => (3, [6, 24, 48]),
                MEDIUM_MORTAR => (10, [12, 48, 86]),
                ANTI_TANK_TEAM => (0, [3, 6, 10]),
                FLAME_TEAM => (0, [2, 3, 4]),
                LEADER | OBSERVER => (0, [6, 6, 6]),
                ANTI_TANK_GUN | TANK | ASSAULT_GUN => (0, [20, 50, 86]),
                TRUCK => (87, [0, 0, 0]),
                BATTERY => (0, [86, 86, 86]),
                _ => (0, [6, 15, 30]),
            };
            if range < least { 3 } else { limits.iter().filter(|&&limit| range > limit).count() as i32 }
        };
    FireDice fire_dice(kind: KIND, "kind of the firing unit"; men: MEN, "men still able to fire"; pins: PINS, "pins on the firing unit") -> i32, DICE,
        "7.3" "Dice a unit rolls when it fires."
        "Section one for two men and one for its automatic weapon; assault section one for each man, at most 8; light machine gun 4, tripod machine gun 6, medium mortar 4, anti-tank gun 3, one less for each man short of three; light mortar 3; flame team 6; tank 5, assault gun 4, carrier 3; battery 4; truck none; others 1; one less for every 2 pins." => {
            let crewed = |dice: i32| dice - (3 - men).max(0);
            let full = match kind {
                SECTION => (men + 1) / 2 + 1,
                ASSAULT_SECTION => men.min(8),
                LIGHT_GUN | MEDIUM_MORTAR => crewed(4),
                TRIPOD_GUN => crewed(6),
                ANTI_TANK_GUN => crewed(3),
                LIGHT_MORTAR | CARRIER => 3,
                FLAME_TEAM => 6,
                TANK => 5,
                ASSAULT_GUN | BATTERY => 4,
                TRUCK => 0,
                _ => 1,
            };
            (full - (pins + 1) / 2).max(0)
        };
    HitNumber hit_number(kind: KIND, "kind of the firing unit"; band: BAND, "band of the range"; moved: Flag, "whether the firing unit has moved in this activation") -> i32, DIE_NUMBER,
        "7.4" "Number a die must reach to hit; 7 never hits."
        "4, 5, 6 by band, out of range never; an assault section 3, 5, 6; a mortar 5, 5, 5; a flame team 3, 3, 3; a battery 4, 4, 4; one more for a unit that moved, two more for a tripod, a mortar or an anti-tank gun." => {
            let mortar = kind == LIGHT_MORTAR || kind == MEDIUM_MORTAR;
            let heavy = mortar || kind == TRIPOD_GUN || kind == ANTI_TANK_GUN;
            let still = match kind {
                ASSAULT_SECTION => [3, 5, 6, 7],
                FLAME_TEAM => [3, 3, 3, 7],
                BATTERY => [4, 4, 4, 7],
                _ if mortar => [5, 5, 5, 7],
                _ => [4, 5, 6, 7],
            };
            (still[band as usize] + moved * (1 + i32::from(heavy))).min(7)
        };
    HitsKept hits_kept(kind: KIND, "kind of the firing unit"; cover: COVER, "cover of the target"; hits: DICE, "hits rolled") -> i32, DICE,
        "7.7" "Hits that count, of those rolled."
        "All; against hard cover one less, but not of a tank, an assault gun or a medium mortar; against troops dug in half of them, a started half left off; of a flame team always all." =>
            match (cover, kind) {
                (_, FLAME_TEAM) => hits,
                (DUG_IN, _) => hits / 2,
                (HARD, TANK | ASSAULT_GUN | MEDIUM_MORTAR) => hits,
                (HARD, _) => (hits - 1).max(0),
                _ => hits,
            };
    HitEffect effect(kind: KIND, "kind of the firing unit"; cover: COVER, "cover of the target"; die: Int(1, 6), "die rolled for the hit") -> Effect, EFFECT,
        "7.5" "What one hit does."
        "No cover: 1-4 pin, 5-6 loss; any cover: 1-5 pin, 6 loss; to a flame team all cover is none." => {
            let loss = if cover == 0 || kind == FLAME_TEAM { 5 } else { 6 };
            1 + i32::from(die >= loss)
        };
    BlastRadius blast_radius(kind: KIND, "kind of the firing unit") -> i32, Int(0, 6),
        "7.6" "Distance in inches around the target within which everyone is fired at too."
        "2 in for a light mortar, 3 in for a medium one, 6 in for a battery, 1 in for a tripod machine gun, otherwise none." =>
            match kind { LIGHT_MORTAR => 2, MEDIUM_MORTAR => 3, BATTERY => 6, TRIPOD_GUN => 1, _ => 0 };
    BlastDice blast_dice(kind: KIND, "kind of the firing unit"; dice: DICE, "dice against the unit aimed at") -> i32, DICE,
        "7.6" "Dice against each other unit within the radius."
        "As many; of a tripod machine gun half, a started half left off." =>
            if kind == TRIPOD_GUN { dice / 2 } else { dice };
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
        "1; one more with a leader near, one more in hard cover or dug in, one more for veterans." => {
            let _ = pins;
            1 + led + i32::from(cover >= HARD) + i32::from(quality == VETERAN)
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

    // Close assault.
    AssaultReach assault_reach() -> i32, INCHES,
        "12.1" "Range in inches within which a unit may assault."
        "8 in." => 8;
    ChargeDice charge_dice(kind: KIND, "kind of the unit") -> i32, Int(0, 4),
        "12.2" "Dice rolled for the rush, in inches."
        "Two." => { let _ = kind; 2 };
    SuppressedDifference suppressed_difference(quality: QUALITY, "quality of the unit"; led: Flag, "whether a leader is near") -> i32, Int(0, 26),
        "12.3" "Difference by which a suppressed unit that is assaulted is beaten at once; 0 when it fights."
        "3." => { let _ = (quality, led); 3 };
    AssaultDice assault_dice(kind: KIND, "kind of the unit"; men: MEN, "men in the unit"; pins: PINS, "pins on the unit") -> i32, DICE,
        "12.4" "Dice of a unit in close assault."
        "Section one for two men, assault section one for each man, tank 4, assault gun or carrier 2, truck none, others 1 for two men; one less for every 2 pins, at least 1." => {
            let full = match kind {
                ASSAULT_SECTION => men,
                TANK => 4,
                ASSAULT_GUN | CARRIER => 2,
                TRUCK => 0,
                _ => (men + 1) / 2,
            };
            if kind == TRUCK { 0 } else { (full - pins / 2).max(1) }
        };
    AssaultLed assault_led() -> i32, DICE,
        "12.4" "Dice a leader near adds in close assault."
        "2." => 2;
    AssaultNumber assault_number(quality: QUALITY, "quality of the unit that rolls"; cover: COVER, "cover of the unit it goes for, none when it defends"; charging: Flag, "whether it is the one that assaults") -> i32, DIE_NUMBER,
        "12.5" "Number a die must reach to hit in close assault."
        "6; 5 for veterans." => { let _ = (cover, charging); 6 - i32::from(quality == VETERAN) };
    AssaultRounds assault_rounds(cover: COVER, "cover of the unit that is assaulted") -> i32, Int(1, 6),
        "12.6" "Most rounds of a close assault."
        "One; against hard cover or dug in, room by room, three." => if cover >= HARD { 3 } else { 1 };
    Surrenders surrenders(difference: Int(0, 26), "losses of the loser beyond those of the winner"; led: Flag, "whether a leader is near the loser") -> bool, Flag,
        "12.7" "Whether the loser of a close assault is taken prisoner."
        "From a difference of 4, or 3 without a leader near." => i32::from(difference >= 3 + led);
    LoserPins loser_pins(difference: Int(0, 26), "losses of the loser beyond those of the winner") -> i32, PINS,
        "12.8" "Pins on the loser of a close assault."
        "1 and the difference." => (1 + difference).min(MAX_PINS as i32);
    RetreatDistance retreat_distance() -> i32, INCHES,
        "12.8" "Distance in inches that the loser of a close assault falls back."
        "6 in." => 6;
    AssaultPenetration assault_penetration(kind: KIND, "kind of the unit that assaults") -> i32, Int(0, 300),
        "12.9" "Armour in millimetres that a unit on foot goes through in close assault, with grenades and charges."
        "A section, an assault section or a flame team 50, an anti-tank team 100, others none." => match kind {
            SECTION | ASSAULT_SECTION | FLAME_TEAM => 50,
            ANTI_TANK_TEAM => 100,
            _ => 0,
        };

    // Vehicles and guns.
    GunHitNumber gun_hit_number(band: BAND, "band of the range"; cover: COVER, "cover of the target"; moved: Flag, "whether the firing unit has moved"; target_moved: Flag, "whether the target has moved this turn") -> i32, TWO_DICE_NUMBER,
        "13.5" "Two-dice total a gun needs to hit an armoured vehicle."
        "5, 7, 8 by band, out of range never; 1 more in light cover, 2 more in hard or dug in, 2 more if it has moved, 1 more if the target has." =>
            if band == 3 { 13 } else { ([5, 7, 8][band as usize] + cover.min(2) + 2 * moved + target_moved).min(13) };
    FaceStruck face_struck(turns: Int(0, 4), "eighths of a turn between where the vehicle faces and where the shot comes from") -> Face, FACE,
        "13.6" "Side of a vehicle that a shot strikes."
        "Up to one eighth of a turn off the front, four the rear, between them the flank." =>
            match turns { 0 | 1 => 0, 4 => 2, _ => 1 };
    PenetrationNumber penetration_number(margin: Int(-300, 300), "millimetres that the gun goes through, less the armour struck") -> i32, TWO_DICE_NUMBER,
        "13.6" "Two-dice total needed to go through the armour."
        "7; one less for every 5 mm that the gun is better, one more for every 5 mm that it is worse." =>
            (7 - margin / 5).clamp(2, 13);
    HitDamage damage(die: Int(1, 6), "die rolled") -> Damage, DAMAGE,
        "13.7" "What a shot through the armour does."
        "1 the crew is shaken, 2 the vehicle is immobile, 3-6 it is knocked out." => match die { 1 => 0, 2 => 1, _ => 2 };
    ShakenPins shaken_pins() -> i32, PINS,
        "13.7" "Pins on a crew that is shaken."
        "3." => 3;
    GlancingPins glancing_pins() -> i32, PINS,
        "13.7" "Pins from a hit that does not go through."
        "1." => 1;
    WreckPins wreck_pins() -> i32, PINS,
        "13.9" "Pins on troops whose vehicle is knocked out."
        "4." => 4;

    // Off-table fire.
    ResponseTurns response_turns(listed: Int(0, 6), "turn ends the scenario lists"; registered: Flag, "whether the battery was laid there before the game") -> i32, Int(0, 12),
        "14.3" "Turn ends from a call until the battery can fire."
        "As the scenario lists; one less where it was laid before the game." => (listed - registered).max(0);
    ScatterInches scatter_inches(rolled: Int(2, 12), "total of two dice"; adjusted: Int(0, 6), "times the fire was corrected") -> i32, INCHES,
        "14.5" "Inches by which the fire of a battery goes astray."
        "The roll, halved for each correction, parts left off." => rolled >> adjusted;
    SmokeRadius smoke_radius() -> i32, Int(0, 8),
        "14.8" "Radius of a smoke screen in inches."
        "4 in." => 4;
    SmokeTurns smoke_turns() -> i32, Int(1, 6),
        "14.8" "Turn ends after which a smoke screen is gone."
        "2." => 2;

    // Digging in, mines, reserves.
    DigActions dig_actions(quality: QUALITY, "quality of the unit") -> i32, Int(1, 24),
        "16.1" "Actions a unit digs until it is dug in."
        "6." => { let _ = quality; 6 };
    MineNumber mine_number() -> i32, DIE_NUMBER,
        "16.3" "Number of a die from which a mine goes off under a unit that enters a square of a minefield."
        "6." => 6;
    ReserveNumber reserve_number(waited: Int(0, 30), "turn ends since it might first have come") -> i32, DIE_NUMBER,
        "15.6" "Number a die must reach for a reserve to come."
        "4, one less for each turn it has waited." => (4 - waited).max(2);

    // House rules of many clubs, not in force.
    MayHoldFire may_hold_fire(kind: KIND, "kind of unit") -> bool, Flag,
        "17.1" "Whether a unit may hold its fire for the enemy's activations."
        "No one." => { let _ = kind; 0 };
    HeldFireDice held_fire_dice(dice: DICE, "dice the unit would roll on its card") -> i32, DICE,
        "17.1" "Dice rolled for fire that was held."
        "As many as on its card." => dice;
    ShortageDice shortage_dice(dice: DICE, "dice the unit would roll otherwise") -> i32, DICE,
        "17.3" "Dice a unit rolls while its side is short of ammunition."
        "Half of them, a started half counted whole." => (dice + 1) / 2;

    // Objectives and length.
    LeavingPoints leaving_points(side: SIDE, "side of the unit"; listed: Int(0, 20), "points the scenario lists") -> i32, Int(0, 40),
        "15.8" "Points for a unit that leaves the table where it is to."
        "As the scenario lists." => { let _ = side; listed };
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
