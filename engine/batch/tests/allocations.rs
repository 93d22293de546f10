//! A game under the rules as data, without event hooks, allocates nothing once its players are made.

use ruleshift_batch::{Collector, GameEnd, GameId, play_one};
use ruleshift_game::{Paths, Player, Rules, Table};
use ruleshift_players::{Behaviour, Restricted, player};
use ruleshift_record::Timing;

/// Blocks that the players of a kind allocate in some games, and their bytes.
fn allocated(make: impl Fn(&Rules) -> Box<dyn Player>) -> (u64, u64) {
    let scenario = ruleshift_scenarios::shipped("hasty-attack").expect("a shipped scenario");
    let rules = Rules::base();
    let paths = Paths::new(&scenario.arena, &rules);
    let table = Table { arena: &scenario.arena, rules: &rules, paths: &paths };
    let timing = Timing::default();
    let (mut attacker, mut defender) = (make(&rules), make(&rules));
    let allocated = allocation_counter::measure(|| {
        for seed in 0..20 {
            let mut collector = Collector::new(&timing, table);
            let id = GameId { table, seed };
            let end = play_one(id, None, &mut *attacker, &mut *defender, &mut collector);
            assert!(matches!(end, GameEnd::Finished(_)));
        }
    });
    (allocated.count_total, allocated.bytes_total)
}

#[test]
fn no_game_allocates() {
    for doctrine in ruleshift_players::shipped() {
        let (blocks, bytes) = allocated(|rules| player(&doctrine, rules));
        assert_eq!(blocks, 0, "{}: {bytes} bytes", doctrine.name);
        let (blocks, bytes) = allocated(|rules| {
            Box::new(Restricted::new(player(&doctrine, rules), &[Behaviour::Rally]))
        });
        assert_eq!(blocks, 0, "{} without rally: {bytes} bytes", doctrine.name);
    }
}
