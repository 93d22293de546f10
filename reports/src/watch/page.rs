//! A film as one HTML page that needs nothing else: the table, the controls, the words.

use minijinja::context;
use minijinja::value::{Serde, Value};

use super::film::Film;
use super::land::picture;
use crate::render::page::Page;

const PAGE: Page = Page {
    body: include_str!("page/watch.html"),
    style: concat!(include_str!("page/land.css"), include_str!("page/watch.css")),
    // In the order in which they need each other.
    script: concat!(
        "\"use strict\";(() => {\n",
        include_str!("page/timeline.js"),
        include_str!("page/table.js"),
        include_str!("page/drawing.js"),
        include_str!("page/words.js"),
        include_str!("page/controls.js"),
        "})();\n"
    ),
};

/// A page on which `film` can be watched, event by event: no network, light and dark.
pub fn watch_page(film: &Film) -> String {
    let kinds = film.land.present();
    let content = context! {
        film => Value::from(Serde(film)),
        width => film.land.width,
        height => film.land.height,
        patches => Value::from(Serde(picture(&film.land))),
        kinds,
        outcomes => Value::from(Serde(&film.outcomes)),
        data => Value::from_safe_string(data(film)),
    };
    PAGE.render(&format!("{}: the game on the table", film.title), content)
}

/// The film as JSON that no browser takes for markup.
fn data(film: &Film) -> String {
    let text = serde_json::to_string(film).expect("a film holds only plain data");
    text.replace('<', "\\u003c")
}
