//! Every kind of event is told, or left out on purpose.

mod choices;
mod fights;

use ruleshift_game::{Card, Cell, EndCause, Event, Heading, RevealCause, Side};

use super::{HouseNames, Story};
use crate::trial::{
    CARRIER, ENEMY_GUN, ENEMY_SECTION, LEADER, RIDER, SECTION, STAGE, TANK, start, watch,
};

const AT: Cell = Cell { x: 30, y: 24 };

fn names() -> HouseNames {
    HouseNames {
        cards: vec!["Runner".to_owned(), "Mist".to_owned()],
        counters: vec!["alarms raised".to_owned()],
    }
}

fn told(event: Event) -> Option<String> {
    Story::new(&STAGE.arena, &STAGE.rules, names(), false).tell(&event, &start())
}

/// Asserts that an event is told in these words.
#[track_caller]
fn tells(event: Event, words: &str) {
    assert_eq!(told(event).as_deref().map(str::trim), Some(words));
}

#[test]
fn cards_and_markers_are_told() {
    let heading = Heading::Objective(0);
    tells(Event::MarkerPlaced { marker: 0, at: AT }, "Attacker marker a stands at 30,24");
    tells(Event::TurnStarted { turn: 3, cards: 9 }, "Turn 3: 9 cards in the deck");
    for (card, words) in [
        (Card::TurnEnd(0), "Card: turn end"),
        (Card::Marker(Side::Defender, 0), "Card: defender's markers"),
        (Card::Group(1, 0), "Card: Second (attacker)"),
        (Card::Leader(LEADER, 0), "Card: leader (attacker)"),
        (Card::Battery(1, 0), "Card: battery (defender)"),
        (Card::Shortage(Side::Attacker, 0), "Card: attacker short of ammunition"),
    ] {
        tells(Event::CardDrawn { card }, words);
    }
    tells(
        Event::MarkerMoved { marker: 0, heading, inches: 4, to: AT },
        "Attacker marker a rolls 4 in towards the mill and stops at 30,24",
    );
    tells(
        Event::AmmunitionShort { side: Side::Attacker },
        "The attacker is short of ammunition to the end of the next turn",
    );
    let reserve = |rolled| Event::ReserveTested { group: 1, rolled, needed: 4 };
    tells(reserve(4), "Reserve, Second: 4, 4 needed, it comes");
    tells(reserve(3), "Reserve, Second: 3, 4 needed, not yet");
}

#[test]
fn what_comes_to_light_is_told() {
    let revealed = |group, cause| Event::MarkerRevealed { marker: 0, group, cause };
    for (cause, words) in [
        (RevealCause::Spotted, "Attacker marker a is spotted: First"),
        (RevealCause::PlainSight, "Attacker marker a is in plain sight: First"),
        (RevealCause::Contact, "Attacker marker a is touched by the enemy: First"),
        (RevealCause::OpenedFire, "Attacker marker a is given up to open fire: First"),
    ] {
        tells(revealed(Some(0), cause), words);
    }
    tells(revealed(None, RevealCause::Spotted), "Attacker marker a is spotted: a dummy");
    tells(Event::UnitPlaced { unit: SECTION, at: AT }, "section is at 30,24");
    let (unit, by) = (Some(ENEMY_SECTION), None);
    tells(
        Event::SpotTried { unit, by, marker: 0, rolled: 8, needed: 9 },
        "Defender's section looks for attacker marker a: 8, 9 needed, sees nothing",
    );
    let searched = |rolled, empty| {
        let (side, feature, unit, by) = (Side::Defender, 1, None, Some(0));
        Event::Searched { side, feature, unit, by, rolled, needed: 9, empty }
    };
    let start = "Attacker marker a searches copse";
    tells(searched(8, false), &format!("{start}: 8, 9 needed, sees nothing"));
    tells(searched(9, false), &format!("{start}: 9, 9 needed, finds troops"));
    tells(searched(10, true), &format!("{start}: 10, 9 needed, nobody is there"));
}

#[test]
fn acts_are_told() {
    let heading = Heading::Straight(7);
    tells(Event::UnitActivated { unit: SECTION, actions: 1 }, "Attacker's section acts: 1 action");
    tells(Event::OrderGiven { leader: LEADER, unit: SECTION }, "leader orders section to act");
    tells(
        Event::UnitMoved { unit: SECTION, heading, inches: 5, to: AT },
        "section moves up to 5 in down and right, to 30,24",
    );
    tells(Event::UnitTurned { unit: TANK, way: 2 }, "tank turns to face up");
    tells(Event::Mounted { unit: RIDER, carrier: CARRIER }, "section gets into carrier");
    tells(Event::Dismounted { unit: RIDER, at: AT }, "section gets out at 30,24");
    tells(Event::Dismounted { unit: ENEMY_GUN, at: AT }, "anti-tank gun is unhooked at 30,24");
    tells(Event::Dug { unit: SECTION, done: false }, "section digs");
    tells(Event::Dug { unit: SECTION, done: true }, "section is dug in");
    tells(Event::FireHeld { unit: SECTION }, "section holds its fire");
    tells(
        Event::UnitLeft { unit: SECTION, points: 2 },
        "Attacker's section leaves the table: 2 points to its side",
    );
}

#[test]
fn objectives_points_and_the_end_are_told() {
    let side = Side::Defender;
    tells(Event::ObjectiveTaken { objective: 0, side }, "The defender takes the mill");
    tells(Event::Scored { attacker: 2, defender: -1 }, "Points: attacker 2, defender -1");
    tells(Event::FieldHeld { side, points: 5 }, "The defender holds the field: 5 points");
    let ended = |winner, margin, cause| Event::GameEnded {
        winner,
        margin,
        cause,
        dice: 0,
        throws: 0,
        decisions: 0,
    };
    for (cause, words) in [
        (EndCause::TurnLimit, "The defender wins after the last turn; margin −3."),
        (EndCause::SideBroke, "The defender wins as a side breaks; margin −3."),
        (EndCause::NobodyLeft, "The defender wins as a side has nobody left; margin −3."),
    ] {
        tells(ended(Some(side), -3, cause), words);
    }
    tells(ended(None, 0, EndCause::TurnLimit), "A draw after the last turn; margin 0.");
}

#[test]
fn house_rules_are_told() {
    let (unit, side, card) = (SECTION, Side::Attacker, Card::Extra(1, None, 0));
    for (event, words) in [
        (Event::HookRolled { die: 4 }, "House rule: rolls 4"),
        (Event::ScriptActed { unit, pins: 1 }, "House rule: section takes 1 pin"),
        (Event::ScriptActed { unit, pins: -2 }, "House rule: section loses 2 pins"),
        (Event::ActionsChanged { unit, by: 1 }, "House rule: section has 1 action more"),
        (Event::ActionsChanged { unit, by: -1 }, "House rule: section loses 1 action"),
        (Event::MenChanged { unit, by: 2 }, "House rule: 2 men come back, Attacker's section"),
        (Event::MenChanged { unit, by: -1 }, "House rule: 1 man is taken, Attacker's section"),
        (Event::PointsChanged { side, by: -3 }, "House rule: the attacker loses 3 points"),
        (Event::CardAdded { card }, "House rule: Mist joins the deck"),
        (Event::CardRemoved { card }, "House rule: Mist leaves the deck"),
        (Event::CardSkipped { card }, "House rule: the card has no effect"),
        (Event::CardPutBack { card }, "House rule: the card goes back into the deck"),
        (Event::TurnCut { turn: 3 }, "House rule: no more cards are drawn this turn"),
        (Event::SightLimited { inches: 12 }, "House rule: nothing is seen beyond 12 in this turn"),
        (Event::CounterSet { counter: 0, value: -4 }, "House rule: alarms raised: -4"),
        (Event::ReserveCalled { group: 1 }, "House rule: Second is called up"),
        (
            Event::Asked { card: 0, side, units: Some(9), options: None },
            "Runner: the attacker may choose one of 9 units",
        ),
        (
            Event::Asked { card: 0, side, units: Some(0), options: None },
            "Runner: the attacker has no unit to choose",
        ),
        (
            Event::Asked { card: 0, side, units: None, options: Some(3) },
            "Runner: the attacker may choose one of 3 options",
        ),
        (
            Event::Answered { card: 0, side, unit: Some(unit), option: None },
            "Attacker chooses section",
        ),
        (
            Event::Answered { card: 0, side, unit: None, option: Some(2) },
            "Attacker chooses option 2",
        ),
        (Event::Answered { card: 0, side, unit: None, option: None }, "Attacker wants none of it"),
        (Event::CardDrawn { card }, "Card: Mist"),
        (Event::CardDrawn { card: Card::Extra(0, Some(side), 1) }, "Card: Runner (attacker)"),
    ] {
        tells(event, words);
    }
}

#[test]
fn the_board_and_the_note_stand_for_their_events() {
    assert_eq!(told(Event::TurnEnded { turn: 1 }), None);
    assert_eq!(told(Event::Noted { text: 1 }), None);
}

/// No line of a whole game is empty, and none names a thing by its number.
#[test]
fn whole_games_are_told_by_name() {
    let story = Story::new(&STAGE.arena, &STAGE.rules, HouseNames::default(), false);
    let mut lines = 0;
    watch(|event, state| {
        if let Some(line) = story.tell(event, state) {
            assert!(!line.trim().is_empty(), "{event:?}");
            for word in ["unit ", "group ", "battery ", "feature ", "objective "] {
                let numbered = line.match_indices(word).any(|(at, _)| {
                    line[at + word.len()..].starts_with(|c: char| c.is_ascii_digit())
                });
                assert!(!numbered, "{line}");
            }
            lines += 1;
        }
    });
    assert!(lines > 1000);
}
