//! The index of the hooks, by the sections of the rules they belong to.

use std::fmt::Write;

use ruleshift_game::{EVENT_HOOKS, HOOKS};

/// The rules, for the titles of their sections.
const RULES: &str = include_str!("../../../game/RULES.md");

/// Where they are, seen from the page that holds the reference.
const PATH: &str = "../engine/game/RULES.md";

/// Every hook in a line, section by section.
pub(super) fn index() -> String {
    let mut text =
        "### Index\n\nAll hooks by subject; names that begin with `on_` are event hooks. \
                    Behind the hooks come\n[the game](#the-game), [functions](#functions) and \
                    [constants](#constants).\n\n"
            .to_owned();
    for (number, title) in sections() {
        let hooks: Vec<_> =
            hooks().filter(|(_, _, paragraph)| section(paragraph) == number).collect();
        if hooks.is_empty() {
            continue;
        }
        let _ = writeln!(text, "**{title}** ({})\n", link(number));
        for (name, about, _) in hooks {
            let _ = writeln!(text, "- [{name}](#{name}): {about}");
        }
        text.push('\n');
    }
    text
}

/// A paragraph or section of the rules as a link to its section.
pub(super) fn link(paragraph: &str) -> String {
    let number = section(paragraph);
    let found = sections().find(|(section, _)| *section == number);
    let title = found.map_or("", |(_, title)| title);
    format!("[RULES {paragraph}]({PATH}#{})", anchor(&format!("{number}. {title}")))
}

/// Name, sentence and paragraph of every hook.
fn hooks() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    let values = HOOKS.iter().map(|hook| (hook.name, hook.about, hook.paragraph));
    values.chain(EVENT_HOOKS.iter().map(|hook| (hook.name, hook.about, hook.paragraph)))
}

/// Number and title of every section: `## 9. Pins and will`.
fn sections() -> impl Iterator<Item = (&'static str, &'static str)> {
    RULES.lines().filter_map(|line| line.strip_prefix("## ")?.split_once(". "))
}

/// The section a paragraph is in.
fn section(paragraph: &str) -> &str {
    paragraph.split('.').next().unwrap_or(paragraph)
}

/// A heading as pages on the web name it.
fn anchor(heading: &str) -> String {
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || *c == ' ' || *c == '-');
    kept.collect::<String>().to_lowercase().replace(' ', "-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_hook_is_in_the_index_once() {
        let index = index();
        for (name, ..) in hooks() {
            assert_eq!(index.matches(&format!("[{name}](#{name})")).count(), 1, "{name}");
        }
    }

    #[test]
    fn links_lead_to_the_headings_of_sections() {
        assert_eq!(link("9.5"), "[RULES 9.5](../engine/game/RULES.md#9-pins-and-will)");
        assert_eq!(link("11"), "[RULES 11](../engine/game/RULES.md#11-objectives-points-the-end)");
    }
}
