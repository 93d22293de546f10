//! Diagnostics as text with the lines they are about.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};

use crate::diagnostic::{Diagnostic, Diagnostics, Severity};

/// Width to which source lines are cut.
const WIDTH: usize = 100;

pub(crate) fn render(diagnostics: &Diagnostics, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() }.term_width(WIDTH);
    let label = diagnostics.source.label();
    let text = &diagnostics.source.text;
    let parts: Vec<String> = diagnostics
        .list
        .iter()
        .map(|diagnostic| renderer.render(&[group(diagnostic, &label, text)]))
        .collect();
    parts.join("\n\n")
}

/// The mark, or its beginning when it would not fit into a line.
fn cut(text: &str, span: &Range<usize>) -> Range<usize> {
    let letters = text[span.clone()].char_indices().nth(WIDTH / 2);
    span.start..letters.map_or(span.end, |(end, _)| span.start + end)
}

fn group<'a>(diagnostic: &'a Diagnostic, label: &'a str, text: &'a str) -> Group<'a> {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(diagnostic.headline.as_str()).id(diagnostic.id.text());
    let group = match &diagnostic.span {
        Some(span) => {
            let mark = AnnotationKind::Primary.span(cut(text, span));
            let mark = match diagnostic.label.as_str() {
                "" => mark,
                label => mark.label(label),
            };
            title.element(Snippet::source(text).path(label).annotation(mark))
        }
        None => title.element(Origin::path(label)),
    };
    group.elements(diagnostic.help.iter().map(|help| Level::HELP.message(help.as_str())))
}
