//! Readers of sections 9 to 11: pins and will, leaders, points.

use ruleshift_game::{Cover, Hook, Quality};

use super::Reader;
use super::deck::{alone, listed, same, two_dice};

fn recovered(n: &[i32], args: &[i32]) -> i32 {
    let &[_, quality, cover, led] = args else { unreachable!() };
    let hard = cover >= Cover::Hard as i32;
    let veteran = quality == Quality::Veteran as i32;
    n[0] + led * n[1] + i32::from(hard) * n[2] + i32::from(veteran) * n[3]
}

fn group_test(n: &[i32], args: &[i32]) -> i32 {
    let &[lost, quality, led] = args else { unreachable!() };
    let worse = if lost >= 25 * n[4] { n[3] } else { 0 };
    two_dice(n[0] - n[1] * quality - n[2] * led + worse)
}

pub(super) const READERS: &[Reader] = &[
    (Hook::SuppressionThreshold, "As many as its men, at least #.", |n, args| args[0].max(n[0])),
    (Hook::BreakThreshold, "# as many as its men, at least #.", |n, args| {
        (n[0] * args[0]).max(n[1])
    }),
    (
        Hook::PinsRecovered,
        "#; # more with a leader near, # more in hard cover or dug in, # more for veterans.",
        recovered,
    ),
    (Hook::RecoveryUnderFire, "Only with a leader near.", |_, args| args[1]),
    (Hook::RallyAmount, "# on its own, # and the leader's grade by order.", |n, args| {
        if args[0] == 0 { n[0] } else { n[1] + args[0] }
    }),
    (Hook::LeaderOrders, "As many as his grade, and #.", |n, args| args[0] + n[0]),
    (Hook::OrdersWithGroup, "#.", alone),
    (Hook::LeaderRadius, "# in and # in for each grade.", |n, args| n[0] + n[1] * args[0]),
    (Hook::LeaderHitNumber, "#.", alone),
    (Hook::GroupBattered, "From a # lost.", |n, args| i32::from(args[0] >= n[0])),
    (
        Hook::GroupTestNumber,
        "#; # less for each step of quality, # less with a leader, # more from # quarters lost.",
        group_test,
    ),
    (Hook::BreakPoint, "As the scenario lists.", listed),
    (Hook::SideTestNumber, "#, and # more for every # points beyond.", |n, args| {
        two_dice(n[0] + n[1] * (args[0] / n[2]))
    }),
    (Hook::LeavingPoints, "As the scenario lists.", listed),
    (Hook::HoldingDistance, "# in.", alone),
    (Hook::ObjectivePoints, "As the scenario lists.", listed),
    (Hook::FinalPoints, "As the scenario lists.", listed),
    (Hook::GroupBrokenPoints, "#.", alone),
    (Hook::FieldPoints, "#.", alone),
    (Hook::TurnLimit, "As the scenario lists.", same),
];
