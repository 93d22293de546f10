//! What the chances are about: topics, ranges, covers, the two sides.

use ruleshift_game::{Cover, Kind, Quality, Rules};

use super::topic::Topic;

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
    /// Whether its pins suppress it (RULES 9.2).
    pub(crate) fn suppressed(&self, rules: &Rules) -> bool {
        self.pins > 0 && self.pins >= rules.suppression_threshold(self.men, self.quality)
    }

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

/// What the chances are about.
pub(crate) struct Scene {
    pub(crate) topics: Vec<&'static Topic>,
    /// Whether all is told: of topics that were named, and as data.
    pub(crate) full: bool,
    pub(crate) cards: Vec<u32>,
    pub(crate) ranges: Option<Vec<i32>>,
    pub(super) covers: Option<Vec<Cover>>,
    pub(crate) kinds: Option<Vec<Kind>>,
    pub(super) men: Option<i32>,
    pub(crate) pins: i32,
    pub(super) quality: Quality,
    pub(crate) moved: bool,
    pub(super) led: bool,
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
pub(super) fn usual_men(kind: Kind) -> i32 {
    match kind {
        Kind::Section | Kind::AssaultSection => 8,
        Kind::TripodGun | Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun => 5,
        Kind::LightGun | Kind::LightMortar | Kind::MediumMortar => 3,
        Kind::Battery => 1,
        _ => 2,
    }
}
