//! Reading RON the way all our files are written.

use ron::Options;
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

/// Reads a text of a form. A value that may be missing is written as it is: `holder: defender`.
///
/// # Errors
/// Where the text is not of that form: `line 3:7: ...`.
pub(crate) fn read<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    let options = Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
    options.from_str(text).map_err(|error| format!("line {error}"))
}
