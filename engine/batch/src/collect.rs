//! From the events of one game to its metrics.

mod acts;
mod assaults;
mod end;
#[cfg(test)]
mod tests;
mod turns;
mod weapons;

use ruleshift_game::limits::{MAX_TURNS, MAX_UNITS};
use ruleshift_game::{BreakCause, Damage, Event, Observer, Rules, State, UnitId};
use ruleshift_record::{Metric, Timing, Values};

use assaults::Assault;
use weapons::Blow;

/// Collects the metrics of one game; made anew for each.
#[derive(Clone)]
pub struct Collector<'a> {
    timing: &'a Timing,
    /// Judges suppression as the rules of the game do.
    rules: &'a Rules,
    values: Values,
    cards: u32,
    unit_turns: u32,
    idle: u32,
    suppressed: u32,
    dug_in: u32,
    pins: u32,
    waits: [u8; MAX_UNITS],
    card_runs: [u32; 2],
    revealed: [u32; 4],
    /// Sign of the attacker's lead after each turn.
    leads: [i8; MAX_TURNS as usize + 1],
    first_contact: Option<u16>,
    /// Markers still hidden in a feature, one bit each.
    in_features: u64,
    /// Whether the turn is at its late fire.
    late: bool,
    /// The unit that acts on the card drawn last.
    acting: Option<UnitId>,
    /// What did the harm that is told next.
    blow: Option<Blow>,
    assault: Option<Assault>,
    shots_at_armour: u32,
    strikes: u32,
    reserves: u32,
    /// Turns in which reserves came, summed.
    reserve_turns: u32,
}

impl<'a> Collector<'a> {
    /// A collector for a game under `rules`.
    pub fn new(timing: &'a Timing, rules: &'a Rules) -> Collector<'a> {
        Collector {
            timing,
            rules,
            values: [0.0; Metric::ALL.len()],
            cards: 0,
            unit_turns: 0,
            idle: 0,
            suppressed: 0,
            dug_in: 0,
            pins: 0,
            waits: [0; MAX_UNITS],
            card_runs: [0; 2],
            revealed: [0; 4],
            leads: [0; MAX_TURNS as usize + 1],
            first_contact: None,
            in_features: 0,
            late: false,
            acting: None,
            blow: None,
            assault: None,
            shots_at_armour: 0,
            strikes: 0,
            reserves: 0,
            reserve_turns: 0,
        }
    }

    /// The metrics, once the game has ended.
    pub fn values(&self) -> &Values {
        &self.values
    }

    fn get(&self, metric: Metric) -> f64 {
        self.values[metric as usize]
    }

    fn set(&mut self, metric: Metric, value: f64) {
        self.values[metric as usize] = value;
    }

    fn add(&mut self, metric: Metric, value: u32) {
        self.values[metric as usize] += f64::from(value);
    }

    fn reserve(&mut self, state: &State) {
        self.reserves += 1;
        self.reserve_turns += u32::from(state.turn());
    }

    /// Counts that need nothing but the event itself.
    fn count(&mut self, event: &Event, state: &State) {
        match *event {
            Event::PinsAdded { pins, .. } => self.add(Metric::PinsGiven, pins.into()),
            Event::UnitBroke { unit, cause, .. } => {
                self.add(Metric::UnitsBroken, 1);
                // One that was knocked out has been counted with the blow that did it.
                let left =
                    state.units()[unit as usize].armoured() && cause != BreakCause::KnockedOut;
                self.add(Metric::VehiclesLost, left.into());
            }
            Event::VehicleDamaged { damage: Damage::KnockedOut, .. } => {
                self.add(Metric::VehiclesLost, 1);
            }
            Event::Rallied { .. } => self.add(Metric::Rallies, 1),
            Event::Captured { men, .. } => self.add(Metric::Prisoners, men.into()),
            Event::Bogged { .. } => self.add(Metric::Bogged, 1),
            Event::MineStruck { .. } => self.add(Metric::MinesStruck, 1),
            Event::BatteryFired { smoke: false, .. } => self.add(Metric::Missions, 1),
            Event::BatteryFired { at: Some(_), .. } => self.add(Metric::Screens, 1),
            Event::Searched { rolled, needed, .. } => {
                self.add(Metric::FeaturesSearched, (rolled >= needed).into());
            }
            Event::UnitLeft { .. } => self.add(Metric::UnitsLeft, 1),
            Event::ReserveTested { rolled, needed, .. } if rolled >= needed => self.reserve(state),
            Event::ReserveCalled { .. } => self.reserve(state),
            _ => {}
        }
    }
}

impl Observer for Collector<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.turns(event, state);
        self.acts(event);
        self.harm(event, state);
        self.assaults(event, state);
        self.count(event, state);
        if let Event::GameEnded { winner, margin, cause, dice, throws, decisions } = *event {
            self.set(Metric::Margin, margin.into());
            self.set(Metric::Dice, dice.into());
            self.set(Metric::Decisions, decisions.into());
            // Throws are only needed for the time, which takes their place.
            self.set(Metric::Minutes, throws.into());
            self.game_end(winner, cause, state);
        }
    }
}
