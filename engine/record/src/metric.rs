//! The metrics: one table, from which names, units, notice sizes and columns come.

/// How a metric varies from game to game, which decides the statistics used on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MetricKind {
    /// Yes or no in each game (1 or 0): its mean is a rate.
    Rate,
    /// A number in each game.
    Number,
}

/// What is known of one metric before any game is played.
#[derive(Clone, Copy, Debug)]
pub struct MetricSpec {
    /// Column name, `snake_case`.
    pub name: &'static str,
    /// Short label for a reader.
    pub label: &'static str,
    /// Unit of the value in a game: `share` runs from 0 to 1.
    pub unit: &'static str,
    /// What it measures, in one sentence.
    pub about: &'static str,
    /// How it is computed from the events of a game.
    pub from: &'static str,
    /// Rate or number.
    pub kind: MetricKind,
    /// The smallest shift worth noticing at the table, in `unit`; our choice, stated in reports.
    pub notice: f64,
    /// Whether the metric belongs to the headline family, over which Holm's method is applied.
    pub headline: bool,
}

macro_rules! metrics {
    ($($id:ident $name:literal $label:literal [$unit:literal $kind:ident $notice:literal $headline:literal] $about:literal $from:literal;)*) => {
        /// Every metric, in the order of the columns of `games.csv`.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Metric { $(#[doc = $about] $id),* }

        impl Metric {
            /// All metrics in column order.
            pub const ALL: &'static [Metric] = &[$(Metric::$id),*];
        }

        /// The table of metrics, indexed by [`Metric`] as a number.
        pub static METRICS: [MetricSpec; Metric::ALL.len()] = [
            $(MetricSpec { name: $name, label: $label, unit: $unit, about: $about, from: $from,
                kind: MetricKind::$kind, notice: $notice, headline: $headline }),*
        ];
    };
}

metrics! {
    AttackerWins "attacker_wins" "attacker wins" ["share" Rate 0.03 true]
        "Whether the attacker won the game." "1 when the final margin is above 0 or the defender broke, else 0";
    Margin "margin" "margin" ["points" Number 0.5 true]
        "Attacker's points minus defender's points at the end." "GameEnded";
    Turns "turns" "length" ["turns" Number 0.3 true]
        "Turns played." "GameEnded";
    Minutes "minutes" "time at the table" ["minutes" Number 5.0 true]
        "Time at the table by the timing table." "seconds per turn, card, action, throw of dice and decision, summed";
    IdleUnits "idle_units" "units left idle" ["share" Number 0.02 true]
        "Unit-turns on the table without an activation, over all unit-turns." "per turn end: deployed units with no activation this turn";
    AttackerLosses "attacker_losses" "attacker's losses" ["share" Number 0.02 true]
        "Attacker's men lost or fled, over men at the start." "MenLost, UnitBroke";
    DefenderLosses "defender_losses" "defender's losses" ["share" Number 0.02 true]
        "Defender's men lost or fled, over men at the start." "MenLost, UnitBroke";
    LongestWait "longest_wait" "longest wait of a unit" ["turns" Number 0.25 true]
        "Longest run of turns one unit on the table went without an activation." "per turn end, by unit";
    PlayerWait "player_wait" "longest wait of a player" ["cards" Number 0.25 false]
        "Longest run of cards in a row that one player watched the other play." "CardDrawn, by owner, across turn ends";
    CardsPerTurn "cards_per_turn" "cards in a turn" ["cards" Number 0.5 false]
        "Cards acted on in a turn, turn-end cards not counted." "CardDrawn over turns";
    FirstContact "first_contact" "first contact" ["turn" Number 0.25 false]
        "Turn of the first shot; turns played plus one when none was fired." "first Fired";
    WinnerLosses "winner_losses" "winner's losses" ["share" Number 0.02 false]
        "Men lost or fled on the winning side, over its men at the start; the mean of both sides in a draw." "MenLost, UnitBroke, GameEnded";
    LoserLosses "loser_losses" "loser's losses" ["share" Number 0.02 false]
        "Men lost or fled on the losing side, over its men at the start; the mean of both sides in a draw." "MenLost, UnitBroke, GameEnded";
    MenLost "men_lost" "men lost" ["men" Number 1.0 false]
        "Men hit on both sides, those who fled not counted." "MenLost";
    UnitsBroken "units_broken" "units broken" ["units" Number 0.25 false]
        "Units of both sides that broke and left." "UnitBroke";
    PinsGiven "pins_given" "pins given" ["pins" Number 3.0 false]
        "Pins put on units of both sides." "PinsAdded";
    MeanPins "mean_pins" "pins on a unit" ["pins" Number 0.1 false]
        "Mean pins on a deployed unit at turn end, after recovery." "per turn end";
    SuppressedUnits "suppressed_units" "units suppressed" ["share" Number 0.02 false]
        "Unit-turns that end suppressed, over all unit-turns on the table." "per turn end";
    Rallies "rallies" "rallies" ["rallies" Number 1.0 false]
        "Rally actions and rally orders." "Rallied";
    ShotsTaken "shots" "shots" ["shots" Number 2.0 false]
        "Fire actions, late fire not counted." "Fired";
    LateShots "late_shots" "late shots" ["shots" Number 2.0 false]
        "Shots fired late, at turn end." "Fired, late";
    RevealedBySpotting "revealed_by_spotting" "revealed by spotting" ["share" Number 0.03 false]
        "Markers revealed by a spotting roll or in plain sight, over all revealed." "MarkerRevealed";
    RevealedByContact "revealed_by_contact" "revealed by contact" ["share" Number 0.03 false]
        "Markers revealed by touching the enemy, over all revealed." "MarkerRevealed";
    RevealedByFire "revealed_by_fire" "revealed by own fire" ["share" Number 0.03 false]
        "Markers revealed by their owner to act as troops, over all revealed." "MarkerRevealed";
    LeadChanges "lead_changes" "lead changes" ["changes" Number 0.15 false]
        "Times the side ahead on points at turn end became the other side." "Scored, per turn end";
    NoReturn "no_return" "turn of no return" ["share" Number 0.05 false]
        "Share of the game played when the winner took the lead for the last time." "Scored, GameEnded";
    HalfLeaderWins "half_leader_wins" "leader at half time wins" ["share" Rate 0.03 false]
        "Whether the side ahead after half of the turns won." "Scored, GameEnded";
    EndedByBreak "ended_by_break" "ended by a break" ["share" Rate 0.03 false]
        "Whether a side broke before the last turn." "GameEnded";
    Drawn "drawn" "drawn" ["share" Rate 0.02 false]
        "Whether the game was a draw." "GameEnded";
    Actions "actions" "actions" ["actions" Number 5.0 false]
        "Actions taken by units and markers." "UnitActed, MarkerActed";
    Dice "dice" "dice" ["dice" Number 20.0 false]
        "Dice rolled." "dice counted by the engine";
    Decisions "decisions" "decisions" ["choices" Number 10.0 false]
        "Choices put to the players." "choices counted by the engine";
}

/// The metrics of one game, indexed by [`Metric`] as a number.
pub type Values = [f64; Metric::ALL.len()];

impl Metric {
    /// The metric's row of the table.
    pub fn spec(self) -> &'static MetricSpec {
        &METRICS[self as usize]
    }

    /// The metric of that column name.
    pub fn by_name(name: &str) -> Option<Metric> {
        Metric::ALL.iter().copied().find(|m| m.spec().name == name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_metric_is_found_by_its_own_name_only() {
        for &metric in Metric::ALL {
            assert_eq!(Metric::by_name(metric.spec().name), Some(metric));
            assert!(metric.spec().notice > 0.0, "{metric:?} needs a smallest shift worth noticing");
        }
        assert_eq!(Metric::by_name("wins"), None);
    }
}
