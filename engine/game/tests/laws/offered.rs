//! What is offered in the battle is allowed, and everything is offered at times.

use std::collections::BTreeMap;

use ruleshift_game::{Choice, Hook, Side};

use super::legality::judge;
use crate::support::{ask_ready, battle};

/// How often each kind of choice was offered.
#[derive(Default)]
struct Offered(BTreeMap<&'static str, u32>);

impl Offered {
    fn count(&mut self, choices: &[Choice]) {
        for choice in choices {
            *self.0.entry(name(choice)).or_default() += 1;
        }
    }
}

fn name(choice: &Choice) -> &'static str {
    match choice {
        Choice::Done | Choice::PickUnit(_) | Choice::PickMarker(_) => "order",
        Choice::Move(_) | Choice::Stop(_) | Choice::Turn(_) => "move",
        Choice::PlaceAt(_) | Choice::OpenFire => "place",
        Choice::Spot(_) => "spot",
        Choice::Search(_) => "search",
        Choice::Fire(_) => "fire",
        Choice::Rally | Choice::OrderRally(_) | Choice::OrderAction(_) => "lead",
        Choice::Assault(_) => "assault",
        Choice::DigIn => "dig",
        Choice::Mount(_) => "get in",
        Choice::Dismount(_) => "get out",
        Choice::Call { .. } => "call",
        Choice::FireBattery => "battery",
        Choice::Adjust(_) => "correct",
        Choice::Leave => "leave",
        Choice::HoldFire => "hold",
        Choice::Answer(_) => "answer",
    }
}

/// Every side's choices in the battle, with held fire switched on.
#[test]
fn what_is_offered_is_allowed() {
    let ready = battle().rule(Hook::MayHoldFire, |_, _| 1).ready();
    let mut offered = Offered::default();
    let mut sides = [0; 2];
    ask_ready(&ready, 60, |view, choices| {
        judge(&ready, view, choices);
        offered.count(choices);
        sides[usize::from(view.side() == Side::Defender)] += 1;
    });
    assert_eq!(offered.0.len(), 16, "{:?}", offered.0);
    assert!(offered.0.values().all(|&n| n > 50) && sides.iter().all(|&n| n > 5_000));
}
