//! What a script is told, as text.

use ruleshift_hooks::{Overrides, Source, Variant};

/// A good first line.
pub(crate) const ABOUT: &str = "fn about() { #{ title: \"T\", summary: \"S.\" } }\n";

/// The diagnostics of a script, warnings of a good one included.
pub(crate) fn told(text: &str, overrides: Overrides) -> String {
    let source = Source::new("house", text);
    match Variant::load(&source, &overrides) {
        Ok(variant) => variant.warnings().render(false),
        Err(faults) => faults.render(false),
    }
}

/// The diagnostics of a script with a good `about` in its first line.
pub(crate) fn body(text: &str) -> String {
    told(&format!("{ABOUT}{text}"), Overrides::none())
}
