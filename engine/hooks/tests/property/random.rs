//! No text makes the loader panic, and what loads can be rendered, stacked and called.

use proptest::prelude::*;
use ruleshift_game::{Happening, trial_handle};
use ruleshift_hooks::{Overrides, SHIPPED, Source, Stack, Variant};

/// Loads a text and uses all that comes of it.
fn use_up(text: &str) {
    match Variant::load(&Source::new("random", text), &Overrides::none()) {
        Ok(variant) => {
            let _ = (variant.warnings().render(false), variant.digest(), variant.changes());
            let stack = Stack::new(vec![variant.clone(), variant]);
            let _ = stack.rules();
            if let Some(mut script) = stack.script() {
                let start = Happening::GameStart {};
                let _ = script.call(start, &mut trial_handle(start, 0));
            }
        }
        Err(faults) => {
            assert!(faults.errors() > 0, "an error without a fault");
            assert!(!faults.render(true).is_empty());
        }
    }
}

/// Pieces from which texts that are nearly scripts are made.
fn word() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "fn ",
        "private ",
        "about",
        "marker_actions",
        "on_turn_end",
        "pins_recovered",
        "(",
        ")",
        "{",
        "}",
        "[",
        "]",
        "#{",
        "now",
        "game",
        ", ",
        ": ",
        "; ",
        ".",
        "..",
        "+",
        "-",
        "!",
        "`",
        "${",
        "\"",
        "title",
        "options",
        "default",
        "1",
        "9223372036854775807",
        "SECTION",
        "CARDS",
        "if ",
        "else ",
        "switch ",
        "=> ",
        "_",
        "let ",
        "const ",
        "loop ",
        "for ",
        "in ",
        "return ",
        "throw ",
        "try ",
        "catch ",
        "true",
        "//",
        "/*",
        "*/",
        "\n",
        " = ",
        "é",
        "\u{0}",
        "roll",
    ])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(400)))]

    #[test]
    fn random_text(text in "\\PC{0,200}") {
        use_up(&text);
    }

    #[test]
    fn random_words(words in prop::collection::vec(word(), 0..80)) {
        use_up(&words.concat());
    }

    #[test]
    fn damaged_shipped_scripts(
        script in prop::sample::select(SHIPPED),
        cuts in prop::collection::vec((any::<prop::sample::Index>(), 0_usize..12, word()), 1..4),
    ) {
        let mut text: Vec<char> = script.text.chars().collect();
        for (place, length, word) in cuts {
            let start = place.index(text.len());
            let end = (start + length).min(text.len());
            text.splice(start..end, word.chars());
        }
        use_up(&text.into_iter().collect::<String>());
    }
}
