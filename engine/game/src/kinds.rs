//! The closed lists of the game: sides, kinds of unit, qualities, covers, grounds, effects.
//!
//! Each list has constants of the same names for scripts (upper case), so that a value hook can
//! say `kind == SECTION`; the number behind a name is its place in the list.

use std::fmt;

macro_rules! closed_list {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident $constant:literal $label:literal),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u8)]
        pub enum $name { $($(#[$vdoc])* $variant),* }

        impl $name {
            /// All values in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];
            /// The names scripts use, in order.
            pub const CONSTANTS: &'static [&'static str] = &[$($constant),*];

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
        /// Light machine gun with its crew.
        LightGun "LIGHT_GUN" "light machine gun",
        /// Machine gun on a tripod.
        TripodGun "TRIPOD_GUN" "tripod machine gun",
        /// Light mortar: its shells burst over an area.
        LightMortar "LIGHT_MORTAR" "light mortar",
        /// A leader and his runner.
        Leader "LEADER" "leader",
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
            Ground::Open | Ground::Road | Ground::Ford | Ground::Bridge | Ground::Hill => {
                Cover::None
            }
            Ground::Crops | Ground::Scrub | Ground::Hedge | Ground::Stream | Ground::Wood => {
                Cover::Light
            }
            Ground::Wall | Ground::Building | Ground::Rubble => Cover::Hard,
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
