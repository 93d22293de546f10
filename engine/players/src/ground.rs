//! How good a place is: what a unit there could do and suffer, and how near its goal it is.

use ruleshift_game::limits::{MAX_CHOICES, MAX_UNITS};
use ruleshift_game::{Cell, Cover, Kind, SightSpot, Unit, View};

use crate::forecast::{Forecast, dice};
use crate::goal::Goal;
use crate::guns::{Mark, Piece, gun_harm};
use crate::weights::Weights;

/// Inches within which a leader is with his troops.
const LED: i32 = 2;
/// Harm that infantry near by may do to an armoured vehicle, in hundredths of a pin.
const CLOSE_THREAT: i32 = 250;

/// An enemy unit, or what a marker may turn out to be.
#[derive(Clone, Copy)]
struct Foe {
    at: Cell,
    kind: Kind,
    dice: i32,
    /// How much its threat counts, in eighths.
    weight: i32,
    gun: Option<u8>,
    /// What there is to shoot at, for an armoured vehicle.
    mark: Option<Mark>,
}

/// A place to be judged, and what was found.
#[derive(Clone, Copy)]
struct Place {
    cell: Cell,
    spot: SightSpot,
    cover: Cover,
    threat: i32,
    shot: i32,
}

impl Place {
    fn at(cell: Cell) -> Place {
        Place { cell, spot: SightSpot::default(), cover: Cover::None, threat: 0, shot: 0 }
    }
}

/// Room for judging all places of one decision in one pass.
pub(crate) struct Ground {
    foes: [Foe; MAX_UNITS + 64],
    foe_count: usize,
    places: [Place; MAX_CHOICES + 1],
    place_count: usize,
    /// Where the troops of a leader are.
    troops: [Cell; MAX_UNITS],
    troop_count: usize,
}

/// Who stands in the places to be judged.
#[derive(Clone, Copy)]
pub(crate) struct Stander {
    pub(crate) kind: Kind,
    pub(crate) dice: i32,
    pub(crate) moved: bool,
    /// Pins per man, in eighths: frightened men value safety more.
    pub(crate) fear: i32,
    pub(crate) gun: Option<u8>,
    /// The group whose troops a leader stays with.
    pub(crate) leads: Option<u8>,
    /// What the enemy would have to shoot at, for an armoured vehicle.
    pub(crate) mark: Option<Mark>,
}

impl Stander {
    pub(crate) fn unit(view: &View<'_>, unit: &Unit, moved: bool) -> Stander {
        let fear = i32::from(unit.pins) * 8 / i32::from(unit.men.max(1));
        Stander {
            kind: unit.kind,
            dice: dice(view.rules(), unit),
            moved,
            fear,
            gun: unit.gun,
            leads: (unit.kind == Kind::Leader).then_some(unit.group),
            mark: unit.armoured().then(|| Mark::of(unit)),
        }
    }
}

impl Foe {
    /// Harm it may do to an armoured vehicle that shows it its front.
    fn threat_to_armour(&self, view: &View<'_>, mark: Mark, at: Cell) -> i32 {
        let near = self.mark.is_none() && self.at.range(at) <= view.rules().assault_reach() as u8;
        let close = if near { CLOSE_THREAT } else { 0 };
        let piece = |gun| Piece { kind: self.kind, gun, at: self.at, moved: false };
        let mark = Mark { at, facing: at.way_to(self.at), ..mark };
        let fire = self.gun.map_or(0, |gun| gun_harm(view, piece(gun), mark));
        (close + fire) * self.weight / 8
    }
}

impl Stander {
    fn shot_at_armour(&self, view: &View<'_>, mark: Mark, at: Cell) -> i32 {
        let piece = |gun| Piece { kind: self.kind, gun, at, moved: self.moved };
        self.gun.map_or(0, |gun| gun_harm(view, piece(gun), mark))
    }
}

impl Ground {
    pub(crate) fn new() -> Ground {
        let foe = Foe {
            at: Cell::default(),
            kind: Kind::Section,
            dice: 0,
            weight: 0,
            gun: None,
            mark: None,
        };
        Ground {
            foes: [foe; MAX_UNITS + 64],
            foe_count: 0,
            places: [Place::at(Cell::default()); MAX_CHOICES + 1],
            place_count: 0,
            troops: [Cell::default(); MAX_UNITS],
            troop_count: 0,
        }
    }

    /// Looks at the enemy: units in full, markers as half a section each.
    pub(crate) fn look(&mut self, view: &View<'_>) {
        self.foe_count = 0;
        for (_, unit) in view.enemy_units() {
            let weight = if unit.suppressed(view.rules()) { 2 } else { 8 };
            self.add_foe(Foe {
                at: unit.at,
                kind: unit.kind,
                dice: dice(view.rules(), unit).max(1),
                weight,
                gun: unit.gun,
                mark: unit.armoured().then(|| Mark::of(unit)),
            });
        }
        for marker in view.enemy_markers() {
            self.add_foe(Foe {
                at: marker.at,
                kind: Kind::Section,
                dice: 6,
                weight: 2,
                gun: None,
                mark: None,
            });
        }
    }

    fn add_foe(&mut self, foe: Foe) {
        if self.foe_count < self.foes.len() {
            self.foes[self.foe_count] = foe;
            self.foe_count += 1;
        }
    }

    pub(crate) fn clear_places(&mut self) {
        self.place_count = 0;
    }

    /// Adds a place to judge: its number.
    pub(crate) fn add_place(&mut self, cell: Cell) -> usize {
        let n = self.place_count.min(MAX_CHOICES);
        self.places[n] = Place::at(cell);
        self.place_count = n + 1;
        n
    }

    /// Whether there is any place besides the first, where whoever decides stands.
    pub(crate) fn leads_away(&self) -> bool {
        self.place_count > 1
    }

    /// Works out threats and best shots of all places, one row of sight per enemy.
    pub(crate) fn judge(&mut self, view: &View<'_>, forecast: &Forecast, stander: &Stander) {
        self.gather(view, stander);
        let places = &mut self.places[..self.place_count];
        for place in &mut *places {
            (place.spot, place.cover) = (place.cell.into(), view.cover(place.cell));
        }
        let (own, clear) = (forecast.of(stander.kind), view.clear_everywhere());
        for foe in &self.foes[..self.foe_count] {
            let row = view.sight().from(foe.at);
            let sees = |place: &Place| row.sees_spot(place.spot);
            // Most see none of the places.
            let Some(first) = places.iter().position(sees) else { continue };
            let (fire, cover) = (forecast.of(foe.kind), view.cover(foe.at));
            let threat = foe.dice * forecast.shots(foe.kind) * foe.weight;
            for place in places[first..].iter_mut().filter(|place| sees(place)) {
                if !clear && !view.clear(foe.at, place.cell) {
                    continue;
                }
                let range = foe.at.range(place.cell);
                place.threat += match stander.mark {
                    None => threat * fire.die(range, false, place.cover) / 8,
                    Some(mark) => foe.threat_to_armour(view, mark, place.cell),
                };
                if foe.weight > 2 {
                    let shot = match foe.mark {
                        None => stander.dice * own.die(range, stander.moved, cover),
                        Some(mark) => stander.shot_at_armour(view, mark, place.cell),
                    };
                    place.shot = place.shot.max(shot);
                }
            }
        }
    }

    /// The square of a place.
    pub(crate) fn place(&self, place: usize) -> Cell {
        self.places[place].cell
    }

    /// The best shot a unit could fire from a place, as harm.
    pub(crate) fn best_shot(&self, place: usize) -> i32 {
        self.places[place].shot
    }

    /// Notes where the troops are that whoever stands there is to stay with.
    fn gather(&mut self, view: &View<'_>, stander: &Stander) {
        self.troop_count = 0;
        let Some(group) = stander.leads else { return };
        let troops = view.own_units().filter(|(_, u)| u.group == group && u.kind != Kind::Leader);
        for (room, (_, unit)) in self.troops.iter_mut().zip(troops) {
            *room = unit.at;
            self.troop_count += 1;
        }
    }

    /// Inches too many between a leader and the nearest troops of his group.
    fn apart(&self, cell: Cell) -> i32 {
        let nearest = self.troops[..self.troop_count].iter().map(|at| at.range(cell)).min();
        nearest.map_or(0, |inches| (i32::from(inches) - LED).max(0))
    }

    /// How good a place is, in points that weights are counted in.
    #[inline]
    pub(crate) fn score(
        &self,
        place: usize,
        view: &View<'_>,
        weights: &Weights,
        stander: &Stander,
        goal: &Goal,
    ) -> i32 {
        let Place { cell, cover, threat, shot, .. } = self.places[place];
        let safety = threat * weights.caution * (8 + stander.fear) / 8;
        let shot = shot * weights.shoot / 2;
        let cover = cover as i32 * weights.cover * if self.foe_count > 0 { 2 } else { 1 };
        cover + (shot - safety) / 50
            - goal.distance(view, cell) * goal.pull
            - self.apart(cell) * weights.advance
    }
}
