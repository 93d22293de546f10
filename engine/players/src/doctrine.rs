//! Doctrines: the style of a computer player, as data.

mod form;

use std::fmt;

use ruleshift_game::Digest;

use crate::weights::Weights;

/// A named style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doctrine {
    /// Name, as users type it.
    pub name: String,
    /// The style in one sentence.
    pub about: String,
    /// The weights; none for the player that leaves all to chance.
    pub weights: Option<Weights>,
}

/// Name of the doctrine that leaves all to chance.
pub const CHANCE: &str = "chance";

/// Why a doctrine's file cannot be used: everything that is wrong with it, each with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoctrineError {
    /// The faults.
    pub faults: Vec<String>,
}

impl fmt::Display for DoctrineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.faults.join("\n  "))
    }
}

impl std::error::Error for DoctrineError {}

impl Doctrine {
    /// Reads a doctrine from RON text.
    ///
    /// # Errors
    /// Where the text is not a doctrine; or else every weight that is unknown, missing, named twice
    /// or out of range.
    pub fn from_ron(text: &str) -> Result<Doctrine, DoctrineError> {
        form::read(text).map_err(|faults| DoctrineError { faults })
    }

    /// The same style with weights of its own, told as numbers joined with dots, in the order of
    /// [`Weights::NAMES`].
    ///
    /// # Errors
    /// That they are too few or too many, that one is no weight, or that the style has none.
    pub(crate) fn weighted(self, text: &str) -> Result<Doctrine, String> {
        if self.weights.is_none() {
            return Err(format!("`{}` leaves all to chance: it has no weights", self.name));
        }
        let number =
            |word: &str| word.parse().ok().filter(|value| (0..=Weights::LARGEST).contains(value));
        let values: Option<Vec<i32>> = text.split('.').map(number).collect();
        let names = Weights::NAMES;
        let values = values.filter(|values| values.len() == names.len()).ok_or_else(|| {
            format!(
                "`weights` of a player are {} numbers from 0 to {} joined with dots, for {}; not `{text}`",
                names.len(),
                Weights::LARGEST,
                names.join(", ")
            )
        })?;
        let place = |name: &str| names.iter().position(|known| *known == name);
        let value = |name: &str| place(name).map_or(0, |place| values[place]);
        Ok(Doctrine { weights: Some(Weights::by_name(value)), ..self })
    }

    /// Adds all that decides its choices.
    pub(crate) fn digest(&self, digest: &mut Digest) {
        digest.word(self.weights.is_some().into());
        for (name, value) in self.weights.iter().flat_map(Weights::named) {
            digest.text(name);
            digest.word(value as u64);
        }
    }
}

/// The shipped doctrines, weakest first.
pub fn shipped() -> Vec<Doctrine> {
    let chance = Doctrine {
        name: CHANCE.to_owned(),
        about: "Any legal choice, each as likely: the yardstick at the bottom.".to_owned(),
        weights: None,
    };
    let files = [
        include_str!("../doctrines/patient.ron"),
        include_str!("../doctrines/rash.ron"),
        include_str!("../doctrines/cautious.ron"),
        include_str!("../doctrines/steady.ron"),
        include_str!("../doctrines/bold.ron"),
    ];
    let read = |text: &&str| Doctrine::from_ron(text).expect("shipped doctrines are tested");
    std::iter::once(chance).chain(files.iter().map(read)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shipped_doctrines_are_read_under_their_names() {
        let names: Vec<String> = shipped().into_iter().map(|d| d.name).collect();
        assert_eq!(names, ["chance", "patient", "rash", "cautious", "steady", "bold"]);
    }

    #[test]
    fn a_style_may_have_weights_of_its_own() {
        let steady = || shipped().into_iter().find(|d| d.name == "steady").unwrap();
        let named = steady().weights.unwrap().named();
        let words = named.map(|(_, value)| value.to_string());
        assert_eq!(steady().weighted(&words.join(".")), Ok(steady()));
        let mut other = words.clone();
        other[3] = "1000".to_owned();
        let heavy = steady().weighted(&other.join(".")).unwrap().weights.unwrap();
        assert_eq!((heavy.named()[3].1, heavy.named()[2]), (1000, named[2]));
        other[3] = "1001".to_owned();
        for wrong in [&other.join("."), &words[1..].join("."), "1", "", "1.x"] {
            let told = steady().weighted(wrong).unwrap_err();
            assert!(told.contains("numbers from 0 to 1000 joined with dots"), "{told}");
        }
        let chance = shipped().into_iter().find(|d| d.name == CHANCE).unwrap();
        assert!(chance.weighted(&words.join(".")).unwrap_err().contains("no weights"));
    }

    fn faults(change: impl Fn(String) -> String) -> Vec<String> {
        let text = change(include_str!("../doctrines/bold.ron").to_owned());
        Doctrine::from_ron(&text).unwrap_err().faults
    }

    #[test]
    fn a_faulty_doctrine_is_refused_with_every_weight_and_its_place() {
        let told = faults(|text| {
            text.replace("caution: ", "caution: -")
                .replace("rally: ", "/* rally: */ rally: 50")
                .replace("advance", "advnace")
                .replace("dig: 2", "hold: 3, hold: 3")
        });
        let all = Weights::NAMES.join(", ");
        assert_eq!(
            told,
            [
                format!(
                    "line 5:22: there is no weight called `advnace`; did you mean `advance`? There \
                     are: {all}"
                ),
                "line 5:55: caution is -2, expected 0 to 1000".to_owned(),
                "line 5:102: rally is 5035, expected 0 to 1000".to_owned(),
                "line 5:154: hold is given twice".to_owned(),
                "line 5:163: hold is given twice".to_owned(),
                "line 5:5: the weights `advance`, `dig` are missing".to_owned(),
            ]
        );
    }

    #[test]
    fn one_missing_weight_is_named() {
        let told = faults(|text| text.replace("support: 7,", "// support: 7,\n"));
        assert_eq!(told, ["line 5:5: the weight `support` is missing"]);
    }

    #[test]
    fn a_mistyped_field_gives_the_nearest() {
        let told = faults(|text| text.replace("about: ", "abuot: "));
        assert_eq!(
            told,
            ["line 4:5: there is no field called `abuot`; did you mean `about`? There are: name, \
              about, weights"]
        );
    }

    #[test]
    fn what_is_no_doctrine_is_refused_with_its_place() {
        assert!(faults(|text| text.replace("hold: 13", "hold: many"))[0].starts_with("line 5:"));
        assert!(faults(|_| "Doctrine(name: 3)".to_owned())[0].starts_with("line 1:"));
    }
}
