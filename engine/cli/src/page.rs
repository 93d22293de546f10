//! Pages that users ask for by the name of a file.

use std::path::Path;

use crate::exit::Failure;
use crate::screen;

/// Writes a page and says so. A page that is there already is written anew, since it can always be
/// made again; anything else is left alone.
///
/// # Errors
/// A name that is no page's; a file that cannot be written.
pub(crate) fn write(path: &Path, text: &str) -> Result<(), Failure> {
    let shown = path.display();
    if path.extension().is_none_or(|ending| ending != "html") {
        let message = format!("--html is `{shown}`, expected a name that ends in .html");
        return Err(Failure::Input(message));
    }
    std::fs::write(path, text).map_err(|e| Failure::file(path, "written", &e))?;
    screen::show(&format!("Written to {shown}: open it in any browser\n"));
    Ok(())
}
