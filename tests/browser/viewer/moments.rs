//! What is shown at a moment is what the data say.

use super::Viewer;

/// Pages with a game, and how many boards each has.
const GAMES: [(&str, usize); 2] = [("replay", 1), ("diverge", 2)];

#[test]
fn the_slider_reaches_every_event_up_to_the_last() {
    for (name, boards) in GAMES {
        let Some(mut viewer) = Viewer::open(name) else { return };
        assert_eq!(viewer.film.reels().len(), boards, "{name}");
        let most = viewer.tab.number("Number(document.getElementById('when').max)") as usize;
        assert_eq!(most, viewer.film.last(), "{name}: one moment for each event, none twice");
        let last = viewer.film.last();
        viewer.go(last);
        assert_eq!(viewer.moment(), last);
        for reel in 0..boards {
            let told = viewer.film.steps(reel).last().expect("a game has events")["s"].clone();
            let told = told.as_str().expect("it has words");
            let shown = viewer.tab.text(&format!(
                "document.querySelectorAll('.reel')[{reel}].querySelector('.log').lastElementChild.textContent"
            ));
            assert!(shown.contains(told), "{name}: {shown:?} instead of {told:?}");
        }
        let complaints = viewer.tab.complaints();
        assert!(complaints.is_empty(), "{complaints:?}");
    }
}

/// About thirty moments, all ends and beginnings of turns among them.
fn sample(viewer: &Viewer) -> Vec<usize> {
    let (last, starts) = (viewer.film.last(), viewer.film.turn_starts());
    let before = starts.iter().filter_map(|start| start.checked_sub(1));
    let spread = (0..=12).map(|n| last * n / 12);
    let mut all: Vec<usize> = before.chain(starts.iter().copied()).chain(spread).collect();
    all.sort_unstable();
    all.dedup();
    all
}

#[test]
fn pieces_stand_where_the_events_put_them() {
    for (name, boards) in GAMES {
        let Some(mut viewer) = Viewer::open(name) else { return };
        let mut compared = 0;
        for moment in sample(&viewer) {
            viewer.go(moment);
            for reel in 0..boards {
                let expected = viewer.film.pieces(reel, moment);
                let mut shown = viewer.pieces(reel);
                // More may stand behind pins: suppressed, dug in.
                for (title, ..) in &mut shown {
                    if let Some(end) = title.find(" pins").filter(|_| title.contains(" men, ")) {
                        title.truncate(end + " pins".len());
                    }
                }
                shown.sort_by(|a, b| a.partial_cmp(b).expect("places are numbers"));
                assert_eq!(shown, expected, "{name}, board {reel}, moment {moment}");
                compared += shown.len();
            }
        }
        assert!(compared > 200, "{name}: only {compared} pieces were compared");
    }
}

#[test]
fn both_boards_are_in_the_same_turn_until_one_game_is_over() {
    let Some(mut viewer) = Viewer::open("diverge") else { return };
    let lasts: Vec<u64> = (0..2).map(|reel| viewer.film.last_turn(reel)).collect();
    for moment in sample(&viewer) {
        viewer.go(moment);
        let shown = viewer.turns();
        let meant: Vec<u64> = (0..2).map(|reel| viewer.film.turn(reel, moment)).collect();
        assert_eq!(shown, meant, "moment {moment}");
        let latest = viewer.film.latest(moment);
        for reel in 0..2 {
            assert_eq!(shown[reel], latest.min(lasts[reel]), "board {reel} at moment {moment}");
        }
    }
}

#[test]
fn both_boards_show_the_same_until_the_games_part() {
    let Some(mut viewer) = Viewer::open("diverge") else { return };
    let parting = viewer.film.parting().expect("the two games of the test part");
    assert!(parting > 5, "they are together for a while: {parting}");
    let differs = viewer.tab.value(&format!(
        "(() => {{
            const when = document.getElementById('when');
            const boards = [...document.querySelectorAll('.reel')];
            const parts = ['.pieces', '.log', '.score', '.cards', '.now', '.dice'];
            for (let moment = 0; moment <= {parting}; moment += 1) {{
                when.value = moment;
                when.dispatchEvent(new Event('input', {{ bubbles: true }}));
                const [one, other] = boards.map((b) => parts.map((p) => b.querySelector(p).innerHTML).join());
                if (one !== other) return moment;
            }}
            return -1;
        }})()"
    ));
    assert_eq!(differs.as_u64(), Some(parting as u64), "the first moment at which they differ");
}
