//! Options of a variant and the values given to them.

use std::collections::BTreeMap;

use serde::Serialize;

/// A number of a variant that may be chosen when it is used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OptionSpec {
    /// Name; its constant in the script is the same in large letters.
    pub name: String,
    /// Value when none is given.
    pub default: i64,
    /// Smallest value.
    pub min: i64,
    /// Largest value.
    pub max: i64,
    /// Values are the smallest and every step from there.
    pub step: i64,
    /// What it is; may be empty.
    pub about: String,
}

impl OptionSpec {
    /// Whether the option may have that value.
    pub fn allows(&self, value: i64) -> bool {
        (self.min..=self.max).contains(&value) && (value - self.min) % self.step == 0
    }

    /// The values in words: `1 to 4`, `10 to 50 in steps of 5`.
    pub fn range(&self) -> String {
        let steps =
            if self.step == 1 { String::new() } else { format!(" in steps of {}", self.step) };
        if self.min == self.max {
            return self.min.to_string();
        }
        format!("{} to {}{steps}", self.min, self.max)
    }

    /// Every value in order.
    pub fn values(&self) -> impl Iterator<Item = i64> + use<> {
        (self.min..=self.max).step_by(usize::try_from(self.step).unwrap_or(1).max(1))
    }
}

/// An option with its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OptionValue {
    /// The option.
    pub spec: OptionSpec,
    /// Its value: what was given, or the default.
    pub value: i64,
}

/// Values given to options, by name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Overrides(pub BTreeMap<String, i64>);

impl Overrides {
    /// No values: every option keeps its default.
    pub fn none() -> Overrides {
        Overrides::default()
    }
}

impl<const N: usize> From<[(&str, i64); N]> for Overrides {
    fn from(values: [(&str, i64); N]) -> Overrides {
        Overrides(values.into_iter().map(|(name, value)| (name.to_owned(), value)).collect())
    }
}
