//! Every number of the text is the engine's.
//!
//! A base rule's sentence is read as a template with `#` for each number; a reader makes answers of
//! the numbers, and these have to be the whole table of the hook. So neither the text nor the table
//! can change alone. Numbers without a hook are read the same way, out of the phrases around them.

mod arms;
mod deck;
mod fire;
mod plain;
mod tokens;
mod will;

use std::collections::{BTreeMap, BTreeSet};

use ruleshift_game::{Hook, Rules};

use self::tokens::Text;
use super::text::paragraphs;

/// How the sentence of one hook is read: the template, and the answer for its numbers and the
/// hook's arguments.
type Reader = (Hook, &'static str, fn(&[i32], &[i32]) -> i32);

/// Percent in a half, as the word is read.
const HALF: i32 = 50;

fn readers() -> Vec<Reader> {
    [deck::READERS, fire::READERS, will::READERS, arms::READERS].concat()
}

/// Where the sentence of a hook ends in its paragraph, and the numbers of it.
fn sentence(text: &Text, hook: Hook, template: &str) -> std::ops::Range<usize> {
    let name = hook.spec().name;
    text.ending_at(&format!(" (hook: `{name}`)"), template)
        .unwrap_or_else(|| panic!("the base rule of {name} is not worded `{template}`"))
}

#[test]
fn the_numbers_of_every_base_rule_are_those_of_its_table() {
    let (paragraphs, base) = (texts(), Rules::base());
    let readers = readers();
    for &hook in Hook::ALL {
        let spec = hook.spec();
        let mut own = readers.iter().filter(|(read, ..)| *read == hook);
        let (_, template, expect) =
            own.next().unwrap_or_else(|| panic!("{} has no reader", spec.name));
        let text = &paragraphs[spec.paragraph];
        let numbers = &text.numbers()[sentence(text, hook, template)];
        let other = differs(&base, hook, *expect, numbers);
        assert!(other.is_none(), "{} of {other:?}, read {numbers:?}", spec.name);
    }
}

/// The first arguments for which the numbers of a sentence give another answer than the table, with
/// both answers.
fn differs(
    rules: &Rules,
    hook: Hook,
    expect: fn(&[i32], &[i32]) -> i32,
    numbers: &[i32],
) -> Option<(Vec<i32>, i32, i32)> {
    let spec = hook.spec();
    let answers = rules.table(hook).iter().enumerate();
    let mut both = answers.map(|(cell, &answer)| {
        let args = spec.arguments(cell);
        let expected = expect(numbers, &args);
        (args, i32::from(answer), expected)
    });
    both.find(|(_, answer, expected)| answer != expected)
}

/// A number of the text that is changed alone does not go unnoticed: each number of each sentence,
/// one more and one less.
#[test]
fn a_number_changed_alone_is_noticed() {
    let (paragraphs, base) = (texts(), Rules::base());
    let (mut changed, mut unnoticed) = (0, vec![]);
    let mut check = |name: &str, numbers: &[i32], same: &dyn Fn(&[i32]) -> bool| {
        for (n, by) in (0..numbers.len()).flat_map(|n| [(n, -1), (n, 1)]) {
            let mut numbers = numbers.to_vec();
            numbers[n] += by;
            // A reader may refuse a number outright.
            let same = std::panic::AssertUnwindSafe(|| same(&numbers));
            if std::panic::catch_unwind(same).unwrap_or(false) {
                unnoticed.push(format!("{name}: number {n}, {by} more"));
            }
            changed += 1;
        }
    };
    for (hook, template, expect) in readers() {
        let text = &paragraphs[hook.spec().paragraph];
        let numbers = &text.numbers()[sentence(text, hook, template)];
        check(hook.spec().name, numbers, &|n| differs(&base, hook, expect, n).is_none());
    }
    for (paragraph, template, holds) in plain::phrases() {
        let text = &paragraphs[paragraph];
        check(template, &text.numbers()[text.find(template).expect("it is there")], &holds);
    }
    assert!(changed > 500, "{changed}");
    assert!(unnoticed.is_empty(), "{unnoticed:?}");
}

fn texts() -> BTreeMap<String, Text> {
    paragraphs().into_iter().map(|(number, text)| (number, Text::new(&text))).collect()
}

/// The phrases of the text that are not base rules, with the numbers that the engine has there.
#[test]
fn numbers_without_a_hook_are_those_of_the_engine() {
    let paragraphs = texts();
    for (paragraph, template, holds) in plain::phrases() {
        let text = &paragraphs[paragraph];
        let read = text.find(template).unwrap_or_else(|| panic!("{paragraph} lacks `{template}`"));
        let numbers = &text.numbers()[read];
        assert!(holds(numbers), "{paragraph}: `{template}` with {numbers:?}");
    }
}

/// No number of the text goes unread: each belongs to a base rule, to a phrase, to a table, or to
/// the reviewed list of those that say nothing the engine could say otherwise.
#[test]
fn every_number_of_the_text_is_read() {
    let paragraphs = texts();
    let mut read: BTreeMap<&str, BTreeSet<usize>> = BTreeMap::new();
    for (hook, template, _) in readers() {
        let paragraph = hook.spec().paragraph;
        let range = sentence(&paragraphs[paragraph], hook, template);
        read.entry(paragraph).or_default().extend(range);
    }
    let phrases = plain::phrases();
    let phrases = phrases.iter().map(|(paragraph, template, _)| (*paragraph, *template));
    let reviewed = plain::REVIEWED.iter().map(|(paragraph, template, _)| (*paragraph, *template));
    for (paragraph, template) in phrases.chain(reviewed) {
        let found = paragraphs[paragraph].find(template);
        let range = found.unwrap_or_else(|| panic!("{paragraph} lacks `{template}`"));
        read.entry(paragraph).or_default().extend(range);
    }
    let nothing = BTreeSet::new();
    let mut unread = vec![];
    // The table of grounds has a test of its own.
    for (paragraph, text) in paragraphs.iter().filter(|(number, _)| *number != "3.1") {
        let read = read.get(paragraph.as_str()).unwrap_or(&nothing);
        let left = (0..text.numbers().len()).filter(|n| !read.contains(n) && text.counts(*n));
        unread.extend(left.map(|n| format!("{paragraph}: {}", text.around(n))));
    }
    assert!(unread.is_empty(), "{}", unread.join("\n"));
}
