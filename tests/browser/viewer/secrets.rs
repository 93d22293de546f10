//! Seen by one side, a board tells nothing that this side does not know.

use super::Viewer;

/// Everything that a reader may come upon in a board: texts, titles of signs, words for those who hear.
const WORDS: &str =
    "[...document.querySelectorAll('.reel')].map((board) => board.textContent + ' ' +
    [...board.querySelectorAll('[aria-label], [title]')].map((e) =>
    `${e.getAttribute('aria-label')} ${e.getAttribute('title')}`).join(' '))";

/// Names of a side's hidden groups and units that stand in the words of a board, at every third moment,
/// and how many names were looked for.
fn told(viewer: &mut Viewer, eyes: u64) -> (Vec<String>, usize) {
    let (mut found, mut looked) = (Vec::new(), 0);
    for moment in (0..=viewer.film.last()).step_by(3) {
        viewer.go(moment);
        let words = viewer.tab.value(WORDS);
        for reel in 0..viewer.film.reels().len() {
            let words = words[reel].as_str().expect("a text");
            let secret = viewer.film.secret(reel, moment, eyes).secret;
            looked += secret.len();
            let told = secret.into_iter().filter(|name| words.contains(name.as_str()));
            found.extend(told.map(|name| format!("board {reel}, moment {moment}: {name}")));
        }
    }
    (found, looked)
}

#[test]
fn no_side_is_told_what_the_other_hides() {
    for name in ["replay", "diverge"] {
        let Some(mut viewer) = Viewer::open(name) else { return };
        // Keys 2 and 3 look through the eyes of the attacker and of the defender.
        for (eyes, key) in [(0, "2"), (1, "3")] {
            viewer.tab.key(key);
            let (found, looked) = told(&mut viewer, eyes);
            assert!(looked > 100, "{name}: only {looked} names were looked for");
            assert!(found.is_empty(), "{name}, eyes {eyes}:\n{}", found.join("\n"));
        }
        // The same search finds them where all is told.
        viewer.tab.key("1");
        let (found, _) = told(&mut viewer, 0);
        assert!(!found.is_empty(), "{name}: seen by all, hidden troops have names");
    }
}

#[test]
fn a_marker_of_the_other_side_is_only_a_letter() {
    let Some(mut viewer) = Viewer::open("replay") else { return };
    let starts = viewer.film.turn_starts();
    for (key, other, own) in [("2", "defender", "attacker"), ("3", "attacker", "defender")] {
        viewer.tab.key(key);
        let mut seen = [0, 0];
        for &moment in &starts {
            viewer.go(moment);
            for (title, ..) in viewer.pieces(0) {
                if title.starts_with(&format!("{other} marker")) {
                    assert!(title.ends_with(": unknown"), "{title}");
                    seen[0] += 1;
                } else if title.starts_with(&format!("{own} marker")) {
                    assert!(!title.contains("unknown"), "{title}");
                    seen[1] += 1;
                }
            }
        }
        assert!(seen.iter().all(|n| *n > 0), "{key}: markers of both sides were seen: {seen:?}");
    }
}
