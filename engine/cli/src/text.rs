//! Texts that users name.

use std::fs;
use std::path::Path;

use crate::exit::Failure;

/// The text of a file.
///
/// # Errors
/// That it cannot be read, and why; of one that is no text, where.
pub(crate) fn read(path: &Path) -> Result<String, Failure> {
    let bytes = fs::read(path).map_err(|error| Failure::file(path, "read", &error))?;
    String::from_utf8(bytes).map_err(|error| {
        let sound = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + sound.iter().filter(|&&byte| byte == b'\n').count();
        let what = format!("line {line} has bytes that are no letters, expected text in UTF-8");
        Failure::file(path, "read", &what)
    })
}
