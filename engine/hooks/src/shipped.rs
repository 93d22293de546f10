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
    "dusk",
    "forced-march",
    "held-fire",
    "kinder-pin-recovery",
    "no-late-fire",
    "steady-nerves",
    "three-marker-actions",
    "two-turn-end-cards",
];

/// The shipped script of that name.
pub fn shipped(name: &str) -> Option<&'static Shipped> {
    SHIPPED.iter().find(|script| script.name == name)
}
