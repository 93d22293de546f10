//! What a game's state is made of: units, groups, markers, batteries, screens.

use crate::cell::Cell;
use crate::kinds::{Face, Kind, Quality, Side};
use crate::rules::Rules;
use crate::setup::{FEATURES, RESERVES};

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
    /// Actions granted before its next activation this turn, less those taken.
    pub granted: i8,
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
    /// Square in which it came on the table.
    pub first_at: Cell,
    /// Turn in which it first showed; 0 from the beginning.
    pub since: u16,
    /// Moves it has made for all to see.
    pub moves: u8,
    /// Times it has looked for the enemy for all to see.
    pub looks: u8,
}

/// How a marker came on the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// On a spot, before the first turn.
    Spot,
    /// Out of a feature.
    Feature,
    /// From the reserve.
    Reserve,
}

impl Origin {
    /// All of them.
    pub const ALL: [Origin; 3] = [Origin::Spot, Origin::Feature, Origin::Reserve];
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

impl Unit {
    /// A blank record.
    pub(crate) const EMPTY: Unit = Unit {
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
}

impl Group {
    /// A blank record.
    pub(crate) const EMPTY: Group = Group {
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
}

impl Marker {
    /// A blank record.
    pub(crate) const EMPTY: Marker = Marker {
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
        first_at: Cell { x: 0, y: 0 },
        since: 0,
        moves: 0,
        looks: 0,
    };
}

impl Battery {
    /// A blank record.
    pub(crate) const EMPTY: Battery = Battery { side: Side::Attacker, missions: 0, call: None };
}

impl Screen {
    /// A blank record.
    pub(crate) const EMPTY: Screen = Screen { at: Cell { x: 0, y: 0 }, turns: 0 };
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

    /// How it came on the table, or will.
    pub fn origin(&self) -> Origin {
        match self.spot {
            RESERVES.. => Origin::Reserve,
            FEATURES.. => Origin::Feature,
            _ => Origin::Spot,
        }
    }

    /// Uses one action.
    pub(crate) fn spend(&mut self) {
        self.left = self.left.saturating_sub(1);
        self.used += 1;
    }
}
