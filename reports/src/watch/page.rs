//! A film as one HTML page that needs nothing else: the table, the controls, the words.

use minijinja::value::{Serde, Value};
use minijinja::{AutoEscape, Environment, context};

use super::film::Film;
use super::land::picture;
use crate::render::one_line;

const PAGE: &str = include_str!("page/watch.html");
/// Colours, then everything else.
const STYLE: &str = concat!(
    include_str!("../render/html/theme.css"),
    include_str!("page/land.css"),
    include_str!("page/watch.css")
);
/// In the order in which they need each other.
const SCRIPT: &str = concat!(
    "\"use strict\";(() => {\n",
    include_str!("page/timeline.js"),
    include_str!("page/table.js"),
    include_str!("page/drawing.js"),
    include_str!("page/words.js"),
    include_str!("page/controls.js"),
    "})();\n"
);

/// A page on which `film` can be watched, event by event: no network, light and dark.
pub fn watch_page(film: &Film) -> String {
    let mut page = Environment::new();
    page.set_auto_escape_callback(|_| AutoEscape::Html);
    page.add_filter("line", |text: &str| one_line(text));
    let kinds = film.land.present();
    let content = context! {
        film => Value::from(Serde(film)),
        width => film.land.width,
        height => film.land.height,
        patches => Value::from(Serde(picture(&film.land))),
        kinds,
        outcomes => Value::from(Serde(&film.outcomes)),
        style => Value::from_safe_string(STYLE.to_owned()),
        script => Value::from_safe_string(SCRIPT.to_owned()),
        data => Value::from_safe_string(data(film)),
    };
    let page = page.render_str(PAGE, content);
    page.expect("the page is a constant that every film fits") + "\n"
}

/// The film as JSON that no browser takes for markup.
fn data(film: &Film) -> String {
    let text = serde_json::to_string(film).expect("a film holds only plain data");
    text.replace('<', "\\u003c")
}
