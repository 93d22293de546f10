//! House rules written in Rhai: loading, checking, sandbox, diagnostics.
//!
//! A [`Source`] is loaded into a [`Variant`], variants form a [`Stack`], and a stack gives the
//! tables of its value hooks ([`Stack::rules`]) and, for each worker, its event hooks
//! ([`Stack::script`]). All that is wrong with a script comes at once, as [`Diagnostics`].
//!
//! ```
//! use ruleshift_hooks::{Overrides, Source, Stack, Variant};
//!
//! let source = Source::new("brisk", r#"
//!     fn about() { #{ title: "Brisk markers", summary: "A marker has one action more." } }
//!     fn marker_actions(now) { now + 1 }
//! "#);
//! let variant = Variant::load(&source, &Overrides::none()).unwrap();
//! let stack = Stack::new(vec![variant]);
//! assert_eq!(stack.rules().unwrap().marker_actions(), 5);
//! ```

mod about;
mod advice;
mod change;
mod constants;
mod culprit;
mod diagnostic;
mod effect;
mod evaluate;
mod events;
mod extras;
mod fault;
mod game;
mod grid;
mod letters;
mod library;
pub mod limits;
mod nearest;
mod options;
mod overlap;
mod pages;
mod reference;
mod render;
mod sandbox;
mod shift;
mod shipped;
mod skeleton;
mod source;
mod spec;
mod stack;
mod structure;
mod survey;
mod syntax;
mod telling;
mod trial;
mod variant;

pub use advice::{advice, never_matters};
pub use change::{Change, changes};
pub use diagnostic::{Diagnostic, Diagnostics, Id, Severity};
pub use extras::{CardSpec, CounterSpec};
pub use grid::{Grid, GridCell, GridRow};
pub use options::{OptionSpec, OptionValue, Overrides};
pub use overlap::{OrderExample, Overlap, SharedHook, overlaps};
pub use pages::{id_by_text, nearest_id};
pub use reference::{reference, template};
pub use shipped::{SHIPPED, Shipped, shipped};
pub use skeleton::skeleton;
pub use source::Source;
pub use spec::{SpecError, StackSpec, VariantSpec};
pub use stack::Stack;
pub use telling::telling;
pub use variant::Variant;
