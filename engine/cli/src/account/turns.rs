//! The course of a game: what each turn brought, and how much it weighed.

use ruleshift_batch::{Blow, Doer};
use ruleshift_game::{BySide, Event, Group, GroupId, Side, State, UnitId};

/// What an objective taken or a group gone weighs, in points or men.
const EVENT_WEIGHT: u32 = 5;

/// Something that turned the game, in the order in which such things are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    SideBroke,
    ObjectiveTaken,
    GroupGone,
    VehicleLost,
    UnitGone,
    ReserveCame,
    UnitLeft,
}

/// What happened to whom.
#[derive(Clone, Copy, Debug)]
pub(super) enum Fact {
    SideBroke(Side),
    ObjectiveTaken(u8, Side),
    /// A group, how many its side had lost with it, and who ended it.
    GroupGone(GroupId, u32, Option<Doer>),
    UnitGone {
        unit: UnitId,
        end: End,
        by: Option<Doer>,
        vehicle: bool,
    },
    ReserveCame(GroupId),
    UnitLeft(UnitId),
}

/// How a unit ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    Lost,
    Broke,
    Taken,
    KnockedOut,
}

impl Fact {
    pub(super) fn kind(self) -> Kind {
        match self {
            Fact::SideBroke(_) => Kind::SideBroke,
            Fact::ObjectiveTaken(..) => Kind::ObjectiveTaken,
            Fact::GroupGone(..) => Kind::GroupGone,
            Fact::UnitGone { vehicle: true, .. } => Kind::VehicleLost,
            Fact::UnitGone { .. } => Kind::UnitGone,
            Fact::ReserveCame(_) => Kind::ReserveCame,
            Fact::UnitLeft(_) => Kind::UnitLeft,
        }
    }
}

/// One turn.
#[derive(Clone, Debug)]
pub(super) struct Turn {
    pub(super) number: u16,
    /// Points before it and at its end, attacker's first.
    pub(super) points: [BySide<i16>; 2],
    /// Men out of action in it: hit, fled or taken.
    pub(super) gone: BySide<u32>,
    pub(super) facts: Vec<Fact>,
}

impl Turn {
    /// The attacker's lead at its end.
    pub(super) fn lead(&self) -> i16 {
        self.points[1][Side::Attacker] - self.points[1][Side::Defender]
    }

    /// How much it turned the game: points by which the lead changed, men out of action, and five for
    /// each objective taken and each group gone.
    pub(super) fn weight(&self) -> u32 {
        let [before, after] = self.points;
        let lead = |points: BySide<i16>| points[Side::Attacker] - points[Side::Defender];
        let swing = u32::from((lead(after) - lead(before)).unsigned_abs());
        let big = |fact: &&Fact| matches!(fact.kind(), Kind::ObjectiveTaken | Kind::GroupGone);
        let events = self.facts.iter().filter(big).count() as u32;
        swing + self.gone.0.iter().sum::<u32>() + EVENT_WEIGHT * events
    }

    /// What is told of it, weightiest first: units of a group that is gone are told of with it.
    pub(super) fn told(&self, state: &State) -> Vec<Fact> {
        let group_of = |unit: UnitId| state.units()[unit as usize].group;
        let gone = |group| {
            self.facts.iter().any(|fact| matches!(fact, Fact::GroupGone(id, ..) if *id == group))
        };
        let twice =
            |fact: &&Fact| matches!(**fact, Fact::UnitGone { unit, .. } if gone(group_of(unit)));
        let mut facts: Vec<Fact> = self.facts.iter().filter(|fact| !twice(fact)).copied().collect();
        facts.sort_by_key(|fact| fact.kind());
        facts
    }

    /// Whether a side broke in it.
    pub(super) fn breaks(&self) -> bool {
        self.facts.iter().any(|fact| fact.kind() == Kind::SideBroke)
    }
}

/// All turns, in order.
#[derive(Debug, Default)]
pub(super) struct Turns {
    pub(super) all: Vec<Turn>,
    /// Whether a side holds the field, so that what it takes comes by itself.
    over: bool,
}

impl Turns {
    pub(super) fn event(&mut self, event: &Event, blow: Blow, state: &State) {
        if let Event::TurnStarted { turn, .. } = *event {
            let points = self.all.last().map_or_else(|| state.points(), |last| last.points[1]);
            let (points, gone) = ([points; 2], BySide([0; 2]));
            self.all.push(Turn { number: turn, points, gone, facts: vec![] });
        }
        let Some(turn) = self.all.last_mut() else { return };
        let side = |unit: UnitId| state.units()[unit as usize].side;
        match *event {
            Event::Scored { .. } => turn.points[1] = state.points(),
            Event::MenLost { unit, men, .. }
            | Event::UnitBroke { unit, men, .. }
            | Event::Captured { unit, men, .. } => turn.gone[side(unit)] += u32::from(men),
            Event::FieldHeld { .. } => self.over = true,
            _ => {}
        }
        if let Some(fact) = fact(event, blow, state)
            && !(self.over && fact.kind() == Kind::ObjectiveTaken)
        {
            turn.facts.push(fact);
        }
    }

    /// The turns that weigh most, in order: so many of them, and up to so many more that weigh at
    /// least half of the heaviest; one in which a side broke in any case.
    pub(super) fn turning_points(&self, [first, more]: [usize; 2]) -> Vec<&Turn> {
        let mut by_weight: Vec<&Turn> = self.all.iter().filter(|turn| turn.weight() > 0).collect();
        by_weight.sort_by_key(|turn| std::cmp::Reverse((turn.breaks(), turn.weight())));
        let heaviest = by_weight.iter().map(|turn| turn.weight()).max().unwrap_or(0);
        let told = (0..)
            .zip(by_weight)
            .filter(|(n, turn)| *n < first || *n < first + more && 2 * turn.weight() >= heaviest);
        let mut told: Vec<&Turn> = told.map(|(_, turn)| turn).collect();
        told.sort_by_key(|turn| turn.number);
        told
    }
}

/// What turned the game in an event, if anything.
fn fact(event: &Event, blow: Blow, state: &State) -> Option<Fact> {
    let gone = |unit: UnitId, end, by| {
        let vehicle = state.units()[unit as usize].kind.is_vehicle();
        Some(Fact::UnitGone { unit, end, by, vehicle })
    };
    match *event {
        Event::SideTested { side, rolled, needed } if rolled < needed => {
            Some(Fact::SideBroke(side))
        }
        Event::ObjectiveTaken { objective, side } => Some(Fact::ObjectiveTaken(objective, side)),
        Event::GroupGone { group, .. } => {
            let Group { side, first_unit, .. } = state.groups()[group as usize];
            let lost = state.groups().iter().filter(|group| group.side == side && group.gone);
            Some(Fact::GroupGone(group, lost.count() as u32, blow.doer(first_unit, state)))
        }
        Event::UnitLost { unit } => gone(unit, End::Lost, blow.doer(unit, state)),
        Event::VehicleDamaged { unit, damage: ruleshift_game::Damage::KnockedOut } => {
            gone(unit, End::KnockedOut, blow.doer(unit, state))
        }
        // The crew of a wreck has been told of with it.
        Event::UnitBroke { cause: ruleshift_game::BreakCause::KnockedOut, .. } => None,
        Event::UnitBroke { unit, .. } => gone(unit, End::Broke, blow.doer(unit, state)),
        Event::Captured { unit, by, .. } => gone(unit, End::Taken, Some(Doer::Unit(by))),
        Event::ReserveTested { group, rolled, needed } if rolled >= needed => {
            Some(Fact::ReserveCame(group))
        }
        Event::ReserveCalled { group } => Some(Fact::ReserveCame(group)),
        Event::UnitLeft { unit, .. } => Some(Fact::UnitLeft(unit)),
        _ => None,
    }
}
