//! All data of one game at one moment: a flat value that can be copied.

use crate::cell::Cell;
use crate::deck::Deck;
use crate::kinds::{BySide, Face, Kind, Quality, Side};
use crate::limits::{
    MAX_BATTERIES, MAX_GROUPS, MAX_MARKERS, MAX_OBJECTIVES, MAX_SCREENS, MAX_UNITS,
};
use crate::luck::{Purpose, Stream};
use crate::rules::Rules;
use crate::stage::Doing;

/// Number of a unit, from 0, attacker's first.
pub type UnitId = u8;
/// Number of a group, from 0, attacker's first.
pub type GroupId = u8;
/// Number of a marker, from 0, attacker's first.
pub type MarkerId = u8;
/// Number of a battery, from 0, attacker's first.
pub type BatteryId = u8;

/// Where a unit is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Under its group's marker, or not yet on the table.
    Hidden,
    /// On the table.
    Table,
    /// In or behind a vehicle of its side.
    Carried,
    /// Lost: no man left.
    Lost,
    /// Broken and gone.
    Fled,
    /// Taken prisoner.
    Captured,
    /// Gone where it was to go.
    Left,
}

/// One unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unit {
    /// Side it fights for.
    pub side: Side,
    /// Group it belongs to.
    pub group: GroupId,
    /// What it is.
    pub kind: Kind,
    /// How well trained it is.
    pub quality: Quality,
    /// Grade of a leader, 1 to 3; 0 for other units.
    pub grade: u8,
    /// Men left.
    pub men: u8,
    /// Men at the start.
    pub first_men: u8,
    /// Pins on it.
    pub pins: u8,
    /// Where it is.
    pub place: Place,
    /// Its square, when on the table.
    pub at: Cell,
    /// Actions left in this activation.
    pub actions: u8,
    /// Actions granted before its next activation this turn.
    pub granted: u8,
    /// Shots left in this activation.
    pub shots: u8,
    /// Whether it has had an activation this turn.
    pub activated: bool,
    /// Whether it has moved in its last activation this turn.
    pub moved: bool,
    /// Whether it was fired at this turn.
    pub under_fire: bool,
    /// Whether a leader has ordered it to act this turn.
    pub ordered: bool,
    /// Whether it has been picked on the card of its group drawn last.
    pub picked: bool,
    /// Armour along the line of fire in millimetres, by [`Face`]; 0 everywhere for none.
    pub armour: [u8; Face::ALL.len()],
    /// Its gun, by place in [`crate::Setup::guns`].
    pub gun: Option<u8>,
    /// Way it faces, by eighths of a turn as moves are counted; only vehicles and guns have one.
    pub facing: u8,
    /// Whether it can never move again.
    pub immobile: bool,
    /// Whether it is stuck in the ground.
    pub bogged: bool,
    /// The vehicle that carries or tows it.
    pub carrier: Option<UnitId>,
    /// Actions it has dug in its square.
    pub dug: u8,
    /// Whether it is dug in.
    pub dug_in: bool,
    /// Whether it holds its fire for the enemy's activations (RULES 17.1).
    pub holds_fire: bool,
}

/// One group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Group {
    /// Side it fights for.
    pub side: Side,
    /// Its first unit; its units follow each other.
    pub first_unit: UnitId,
    /// How many units it has.
    pub units: u8,
    /// Men at the start.
    pub first_men: u16,
    /// Whether its card is in the deck.
    pub carded: bool,
    /// Actions used this turn by the marker it was under.
    pub used: u8,
    /// Turn in which it was placed on the table; 0 while hidden.
    pub placed_in: u16,
    /// Square around which its units are placed.
    pub placed_at: Cell,
    /// Whether it lost men this turn.
    pub lost_men: bool,
    /// Whether all its units are gone.
    pub gone: bool,
    /// First turn at whose end it may come; 0 when it is no reserve or has come.
    pub due: u8,
}

/// One marker.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marker {
    /// Side it belongs to.
    pub side: Side,
    /// The group it hides; none for a dummy.
    pub group: Option<GroupId>,
    /// Number of the spot it started on, which names its dice: other markers leave them alone.
    pub spot: u8,
    /// Whether it is on the table.
    pub on_table: bool,
    /// Its square.
    pub at: Cell,
    /// Actions used this turn.
    pub used: u8,
    /// Actions left on the marker card drawn last.
    pub left: u8,
    /// Whether it has moved this turn.
    pub moved: bool,
    /// Whether it has been picked on the marker card drawn last.
    pub picked: bool,
    /// The feature it hides in, unseen by the enemy; none once it shows.
    pub feature: Option<u8>,
}

/// One battery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Battery {
    /// Side it fires for.
    pub side: Side,
    /// Times it may still fire.
    pub missions: u8,
    /// The call it answers.
    pub call: Option<Call>,
}

/// A call for fire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Call {
    /// Square aimed at.
    pub at: Cell,
    /// Who called.
    pub by: UnitId,
    /// Turn ends until it can fire.
    pub wait: u8,
    /// Times the fire has been corrected, the work done before the game included.
    pub adjusted: u8,
    /// Whether it is smoke.
    pub smoke: bool,
    /// Whether the battery has fired on it.
    pub fired: bool,
}

/// One smoke screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Screen {
    /// Its middle.
    pub at: Cell,
    /// Turn ends until it is gone.
    pub turns: u8,
}

/// Counts of what people at the table would have had to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Dice rolled.
    pub dice: u32,
    /// Throws: dice rolled together count once.
    pub throws: u32,
    /// Choices put to players.
    pub decisions: u32,
    /// Calls of event hooks.
    pub script_calls: u32,
}

/// The first units' rolls take the lower numbers, markers' the next, then groups, sides, scripts,
/// batteries.
const WHO: usize = MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 3 + MAX_BATTERIES;

/// Who makes a roll.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    /// A unit.
    Unit(UnitId),
    /// A marker.
    Marker(MarkerId),
    /// A group.
    Group(GroupId),
    /// A side.
    Side(Side),
    /// An event hook.
    Script,
    /// A battery.
    Battery(BatteryId),
}

impl Who {
    const fn number(self) -> usize {
        match self {
            Who::Unit(id) => id as usize,
            Who::Marker(id) => MAX_UNITS + id as usize,
            Who::Group(id) => MAX_UNITS + MAX_MARKERS + id as usize,
            Who::Side(side) => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + side as usize,
            Who::Script => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 2,
            Who::Battery(id) => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 3 + id as usize,
        }
    }
}

/// All data of one game at one moment.
#[derive(Clone, Copy, Debug)]
pub struct State {
    pub(crate) seed: u64,
    pub(crate) turn: u16,
    pub(crate) units: [Unit; MAX_UNITS],
    pub(crate) unit_count: u8,
    pub(crate) groups: [Group; MAX_GROUPS],
    pub(crate) group_count: u8,
    pub(crate) markers: [Marker; MAX_MARKERS],
    pub(crate) marker_count: u8,
    pub(crate) holders: [Option<Side>; MAX_OBJECTIVES],
    pub(crate) points: BySide<i16>,
    pub(crate) deck: Deck,
    pub(crate) doing: Doing,
    pub(crate) tally: Tally,
    pub(crate) batteries: [Battery; MAX_BATTERIES],
    pub(crate) battery_count: u8,
    pub(crate) screens: [Screen; MAX_SCREENS],
    pub(crate) screen_count: u8,
    /// Radius of the screens in inches.
    pub(crate) screen_radius: u8,
    /// Farthest that anything is seen this turn, in inches.
    pub(crate) sight_limit: u8,
    /// Features found empty or shown, one bit each, by the side they belong to.
    pub(crate) searched: BySide<u16>,
    /// The last turn in which a side is short of ammunition.
    pub(crate) short_until: BySide<u16>,
    /// Rolls made this turn, by purpose and who: the last part of each key.
    rolls: [[u8; WHO]; Purpose::COUNT],
}

impl State {
    pub(crate) fn empty(seed: u64) -> State {
        const UNIT: Unit = Unit {
            side: Side::Attacker,
            group: 0,
            kind: Kind::Section,
            quality: Quality::Regular,
            grade: 0,
            men: 0,
            first_men: 0,
            pins: 0,
            place: Place::Lost,
            at: Cell { x: 0, y: 0 },
            actions: 0,
            granted: 0,
            shots: 0,
            activated: false,
            moved: false,
            under_fire: false,
            ordered: false,
            picked: false,
            armour: [0; Face::ALL.len()],
            gun: None,
            facing: 0,
            immobile: false,
            bogged: false,
            carrier: None,
            dug: 0,
            dug_in: false,
            holds_fire: false,
        };
        const GROUP: Group = Group {
            side: Side::Attacker,
            first_unit: 0,
            units: 0,
            first_men: 0,
            carded: false,
            used: 0,
            placed_in: 0,
            placed_at: Cell { x: 0, y: 0 },
            lost_men: false,
            gone: false,
            due: 0,
        };
        const MARKER: Marker = Marker {
            side: Side::Attacker,
            group: None,
            spot: 0,
            on_table: false,
            at: Cell { x: 0, y: 0 },
            used: 0,
            left: 0,
            moved: false,
            picked: false,
            feature: None,
        };
        const BATTERY: Battery = Battery { side: Side::Attacker, missions: 0, call: None };
        const SCREEN: Screen = Screen { at: Cell { x: 0, y: 0 }, turns: 0 };
        State {
            seed,
            turn: 0,
            units: [UNIT; MAX_UNITS],
            unit_count: 0,
            groups: [GROUP; MAX_GROUPS],
            group_count: 0,
            markers: [MARKER; MAX_MARKERS],
            marker_count: 0,
            holders: [None; MAX_OBJECTIVES],
            points: BySide([0; 2]),
            deck: Deck::default(),
            doing: Doing::default(),
            tally: Tally::default(),
            batteries: [BATTERY; MAX_BATTERIES],
            battery_count: 0,
            screens: [SCREEN; MAX_SCREENS],
            screen_count: 0,
            screen_radius: 0,
            sight_limit: u8::MAX,
            searched: BySide([0; 2]),
            short_until: BySide([0; 2]),
            rolls: [[0; WHO]; Purpose::COUNT],
        }
    }

    /// Turn being played, from 1; 0 before the first.
    pub fn turn(&self) -> u16 {
        self.turn
    }

    /// All units, by number.
    pub fn units(&self) -> &[Unit] {
        &self.units[..self.unit_count as usize]
    }

    /// All groups, by number.
    pub fn groups(&self) -> &[Group] {
        &self.groups[..self.group_count as usize]
    }

    /// All markers, by number.
    pub fn markers(&self) -> &[Marker] {
        &self.markers[..self.marker_count as usize]
    }

    /// All batteries, by number.
    pub fn batteries(&self) -> &[Battery] {
        &self.batteries[..self.battery_count as usize]
    }

    /// The smoke screens on the table.
    pub fn screens(&self) -> &[Screen] {
        &self.screens[..self.screen_count as usize]
    }

    /// Whether a feature of `side` has been searched or has shown what it hid.
    pub fn searched(&self, side: Side, feature: u8) -> bool {
        self.searched[side] >> feature & 1 != 0
    }

    /// Who holds each objective; entries beyond the scenario's objectives are none.
    pub fn holders(&self) -> &[Option<Side>; MAX_OBJECTIVES] {
        &self.holders
    }

    /// Points of each side.
    pub fn points(&self) -> BySide<i16> {
        self.points
    }

    /// What the players have had to do.
    pub fn tally(&self) -> Tally {
        self.tally
    }

    /// Units on the table with their numbers, of both sides.
    pub fn on_table(&self) -> impl Iterator<Item = (UnitId, &Unit)> {
        (0..).zip(self.units()).filter(|(_, unit)| unit.place == Place::Table)
    }

    /// The numbers of a group's units.
    pub(crate) fn members(&self, group: GroupId) -> std::ops::Range<UnitId> {
        let group = &self.groups[group as usize];
        group.first_unit..group.first_unit + group.units
    }

    /// Men lost or fled, and men at the start, of a side.
    pub fn losses(&self, side: Side) -> (u32, u32) {
        let of_side = self.units().iter().filter(|unit| unit.side == side);
        of_side.fold((0, 0), |(lost, first), unit| {
            let gone = matches!(unit.place, Place::Fled | Place::Captured);
            let left = if gone { 0 } else { unit.men };
            (lost + u32::from(unit.first_men - left), first + u32::from(unit.first_men))
        })
    }

    /// The stream of the next roll of `who` for `purpose` this turn. Counts one throw of `dice`.
    pub(crate) fn roll(&mut self, purpose: Purpose, who: Who, dice: u8) -> Stream {
        self.tally.throws += u32::from(dice > 0);
        self.tally.dice += u32::from(dice);
        let key = self.key(who);
        let nth = &mut self.rolls[purpose as usize][who.number()];
        let stream = Stream::keyed(self.seed, purpose, self.turn, key, (*nth).into());
        *nth = nth.saturating_add(1);
        stream
    }

    /// The `who` of a roll's key. A marker's is its spot: numbers of markers depend on how many
    /// there are, and a rule that adds a dummy must leave the dice of the others alone.
    fn key(&self, who: Who) -> u16 {
        match who {
            Who::Marker(id) => {
                let marker = &self.markers[id as usize];
                0x4000 | (marker.side as u16) << 8 | u16::from(marker.spot)
            }
            _ => who.number() as u16,
        }
    }

    /// Starts the counts of rolls anew, as each turn does.
    pub(crate) fn forget_rolls(&mut self) {
        self.rolls = [[0; WHO]; Purpose::COUNT];
    }
}

impl Unit {
    /// Whether pins keep it from moving and firing (RULES 9.2).
    #[inline]
    pub fn suppressed(&self, rules: &Rules) -> bool {
        self.pins > 0 && i32::from(self.pins) >= rules.suppression_threshold(self.men, self.quality)
    }

    /// Whether bullets cannot hurt it.
    #[inline]
    pub fn armoured(&self) -> bool {
        self.armour[0] > 0
    }

    /// Whether it is on the table or in a vehicle.
    pub fn here(&self) -> bool {
        matches!(self.place, Place::Table | Place::Carried)
    }

    /// Men left in quarters of the first strength, rounded up: 1 to 4.
    pub fn strength(&self) -> i32 {
        i32::from((u16::from(self.men) * 4).div_ceil(self.first_men.into())).clamp(1, 4)
    }
}

impl Marker {
    /// Whether the enemy sees that it is there.
    pub fn shows(&self) -> bool {
        self.on_table && self.feature.is_none()
    }

    /// Uses one action.
    pub(crate) fn spend(&mut self) {
        self.left = self.left.saturating_sub(1);
        self.used += 1;
    }
}
