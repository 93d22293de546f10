//! The scripts that come with the program.

/// One shipped script.
#[derive(Clone, Copy, Debug)]
pub struct Shipped {
    /// Name by which it is used.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

macro_rules! shipped {
    ($($name:literal),* $(,)?) => {
        /// Every shipped script: first the template, which changes nothing, then by name.
        pub const SHIPPED: &[Shipped] = &[$(
            Shipped {
                name: $name,
                text: include_str!(concat!("../../../variants/", $name, "/rules.rhai")),
            }
        ),*];
    };
}

shipped![
    "base",
    "ammunition-shortage",
    "command-radius",
    "creep-then-fire",
    "dusk",
    "early-suppression",
    "fire-on-the-move",
    "first-of-two-turn-end-cards",
    "forced-march",
    "half-late-fire",
    "halved-pins",
    "heavy-going",
    "held-fire",
    "kinder-armour",
    "kinder-pin-recovery",
    "leaders-heard-farther",
    "no-dummies",
    "no-late-fire",
    "pinned-men-do-less",
    "quick-feet",
    "recovery-under-fire",
    "rest-in-cover",
    "safe-leaders",
    "sharp-eyes",
    "shells-on-target",
    "short-evening",
    "steady-nerves",
    "three-marker-actions",
    "tougher-sides",
    "two-turn-end-cards",
];

/// The shipped script of that name.
pub fn shipped(name: &str) -> Option<&'static Shipped> {
    SHIPPED.iter().find(|script| script.name == name)
}
