//! The words a sketch is asked for by: its mission and its terrain.

use std::fmt;

use crate::nearest::unknown;

/// A closed list whose values have one word each, for names and options.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident $what:literal { $($(#[$vdoc:meta])* $value:ident $word:literal $about:literal),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $($(#[$vdoc])* $value),* }

        impl $name {
            /// All values in order.
            pub const ALL: &'static [$name] = &[$($name::$value),*];

            /// The word for names and options.
            pub const fn word(self) -> &'static str {
                match self { $($name::$value => $word),* }
            }

            /// What it is, in a few words.
            pub const fn about(self) -> &'static str {
                match self { $($name::$value => $about),* }
            }

            /// The value of that word.
            ///
            /// # Errors
            /// The nearest word, and all there are.
            pub fn by_word(word: &str) -> Result<$name, String> {
                let found = $name::ALL.iter().find(|value| value.word() == word);
                let words = $name::ALL.iter().map(|value| value.word());
                found.copied().ok_or_else(|| unknown($what, word, words))
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(self.word()) }
        }
    };
}

words! {
    /// What the attacker is there to do.
    Mission "mission" {
        /// Two objectives, lightly held.
        Attack "attack" "an attack on a place that has been held for a day",
        /// Nobody holds anything yet.
        Meeting "meeting" "two columns of one strength meet, and each has more coming up",
        /// Trenches, wire and mines.
        Prepared "prepared" "an attack with batteries on trenches behind wire and mines",
        /// A line that is held for as long as it pays.
        Delay "delay" "a hidden rearguard holds up a column at a stream",
        /// Through, not to stay.
        Probe "probe" "a small patrol wants to get through a thin line",
        /// House by house.
        Village "village" "house by house through a village",
    }
}

words! {
    /// How much there is on the table.
    Terrain "terrain" {
        /// Long lines of sight.
        Open "open" "a few woods and hedges, long lines of sight",
        /// Something of everything.
        Mixed "mixed" "fields, woods and farms in turn",
        /// Short lines of sight.
        Close "close" "woods, hedges and houses everywhere, short lines of sight",
    }
}
