//! What metrics are about.

macro_rules! themes {
    ($($id:ident $word:literal $about:literal;)*) => {
        /// What a metric is about: metrics of one theme are shown together.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Theme { $(#[doc = $about] $id),* }

        impl Theme {
            /// All themes, in the order in which they are shown.
            pub const ALL: &'static [Theme] = &[$(Theme::$id),*];

            /// Its word for a reader.
            pub const fn word(self) -> &'static str {
                match self { $(Theme::$id => $word),* }
            }

            /// What its metrics tell, as a phrase.
            pub const fn about(self) -> &'static str {
                match self { $(Theme::$id => $about),* }
            }
        }
    };
}

themes! {
    Balance "balance" "who wins, by how much, and how it ends";
    Length "length" "how long the evening gets, and whose time it is";
    Course "course of the game" "who leads when, and how long it stays open";
    Friction "friction" "who waits, who is pinned, who does not come to act";
    Effort "effort" "what the players have to do";
    Casualties "casualties" "who is lost, and hand to hand";
    Fire "fire" "shots, and whose weapons take the men";
    Hidden "hidden" "markers, features, and how they are found out";
    Armour "armour" "vehicles, and the guns against them";
    Batteries "batteries" "fire from off the table";
}
