//! Value hooks: from one declaration of a named number or decision of the rules come the typed
//! question the engine asks ([`Rules::marker_actions`] and so on), the argument checks, and
//! everything scripts are told about the hook. The declarations are in `manifest.rs`.

use crate::hook::HookSpec;
use crate::manifest::{HOOKS, Hook};

macro_rules! value_hooks {
    ($(
        $id:ident $name:ident ( $($arg:ident : $domain:expr, $arg_about:literal);* ) -> $answer:ty, $result:expr,
        $paragraph:literal $about:literal
        $base_rule:literal => $base:expr;
    )*) => {
        /// Every value hook.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u8)]
        pub enum Hook { $(#[doc = $about] $id),* }

        /// What is known of each value hook, indexed by [`Hook`] as a number.
        pub static HOOKS: [HookSpec; Hook::ALL.len()] = SPECS;

        const SPECS: [HookSpec; Hook::ALL.len()] = [$(
            HookSpec {
                name: stringify!($name),
                args: &[$(Arg { name: stringify!($arg), domain: $domain, about: $arg_about }),*],
                result: $result,
                about: $about,
                base_rule: $base_rule,
                paragraph: $paragraph,
                base: |values| {
                    let [$($arg),*] = *values else { unreachable!("arity is checked when a cell is named") };
                    $base
                },
            }
        ),*];

        /// Cells of each hook's table.
        pub(crate) const CELLS: [usize; Hook::ALL.len()] = {
            let mut cells = [0; Hook::ALL.len()];
            let mut n = 0;
            while n < cells.len() {
                cells[n] = SPECS[n].cells();
                n += 1;
            }
            cells
        };

        impl Hook {
            /// All hooks in order.
            pub const ALL: &'static [Hook] = &[$(Hook::$id),*];
        }

        /// The questions the engine asks; each panics outside the declared range of an argument,
        /// which would be a fault of the engine.
        impl Rules {
            $(
                #[doc = $about]
                #[doc = ""]
                #[doc = concat!("Base rule: ", $base_rule, " (RULES ", $paragraph, ")")]
                #[inline]
                #[allow(unused_mut, reason = "a hook without arguments has one cell")]
                pub fn $name(&self $(, $arg: impl Into<i32>)*) -> $answer {
                    let mut cell = 0;
                    $(
                        const { assert!($domain.len() > 0) };
                        let (value, domain): (i32, Domain) = ($arg.into(), $domain);
                        assert!(domain.contains(value), "{}: {} = {value}", stringify!($name), stringify!($arg));
                        cell = cell * const { $domain.len() } + (value - const { $domain.lowest() }) as usize;
                    )*
                    <$answer>::from_cell(self.cell(Hook::$id, cell))
                }
            )*
        }
    };
}
pub(crate) use value_hooks;

/// The hook of that name.
pub fn hook_by_name(name: &str) -> Option<Hook> {
    Hook::ALL.iter().copied().find(|hook| hook.spec().name == name)
}

impl Hook {
    /// What is known of the hook.
    pub fn spec(self) -> &'static HookSpec {
        &HOOKS[self as usize]
    }
}
