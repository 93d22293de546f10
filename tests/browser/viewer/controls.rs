//! Buttons and keys go where they say.

use super::Viewer;

/// Nothing has the focus, so that keys go to the page.
const NOWHERE: &str = "document.activeElement.blur(), 0";

/// Moves by a button or a key, and asserts where that leads.
#[track_caller]
fn leads(viewer: &mut Viewer, press: impl FnOnce(&mut Viewer), to: usize, what: &str) {
    press(viewer);
    assert_eq!(viewer.moment(), to, "{what}");
    let told = viewer.tab.text("document.getElementById('where').textContent");
    assert!(told.contains(&format!("event {} of", to + 1)), "{what}: {told}");
}

#[test]
fn buttons_and_keys_step_through_events_and_turns() {
    let Some(mut viewer) = Viewer::open("diverge") else { return };
    let (last, starts) = (viewer.film.last(), viewer.film.turn_starts());
    let middle = starts[3] + 2;
    // From the middle of the third turn: button, key, and where both lead.
    let ways = [
        ("on", "ArrowRight", middle + 1),
        ("back", "ArrowLeft", middle - 1),
        ("turn-on", "PageDown", starts[4]),
        ("first", "Home", 0),
        ("last", "End", last),
    ];
    for (button, key, to) in ways {
        viewer.go(middle);
        leads(&mut viewer, |v| v.tab.click(&format!("#{button}")), to, button);
        viewer.tab.value(NOWHERE);
        viewer.go(middle);
        leads(&mut viewer, |v| v.tab.key(key), to, key);
    }
    // One turn back: to the beginning of this turn or of the one before.
    for by_key in [false, true] {
        viewer.go(starts[3]);
        let press =
            |v: &mut Viewer| if by_key { v.tab.key("PageUp") } else { v.tab.click("#turn-back") };
        leads(&mut viewer, press, starts[2], "one turn back");
        viewer.tab.value(NOWHERE);
    }
    // At the ends there is nowhere to go.
    viewer.go(0);
    leads(&mut viewer, |v| v.tab.key("ArrowLeft"), 0, "before the first event");
    viewer.go(last);
    leads(&mut viewer, |v| v.tab.key("ArrowRight"), last, "after the last event");
}

/// The slider of turns goes to the beginning of a turn, and keys on it move it.
#[test]
fn sliders_take_keys_of_their_own() {
    let Some(mut viewer) = Viewer::open("replay") else { return };
    let (last, starts) = (viewer.film.last(), viewer.film.turn_starts());
    viewer.tab.value("document.getElementById('when').focus(), 0");
    leads(&mut viewer, |v| v.tab.key("End"), last, "End on the events");
    leads(&mut viewer, |v| v.tab.key("Home"), 0, "Home on the events");
    leads(&mut viewer, |v| v.tab.key("ArrowRight"), 1, "right on the events");
    viewer.tab.value("document.getElementById('turn').focus(), 0");
    leads(&mut viewer, |v| v.tab.key("ArrowRight"), starts[1], "right on the turns");
    leads(&mut viewer, |v| v.tab.key("ArrowRight"), starts[2], "right on the turns again");
}

#[test]
fn jumps_find_the_next_of_a_kind_and_say_when_there_is_none() {
    let Some(mut viewer) = Viewer::open("diverge") else { return };
    for (kind, key) in [("spot", "s"), ("contact", "c"), ("fire", "f"), ("loss", "l")] {
        let (mut at, mut found) = (0, 0);
        viewer.go(0);
        while let Some(next) = viewer.film.next(at, kind) {
            let by_key = found % 2 == 1;
            let press = |v: &mut Viewer| {
                if by_key { v.tab.key(key) } else { v.tab.click(&format!("#next-{kind}")) }
            };
            leads(&mut viewer, press, next, kind);
            (at, found) = (next, found + 1);
            if found == 12 {
                break;
            }
        }
        assert!(found > 0, "the games of the test have something of {kind}");
        let last = viewer.film.last();
        viewer.go(last);
        viewer.tab.key(key);
        assert_eq!(viewer.moment(), last);
        let told = viewer.tab.text("document.getElementById('where').textContent");
        assert!(told.contains("no more"), "{told}");
    }
}

#[test]
fn the_parting_is_reached_by_its_button_and_its_key_and_is_marked() {
    let Some(mut viewer) = Viewer::open("diverge") else { return };
    let parting = viewer.film.parting().expect("the two games of the test part");
    leads(&mut viewer, |v| v.tab.click("#to-parting"), parting, "the button");
    let marked = viewer.tab.number(
        "[...document.querySelectorAll('.reel')].filter((b) => b.querySelector('.log [aria-current=true]')\
         ?.textContent.includes('part')).length",
    );
    assert!(marked >= 1, "the event at which they part is marked in words");
    let told = viewer.tab.text("document.getElementById('where').textContent");
    assert!(told.contains("parted"), "{told}");
    viewer.tab.value(NOWHERE);
    viewer.go(0);
    leads(&mut viewer, |v| v.tab.key("p"), parting, "the key");
}

#[test]
fn space_plays_and_pauses() {
    let Some(mut viewer) = Viewer::open("replay") else { return };
    viewer.tab.value(
        "(() => { const s = document.getElementById('speed'); s.value = s.lastElementChild.value; })()",
    );
    viewer.tab.key(" ");
    viewer.tab.wait("document.getElementById('play').getAttribute('aria-pressed') === 'true'");
    viewer.tab.wait("document.getElementById('when').valueAsNumber >= 5");
    viewer.tab.key(" ");
    viewer.tab.wait("document.getElementById('play').getAttribute('aria-pressed') === 'false'");
    let at = viewer.moment();
    // A timer that was not stopped would run before one that is set now and waits longer.
    viewer.tab.value(
        "new Promise((done) => setTimeout(done, 2 * document.getElementById('speed').value))",
    );
    assert_eq!(viewer.moment(), at, "paused is paused");
    // From shortly before the end it plays to the end and stops by itself.
    let last = viewer.film.last();
    viewer.go(last - 3);
    viewer.tab.click("#play");
    viewer.tab.wait("document.getElementById('play').getAttribute('aria-pressed') === 'false'");
    assert_eq!(viewer.moment(), last);
}

#[test]
fn keys_and_buttons_change_whose_eyes_look() {
    let Some(mut viewer) = Viewer::open("replay") else { return };
    let chosen = "document.querySelector('input[name=eyes]:checked').value";
    for (key, eyes) in [("2", "1"), ("3", "2"), ("1", "3")] {
        viewer.tab.key(key);
        assert_eq!(viewer.tab.text(chosen), eyes, "key {key}");
    }
    viewer.tab.click("input[name=eyes][value='1']");
    assert_eq!(viewer.tab.text(chosen), "1");
}
