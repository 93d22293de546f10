//! From what was typed to what the chances are about, with all faults told at once.

use ruleshift_game::limits::{MAX_MEN, MAX_PINS, MAX_RANGE};
use ruleshift_game::{Cover, Kind, Quality};

use super::scene::{Force, Scene, usual_men};
use super::topic::{TOPICS, Topic};
use crate::nearest::nearest;

/// What was typed, not looked at yet. Options that were not typed are empty.
#[derive(Debug, Default)]
pub(crate) struct Wanted {
    /// Whether all is told, though no topic is named.
    pub(crate) full: bool,
    /// Options with the words typed behind them; flags have none.
    pub(crate) options: Vec<(&'static str, Vec<String>)>,
}

/// Words for the kinds of unit, as they are typed: `light-gun`.
fn kind_words() -> Vec<String> {
    words(Kind::CONSTANTS)
}

/// Names of a closed list as they are typed.
fn words(names: &[&str]) -> Vec<String> {
    names.iter().map(|name| name.to_lowercase().replace('_', "-")).collect()
}

/// What was typed, read with all its faults.
struct Reader<'a> {
    wanted: &'a Wanted,
    faults: Vec<String>,
}

impl Reader<'_> {
    fn typed(&self, option: &str) -> Option<&[String]> {
        let found = self.wanted.options.iter().find(|(name, _)| *name == option);
        found.map(|(_, typed)| typed.as_slice())
    }

    fn flag(&self, option: &str) -> bool {
        self.typed(option).is_some()
    }

    /// Numbers from `low` to `high`.
    fn numbers(&mut self, option: &str, low: i32, high: i32) -> Option<Vec<i32>> {
        let typed = self.typed(option)?.to_vec();
        let mut numbers = Vec::new();
        for word in typed {
            match word.parse::<i32>() {
                Ok(number) if (low..=high).contains(&number) => numbers.push(number),
                _ => self.faults.push(format!(
                    "{option} `{word}`: expected a whole number from {low} to {high}"
                )),
            }
        }
        Some(numbers)
    }

    fn number(&mut self, option: &str, low: i32, high: i32) -> Option<i32> {
        self.numbers(option, low, high)?.first().copied()
    }

    /// Places in a list of words.
    fn places(&mut self, option: &str, words: &[String]) -> Option<Vec<usize>> {
        let typed = self.typed(option)?.to_vec();
        let mut places = Vec::new();
        for word in typed {
            if let Some(place) = words.iter().position(|known| *known == word) {
                places.push(place);
                continue;
            }
            let near = nearest(&word, words.iter().map(String::as_str));
            let help = near.map_or_else(
                || format!("there are {}", words.join(", ")),
                |near| format!("did you mean `{near}`?"),
            );
            self.faults.push(format!("{option} `{word}`: there is no such word; {help}"));
        }
        Some(places)
    }

    fn quality(&mut self, option: &str) -> Quality {
        let place = self.places(option, &words(Quality::CONSTANTS));
        place.and_then(|p| p.first().copied()).map_or(Quality::Regular, |n| Quality::ALL[n])
    }

    /// An option that no topic shown heeds would mislead.
    fn unheeded(&mut self, topics: &[&'static Topic]) {
        for (option, _) in self.wanted.options.iter().filter(|(name, _)| *name != "--topic") {
            let heeds = |topic: &Topic| topic.options.contains(option);
            if !topics.iter().any(|topic| heeds(topic)) {
                let able = TOPICS.iter().filter(|topic| heeds(topic)).map(|topic| topic.name);
                self.faults.push(format!(
                    "{option} is not about {}: it is for --topic {}",
                    topics.iter().map(|topic| topic.name).collect::<Vec<_>>().join(", "),
                    able.collect::<Vec<_>>().join(", ")
                ));
            }
        }
    }
}

impl Wanted {
    /// Reads what was typed.
    ///
    /// # Errors
    /// Everything that is wrong with it, a line each, with what to type instead.
    pub(crate) fn scene(&self) -> Result<Scene, Vec<String>> {
        let mut reader = Reader { wanted: self, faults: vec![] };
        let scene = read(&mut reader);
        if reader.faults.is_empty() { Ok(scene) } else { Err(reader.faults) }
    }
}

fn read(reader: &mut Reader<'_>) -> Scene {
    let (men, pins, range) = (MAX_MEN.into(), MAX_PINS.into(), MAX_RANGE.into());
    let names: Vec<String> = TOPICS.iter().map(|topic| topic.name.to_owned()).collect();
    let named = reader.places("--topic", &names);
    let full = named.is_some() || reader.wanted.full;
    let picked = |n: &usize| named.as_ref().is_none_or(|named| named.contains(n));
    let topics: Vec<&'static Topic> =
        (0..TOPICS.len()).filter(picked).map(|n| &TOPICS[n]).collect();
    if !topics.is_empty() {
        reader.unheeded(&topics);
    }
    let cards = reader.numbers("--cards", 1, 60);
    let usual_cards: &[u32] = if full { &[6, 10, 20] } else { &[10] };
    let covers = reader.places("--cover", &words(Cover::CONSTANTS));
    let kinds = reader.places("--kind", &kind_words());
    let enemy_kind = enemy_kind(reader);
    Scene {
        topics,
        full,
        cards: cards
            .map_or_else(|| usual_cards.to_vec(), |c| c.iter().map(|&n| n as u32).collect()),
        ranges: reader.numbers("--range", 0, range),
        covers: covers.map(|places| places.iter().map(|&n| Cover::ALL[n]).collect()),
        kinds: kinds.map(|places| places.iter().map(|&n| Kind::ALL[n]).collect()),
        men: reader.number("--men", 1, men),
        pins: reader.number("--pins", 0, pins).unwrap_or(0),
        quality: reader.quality("--quality"),
        moved: reader.flag("--moved"),
        led: reader.flag("--led"),
        enemy: Force {
            kind: enemy_kind,
            men: reader.number("--enemy-men", 1, men).unwrap_or_else(|| usual_men(enemy_kind)),
            quality: reader.quality("--enemy-quality"),
            pins: reader.number("--enemy-pins", 0, pins).unwrap_or(0),
            led: reader.flag("--enemy-led"),
        },
    }
}

/// Armour is fought in another way (RULES 12.9), and a battery is not on the table.
fn enemy_kind(reader: &mut Reader<'_>) -> Kind {
    let place = reader.places("--enemy-kind", &kind_words());
    let Some(kind) = place.and_then(|p| p.first().copied()).map(|n| Kind::ALL[n]) else {
        return Kind::Section;
    };
    if matches!(kind, Kind::Tank | Kind::AssaultGun | Kind::Carrier | Kind::Battery) {
        let word = &kind_words()[kind as usize];
        reader.faults.push(format!(
            "--enemy-kind `{word}`: fights with armour or off the table are not in these chances; \
             name troops on foot, a gun or a truck"
        ));
    }
    kind
}
