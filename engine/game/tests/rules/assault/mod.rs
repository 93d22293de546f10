//! Section 12: close assault.

mod armour;
mod outcome;
mod rush;

use ruleshift_game::{
    Choice, Event, Ground, Kind, Place, Quality, Side, State, Unit, UnitId, View,
};

use crate::support::{
    By, Lively, Ready, Record, Scene, battle, leader, of, tank, unit, vehicle, with_gun,
};

/// Both sides' foot close together over ground of all sorts, with vehicles among them.
fn melee() -> Scene {
    let mut scene = battle();
    for side in &mut scene.setup.sides.0 {
        (side.groups, side.spots, side.batteries) = (vec![], vec![], vec![]);
    }
    for (&side, x) in Side::ALL.iter().zip([27, 37]) {
        scene = scene
            .group(
                side,
                (x, 14),
                &[
                    unit(Kind::Section, 10),
                    of(Quality::Veteran, unit(Kind::AssaultSection, 9)),
                    of(Quality::Green, unit(Kind::Section, 7)),
                    leader(2),
                    unit(Kind::LightGun, 3),
                    tank(),
                ],
            )
            .group(
                side,
                (x, 24),
                &[
                    with_gun(1, unit(Kind::AntiTankTeam, 3)),
                    unit(Kind::FlameTeam, 3),
                    unit(Kind::Truck, 5),
                    unit(Kind::Section, 8),
                    vehicle(Kind::Carrier, 2, [30, 20, 10]),
                    unit(Kind::AssaultSection, 8),
                ],
            );
    }
    // Something to fight for.
    scene.ground(Ground::Trench, 33..37, 9..19).ground(Ground::Wall, 28..31, 20..28).turns(8)
}

/// Assaults whenever it can and is otherwise lively.
fn brawler(seed: u64) -> impl ruleshift_game::Player {
    let mut lively = Lively::new(seed);
    By(move |view: &View<'_>, choices: &[Choice]| {
        let assaults = choices.iter().rposition(|c| matches!(c, Choice::Assault(_)));
        assaults.unwrap_or_else(|| lively.choose(view, choices))
    })
}

use ruleshift_game::Player as _;

/// One assault: the state before it and all events from the rush on that belong to it.
struct Assault<'a> {
    ready: &'a Ready,
    id: UnitId,
    target: UnitId,
    before: &'a State,
    events: &'a [(Event, State)],
}

impl Assault<'_> {
    /// The event at a place with the state just before it.
    fn step(&self, n: usize) -> (&State, &Event, &State) {
        let before = if n == 0 { self.before } else { &self.events[n - 1].1 };
        (before, &self.events[n].0, &self.events[n].1)
    }

    fn find(&self, wanted: impl Fn(&Event) -> bool) -> Option<usize> {
        self.events.iter().position(|(event, _)| wanted(event))
    }

    fn rounds(&self) -> Vec<usize> {
        let fought = |&n: &usize| matches!(self.events[n].0, Event::AssaultFought { .. });
        (0..self.events.len()).filter(fought).collect()
    }

    fn armoured(&self) -> bool {
        self.before.units()[self.target as usize].armour[0] > 0
    }
}

/// RULES 12.3: whether the enemy is suppressed and has no armour, so that he does not stand.
fn gives_way(assault: &Assault<'_>) -> bool {
    let enemy = &assault.before.units()[assault.target as usize];
    !assault.armoured() && enemy.suppressed(&assault.ready.rules)
}

fn ends_assault(event: &Event) -> bool {
    matches!(
        event,
        Event::Charged { .. }
            | Event::CardDrawn { .. }
            | Event::UnitActivated { .. }
            | Event::UnitMoved { .. }
            | Event::OrderGiven { .. }
            | Event::LateFireBegan { .. }
            | Event::UnitPlaced { .. }
            | Event::Rallied { .. }
            | Event::SpotTried { .. }
            | Event::Fired { .. }
    )
}

/// Shows every assault of so many games in which both sides are out for them.
fn assaults(games: u64, mut check: impl FnMut(&Assault<'_>)) {
    let ready = melee().ready();
    for seed in 0..games {
        let mut record = Record::default();
        ready.play(seed, &mut brawler(seed), &mut brawler(seed + 500), &mut record);
        for (n, (event, _)) in record.0.iter().enumerate() {
            let Event::Charged { unit: id, target, .. } = *event else { continue };
            let rest = &record.0[n + 1..];
            let len = rest.iter().position(|(e, _)| ends_assault(e)).unwrap_or(rest.len());
            let events = &record.0[n..=n + len];
            check(&Assault { ready: &ready, id, target, before: &record.0[n - 1].1, events });
        }
    }
}

/// RULES 10.3: whether a leader of its side is near a unit, who is not suppressed.
fn led(ready: &Ready, state: &State, unit: &Unit) -> bool {
    state.on_table().any(|(_, leader)| {
        leader.kind == Kind::Leader
            && leader.side == unit.side
            && leader.at.range(unit.at) <= 4 + leader.grade
            && !leader.suppressed(&ready.rules)
    })
}

/// Whether a unit may stop in a square as far as others are concerned (RULES 1.6).
fn free(state: &State, id: UnitId, at: ruleshift_game::Cell) -> bool {
    state.on_table().all(|(other, unit)| other == id || unit.at != at || unit.kind == Kind::Leader)
}

fn standing(state: &State, id: UnitId) -> bool {
    state.units()[id as usize].place == Place::Table
}
