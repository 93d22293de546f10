//! A game under the rules as data, without event hooks, allocates nothing once its players are made.

use ruleshift_batch::{Collector, GameEnd, GameId, play_one};
use ruleshift_game::{Paths, Rules, Table};
use ruleshift_players::player;
use ruleshift_record::Timing;

#[test]
fn no_game_allocates() {
    let scenario = ruleshift_scenarios::shipped("hasty-attack").expect("a shipped scenario");
    let rules = Rules::base();
    let paths = Paths::new(&scenario.arena, &rules);
    let table = Table { arena: &scenario.arena, rules: &rules, paths: &paths };
    let timing = Timing::default();
    for doctrine in ruleshift_players::shipped() {
        let (mut attacker, mut defender) = (player(&doctrine, &rules), player(&doctrine, &rules));
        let allocated = allocation_counter::measure(|| {
            for seed in 0..20 {
                let mut collector = Collector::new(&timing, &rules);
                let id = GameId { table, seed };
                let end = play_one(id, None, &mut *attacker, &mut *defender, &mut collector);
                assert!(matches!(end, GameEnd::Finished(_)));
            }
        });
        assert_eq!(allocated.count_total, 0, "{}: {} bytes", doctrine.name, allocated.bytes_total);
    }
}
