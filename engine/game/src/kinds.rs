//! The closed lists of the game: sides, kinds of unit, qualities, covers, grounds, effects.
//!
//! Each list has constants of the same names for scripts (upper case), so that a value hook can
//! say `kind == SECTION`; the number behind a name is its place in the list.

use std::fmt;

/// A name that scripts use, and what it stands for.
#[derive(Clone, Copy, Debug)]
pub struct Meaning {
    /// The name, in large letters.
    pub name: &'static str,
    /// The words for a reader.
    pub label: &'static str,
    /// What it is, in a sentence.
    pub about: &'static str,
}

macro_rules! closed_list {
    ($(#[$doc:meta])* $name:ident { $(#[doc = $about:literal] $variant:ident $constant:literal $label:literal),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u8)]
        pub enum $name { $(#[doc = $about] $variant),* }

        impl $name {
            /// All values in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];
            /// The names scripts use, in order.
            pub const CONSTANTS: &'static [&'static str] = &[$($constant),*];
            /// What those names stand for, in order.
            pub const MEANINGS: &'static [Meaning] =
                &[$(Meaning { name: $constant, label: $label, about: $about.trim_ascii() }),*];

            /// The words for a reader.
            pub const fn label(self) -> &'static str {
                match self { $($name::$variant => $label),* }
            }
        }

        impl From<$name> for i32 {
            fn from(value: $name) -> i32 { value as i32 }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(self.label()) }
        }
    };
}

closed_list! {
    /// One of the two sides.
    Side {
        /// The side that has to take something.
        Attacker "ATTACKER" "attacker",
        /// The side that has to keep it.
        Defender "DEFENDER" "defender",
    }
}

impl Side {
    /// The enemy of this side.
    pub const fn other(self) -> Side {
        match self {
            Side::Attacker => Side::Defender,
            Side::Defender => Side::Attacker,
        }
    }
}

closed_list! {
    /// What a unit is.
    Kind {
        /// Riflemen with one automatic weapon.
        Section "SECTION" "section",
        /// A section with sub-machine guns: strong near by, weak beyond.
        AssaultSection "ASSAULT_SECTION" "assault section",
        /// Light machine gun with its crew.
        LightGun "LIGHT_GUN" "light machine gun",
        /// Machine gun on a tripod.
        TripodGun "TRIPOD_GUN" "tripod machine gun",
        /// Light mortar: its shells burst over an area.
        LightMortar "LIGHT_MORTAR" "light mortar",
        /// Medium mortar: bigger shells, slow to move.
        MediumMortar "MEDIUM_MORTAR" "medium mortar",
        /// Men with a hand-held anti-tank weapon.
        AntiTankTeam "ANTI_TANK_TEAM" "anti-tank team",
        /// Men with a flamethrower.
        FlameTeam "FLAME_TEAM" "flame team",
        /// A leader and his runner.
        Leader "LEADER" "leader",
        /// An observer for off-table batteries.
        Observer "OBSERVER" "observer",
        /// A gun on wheels with its crew.
        AntiTankGun "ANTI_TANK_GUN" "anti-tank gun",
        /// A tank: its gun turns all round.
        Tank "TANK" "tank",
        /// A gun in an armoured hull: it fires to its front only.
        AssaultGun "ASSAULT_GUN" "assault gun",
        /// A lightly armoured vehicle that carries a section or tows a gun.
        Carrier "CARRIER" "carrier",
        /// An unarmoured vehicle that carries or tows.
        Truck "TRUCK" "truck",
        /// Guns off the table: never a unit, but its shells have rows of their own.
        Battery "BATTERY" "battery",
    }
}

impl Kind {
    /// Whether it moves as a vehicle does.
    pub const fn is_vehicle(self) -> bool {
        matches!(self, Kind::Tank | Kind::AssaultGun | Kind::Carrier | Kind::Truck)
    }

    /// Whether it can carry or tow.
    pub const fn carries(self) -> bool {
        matches!(self, Kind::Carrier | Kind::Truck)
    }

    /// Whether it is a section, which can hold ground and assault.
    pub const fn is_section(self) -> bool {
        matches!(self, Kind::Section | Kind::AssaultSection)
    }

    /// Whether it has to face what it fires at.
    pub const fn has_facing(self) -> bool {
        self.is_vehicle() || matches!(self, Kind::AntiTankGun)
    }
}

closed_list! {
    /// How well trained a unit is.
    Quality {
        /// New to it.
        Green "GREEN" "green",
        /// Trained, and knows it by now.
        Regular "REGULAR" "regular",
        /// Old hands.
        Veteran "VETERAN" "veteran",
    }
}

closed_list! {
    /// How well a place shelters those in it.
    Cover {
        /// Nothing to hide behind.
        None "OPEN" "no cover",
        /// Hides, but stops little.
        Light "LIGHT" "light cover",
        /// Stops bullets.
        Hard "HARD" "hard cover",
        /// A hole in the ground.
        DugIn "DUG_IN" "dug in",
    }
}

closed_list! {
    /// What the ground is, square by square.
    Ground {
        /// Short grass.
        Open "GROUND_OPEN" "open",
        /// A road or lane.
        Road "GROUND_ROAD" "road",
        /// Standing crops.
        Crops "GROUND_CROPS" "crops",
        /// Bushes and high grass.
        Scrub "GROUND_SCRUB" "scrub",
        /// Trees.
        Wood "GROUND_WOOD" "wood",
        /// A hedge or thick fence.
        Hedge "GROUND_HEDGE" "hedge",
        /// A wall of stone or brick.
        Wall "GROUND_WALL" "wall",
        /// Water that can be waded.
        Stream "GROUND_STREAM" "stream",
        /// A shallow place in a stream.
        Ford "GROUND_FORD" "ford",
        /// A bridge.
        Bridge "GROUND_BRIDGE" "bridge",
        /// A house or barn.
        Building "GROUND_BUILDING" "building",
        /// A ruined building.
        Rubble "GROUND_RUBBLE" "rubble",
        /// Raised open ground.
        Hill "GROUND_HILL" "hill",
        /// A trench or a line of fox-holes.
        Trench "GROUND_TRENCH" "trench",
        /// Barbed wire.
        Wire "GROUND_WIRE" "wire",
        /// A marked minefield.
        Minefield "GROUND_MINEFIELD" "minefield",
    }
}

/// What ground does to a line of sight that crosses it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SightThrough {
    /// Nothing.
    Clear,
    /// A line may cross only so much of it.
    EdgeBlocked,
    /// A line may begin or end in it, never cross it.
    Blocked,
}

impl Ground {
    /// The cover it gives to troops in it (RULES 3.3).
    pub const fn cover(self) -> Cover {
        match self {
            Ground::Open
            | Ground::Road
            | Ground::Ford
            | Ground::Bridge
            | Ground::Hill
            | Ground::Wire
            | Ground::Minefield => Cover::None,
            Ground::Crops | Ground::Scrub | Ground::Hedge | Ground::Stream | Ground::Wood => {
                Cover::Light
            }
            Ground::Wall | Ground::Building | Ground::Rubble => Cover::Hard,
            Ground::Trench => Cover::DugIn,
        }
    }

    /// What it does to sight across it (RULES 3.4).
    pub const fn sight(self) -> SightThrough {
        match self {
            Ground::Building => SightThrough::Blocked,
            Ground::Wood | Ground::Hedge | Ground::Crops | Ground::Rubble => {
                SightThrough::EdgeBlocked
            }
            _ => SightThrough::Clear,
        }
    }
}

closed_list! {
    /// What one hit does.
    Effect {
        /// Nothing.
        Nothing "NOTHING" "nothing",
        /// One pin.
        Pin "PIN" "a pin",
        /// A man lost, and a pin.
        Loss "LOSS" "a man lost and a pin",
    }
}

closed_list! {
    /// The side of a vehicle that is struck.
    Face {
        /// Ahead.
        Front "FRONT" "front",
        /// To the left or right.
        Flank "FLANK" "flank",
        /// Behind.
        Rear "REAR" "rear",
    }
}

closed_list! {
    /// What a shot through the armour does.
    Damage {
        /// The crew is shaken: pins.
        Shaken "SHAKEN" "crew shaken",
        /// It cannot move any more.
        Immobile "IMMOBILE" "immobile",
        /// It is lost.
        KnockedOut "KNOCKED_OUT" "knocked out",
    }
}

/// What a name of scripts stands for, when it is a name of one of these lists.
pub fn meaning(name: &str) -> Option<&'static Meaning> {
    let lists = [
        Side::MEANINGS,
        Kind::MEANINGS,
        Quality::MEANINGS,
        Cover::MEANINGS,
        Ground::MEANINGS,
        Effect::MEANINGS,
        Face::MEANINGS,
        Damage::MEANINGS,
    ];
    lists.into_iter().flatten().find(|meaning| meaning.name == name)
}

/// A value of two, one for each side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct BySide<T>(pub [T; 2]);

impl<T> std::ops::Index<Side> for BySide<T> {
    type Output = T;
    fn index(&self, side: Side) -> &T {
        &self.0[side as usize]
    }
}

impl<T> std::ops::IndexMut<Side> for BySide<T> {
    fn index_mut(&mut self, side: Side) -> &mut T {
        &mut self.0[side as usize]
    }
}
