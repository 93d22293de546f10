//! The pictures of the pages that README shows.
//!
//! `.ci/pictures` makes them anew: with `RULESHIFT_PICTURES` set the test writes them, else it looks at
//! those that are there.

use std::fs;
use std::path::Path;

use data_encoding::BASE64;
use serde_json::{Value, json};

use crate::film::Film;
use crate::pages::Pages;
use crate::support::repository;
use crate::tab::Tab;

/// Where they lie, from the root of the repository.
const FOLDER: &str = "reports/pictures";

/// Most bytes of a picture: it is loaded whenever someone reads README.
const MOST: usize = 150_000;

/// A picture: its name, the page, how it is looked at, its width and height in pixels.
struct Picture {
    name: &'static str,
    page: &'static str,
    scheme: &'static str,
    size: (u32, u32),
    /// What it begins at the top of, as a selector.
    top: &'static str,
}

/// All pictures.
const PICTURES: [Picture; 4] = [
    Picture {
        name: "report-light",
        page: "shown/report",
        scheme: "light",
        size: (900, 760),
        top: "html",
    },
    Picture {
        name: "report-dark",
        page: "shown/report",
        scheme: "dark",
        size: (900, 760),
        top: "html",
    },
    Picture { name: "two-games", page: "both", scheme: "light", size: (1040, 520), top: "#reels" },
    Picture { name: "vote", page: "shown/vote", scheme: "light", size: (800, 700), top: "html" },
];

/// The first comparison of README with fewer games, and the same game under both rules.
fn pages(folder: &Path) -> Pages {
    let mut pages = Pages::into(folder);
    pages.run("shown", &["compare", "two-turn-end-cards", "--games", "8000"]);
    pages.page(
        "both",
        &["diverge", "two-turn-end-cards", "--scenario", "probe", "--seed", "3", "--html"],
    );
    pages
}

/// The bytes of what is to be seen of a page.
fn take(tab: &mut Tab, pages: &Pages, picture: &Picture) -> Vec<u8> {
    let file = pages.file(picture.page);
    tab.open(file);
    let (width, height) = picture.size;
    tab.size(width, height);
    tab.media("screen", picture.scheme);
    if picture.page == "both" {
        // A moment in the midst of the fight, after the two have parted.
        let moment = Film::of(file).moments.len() * 3 / 5;
        tab.value(&format!(
            "(() => {{ const w = document.getElementById('when'); w.value = {moment};
                w.dispatchEvent(new Event('input', {{ bubbles: true }})); }})()"
        ));
    }
    let top = tab.value(&format!(
        "document.querySelector({:?}).getBoundingClientRect().top + scrollY",
        picture.top
    ));
    let clip = json!({ "x": 0, "y": top, "width": width, "height": height, "scale": 1 });
    let how = json!({ "format": "png", "clip": clip, "captureBeyondViewport": true });
    let taken = tab.call("Page.captureScreenshot", how);
    let Value::String(data) = &taken["data"] else { panic!("no picture of {}", picture.name) };
    BASE64.decode(data.as_bytes()).expect("the protocol writes bytes so")
}

#[test]
fn pictures_of_the_pages_are_there_and_light() {
    let folder = repository::root().join(FOLDER);
    if std::env::var_os("RULESHIFT_PICTURES").is_some() {
        let Some(mut tab) = Tab::new() else { return };
        let made = tempfile::tempdir().expect("a temporary folder can be made");
        let pages = pages(made.path());
        fs::create_dir_all(&folder).expect("the folder of pictures can be made");
        for picture in &PICTURES {
            let bytes = take(&mut tab, &pages, picture);
            fs::write(folder.join(format!("{}.png", picture.name)), bytes)
                .expect("it can be written");
        }
    }
    let readme = repository::text("README.md");
    let mut shown = 0;
    for picture in &PICTURES {
        let path = format!("{}.png", picture.name);
        let bytes = fs::read(folder.join(&path)).unwrap_or_default();
        // The signature, then the width and height of the first chunk (PNG, 3rd edition, 5.2 and 11.2.1).
        assert!(bytes.starts_with(b"\x89PNG\r\n\x1a\n"), "{path}: .ci/pictures makes it");
        let number =
            |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().expect("four bytes"));
        assert_eq!((number(16), number(20)), picture.size, "{path}");
        assert!(bytes.len() < MOST, "{path} has {} bytes", bytes.len());
        shown += usize::from(readme.contains(&format!("]({FOLDER}/{path})")));
    }
    assert!(shown >= 2, "README shows {shown} of them");
}
