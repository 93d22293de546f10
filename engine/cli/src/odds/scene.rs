//! What the chances are about: topics, ranges, covers, the two sides. Made from what was typed, with
//! all faults told at once.

use ruleshift_game::limits::{MAX_MEN, MAX_PINS, MAX_RANGE};
use ruleshift_game::{Cover, Kind, Quality};

use super::topic::{TOPICS, Topic};
use crate::nearest::nearest;

/// One unit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Force {
    pub(crate) kind: Kind,
    pub(crate) men: i32,
    pub(crate) quality: Quality,
    pub(crate) pins: i32,
    /// Whether a leader is near.
    pub(crate) led: bool,
}

impl Force {
    /// `section of 8 men`
    pub(crate) fn short(&self) -> String {
        match self.men {
            _ if self.kind == Kind::Battery => "battery".to_owned(),
            1 => format!("{} of 1 man", self.kind.label()),
            men => format!("{} of {men} men", self.kind.label()),
        }
    }

    /// `a regular section of 8 men without pins`
    pub(crate) fn told(&self) -> String {
        let led = if self.led { ", with a leader near" } else { "" };
        format!("a {} {} {}{led}", self.quality.label(), self.short(), pins(self.pins))
    }
}

/// `without pins`, `with 3 pins`.
pub(crate) fn pins(pins: i32) -> String {
    match pins {
        0 => "without pins".to_owned(),
        1 => "with 1 pin".to_owned(),
        n => format!("with {n} pins"),
    }
}

/// Where somebody is: `in the open`, `in hard cover`, `dug in`.
pub(crate) fn place(cover: Cover) -> &'static str {
    match cover {
        Cover::None => "in the open",
        Cover::Light => "in light cover",
        Cover::Hard => "in hard cover",
        Cover::DugIn => "dug in",
    }
}

/// With a capital letter.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What was typed, not looked at yet. Options that were not typed are empty.
#[derive(Debug, Default)]
pub(crate) struct Wanted {
    /// Whether all is told, though no topic is named.
    pub(crate) full: bool,
    /// Options with the words typed behind them; flags have none.
    pub(crate) options: Vec<(&'static str, Vec<String>)>,
}

/// What the chances are about.
pub(crate) struct Scene {
    pub(crate) topics: Vec<&'static Topic>,
    /// Whether all is told: of topics that were named, and as data.
    pub(crate) full: bool,
    pub(crate) cards: Vec<u32>,
    pub(crate) ranges: Option<Vec<i32>>,
    covers: Option<Vec<Cover>>,
    pub(crate) kinds: Option<Vec<Kind>>,
    men: Option<i32>,
    pub(crate) pins: i32,
    quality: Quality,
    pub(crate) moved: bool,
    led: bool,
    pub(crate) enemy: Force,
}

impl Scene {
    /// The covers that were typed, or the usual ones of a short page or of a full one.
    pub(crate) fn covers_or(&self, brief: &[Cover], full: &[Cover]) -> Vec<Cover> {
        let usual = if self.full { full } else { brief };
        self.covers.clone().unwrap_or_else(|| usual.to_vec())
    }

    /// The kinds that were typed, or the usual ones.
    pub(crate) fn kinds_or(&self, usual: &[Kind]) -> Vec<Kind> {
        self.kinds.clone().unwrap_or_else(|| usual.to_vec())
    }

    /// A unit of that kind on the side that acts.
    pub(crate) fn force_of(&self, kind: Kind) -> Force {
        let men = self.men.unwrap_or_else(|| usual_men(kind));
        let battery = kind == Kind::Battery;
        let (men, pins) = if battery { (1, 0) } else { (men, self.pins) };
        Force { kind, men, quality: self.quality, pins, led: self.led }
    }

    /// The unit that assaults: the first of the kinds typed that may.
    pub(crate) fn assaulting(&self) -> Force {
        let kinds = self.kinds_or(&[Kind::Section]);
        let able = kinds.into_iter().find(|kind| kind.is_section());
        self.force_of(able.unwrap_or(Kind::Section))
    }
}

/// Men of a unit at full strength, where none are typed.
fn usual_men(kind: Kind) -> i32 {
    match kind {
        Kind::Section | Kind::AssaultSection => 8,
        Kind::TripodGun | Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun => 5,
        Kind::LightGun | Kind::LightMortar | Kind::MediumMortar => 3,
        Kind::Battery => 1,
        _ => 2,
    }
}

/// Words for the kinds of unit, as they are typed: `light-gun`.
pub(crate) fn kind_words() -> Vec<String> {
    Kind::CONSTANTS.iter().map(|name| name.to_lowercase().replace('_', "-")).collect()
}

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
