//! What all pages share: they need nothing but themselves, and load nothing.

#[cfg(test)]
mod palette;

use minijinja::value::Value;
use minijinja::{AutoEscape, Environment, context};

use super::one_line;

/// The document around a body, with the policy that keeps it from loading anything.
const PAGE: &str = include_str!("html/page.html");
/// Colours, light and dark.
const THEME: &str = include_str!("html/theme.css");

/// A page but for the content of its body.
pub(crate) struct Page {
    /// Template of the body; it has the filters `line`, for text on one line, and `slug`, for an
    /// address within the page.
    pub(crate) body: &'static str,
    /// How it looks, but for the colours.
    pub(crate) style: &'static str,
    /// What runs in it; nothing when empty.
    pub(crate) script: &'static str,
}

impl Page {
    /// The page with its content, whose text is escaped.
    pub(crate) fn render(&self, title: &str, content: Value) -> String {
        let mut page = Environment::new();
        page.set_auto_escape_callback(|_| AutoEscape::Html);
        page.add_filter("line", |text: &str| bound(&one_line(text)));
        page.add_filter("slug", slug);
        let body = page.render_str(self.body, content);
        let safe = |text: &str| Value::from_safe_string(text.to_owned());
        let content = context! {
            title,
            theme => safe(THEME),
            style => safe(self.style),
            script => safe(self.script),
            body => safe(&body.expect("the template is a constant that every content fits")),
        };
        page.render_str(PAGE, content).expect("as is the document") + "\n"
    }
}

/// `text` with signs of percent and of points bound to their numbers, so that no line ends between.
fn bound(text: &str) -> String {
    text.replace(" %", "\u{a0}%").replace(" pp", "\u{a0}pp")
}

/// A heading as an address within the page.
fn slug(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
        .collect()
}
