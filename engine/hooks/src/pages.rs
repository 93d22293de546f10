//! Kinds of diagnostic by name, and what their pages must hold.

use crate::diagnostic::Id;
use crate::nearest::nearest;

/// The kind of diagnostic of that name.
pub fn id_by_text(text: &str) -> Option<Id> {
    Id::ALL.iter().copied().find(|id| id.text() == text)
}

/// The kind of diagnostic whose name is most like `text`, if any is much like it.
pub fn nearest_id(text: &str) -> Option<Id> {
    id_by_text(nearest(text, Id::ALL.iter().map(|id| id.text()))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Stack, StackSpec, Variant, advice};

    /// A script of a page, with the options that the page has it checked with.
    struct Sample {
        text: String,
        overrides: Overrides,
    }

    /// The two scripts of a page: as it goes wrong, and mended.
    fn samples(id: Id) -> [Sample; 2] {
        let (before, mended) = id.page().split_once("\n## ").expect("a page has a second part");
        [before, mended].map(|part| {
            let fenced = |mark: &str| {
                let (_, rest) = part.split_once(mark)?;
                rest.split_once("```").map(|(text, _)| text.to_owned())
            };
            let text = fenced("```rhai\n").expect("a part has a script");
            let command = fenced("```sh\n").unwrap_or_else(|| "ruleshift check x".into());
            let stack = command.split_whitespace().last().expect("a command has an argument");
            let spec: StackSpec = stack.parse().expect("the argument is a stack");
            Sample { text, overrides: spec.variants[0].overrides.clone() }
        })
    }

    /// The kinds of all that is said about a script, and whether any is an error.
    fn told(sample: &Sample) -> Vec<Id> {
        let source = Source::new("house", sample.text.clone());
        let told = match Variant::load(&source, &sample.overrides) {
            Ok(variant) => {
                let steps = Stack::new(vec![variant.clone()]).steps().unwrap();
                variant.told(advice(&variant, &steps[0], &steps[1]))
            }
            Err(faults) => faults,
        };
        told.list().iter().map(|diagnostic| diagnostic.id).collect()
    }

    /// `never-matters` needs games, which the check plays: its page is tried there.
    #[test]
    fn the_example_of_each_page_has_its_fault_and_the_mended_one_has_none() {
        for &id in Id::ALL {
            let [example, mended] = samples(id);
            if id != Id::NeverMatters {
                assert!(told(&example).contains(&id), "{}: {:?}", id.text(), told(&example));
            }
            assert_eq!(told(&mended), [], "{}, mended", id.text());
        }
    }

    #[test]
    fn each_page_begins_with_its_name_and_fits_a_terminal() {
        for &id in Id::ALL {
            let text = id.page();
            assert!(text.starts_with(&format!("# {}\n\n", id.text())), "{}", id.text());
            for line in text.lines() {
                assert!(line.chars().count() <= 78, "{}: {line}", id.text());
            }
            assert!(id.about().ends_with('.'), "{}: {}", id.text(), id.about());
        }
    }

    #[test]
    fn a_name_slightly_wrong_has_a_nearest_one() {
        assert_eq!(id_by_text("unknown-hook"), Some(Id::UnknownHook));
        assert_eq!(nearest_id("unknwon-hook"), Some(Id::UnknownHook));
        assert_eq!(nearest_id("weather"), None);
    }
}
