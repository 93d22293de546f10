//! The description a script gives of itself: `fn about() { #{ title: "...", ... } }`.
//!
//! It is read from the script's text, not run, so that every fault in it has its place.

use std::collections::BTreeSet;

use rhai::{Expr, Ident, Position};
use ruleshift_game::Part;

use crate::diagnostic::{Diagnostic, Id};
use crate::extras::{CardSpec, CounterSpec};
use crate::limits::{MAX_CARDS, MAX_COUNTERS, MAX_OPTION_VALUE, MAX_OPTIONS};
use crate::nearest::did_you_mean;
use crate::options::OptionSpec;
use crate::sandbox::Compiled;
use crate::source::Source;
use crate::survey::{Survey, only_expression};

/// What a variant says of itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct About {
    pub(crate) title: String,
    pub(crate) summary: String,
    pub(crate) question: Option<String>,
    pub(crate) expect: Option<String>,
    pub(crate) options: Vec<OptionSpec>,
    pub(crate) cards: Vec<CardSpec>,
    pub(crate) counters: Vec<CounterSpec>,
}

impl About {
    /// How many cards and counters the variant has, as the first of a stack.
    pub(crate) fn share(&self) -> Part {
        let (cards, counters) = (self.cards.len() as u8, self.counters.len() as u8);
        Part { cards, counters, ..Part::default() }
    }
}

const KEYS: &[&str] = &["title", "summary", "question", "expect", "options", "cards", "counters"];
const CARD_KEYS: &[&str] = &["title", "about"];
const OPTION_KEYS: &[&str] = &["default", "min", "max", "step", "about"];
const EXAMPLE: &str = "fn about() { #{ title: \"Short title\", summary: \"What it changes.\" } }";

/// Reads the description, with all that is wrong with it.
pub(crate) fn read(
    source: &Source,
    compiled: &Compiled,
    survey: &Survey,
) -> (About, Vec<Diagnostic>) {
    let mut reader = Reader { source, faults: Vec::new(), taken: BTreeSet::new() };
    let about = reader.about(compiled, survey);
    (about.unwrap_or_default(), reader.faults)
}

/// Key, its place, value, place of the value.
type Entry<'a> = (&'a Ident, &'a Expr);

struct Reader<'a> {
    source: &'a Source,
    faults: Vec<Diagnostic>,
    /// Constants of the options, cards and counters read so far.
    taken: BTreeSet<String>,
}

impl Reader<'_> {
    fn fault(&mut self, at: Position, headline: impl Into<String>) -> &mut Diagnostic {
        self.faults.push(Diagnostic::new(Id::About, self.source, at, headline));
        self.faults.last_mut().expect("just pushed")
    }

    fn about(&mut self, compiled: &Compiled, survey: &Survey) -> Option<About> {
        let Some(function) = survey.function("about") else {
            let fault = self.fault(Position::NONE, "the script does not say what it is about");
            fault.help.push(format!("write `{EXAMPLE}`"));
            return None;
        };
        if !function.params.is_empty() {
            let fault = self.fault(function.at, "`about` takes no arguments");
            fault.help.push("write `fn about() { ... }`".into());
            return None;
        }
        let body = only_expression(&compiled.ast, function);
        let Some(Expr::Map(map, _)) = &body else {
            let fault = self.fault(function.at, "`about` must hold one map of plain values");
            fault.help.push(format!("write `{EXAMPLE}`"));
            return None;
        };
        let entries: Vec<Entry> = map.0.iter().map(|(key, value)| (key, value)).collect();
        self.known_keys(&entries, KEYS, "`about`");
        Some(About {
            title: self.required_text(&entries, "title", function.at),
            summary: self.required_text(&entries, "summary", function.at),
            question: self.text(&entries, "question"),
            expect: self.text(&entries, "expect"),
            options: self.options(&entries),
            cards: self.cards(&entries),
            counters: self.counters(&entries),
        })
    }

    fn known_keys(&mut self, entries: &[Entry], known: &[&str], place: &str) {
        for (key, _) in entries {
            if !known.contains(&key.name.as_str()) {
                let help = did_you_mean(&key.name, known.iter().copied())
                    .unwrap_or_else(|| format!("it may hold {}", known.join(", ")));
                let headline = format!("{place} has no entry `{}`", key.name);
                self.fault(key.pos, headline).help.push(help);
            }
        }
    }

    fn required_text(&mut self, entries: &[Entry], key: &str, at: Position) -> String {
        if !entries.iter().any(|(k, _)| k.name == key) {
            let fault = self.fault(at, format!("`about` lacks its `{key}`"));
            fault.help.push(format!("add `{key}: \"...\"`"));
        }
        self.text(entries, key).unwrap_or_default()
    }

    fn text(&mut self, entries: &[Entry], key: &str) -> Option<String> {
        let (_, value) = entries.iter().find(|(k, _)| k.name == key)?;
        match value {
            Expr::StringConstant(text, at) => {
                if text.trim().is_empty() {
                    let fault = self.fault(*at, format!("`{key}` is empty"));
                    fault.help.push("say in a few words what players should know".into());
                }
                Some(text.trim().to_string())
            }
            other => {
                let at = other.start_position();
                let fault = self.fault(at, format!("`{key}` must be a text"));
                fault.help.push(format!("write `{key}: \"...\"`"));
                None
            }
        }
    }

    /// The entries of the map `key`, at most `most` of them; nothing when there is none.
    fn map<'a>(
        &mut self,
        entries: &[Entry<'a>],
        key: &str,
        most: usize,
        example: &str,
    ) -> Vec<Entry<'a>> {
        let Some((_, value)) = entries.iter().find(|(k, _)| k.name == key) else {
            return Vec::new();
        };
        let Expr::Map(map, at) = value else {
            let fault = self.fault(value.start_position(), format!("`{key}` must be a map"));
            fault.help.push(format!("write `{key}: #{{ {example} }}`"));
            return Vec::new();
        };
        let count = map.0.len();
        if count > most {
            self.fault(*at, format!("a variant may have {most} {key}, not {count}"));
        }
        map.0.iter().map(|(key, value)| (key, value)).collect()
    }

    fn options(&mut self, entries: &[Entry]) -> Vec<OptionSpec> {
        let example = "cards: #{ default: 2, min: 1, max: 4, about: \"...\" }";
        let options = self.map(entries, "options", MAX_OPTIONS, example);
        options.into_iter().filter_map(|(key, value)| self.option(key, value)).collect()
    }

    fn cards(&mut self, entries: &[Entry]) -> Vec<CardSpec> {
        let example = "mist: #{ title: \"Ground mist\", about: \"...\" }";
        let cards = self.map(entries, "cards", MAX_CARDS, example);
        cards.into_iter().filter_map(|(key, value)| self.card(key, value, example)).collect()
    }

    fn card(&mut self, key: &Ident, value: &Expr, example: &str) -> Option<CardSpec> {
        let name = self.constant(key, "card");
        let Expr::Map(map, _) = value else {
            let fault = self.fault(value.start_position(), format!("card `{name}` must be a map"));
            fault.help.push(format!("write `{example}`"));
            return None;
        };
        let entries: Vec<Entry> = map.0.iter().map(|(key, value)| (key, value)).collect();
        self.known_keys(&entries, CARD_KEYS, &format!("card `{name}`"));
        if !entries.iter().any(|(k, _)| k.name == "title") {
            let fault = self.fault(key.pos, format!("card `{name}` lacks its `title`"));
            fault.help.push("add `title: \"...\"`".into());
        }
        let title = self.text(&entries, "title").unwrap_or_default();
        let about = self.text(&entries, "about").unwrap_or_default();
        Some(CardSpec { name, title, about })
    }

    fn counters(&mut self, entries: &[Entry]) -> Vec<CounterSpec> {
        let counters = self.map(entries, "counters", MAX_COUNTERS, "alarms: \"...\"");
        counters.into_iter().filter_map(|(key, value)| self.counter(key, value)).collect()
    }

    fn counter(&mut self, key: &Ident, value: &Expr) -> Option<CounterSpec> {
        let name = self.constant(key, "counter");
        let Expr::StringConstant(about, _) = value else {
            let headline = format!("counter `{name}` must be a text that says what it counts");
            let fault = self.fault(value.start_position(), headline);
            fault.help.push(format!("write `{name}: \"...\"`"));
            return None;
        };
        Some(CounterSpec { name, about: about.trim().to_string() })
    }

    /// The name of an option, card or counter, from which its constant is made.
    fn constant(&mut self, key: &Ident, what: &str) -> String {
        let name = key.name.to_string();
        let constant = name.to_uppercase();
        if !name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_') {
            let article = if what == "option" { "an" } else { "a" };
            let fault = self.fault(key.pos, format!("`{name}` is no name for {article} {what}"));
            fault
                .help
                .push("use small letters, digits and `_`: its constant has large letters".into());
        } else if crate::constants::constants().contains_key(&constant)
            || !self.taken.insert(constant.clone())
        {
            let headline = format!("the constant `{constant}` of {what} `{name}` exists already");
            self.fault(key.pos, headline).help.push(format!("use another name for the {what}"));
        }
        name
    }

    fn option(&mut self, key: &Ident, value: &Expr) -> Option<OptionSpec> {
        let name = self.constant(key, "option");
        let Expr::Map(map, _) = value else {
            let fault =
                self.fault(value.start_position(), format!("option `{name}` must be a map"));
            fault
                .help
                .push(format!("write `{name}: #{{ default: 2, min: 1, max: 4, about: \"...\" }}`"));
            return None;
        };
        let entries: Vec<Entry> = map.0.iter().map(|(key, value)| (key, value)).collect();
        self.known_keys(&entries, OPTION_KEYS, &format!("option `{name}`"));
        let [default, min, max] =
            ["default", "min", "max"].map(|part| self.number(&entries, part, &name, key.pos));
        let step = match entries.iter().any(|(k, _)| k.name == "step") {
            true => self.number(&entries, "step", &name, key.pos),
            false => Some(1),
        };
        let about = self.text(&entries, "about").unwrap_or_default();
        let spec = OptionSpec { name, default: default?, min: min?, max: max?, step: step?, about };
        self.consistent(&spec, key.pos);
        Some(spec)
    }

    fn number(&mut self, entries: &[Entry], part: &str, option: &str, at: Position) -> Option<i64> {
        let Some((_, value)) = entries.iter().find(|(k, _)| k.name == part) else {
            let fault = self.fault(at, format!("option `{option}` lacks its `{part}`"));
            fault.help.push(format!("add `{part}: 1`"));
            return None;
        };
        let at = value.start_position();
        match value {
            Expr::IntegerConstant(number, _)
                if (-MAX_OPTION_VALUE..=MAX_OPTION_VALUE).contains(number) =>
            {
                Some(*number)
            }
            Expr::IntegerConstant(..) => {
                self.fault(at, format!("`{part}` lies beyond {MAX_OPTION_VALUE}"));
                None
            }
            _ => {
                self.fault(at, format!("`{part}` must be a whole number"));
                None
            }
        }
    }

    fn consistent(&mut self, spec: &OptionSpec, at: Position) {
        let OptionSpec { name, default, min, max, step, .. } = spec;
        if min > max {
            let fault = self.fault(at, format!("option `{name}` has min {min} above max {max}"));
            fault.help.push(format!("write `min: {max}, max: {min}`"));
        } else if *step < 1 {
            let headline = format!("option `{name}` has step {step}, which must be 1 or more");
            self.fault(at, headline).help.push("leave `step` out for every whole number".into());
        } else if !spec.allows(*default) {
            let range = spec.range();
            let headline = format!("option `{name}` has default {default}, expected {range}");
            self.fault(at, headline)
                .help
                .push("the default is one of the values it may have".into());
        }
    }
}
