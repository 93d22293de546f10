//! The forms of `summary.json`, for programs that read it.

use ruleshift_record::SCHEMAS;

use super::column;
use crate::args::What;
use crate::exit::Failure;
use crate::nearest::nearest;

/// The experiments that have one.
pub(super) fn all() -> String {
    let rows = SCHEMAS.iter().map(|schema| (schema.name, format!("{}.", schema.about)));
    column("JSON Schemas of summary.json; `ruleshift list schemas compare` prints one:", rows)
}

/// The schema of one experiment.
///
/// # Errors
/// When something else is listed, or no experiment is called so.
pub(super) fn one(what: Option<What>, typed: &str) -> Result<String, Failure> {
    if what != Some(What::Schemas) {
        let help = "only `ruleshift list schemas` takes a second word, the name of an experiment";
        return Err(Failure::Input(format!("`{typed}` is one word too many: {help}")));
    }
    let found = SCHEMAS.iter().find(|schema| schema.name == typed);
    found.map(|schema| schema.text()).ok_or_else(|| Failure::Input(unknown(typed)))
}

fn unknown(typed: &str) -> String {
    let names = SCHEMAS.map(|schema| schema.name);
    let help = match nearest(typed, names) {
        Some(name) => format!("did you mean `{name}`?"),
        None => format!("there are: {}", names.join(", ")),
    };
    format!("there is no schema called `{typed}`: {help}")
}
