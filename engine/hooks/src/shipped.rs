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
    "attacker-has-the-initiative",
    "command-post",
    "command-radius",
    "creep-then-fire",
    "dusk",
    "early-suppression",
    "even-turns",
    "fire-on-the-move",
    "first-of-two-turn-end-cards",
    "forced-march",
    "fright-spreads",
    "half-late-fire",
    "halved-pins",
    "handicap",
    "heavy-going",
    "held-fire",
    "kinder-armour",
    "kinder-pin-recovery",
    "leaders-heard-farther",
    "morning-mist",
    "no-dummies",
    "no-early-turn-end",
    "no-late-fire",
    "open-turn-end",
    "orders-gone-astray",
    "pinned-men-do-less",
    "points-for-taking",
    "quick-feet",
    "recovery-under-fire",
    "relief-by-card",
    "rest-in-cover",
    "runner",
    "safe-leaders",
    "sharp-eyes",
    "shells-on-target",
    "short-evening",
    "sniper",
    "steady-nerves",
    "surprise",
    "three-marker-actions",
    "tired-men",
    "tougher-sides",
    "two-turn-end-cards",
    "walking-wounded",
];

/// The shipped script of that name.
pub fn shipped(name: &str) -> Option<&'static Shipped> {
    SHIPPED.iter().find(|script| script.name == name)
}
