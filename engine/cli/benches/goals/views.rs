//! Games per second of every scenario with several rule stacks, and of every player.

use ruleshift_hooks::{Overrides, Source, Stack, Variant};
use ruleshift_players::PLANNER;

use crate::rounds::{Rounds, nanos};
use crate::setting::{Crew, Setting, card_hook, listener, named, reference, value_hooks};

const ROUNDS: usize = 9;
const GAMES: u32 = 200;

/// A house rule that loops over units whenever it is told of something.
fn looping() -> Stack {
    let shipped = ruleshift_hooks::shipped("steady-nerves").expect("a shipped variant");
    let source = Source::new(shipped.name, shipped.text);
    Stack::new(vec![Variant::load(&source, &Overrides::none()).expect("shipped variants load")])
}

/// Steady on both sides in every scenario.
pub(crate) fn scenarios() {
    let labels = [
        "base rules",
        "all value hooks",
        "event hook on every card",
        "every event hook, looking on",
        "steady-nerves, loops over units",
    ];
    for (name, _) in ruleshift_scenarios::SHIPPED {
        let arena = ruleshift_scenarios::shipped(name).expect("a shipped scenario").arena;
        let stacks = [Stack::default(), value_hooks(), card_hook(), listener(), looping()];
        let settings = stacks.map(|stack| Setting::new(&arena, stack));
        let mut crews = settings.each_ref().map(Crew::new);
        let [a, b, c, d, e] = &mut crews;
        let mut works = [a, b, c, d, e].map(|crew| move || crew.time(GAMES));
        let mut works = works.each_mut().map(|work| work as &mut dyn FnMut() -> f64);
        let rounds = Rounds::of(ROUNDS, &mut works);
        println!(
            "{name}, steady on both sides, one core, medians of {ROUNDS} rounds of {GAMES} games"
        );
        for (n, label) in labels.into_iter().enumerate() {
            let (rate, share) = (1e9 / rounds.median(n), rounds.ratio(0, n));
            println!("  {label:32} {rate:7.0} games a second  {share:.3} of base");
        }
    }
}

/// What each player costs: on the attacker's side, with steady against it.
pub(crate) fn players() {
    println!("players against steady, hasty-attack, base rules, one core");
    let setting = Setting::new(&reference(), Stack::default());
    let doctrines = ruleshift_players::shipped();
    let planners = ["planner:playouts=12", "planner", "planner:playouts=192"];
    for name in doctrines.iter().map(|d| d.name.as_str()).chain(planners) {
        let games = if name.starts_with(PLANNER) { 20 } else { 2000 };
        let mut crew = Crew::with(&setting, named(name, &setting.rules));
        let time = nanos(|| (0..games).for_each(|n| crew.game(n, &mut ())));
        println!("  {name:32} {:10.1} games a second", f64::from(games) * 1e9 / time);
    }
}
