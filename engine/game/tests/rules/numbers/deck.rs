//! Readers of sections 2 to 6: the deck, markers, moving, spotting.

use ruleshift_game::{Ground, Hook, Kind};

use super::{HALF, Reader};

/// The one number of a sentence.
pub(super) fn alone(numbers: &[i32], _: &[i32]) -> i32 {
    numbers[0]
}

/// The argument as it is.
pub(super) fn same(_: &[i32], args: &[i32]) -> i32 {
    args[0]
}

/// What the scenario lists, after the side.
pub(super) fn listed(_: &[i32], args: &[i32]) -> i32 {
    args[1]
}

pub(super) fn kind(arg: i32) -> Kind {
    Kind::ALL[arg as usize]
}

pub(super) fn ground(arg: i32) -> Ground {
    Ground::ALL[arg as usize]
}

fn actions(n: &[i32], args: &[i32]) -> i32 {
    let &[one, quality, strength, pins] = args else { unreachable!() };
    assert_eq!(n[4], HALF);
    let gun = kind(one).has_facing() || kind(one) == Kind::Leader;
    let mut actions = n[quality as usize];
    actions -= if 25 * strength <= n[4] { n[3] } else { 0 };
    actions -= if pins >= n[6] { n[5] } else { 0 };
    actions -= if gun { n[7] } else { 0 };
    actions.max(n[8])
}

fn on_foot(n: &[i32], args: &[i32]) -> i32 {
    use Ground::*;
    match ground(args[0]) {
        Open | Road | Bridge | Hill | Minefield => n[0],
        Crops => n[1],
        Scrub | Hedge | Ford | Trench => n[2],
        Wood | Wall | Building => n[3],
        Rubble | Stream => n[4],
        Wire => n[5],
    }
}

/// The band of a range by the farthest of each.
fn band(n: &[i32], args: &[i32]) -> i32 {
    let bands = [(n[0], n[1]), (n[2], n[3]), (n[4], n[5])];
    bands.iter().find(|(farthest, _)| args[0] <= *farthest).map_or(n[6], |(_, band)| *band)
}

/// A total that two dice may have to reach: at least 2, and 13 for never.
pub(super) fn two_dice(total: i32) -> i32 {
    total.clamp(2, 13)
}

/// By band, more for cover, less for one that moved.
fn spotting(n: &[i32], args: &[i32]) -> i32 {
    let cover = [0, n[4], n[5], n[6]][args[1] as usize];
    let moved = if args.get(2) == Some(&1) { n[7] } else { 0 };
    two_dice(n[args[0] as usize] + cover - moved)
}

pub(super) const READERS: &[Reader] = &[
    (Hook::TurnEndCards, "#.", alone),
    (Hook::TurnEnds, "The first # ends it.", |n, args| i32::from(n[0] > 0 && args[0] >= n[0])),
    (Hook::MarkerCards, "#.", alone),
    (Hook::GroupCards, "#.", alone),
    (Hook::LeaderCards, "#.", alone),
    (Hook::BatteryCards, "#.", alone),
    (Hook::ShortageCards, "#.", alone),
    (Hook::DummyMarkers, "As many as the scenario lists.", listed),
    (Hook::MarkerActions, "#.", alone),
    (Hook::MarkerMoveDice, "#.", alone),
    (Hook::MarkerSlowing, "# of it.", alone),
    (Hook::MarkerMaySpot, "It may.", |_, _| 1),
    (
        Hook::SureSpotting,
        "# in in the open, # in in light cover, # in in hard cover or dug in.",
        |n, args| n[args[0].min(2) as usize],
    ),
    (Hook::ContactDistance, "# in.", alone),
    (Hook::MayOpenFire, "Only with no action used.", |_, args| i32::from(args[0] == 0)),
    (Hook::DeployDistance, "# in.", alone),
    (Hook::ActionsCarried, "As many as the marker used.", same),
    (
        Hook::UnitActions,
        "Green #, regular #, veteran #; # less at # strength or below, # less with # pins or more; a \
         leader, a gun or a vehicle # less; at least #.",
        actions,
    ),
    (Hook::ActionsOutOfCommand, "As many as otherwise.", same),
    (Hook::ShotsAllowed, "#; machine guns #.", |n, args| match kind(args[0]) {
        Kind::LightGun | Kind::TripodGun => n[1],
        _ => n[0],
    }),
    (
        Hook::MoveDice,
        "#; a leader, a tank or an assault gun #, a carrier or a truck #.",
        |n, args| match kind(args[0]) {
            Kind::Leader | Kind::Tank | Kind::AssaultGun => n[1],
            Kind::Carrier | Kind::Truck => n[2],
            _ => n[0],
        },
    ),
    (Hook::PinnedMove, "The roll, less # in for every # pins.", |n, args| {
        (args[0] - n[0] * (args[1] / n[1])).max(0)
    }),
    (
        Hook::GroundCost,
        "Open, road, bridge, hill, minefield #; crops #; scrub, hedge, ford, trench #; wood, wall, \
         building #; rubble, stream #; wire #.",
        on_foot,
    ),
    (Hook::SpotBand, "To # in #, to # in #, to # in #, beyond #.", band),
    (
        Hook::SpottingNumber,
        "#, #, #, # by band; # more in light cover, # more in hard, # more dug in; # less if it \
         moved.",
        spotting,
    ),
    (
        Hook::SearchNumber,
        "#, #, #, # by band; # more in light cover, # more in hard, # more dug in.",
        spotting,
    ),
    (Hook::SightLimit, "# in, from corner to corner.", alone),
];
