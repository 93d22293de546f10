//! Computer players judge what a card offers by what it would bring about, whatever the card is.

use ruleshift_game::{Event, Game, Observer, Side, State};
use ruleshift_hooks::{Overrides, Source, Stack, Variant};
use ruleshift_players::player;

use crate::support::stage::{Stage, doctrine};

const ABOUT: &str = r#"
fn about() {
    #{ title: "Offer", summary: "A card offers something.", cards: #{ gift: #{ title: "Gift" } } }
}
fn on_turn_start(game, turn) { game.add_card(GIFT, ATTACKER); }
"#;

fn offer(body: &str) -> Stack {
    let loaded = Variant::load(&Source::new("offer", format!("{ABOUT}{body}")), &Overrides::none());
    Stack::new(vec![loaded.unwrap_or_else(|faults| panic!("{faults}"))])
}

/// What was chosen at each offer, with the state just before.
#[derive(Default)]
struct Answers {
    before: Option<State>,
    given: Vec<(Option<u8>, State)>,
}

impl Observer for Answers {
    fn event(&mut self, event: &Event, state: &State) {
        if let Event::Answered { unit, option, .. } = *event {
            let before = self.before.unwrap_or(*state);
            self.given.push((unit.or(option), before));
        }
        self.before = Some(*state);
    }
}

/// All answers of both doctrines in a few games.
fn answers(stack: &Stack, name: &str) -> Vec<(Option<u8>, State)> {
    let stage = Stage::shipped("hasty-attack");
    let doctrine = doctrine(name);
    let mut given = Vec::new();
    for seed in 0..12 {
        let mut script = stack.script().expect("it has event hooks");
        let mut seen = Answers::default();
        let make = || player(&doctrine, &stage.rules);
        Game::new(stage.table(), seed, Some(&mut *script), &mut seen)
            .play(&mut *make(), &mut *make())
            .unwrap_or_else(|broken| panic!("{broken:?}"));
        given.append(&mut seen.given);
    }
    assert!(given.len() > 25, "{}", given.len());
    given
}

/// Points for oneself are taken, points for the enemy are not, and an offer that can only hurt is
/// turned down.
#[test]
fn every_doctrine_takes_what_is_good_for_it() {
    let good = offer(
        "fn on_extra_card(game, card, owner) { game.ask_option(owner, 3); }
        fn on_choice(game, card, owner, chosen) {
            if chosen == 1 { game.add_points(DEFENDER, 3); }
            if chosen == 2 { game.add_points(ATTACKER, game.roll()); }
            if chosen == 3 { game.note(\"nothing\"); }
        }",
    );
    let bad = offer(
        "fn on_extra_card(game, card, owner) { game.ask_option(owner, 2); }
        fn on_choice(game, card, owner, chosen) { game.add_points(ATTACKER, -chosen); }",
    );
    for name in ["patient", "rash", "cautious", "steady", "bold"] {
        assert!(answers(&good, name).iter().all(|(chosen, _)| *chosen == Some(2)), "{name}");
        assert!(answers(&bad, name).iter().all(|(chosen, _)| chosen.is_none()), "{name}");
    }
}

/// A card that steadies a unit goes to one that has pins, if there is any.
#[test]
fn relief_goes_where_it_is_needed() {
    let relief = offer(
        "fn on_extra_card(game, card, owner) { game.ask_unit(owner); }
        fn on_choice(game, card, owner, chosen) {
            if game.pins(chosen) > 0 { game.remove_pins(chosen, 3); }
        }",
    );
    let mut needed = 0;
    for (chosen, state) in answers(&relief, "steady") {
        let own = || state.on_table().filter(|(_, unit)| unit.side == Side::Attacker);
        let most = own().map(|(_, unit)| unit.pins).max().unwrap_or(0);
        let pins = chosen.map_or(0, |unit| state.units()[usize::from(unit)].pins);
        assert!(pins > 0 || most == 0, "{chosen:?} has {pins} pins, others {most}");
        needed += u32::from(most > 0);
    }
    assert!(needed > 10, "{needed}");
}

/// The player at the bottom does not look at the outcome.
#[test]
fn chance_takes_anything() {
    let any = offer("fn on_extra_card(game, card, owner) { game.ask_option(owner, 4); }");
    let given = answers(&any, "chance");
    for wanted in [None, Some(1), Some(2), Some(3), Some(4)] {
        let times = given.iter().filter(|(chosen, _)| *chosen == wanted).count();
        assert!(times * 20 > given.len(), "{wanted:?} {times} times of {}", given.len());
    }
}
