//! What a doctrine cares about.

macro_rules! weights {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {
        /// How much a player cares about each thing; whole numbers from 0, compared with each other.
        #[derive(Clone, Debug, PartialEq, Eq)]
        pub struct Weights { $($(#[$doc])* pub $name: i32),* }

        impl Weights {
            /// The name of every weight, as files have it.
            pub const NAMES: &'static [&'static str] = &[$(stringify!($name)),*];

            /// The largest value of a weight.
            pub const LARGEST: i32 = 1000;

            /// Every weight with its name.
            pub fn named(&self) -> [(&'static str, i32); Self::NAMES.len()] {
                [$((stringify!($name), self.$name)),*]
            }

            /// Weights by their names.
            pub(crate) fn by_name(value: impl Fn(&str) -> i32) -> Weights {
                Weights { $($name: value(stringify!($name))),* }
            }
        }
    };
}

weights! {
    /// For each inch nearer to an objective it does not hold.
    advance,
    /// For each inch nearer to an objective it holds.
    hold,
    /// For each step of cover.
    cover,
    /// Against each point of harm it expects to suffer in a place.
    caution,
    /// For each point of harm it expects to do.
    shoot,
    /// For a marker surely spotted.
    spot,
    /// For each pin taken off.
    rally,
    /// Harm it wants to do before it gives up a marker by opening fire.
    open_fire,
    /// How much of `advance` weapons teams and leaders feel, in tenths.
    support,
    /// How readily it goes for the enemy with grenade and bayonet, in tenths of what the odds say.
    assault,
    /// For each action spent digging where it means to stay.
    dig,
}
