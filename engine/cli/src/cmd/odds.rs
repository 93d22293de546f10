//! `ruleshift odds`: exact chances of the deck under a rule stack.

use std::fmt::Write;

use ruleshift_game::Rules;

use crate::args::OddsArgs;
use crate::exit::Failure;
use crate::odds::{Deck, Fraction};
use crate::{resolve, screen, wire};

pub(crate) fn run(args: &OddsArgs) -> Result<(), Failure> {
    let stack = resolve::stack(&args.stack)?;
    let rules = wire::arm_cast(&stack)?.rules;
    let mut text = heading(&stack.spec(), &rules);
    for &cards in &args.cards {
        text.push_str(&table(&Deck::new(&rules, cards)));
    }
    if stack.has_events() {
        text.push_str("\nThis stack has event hooks, whose acts are not in these figures.\n");
    }
    screen::show(&text);
    Ok(())
}

fn heading(stack: &str, rules: &Rules) -> String {
    let deck = Deck::new(rules, 1);
    let ends = match deck.ends_at() {
        Some(1) => "the first one drawn ends the turn".to_owned(),
        Some(n) => format!("the turn ends at number {n} drawn"),
        None => "none of them ends the turn".to_owned(),
    };
    format!("Deck odds under {stack}: {} turn-end cards, {ends}.\n", deck.turn_end_cards())
}

fn table(deck: &Deck) -> String {
    let mut text = format!("\n{} other cards in the deck\n", deck.cards());
    let mut row = |what: &str, value: Fraction| {
        let _ = writeln!(text, "  {what:44} {:>9.4}  = {value}", value.value());
    };
    row("chance that a given card is drawn in a turn", deck.chance_drawn());
    row("mean number of cards drawn in a turn", deck.mean_drawn());
    row("chance that nobody acts in a turn", deck.chance_of(0));
    row("chance that all cards are drawn", deck.chance_of(deck.cards()));
    row("chance that a given card waits 2 turns in a row", deck.chance_waits(2));
    row("chance that a given card waits 3 turns in a row", deck.chance_waits(3));
    text
}
