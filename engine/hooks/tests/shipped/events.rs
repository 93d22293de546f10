//! The scripts that act on events, in the made-up game: units 0 to 2 are the attacker's, 3 to 5 the
//! defender's; 2 and 5 are hidden; 1 and 4 have a pin; 0 and 3 are leaders.

use ruleshift_game::{Act, Card, EventScript, Happening, Offer, Side, trial_handle};

use super::stack;

use Side::{Attacker, Defender};

const TURN_END: Happening = Happening::CardDrawn { card: 0, owner: None };
const GROUP_CARD: Happening = Happening::CardDrawn { card: 2, owner: Some(Attacker) };
const LEADER_CARD: Happening = Happening::CardDrawn { card: 3, owner: Some(Attacker) };
const MARKER_CARD: Happening = Happening::CardDrawn { card: 1, owner: Some(Attacker) };
/// Calls of a hook that rolls dice, each with others.
const TRIES: u64 = 300;

/// What a script does when something happens, with the dice of the made-up game number `nth`.
fn act(script: &mut dyn EventScript, happening: Happening, nth: u64) -> Vec<Act> {
    let mut handle = trial_handle(happening, nth);
    script.call(happening, &mut handle).unwrap_or_else(|fault| panic!("{fault}"));
    // The dice are told by what comes of them.
    let acts = handle.acts().iter().filter(|act| !matches!(act, Act::Roll(_)));
    acts.cloned().collect()
}

/// What it does under some options.
fn acts<const N: usize>(name: &str, options: [(&str, i64); N], happening: Happening) -> Vec<Act> {
    let mut script = stack(name, options).script().expect("it has event hooks");
    act(&mut *script, happening, 0)
}

/// What it does without any options set.
fn usual(name: &str, happening: Happening) -> Vec<Act> {
    acts(name, [], happening)
}

/// In how many of [`TRIES`] it does something of a kind.
fn tries<const N: usize>(
    name: &str,
    options: [(&str, i64); N],
    happening: Happening,
    wanted: impl Fn(&Act) -> bool,
) -> u64 {
    let mut script = stack(name, options).script().expect("it has event hooks");
    (0..TRIES).filter(|&nth| act(&mut *script, happening, nth).iter().any(&wanted)).count() as u64
}

/// Asserts that something happens in about so many sixths of the tries: 3.5 standard errors of at
/// most 8.7 around them, which chance passes once in 2,100. The dice are the same in every run.
#[track_caller]
fn about_sixths(found: u64, sixths: u64) {
    assert!(found.abs_diff(TRIES * sixths / 6) <= 30, "{found} of {TRIES}, not {sixths} sixths");
}

const fn start(turn: u16) -> Happening {
    Happening::TurnStart { turn }
}

const fn extra(owner: Option<Side>) -> Happening {
    Happening::ExtraCard { card: 0, owner }
}

const fn chosen(chosen: u8) -> Happening {
    Happening::Chosen { card: 0, owner: Some(Attacker), chosen }
}

const fn card(owner: Option<Side>) -> Act {
    Act::AddCard(Card::Extra(0, owner, 0))
}

#[test]
fn turn_end_cards_go_back() {
    assert_eq!(usual("no-early-turn-end", TURN_END), [Act::PutBack]);
    assert_eq!(usual("no-early-turn-end", GROUP_CARD), []);
    for number in [1, 3, 5] {
        let back = |act: &Act| *act == Act::PutBack;
        let found = tries("open-turn-end", [("number", number)], TURN_END, back);
        about_sixths(found, number as u64);
    }
    assert_eq!(tries("open-turn-end", [], GROUP_CARD, |_| true), 0);
}

#[test]
fn orders_may_not_arrive() {
    let lost = |act: &Act| *act == Act::SkipCard;
    for happening in [GROUP_CARD, LEADER_CARD] {
        about_sixths(tries("orders-gone-astray", [], happening, lost), 1);
    }
    for happening in [MARKER_CARD, TURN_END] {
        assert_eq!(tries("orders-gone-astray", [], happening, |_| true), 0);
    }
}

#[test]
fn mist_lies_in_the_first_turns() {
    assert_eq!(usual("morning-mist", start(4)), [card(None)]);
    assert_eq!(usual("morning-mist", start(5)), []);
    assert_eq!(usual("morning-mist", extra(None)), [Act::LimitSight { inches: 12 }]);
}

#[test]
fn the_runner_goes_where_he_is_sent() {
    assert_eq!(usual("runner", start(1)), [card(Some(Attacker)), card(Some(Defender))]);
    let asked = [Act::Ask { side: Defender, offer: Offer::Units(1 << 3 | 1 << 4) }];
    assert_eq!(usual("runner", extra(Some(Defender))), asked);
    assert_eq!(usual("runner", chosen(1)), [Act::RemovePins { unit: 1, pins: 1 }]);
    assert_eq!(usual("runner", chosen(0)), [Act::Actions { unit: 0, by: 1 }]);
}

#[test]
fn the_commander_steadies_or_drives() {
    assert_eq!(usual("command-post", start(1)), [card(Some(Attacker)), card(Some(Defender))]);
    let asked = [Act::Ask { side: Attacker, offer: Offer::Options(2) }];
    assert_eq!(usual("command-post", extra(Some(Attacker))), asked);
    assert_eq!(usual("command-post", chosen(1)), [Act::RemovePins { unit: 1, pins: 1 }]);
    assert_eq!(usual("command-post", chosen(2)), [Act::AddCard(Card::Group(0, 1))]);
}

#[test]
fn the_attacker_has_cards_more() {
    let more = [1, 2].map(|copy| Act::AddCard(Card::Group(0, copy)));
    assert_eq!(acts("attacker-has-the-initiative", [("cards", 2)], start(1)), more);
}

/// In the made-up game nobody waits.
#[test]
fn relief_is_asked_for_until_none_is_left() {
    assert_eq!(usual("relief-by-card", start(1)), []);
    assert_eq!(usual("relief-by-card", start(2)), [card(Some(Attacker)), card(Some(Defender))]);
    for (owner, counter) in [(Attacker, 0), (Defender, 1)] {
        let none_left = [Act::SetCounter { counter, value: 1 }];
        assert_eq!(usual("relief-by-card", extra(Some(owner))), none_left);
    }
}

#[test]
fn a_garrison_wakes_up_shot_by_shot() {
    let fired = Happening::UnitFired { unit: 0, target: 3, hits: 0 };
    assert_eq!(usual("surprise", fired), [Act::SetCounter { counter: 0, value: 1 }]);
    let activated = |unit| usual("surprise", Happening::UnitActivated { unit });
    assert_eq!((activated(0), activated(3)), (vec![], vec![Act::Actions { unit: 3, by: -1 }]));
}

#[test]
fn men_march_and_tire() {
    let activated = Happening::UnitActivated { unit: 0 };
    assert_eq!(usual("forced-march", activated), [Act::Actions { unit: 0, by: 1 }]);
    assert_eq!(usual("forced-march", Happening::UnitActivated { unit: 1 }), [], "it is pinned");
    let taken = |act: &Act| *act == Act::Actions { unit: 0, by: -1 };
    about_sixths(tries("tired-men", [("fresh", 0)], activated, taken), 3);
    assert_eq!(tries("tired-men", [], activated, taken), 0, "in turn 1 they are fresh");
}

#[test]
fn leaders_steady_the_pinned() {
    let steadied = |act: &Act| *act == Act::RemovePins { unit: 1, pins: 1 };
    about_sixths(tries("steady-nerves", [], LEADER_CARD, steadied), 2);
    assert_eq!(tries("steady-nerves", [], GROUP_CARD, |_| true), 0);
}

#[test]
fn fright_spreads_in_the_group() {
    let broke = Happening::UnitBroke { unit: 0 };
    let pinned = [Act::AddPins { unit: 1, pins: 2 }];
    assert_eq!(acts("fright-spreads", [("pins", 2)], broke), pinned);
}

#[test]
fn who_takes_an_objective_gets_points() {
    let taken = Happening::ObjectiveTaken { objective: 0, side: Defender };
    assert_eq!(usual("points-for-taking", taken), [Act::Points { side: Defender, by: 3 }]);
}

#[test]
fn the_sniper_finds_men_of_the_attacker() {
    assert_eq!(usual("sniper", start(1)), [card(Some(Defender))]);
    let strike = extra(Some(Defender));
    let pinned = |wanted| move |act: &Act| *act == Act::AddPins { unit: wanted, pins: 1 };
    let [first, second] = [0, 1].map(|unit| tries("sniper", [], strike, pinned(unit)));
    about_sixths(first, 3);
    assert_eq!(first + second, TRIES, "one of the two that are in sight");
    about_sixths(tries("sniper", [], strike, |act| matches!(act, Act::Men { by: -1, .. })), 1);
}
