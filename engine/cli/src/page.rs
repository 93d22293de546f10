//! Pages that users ask for by the name of a file.

use std::path::Path;

use crate::exit::Failure;
use crate::screen;

/// Whether a page may have that name: nothing but a page is ever written over.
///
/// # Errors
/// When it may not.
pub(crate) fn check(path: &Path) -> Result<(), Failure> {
    if path.extension().is_some_and(|ending| ending == "html") {
        return Ok(());
    }
    let shown = path.display();
    Err(Failure::Input(format!("--html is `{shown}`, expected a name that ends in .html")))
}

/// Writes a page and says so. A page that is there already is written anew, since it can always be
/// made again.
///
/// # Errors
/// A file that cannot be written.
pub(crate) fn write(path: &Path, text: &str) -> Result<(), Failure> {
    let shown = path.display();
    std::fs::write(path, text).map_err(|e| Failure::file(path, "written", &e))?;
    screen::show(&format!("Written to {shown}: open it in any browser\n"));
    Ok(())
}
