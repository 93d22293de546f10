//! Everything that can happen in a game, as a closed list; players' choices show only through it.

use crate::cell::Cell;
use crate::choice::Heading;
use crate::deck::Card;
use crate::digest::Digest;
use crate::kinds::{Damage, Face, Side};
use crate::state::{BatteryId, GroupId, MarkerId, State, UnitId};

/// A field of an event as a word of the digest.
trait Word {
    fn word(self) -> u64;
}

macro_rules! number_words {
    ($($type:ty),*) => { $(impl Word for $type { fn word(self) -> u64 { self as u64 } })* };
}
number_words!(u8, u16, u32, i16, bool, Side, Face, Damage, RevealCause, EndCause, BreakCause);

impl Word for Cell {
    fn word(self) -> u64 {
        self.index() as u64
    }
}

impl<T: Word> Word for Option<T> {
    fn word(self) -> u64 {
        self.map_or(0, |value| value.word() + 1)
    }
}

impl Word for Card {
    fn word(self) -> u64 {
        u64::from(self.number())
    }
}

impl Word for Heading {
    fn word(self) -> u64 {
        match self {
            Heading::Straight(way) => way.into(),
            Heading::Objective(objective) => 0x100 | u64::from(objective),
        }
    }
}

/// Why a marker was revealed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum RevealCause {
    /// A spotting roll succeeded.
    Spotted,
    /// It came in plain sight of the enemy within the sure-spotting distance.
    PlainSight,
    /// It touched the enemy.
    Contact,
    /// Its owner had its troops open fire.
    OpenedFire,
}

/// Why a game ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum EndCause {
    /// The last turn was played.
    TurnLimit,
    /// A side broke.
    SideBroke,
    /// A side had nothing left on the table.
    NobodyLeft,
}

/// Why a unit broke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum BreakCause {
    /// Too many pins.
    Pins,
    /// Its group failed a test.
    GroupTest,
    /// Its vehicle was knocked out.
    KnockedOut,
}

macro_rules! events {
    ($($(#[$doc:meta])* $name:ident $code:literal { $($(#[$fdoc:meta])* $field:ident : $type:ty),* $(,)? })*) => {
        /// One event. Each has a code of its own in the digest.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Event { $($(#[$doc])* $name { $($(#[$fdoc])* $field: $type),* }),* }

        impl Event {
            /// Adds the event to a digest of the event stream.
            #[inline]
            pub fn digest(&self, digest: &mut Digest) {
                match *self {
                    $(Event::$name { $($field),* } => {
                        digest.word($code);
                        $(digest.word($field.word());)*
                    })*
                }
            }
        }
    };
}

events! {
    /// A marker was put in place before the game.
    MarkerPlaced 1 {
        /// The marker.
        marker: MarkerId,
        /// Its square.
        at: Cell,
    }
    /// A turn began.
    TurnStarted 2 {
        /// The turn, from 1.
        turn: u16,
        /// Cards in the deck, before house rules add any or take any out.
        cards: u8,
    }
    /// A card was drawn.
    CardDrawn 3 {
        /// The card.
        card: Card,
    }
    /// A marker moved.
    MarkerMoved 4 {
        /// The marker.
        marker: MarkerId,
        /// Where to.
        heading: Heading,
        /// Inches the roll allowed.
        inches: u8,
        /// Where it stopped.
        to: Cell,
    }
    /// A marker was revealed.
    MarkerRevealed 5 {
        /// The marker.
        marker: MarkerId,
        /// The group it hid; none for a dummy.
        group: Option<GroupId>,
        /// Why.
        cause: RevealCause,
    }
    /// A unit was placed on the table.
    UnitPlaced 6 {
        /// The unit.
        unit: UnitId,
        /// Its square.
        at: Cell,
    }
    /// A unit or a marker tried to spot a marker.
    SpotTried 7 {
        /// The unit that looked; none if a marker did.
        unit: Option<UnitId>,
        /// The marker that looked; none if a unit did.
        by: Option<MarkerId>,
        /// The marker looked for.
        marker: MarkerId,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed.
        needed: u8,
    }
    /// A unit started its activation.
    UnitActivated 8 {
        /// The unit.
        unit: UnitId,
        /// Its actions.
        actions: u8,
    }
    /// A unit moved.
    UnitMoved 9 {
        /// The unit.
        unit: UnitId,
        /// Where to.
        heading: Heading,
        /// Inches the roll and its pins allowed.
        inches: u8,
        /// Where it stopped.
        to: Cell,
    }
    /// A unit fired.
    Fired 10 {
        /// The firing unit.
        unit: UnitId,
        /// The target.
        target: UnitId,
        /// Dice rolled.
        dice: u8,
        /// Number needed to hit.
        needed: u8,
        /// Hits.
        hits: u8,
        /// Whether it was late fire.
        late: bool,
        /// Whether it was fire held for the enemy's activation.
        held: bool,
        /// Whether the target was not aimed at, but within the blast.
        blast: bool,
    }
    /// A unit lost men.
    MenLost 11 {
        /// The unit.
        unit: UnitId,
        /// Men lost.
        men: u8,
        /// Men left.
        left: u8,
    }
    /// A unit took pins.
    PinsAdded 12 {
        /// The unit.
        unit: UnitId,
        /// Pins taken.
        pins: u8,
        /// Pins it has now.
        now: u8,
    }
    /// A unit has just become suppressed.
    Suppressed 13 {
        /// The unit.
        unit: UnitId,
    }
    /// A unit broke and left the table.
    UnitBroke 14 {
        /// The unit.
        unit: UnitId,
        /// Men who left.
        men: u8,
        /// Why.
        cause: BreakCause,
    }
    /// A unit has no man left.
    UnitLost 15 {
        /// The unit.
        unit: UnitId,
    }
    /// A group has no unit left.
    GroupGone 16 {
        /// The group.
        group: GroupId,
        /// Points the enemy gets.
        points: u8,
    }
    /// A leader was tested for being hit.
    LeaderTested 17 {
        /// The leader.
        unit: UnitId,
        /// Total of the two dice.
        rolled: u8,
        /// Total at which he is hit.
        needed: u8,
    }
    /// A unit rallied.
    Rallied 18 {
        /// The unit.
        unit: UnitId,
        /// The leader who ordered it; none if on its own.
        leader: Option<UnitId>,
        /// Pins taken off.
        pins: u8,
    }
    /// A leader ordered a unit to act.
    OrderGiven 19 {
        /// The leader.
        leader: UnitId,
        /// The unit.
        unit: UnitId,
    }
    /// A unit recovered at turn end.
    Recovered 20 {
        /// The unit.
        unit: UnitId,
        /// Pins taken off.
        pins: u8,
    }
    /// A battered group was tested.
    GroupTested 21 {
        /// The group.
        group: GroupId,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed.
        needed: u8,
    }
    /// A side past its break point was tested.
    SideTested 22 {
        /// The side.
        side: Side,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed.
        needed: u8,
    }
    /// An objective changed hands.
    ObjectiveTaken 23 {
        /// The objective.
        objective: u8,
        /// Who holds it now.
        side: Side,
    }
    /// Points were counted at turn end.
    Scored 24 {
        /// Attacker's points.
        attacker: i16,
        /// Defender's points.
        defender: i16,
    }
    /// The turn is over; flags of the turn are still as they were.
    TurnEnded 25 {
        /// The turn.
        turn: u16,
    }
    /// The game is over.
    GameEnded 26 {
        /// Who won; none for a draw.
        winner: Option<Side>,
        /// Attacker's points minus defender's.
        margin: i16,
        /// Why.
        cause: EndCause,
        /// Dice rolled in the game.
        dice: u32,
        /// Throws of dice in the game.
        throws: u32,
        /// Choices put to the players.
        decisions: u32,
    }
    /// An event hook put pins on a unit or took them off (negative).
    ScriptActed 27 {
        /// The unit.
        unit: UnitId,
        /// Pins it gained.
        pins: i16,
    }
    /// An event hook noted a line.
    Noted 28 {
        /// Digest of the line, low half.
        text: u32,
    }
    /// One side is beaten, the other holds the field.
    FieldHeld 30 {
        /// The side that holds it.
        side: Side,
        /// Points it gets for that.
        points: u8,
    }
    /// A late-fire step began.
    LateFireBegan 29 {
        /// Side that fires first.
        first: Side,
    }
    /// A vehicle or gun turned.
    UnitTurned 31 {
        /// The unit.
        unit: UnitId,
        /// Way it faces now, by eighths of a turn.
        way: u8,
    }
    /// A gun fired at an armoured vehicle.
    GunFired 32 {
        /// The firing unit.
        unit: UnitId,
        /// The vehicle.
        target: UnitId,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed to hit.
        needed: u8,
    }
    /// A vehicle's armour was struck.
    ArmourStruck 33 {
        /// Who struck it.
        by: UnitId,
        /// The vehicle.
        unit: UnitId,
        /// The side struck.
        face: Face,
        /// Millimetres that the weapon goes through.
        penetration: u16,
        /// Millimetres of armour there.
        armour: u8,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed to go through.
        needed: u8,
    }
    /// A shot through the armour did its work.
    VehicleDamaged 34 {
        /// The vehicle.
        unit: UnitId,
        /// What it did.
        damage: Damage,
    }
    /// A vehicle stuck in the ground.
    Bogged 35 {
        /// The vehicle.
        unit: UnitId,
    }
    /// A stuck vehicle tried to get free.
    BogTried 36 {
        /// The vehicle.
        unit: UnitId,
        /// The die.
        rolled: u8,
        /// What it needed.
        needed: u8,
    }
    /// A mine went off.
    MineStruck 37 {
        /// The unit that stepped on it.
        unit: UnitId,
    }
    /// A unit rushed at an enemy.
    Charged 38 {
        /// The unit.
        unit: UnitId,
        /// The enemy.
        target: UnitId,
        /// Inches it could run.
        inches: u8,
        /// Where it came to.
        to: Cell,
        /// Whether it came to grips.
        reached: bool,
    }
    /// A round of close assault.
    AssaultFought 39 {
        /// The unit that assaults.
        unit: UnitId,
        /// The enemy.
        target: UnitId,
        /// Its dice.
        dice: u8,
        /// Its hits.
        hits: u8,
        /// The enemy's dice.
        enemy_dice: u8,
        /// The enemy's hits.
        enemy_hits: u8,
    }
    /// A unit fell back from a close assault.
    FellBack 40 {
        /// The unit.
        unit: UnitId,
        /// Where to.
        to: Cell,
    }
    /// A unit was taken prisoner.
    Captured 41 {
        /// The unit.
        unit: UnitId,
        /// Its men.
        men: u8,
        /// Who took it.
        by: UnitId,
    }
    /// A unit took an enemy's place after a close assault.
    Pursued 42 {
        /// The unit.
        unit: UnitId,
        /// Where to.
        to: Cell,
    }
    /// A unit got into a vehicle or was hooked to it.
    Mounted 43 {
        /// The unit.
        unit: UnitId,
        /// The vehicle.
        carrier: UnitId,
    }
    /// A unit got out of its vehicle.
    Dismounted 44 {
        /// The unit.
        unit: UnitId,
        /// Where to.
        at: Cell,
    }
    /// Fire of a battery was called.
    BatteryCalled 45 {
        /// The battery.
        battery: BatteryId,
        /// Who called.
        by: UnitId,
        /// Square aimed at.
        at: Cell,
        /// Whether it is smoke.
        smoke: bool,
        /// Turn ends until it can fire.
        wait: u8,
    }
    /// Fire of a battery was corrected.
    BatteryAdjusted 46 {
        /// The battery.
        battery: BatteryId,
        /// Who corrected it.
        by: UnitId,
        /// Corrections so far.
        adjusted: u8,
    }
    /// A battery fired.
    BatteryFired 47 {
        /// The battery.
        battery: BatteryId,
        /// Square aimed at.
        aim: Cell,
        /// Way in which the shells went astray; none when they fell on target.
        way: Option<u8>,
        /// Inches by which they went astray.
        inches: u8,
        /// Where they fell; none when off the table.
        at: Option<Cell>,
        /// Whether it was smoke.
        smoke: bool,
    }
    /// A unit was under a battery's shells.
    Shelled 48 {
        /// The battery.
        battery: BatteryId,
        /// The unit.
        target: UnitId,
        /// Dice rolled.
        dice: u8,
        /// Number needed to hit.
        needed: u8,
        /// Hits.
        hits: u8,
    }
    /// Someone looked for troops in a feature.
    Searched 49 {
        /// Side the feature belongs to.
        side: Side,
        /// The feature.
        feature: u8,
        /// The unit that looked; none if a marker did.
        unit: Option<UnitId>,
        /// The marker that looked; none if a unit did.
        by: Option<MarkerId>,
        /// Total of the two dice.
        rolled: u8,
        /// Total needed.
        needed: u8,
        /// Whether it was found empty.
        empty: bool,
    }
    /// A reserve was due.
    ReserveTested 50 {
        /// The group.
        group: GroupId,
        /// The die.
        rolled: u8,
        /// What it needed.
        needed: u8,
    }
    /// A unit left the table where it was to.
    UnitLeft 51 {
        /// The unit.
        unit: UnitId,
        /// Points its side gets.
        points: u8,
    }
    /// A unit dug.
    Dug 52 {
        /// The unit.
        unit: UnitId,
        /// Whether it is dug in now.
        done: bool,
    }
    /// A unit holds its fire for the enemy's activations.
    FireHeld 53 {
        /// The unit.
        unit: UnitId,
    }
    /// A side is short of ammunition to the end of the next turn.
    AmmunitionShort 54 {
        /// The side.
        side: Side,
    }
    /// An event hook gave a unit actions or took them (negative).
    ActionsChanged 55 {
        /// The unit.
        unit: UnitId,
        /// Actions it gained.
        by: i16,
    }
    /// An event hook is about to take men from a unit (negative), or has brought some back.
    MenChanged 56 {
        /// The unit.
        unit: UnitId,
        /// Men it gains.
        by: i16,
    }
    /// An event hook gave a side points or took them (negative).
    PointsChanged 57 {
        /// The side.
        side: Side,
        /// Points it gained.
        by: i16,
    }
    /// An event hook put a card into the deck of this turn.
    CardAdded 58 {
        /// The card.
        card: Card,
    }
    /// An event hook took a card out of the deck of this turn.
    CardRemoved 59 {
        /// The card.
        card: Card,
    }
    /// The card just drawn has no effect.
    CardSkipped 60 {
        /// The card.
        card: Card,
    }
    /// The card just drawn went back among those that are left.
    CardPutBack 61 {
        /// The card.
        card: Card,
    }
    /// An event hook ended the drawing of cards.
    TurnCut 62 {
        /// The turn.
        turn: u16,
    }
    /// An event hook called a reserve.
    ReserveCalled 63 {
        /// The group.
        group: GroupId,
    }
    /// An event hook limits sight for the rest of the turn.
    SightLimited 64 {
        /// Distance in inches.
        inches: u8,
    }
    /// An event hook set a counter.
    CounterSet 65 {
        /// The counter, counted over the whole rule stack.
        counter: u8,
        /// Its value.
        value: i16,
    }
    /// A card asks a side to choose.
    Asked 66 {
        /// The card.
        card: u8,
        /// The side that chooses.
        side: Side,
        /// Units it may choose from, where it is to choose one; with 0 it is not asked.
        units: Option<u8>,
        /// Options it may choose from, where there are some.
        options: Option<u8>,
    }
    /// An event hook rolled a die.
    HookRolled 68 {
        /// The die.
        die: u8,
    }
    /// A side has chosen what a card asked.
    Answered 67 {
        /// The card.
        card: u8,
        /// The side.
        side: Side,
        /// The unit, where it was to choose one.
        unit: Option<UnitId>,
        /// The option, where there were some; with no unit either, it wants nothing.
        option: Option<u8>,
    }
}

/// Who watches a game: collects numbers, tells the story.
pub trait Observer {
    /// Something happened; `state` is as it is just after.
    fn event(&mut self, event: &Event, state: &State);

    /// An event hook noted `line`; follows the event that says so.
    fn note(&mut self, line: &str) {
        let _ = line;
    }
}

/// Watches nothing.
impl Observer for () {
    fn event(&mut self, _: &Event, _: &State) {}
}
