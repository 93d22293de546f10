//! Every choice that is offered is legal, judged anew from what the side can see.

use ruleshift_game::{
    Cell, Choice, Gait, Ground, Heading, Kind, Mover, Offer, Place, STEPS, Unit, UnitId, View,
};

use crate::support::{Ready, eighths, fixed};

/// Looks at one question put to a side.
pub(crate) struct Judge<'a> {
    ready: &'a Ready,
    view: &'a View<'a>,
}

/// Panics when one of the choices is not allowed, or is offered twice.
pub(crate) fn judge(ready: &Ready, view: &View<'_>, choices: &[Choice]) {
    assert!(choices.len() >= 2, "a player is asked only when there is a choice");
    let judge = Judge { ready, view };
    for (n, &choice) in choices.iter().enumerate() {
        assert!(!choices[..n].contains(&choice), "{choice:?} is offered twice");
        assert!(judge.allows(choice), "{choice:?} by {:?}", view.doing());
    }
}

impl Judge<'_> {
    fn allows(&self, choice: Choice) -> bool {
        let (doing, rules) = (self.view.doing(), &self.ready.rules);
        match choice {
            Choice::Done => doing.placing == 0 && doing.moving.is_none(),
            Choice::PickUnit(id) => self.may_pick(id),
            Choice::PickMarker(id) => {
                self.view.own_marker(id).is_some_and(|m| m.on_table && !m.picked)
            }
            Choice::Move(heading) => self.may_move(heading),
            Choice::Stop(steps) => self.may_stop(steps),
            Choice::PlaceAt(cell) => self.may_place(cell),
            Choice::OpenFire => {
                doing.marker.and_then(|id| self.view.own_marker(id)).is_some_and(|m| {
                    m.on_table && m.group.is_some() && rules.may_open_fire(m.used.min(8))
                })
            }
            Choice::Spot(marker) => self
                .eyes()
                .zip(self.view.enemy_markers().find(|m| m.id == marker))
                .is_some_and(|(from, marker)| self.view.sees(from, marker.at)),
            Choice::Search(feature) => {
                let place = self.view.enemy_features().find(|&(n, ..)| n == feature);
                self.eyes()
                    .zip(place)
                    .is_some_and(|(from, (_, at, searched))| !searched && self.view.sees(from, at))
            }
            Choice::Fire(target) => self.may_fire(target),
            Choice::Rally => self.actor().is_some_and(|u| u.pins > 0 && u.place == Place::Table),
            Choice::OrderRally(id) => self.led(id).is_some_and(|u| u.pins > 0),
            Choice::OrderAction(id) => self
                .led(id)
                .is_some_and(|u| u.kind != Kind::Leader && !u.suppressed(rules) && !u.ordered),
            Choice::HoldFire => {
                self.able().is_some_and(|u| u.shots > 0 && rules.may_hold_fire(u.kind))
            }
            _ => self.allows_more(choice),
        }
    }

    /// What came with vehicles, assaults and batteries.
    fn allows_more(&self, choice: Choice) -> bool {
        match choice {
            Choice::Answer(chosen) => self.view.doing().asked.is_some_and(|asked| {
                asked.side == self.view.side()
                    && match asked.offer {
                        Offer::Units(offered) => {
                            offered >> chosen & 1 != 0
                                && self.view.own_units().any(|(id, _)| id == chosen)
                        }
                        Offer::Options(count) => (1..=count).contains(&chosen),
                    }
            }),
            Choice::Turn(way) => self.able().is_some_and(|u| {
                (u.kind.is_vehicle() || u.kind == Kind::AntiTankGun) && u.facing != way
            }),
            Choice::Assault(target) => self.may_assault(target),
            Choice::DigIn => self.able().is_some_and(|u| {
                use Ground::{Crops, Hedge, Hill, Open, Scrub, Wood};
                let soft = [Open, Crops, Scrub, Wood, Hedge, Hill];
                soft.contains(&self.view.ground(u.at))
                    && !u.kind.is_vehicle()
                    && u.kind != Kind::Leader
            }),
            Choice::Mount(vehicle) => self.may_mount(vehicle),
            Choice::Dismount(way) => self.may_get_out(way),
            Choice::Call { battery, at, smoke } => self.may_call(battery, at, smoke),
            Choice::Adjust(battery) => self.caller().is_some_and(|from| {
                let call = self.view.own_battery(battery).and_then(|b| b.call);
                call.is_some_and(|c| {
                    c.fired && c.adjusted < fixed::CORRECTIONS && self.view.sees(from, c.at)
                })
            }),
            Choice::FireBattery => self
                .view
                .doing()
                .battery
                .and_then(|id| self.view.own_battery(id))
                .is_some_and(|b| b.missions > 0 && b.call.is_some_and(|c| c.wait == 0)),
            Choice::Leave => self.able().is_some_and(|u| {
                let reach = self.ready.rules.holding_distance();
                let near = |at: Cell| i32::from(at.range(u.at)) <= reach;
                self.view.objectives().iter().any(|o| o.leaving[u.side] > 0 && near(o.at))
            }),
            _ => false,
        }
    }

    fn others(&self) -> impl Iterator<Item = (UnitId, &Unit)> {
        self.view.own_units().chain(self.view.enemy_units())
    }

    /// The unit that acts.
    fn actor(&self) -> Option<&Unit> {
        self.view.doing().unit.and_then(|id| self.view.unit(id)).filter(|u| u.actions > 0)
    }

    /// The unit that acts, if it is on the table and may do more than rally.
    fn able(&self) -> Option<&Unit> {
        self.actor().filter(|u| u.place == Place::Table && !u.suppressed(&self.ready.rules))
    }

    /// The leader who gives orders.
    fn leader(&self) -> Option<&Unit> {
        let doing = self.view.doing();
        let (leader, orders) = doing.leader.filter(|_| doing.unit.is_none())?;
        let leader = self.view.unit(leader)?;
        let able = leader.place == Place::Table && !leader.suppressed(&self.ready.rules);
        (orders > 0 && able).then_some(leader)
    }

    /// Where whoever acts looks from.
    fn eyes(&self) -> Option<Cell> {
        let marker = self.view.doing().marker.and_then(|id| self.view.own_marker(id));
        let marker = marker.filter(|m| m.on_table && m.left > 0).map(|m| m.at);
        if self.view.doing().unit.is_some() { self.able().map(|u| u.at) } else { marker }
    }

    fn may_pick(&self, id: UnitId) -> bool {
        let (doing, side) = (self.view.doing(), self.view.side());
        self.view.unit(id).filter(|u| u.side == side && u.here()).is_some_and(|unit| {
            match doing.group {
                Some(group) => unit.group == group && !unit.picked,
                None => doing.marker_card == Some(side) && !unit.activated,
            }
        })
    }

    fn may_move(&self, heading: Heading) -> bool {
        let there = match heading {
            Heading::Straight(way) => way < 8,
            Heading::Objective(n) => usize::from(n) < self.view.objectives().len(),
        };
        let marker = self.view.doing().marker.and_then(|id| self.view.own_marker(id));
        there
            && match self.view.doing().unit {
                Some(_) => self.able().is_some_and(|u| !u.immobile),
                None => self.leader().is_some() || marker.is_some_and(|m| m.on_table && m.left > 0),
            }
    }

    fn may_stop(&self, steps: u8) -> bool {
        let Some(moving) = self.view.doing().moving else { return false };
        let (mut at, gait, mover) = match moving.mover {
            Mover::Unit(id) => {
                let unit = self.view.unit(id).expect("a unit of one's own");
                (unit.at, Gait::of(unit.kind), Some((id, unit)))
            }
            Mover::Marker(id) => (self.view.own_marker(id).unwrap().at, Gait::Marker, None),
        };
        let mut left = 100 * i32::from(moving.inches);
        for _ in 0..steps {
            let Some((next, cost)) = self.view.paths().step(at, moving.heading, gait) else {
                return false;
            };
            (at, left) = (next, left - i32::from(cost));
            if mover.is_some() && self.touches(at) {
                return false;
            }
        }
        let taken = mover.is_some_and(|(id, unit)| {
            let other = |(o, u): (UnitId, &Unit)| o != id && u.at == at && u.kind != Kind::Leader;
            unit.kind != Kind::Leader && self.others().any(other)
        });
        left >= 0 && !taken
    }

    /// Whether an enemy unit is in touch with a square.
    fn touches(&self, at: Cell) -> bool {
        let contact = self.ready.rules.contact_distance();
        self.view.enemy_units().any(|(_, enemy)| i32::from(enemy.at.range(at)) <= contact)
    }

    fn may_place(&self, cell: Cell) -> bool {
        let group = self.view.doing().placing.trailing_zeros() as u8;
        let next = self.view.own_group(group).iter().find(|u| u.place == Place::Hidden);
        let open = |u: &Unit| self.view.paths().open(cell, Gait::of(u.kind));
        next.is_some_and(open)
            && !self.touches(cell)
            && self.view.own_units().all(|(_, unit)| unit.at != cell)
    }

    fn may_fire(&self, id: UnitId) -> bool {
        let (doing, rules) = (self.view.doing(), &self.ready.rules);
        let shooter = match (doing.reaction, doing.unit) {
            (Some(reaction), _) => self.view.unit(reaction.unit).filter(|u| u.holds_fire),
            (None, Some(_)) => self.able().filter(|u| u.shots > 0),
            (None, None) => match doing.stage {
                ruleshift_game::Stage::LateFire { unit, .. } => {
                    self.view.unit(unit).filter(|u| !u.activated && u.kind != Kind::Leader)
                }
                _ => None,
            },
        };
        let target = self.view.unit(id).filter(|u| u.side != self.view.side());
        let Some((shooter, target)) = shooter.zip(target) else { return false };
        let sheltered = target.kind == Kind::Leader
            && self.view.enemy_units().any(|(other, unit)| {
                other != id
                    && unit.kind != Kind::Leader
                    && unit.at.range(target.at) <= fixed::SHELTER
            });
        let harms = if target.armour[0] > 0 {
            shooter.gun.is_some()
        } else {
            rules.fire_dice(shooter.kind, shooter.men, shooter.pins) > 0
        };
        let arc = rules.fire_arc(shooter.kind);
        harms
            && !sheltered
            && !shooter.suppressed(rules)
            && self.view.sees(shooter.at, target.at)
            && rules.range_band(shooter.kind, shooter.at.range(target.at)) < 3
            && (arc == 4 || eighths(shooter.at, shooter.facing, target.at) <= arc)
    }

    /// A unit that the leader may give an order.
    fn led(&self, id: UnitId) -> Option<&Unit> {
        let leader = self.leader()?;
        let radius = self.ready.rules.leader_radius(leader.grade);
        self.view.unit(id).filter(|unit| {
            unit.side == leader.side
                && unit.place == Place::Table
                && i32::from(unit.at.range(leader.at)) <= radius
                && !std::ptr::eq(*unit, leader)
        })
    }

    fn may_assault(&self, id: UnitId) -> bool {
        use Kind::{AntiTankTeam, AssaultSection, FlameTeam, Section};
        let Some((unit, target)) = self.able().zip(self.view.unit(id)) else { return false };
        let armoured = target.armour[0] > 0;
        target.side != unit.side
            && i32::from(unit.at.range(target.at)) <= self.ready.rules.assault_reach()
            && self.view.sees(unit.at, target.at)
            && (matches!(unit.kind, Section | AssaultSection)
                || armoured && matches!(unit.kind, FlameTeam | AntiTankTeam))
    }

    fn may_mount(&self, id: UnitId) -> bool {
        let rules = &self.ready.rules;
        let Some((unit, vehicle)) = self.able().zip(self.view.unit(id)) else { return false };
        let aboard = (0..u8::MAX).filter_map(|other| self.view.unit(other)).filter(|other| {
            other.side == unit.side && other.place == Place::Carried && other.carrier == Some(id)
        });
        let load: i32 = aboard.map(|other| i32::from(other.men)).sum();
        matches!(vehicle.kind, Kind::Carrier | Kind::Truck)
            && vehicle.side == unit.side
            && vehicle.place == Place::Table
            && !unit.kind.is_vehicle()
            && vehicle.at.range(unit.at) <= fixed::ABOARD
            && load + i32::from(unit.men) <= rules.capacity(vehicle.kind)
            && i32::from(unit.actions) >= rules.mounting_actions(unit.kind)
    }

    fn may_get_out(&self, way: u8) -> bool {
        let rules = &self.ready.rules;
        let Some(unit) = self.actor().filter(|u| u.place == Place::Carried) else { return false };
        let vehicle = unit.carrier.and_then(|id| self.view.unit(id));
        let Some(vehicle) = vehicle.filter(|v| v.place == Place::Table) else { return false };
        let (dx, dy) = STEPS[way as usize];
        let Some(to) = vehicle.at.step(dx, dy) else { return false };
        i32::from(unit.actions) >= rules.mounting_actions(unit.kind)
            && !self.touches(to)
            && self.others().all(|(_, u)| u.at != to || u.kind == Kind::Leader)
    }

    /// Where somebody who may call a battery looks from: an observer, a leader, a marker that hides
    /// an observer.
    fn caller(&self) -> Option<Cell> {
        let doing = self.view.doing();
        if doing.unit.is_some() {
            return self.able().filter(|u| u.kind == Kind::Observer).map(|u| u.at);
        }
        if doing.leader.is_some() {
            return self.leader().map(|u| u.at);
        }
        let marker = doing.marker.and_then(|id| self.view.own_marker(id))?;
        let hidden = self.view.own_group(marker.group?);
        let observer = hidden.iter().any(|u| u.kind == Kind::Observer && u.place == Place::Hidden);
        (marker.on_table && marker.left > 0 && observer).then_some(marker.at)
    }

    /// Whether the enemy shows in a square, or may hide there.
    fn suspected(&self, at: Cell) -> bool {
        self.view.enemy_units().any(|(_, enemy)| enemy.at == at)
            || self.view.enemy_markers().any(|marker| marker.at == at)
            || self.view.enemy_features().any(|(_, place, searched)| place == at && !searched)
    }

    fn may_call(&self, id: u8, at: Cell, smoke: bool) -> bool {
        let Some((from, battery)) = self.caller().zip(self.view.own_battery(id)) else {
            return false;
        };
        let listed = self.ready.arena.batteries().nth(id.into()).expect("a battery").1;
        battery.missions > 0
            && battery.call.is_none_or(|call| call.fired)
            && (!smoke || listed.smoke)
            && self.suspected(at)
            && self.view.sees(from, at)
    }
}
