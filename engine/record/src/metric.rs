//! The metrics: one table, from which names, units, notice sizes and columns come.

mod theme;

pub use theme::Theme;

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
    /// What it is about, for grouping.
    pub theme: Theme,
    /// Whether unusual games are of interest, not only the mean: quantiles and means of tails.
    pub tail: bool,
}

/// Whether a row says `tail`.
macro_rules! says_tail {
    () => {
        false
    };
    (tail) => {
        true
    };
}

macro_rules! metrics {
    ($($id:ident $name:literal $label:literal [$unit:literal $kind:ident $notice:literal $headline:literal] ($theme:ident $(, $tail:ident)?) $about:literal $from:literal;)*) => {
        /// Every metric, in the order of the columns of a table of games.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Metric { $(#[doc = $about] $id),* }

        impl Metric {
            /// All metrics in column order.
            pub const ALL: &'static [Metric] = &[$(Metric::$id),*];
        }

        /// The table of metrics, indexed by [`Metric`] as a number.
        pub static METRICS: [MetricSpec; Metric::ALL.len()] = [
            $(MetricSpec { name: $name, label: $label, unit: $unit, about: $about, from: $from,
                kind: MetricKind::$kind, notice: $notice, headline: $headline,
                theme: Theme::$theme, tail: says_tail!($($tail)?) }),*
        ];
    };
}

metrics! {
    AttackerWins "attacker_wins" "attacker wins" ["share" Rate 0.03 true] (Balance)
        "Whether the attacker won the game." "1 when the final margin is above 0 or the defender broke, else 0";
    Margin "margin" "margin" ["points" Number 0.5 true] (Balance)
        "Attacker's points minus defender's points at the end." "GameEnded";
    Turns "turns" "length" ["turns" Number 0.3 true] (Length, tail)
        "Turns played." "GameEnded";
    Minutes "minutes" "time at the table" ["minutes" Number 5.0 true] (Length, tail)
        "Time at the table by the timing table." "seconds per turn, card, action, throw of dice and decision, summed";
    // Notice of a side's part: half of what is worth noticing of the whole evening, rounded up.
    AttackerMinutes "attacker_minutes" "time the attacker plays" ["minutes" Number 3.0 false] (Length, tail)
        "Time at the table in which the attacker acts, by the timing table." "his cards, his actions, throws and choices on his cards; his fire and his choices on the other's";
    DefenderMinutes "defender_minutes" "time the defender plays" ["minutes" Number 3.0 false] (Length, tail)
        "Time at the table in which the defender acts, by the timing table." "his cards, his actions, throws and choices on his cards; his fire and his choices on the other's";
    SharedMinutes "shared_minutes" "time both are busy" ["minutes" Number 3.0 false] (Length, tail)
        "Time at the table that is neither side's own: the deck, late fire that does not come, the turn's end." "minutes less those of the sides";
    IdleUnits "idle_units" "units left idle" ["share" Number 0.02 true] (Friction)
        "Unit-turns on the table without an activation, over all unit-turns." "per turn end: deployed units with no activation this turn";
    AttackerLosses "attacker_losses" "attacker's losses" ["share" Number 0.02 true] (Casualties, tail)
        "Attacker's men lost, fled or taken, over men at the start." "MenLost, UnitBroke, Captured";
    DefenderLosses "defender_losses" "defender's losses" ["share" Number 0.02 true] (Casualties, tail)
        "Defender's men lost, fled or taken, over men at the start." "MenLost, UnitBroke, Captured";
    LongestWait "longest_wait" "longest wait of a unit" ["turns" Number 0.25 true] (Friction, tail)
        "Longest run of turns one unit on the table went without an activation." "per turn end, by unit";
    PlayerWait "player_wait" "longest wait of a player" ["cards" Number 0.25 false] (Friction, tail)
        "Longest run of cards in a row that one player watched the other play." "CardDrawn, by owner, across turn ends";
    // Notice: half a minute more without anything to do is felt; a card takes about two.
    LongestWatch "longest_watch" "longest time a player watches" ["minutes" Number 0.5 false] (Friction, tail)
        "Longest stretch in which one player only watches, by the timing table; work at the turn's end, which both share, neither ends it nor counts." "the other's cards, actions, throws and choices, from one card, shot or choice of one's own to the next";
    CardsPerTurn "cards_per_turn" "cards in a turn" ["cards" Number 0.5 false] (Friction)
        "Cards acted on in a turn, turn-end cards not counted." "CardDrawn over turns";
    FirstContact "first_contact" "first contact" ["turn" Number 0.25 false] (Length, tail)
        "Turn of the first shot, shell or close assault; turns played plus one without any." "first of Fired, GunFired, Shelled, AssaultFought";
    WinnerLosses "winner_losses" "winner's losses" ["share" Number 0.02 false] (Casualties, tail)
        "Men lost, fled or taken on the winning side, over its men at the start; the mean of both sides in a draw." "MenLost, UnitBroke, Captured, GameEnded";
    LoserLosses "loser_losses" "loser's losses" ["share" Number 0.02 false] (Casualties, tail)
        "Men lost, fled or taken on the losing side, over its men at the start; the mean of both sides in a draw." "MenLost, UnitBroke, Captured, GameEnded";
    MenLost "men_lost" "men lost" ["men" Number 1.0 false] (Casualties, tail)
        "Men hit on both sides, those who fled or were taken not counted." "MenLost";
    // Notice: two thirds of what is worth noticing of both sides' men, which two like shares make up.
    AttackerMenLost "attacker_men_lost" "attacker's men lost" ["men" Number 0.7 false] (Casualties, tail)
        "Attacker's men hit, those who fled or were taken not counted." "MenLost";
    DefenderMenLost "defender_men_lost" "defender's men lost" ["men" Number 0.7 false] (Casualties, tail)
        "Defender's men hit, those who fled or were taken not counted." "MenLost";
    UnitsBroken "units_broken" "units broken" ["units" Number 0.25 false] (Friction)
        "Units of both sides that broke and left." "UnitBroke";
    PinsGiven "pins_given" "pins given" ["pins" Number 3.0 false] (Friction)
        "Pins put on units of both sides." "PinsAdded";
    MeanPins "mean_pins" "pins on a unit" ["pins" Number 0.1 false] (Friction)
        "Mean pins on a deployed unit at turn end, after recovery." "per turn end";
    SuppressedUnits "suppressed_units" "units suppressed" ["share" Number 0.02 false] (Friction)
        "Unit-turns that end suppressed, over all unit-turns on the table." "per turn end";
    Rallies "rallies" "rallies" ["rallies" Number 1.0 false] (Friction)
        "Rally actions and rally orders." "Rallied";
    ShotsTaken "shots" "shots" ["shots" Number 2.0 false] (Fire)
        "Shots at units and at armour, late fire not counted." "Fired and GunFired, not late";
    LateShots "late_shots" "late shots" ["shots" Number 2.0 false] (Fire)
        "Shots fired late, at turn end." "Fired, late; GunFired after LateFireBegan";
    RevealedBySpotting "revealed_by_spotting" "revealed by spotting" ["share" Number 0.03 false] (Hidden)
        "Markers revealed by a spotting roll or in plain sight, over all revealed." "MarkerRevealed";
    RevealedByContact "revealed_by_contact" "revealed by contact" ["share" Number 0.03 false] (Hidden)
        "Markers revealed by touching the enemy, over all revealed." "MarkerRevealed";
    RevealedByFire "revealed_by_fire" "revealed by own fire" ["share" Number 0.03 false] (Hidden)
        "Markers revealed by their owner to act as troops, over all revealed." "MarkerRevealed";
    LeadChanges "lead_changes" "lead changes" ["changes" Number 0.15 false] (Course)
        "Times the side ahead changed: on points from turn end to turn end, and to the winner in the end." "Scored, per turn end, GameEnded";
    NoReturn "no_return" "turn of no return" ["share" Number 0.05 false] (Course)
        "Share of the game played when the winner took the lead for the last time." "Scored, GameEnded";
    HalfLeaderWins "half_leader_wins" "leader at half time wins" ["share" Rate 0.03 false] (Course)
        "Whether the side ahead after half of the turns won." "Scored, GameEnded";
    // Notice: 0.03 of drama is a chance of 25 % where it was 27 %, or every tenth winner behind for
    // the first time; the same step is used for the uncertainty.
    Drama "drama" "drama" ["share" Number 0.03 false] (Course)
        "How far behind the winner was while behind: mean of the root of the leader's estimated chance less the winner's, over turn ends at which the winner's was the smaller; 0 when he never was, and in draws." "per turn end but the last: points, objectives held, losses and pins; GameEnded";
    LateUncertainty "late_uncertainty" "late uncertainty" ["share" Number 0.03 false] (Course)
        "How open the game is, later turns weighing more: 1 when both chances to win are estimated as equal, 0 when one is certain." "per turn end but the last, weighed by its number: points, objectives held, losses and pins";
    EndedByBreak "ended_by_break" "ended by a break" ["share" Rate 0.03 false] (Balance)
        "Whether a side broke before the last turn." "GameEnded";
    EndedByAnnihilation "ended_by_annihilation" "ended with nobody left" ["share" Rate 0.03 false] (Balance)
        "Whether a side had nothing left, neither on the table nor hidden." "GameEnded";
    EndedByObjective "ended_by_objective" "ended on points" ["share" Rate 0.03 false] (Balance)
        "Whether the last turn was played, so that points decided: the turn limit cut the game, which might have gone on." "GameEnded";
    Drawn "drawn" "drawn" ["share" Rate 0.02 false] (Balance)
        "Whether the game was a draw." "GameEnded";
    Actions "actions" "actions" ["actions" Number 5.0 false] (Effort, tail)
        "Actions taken by units and markers, and missions of batteries." "UnitMoved, MarkerMoved, SpotTried, Searched, Fired, GunFired, Rallied without a leader, UnitTurned, BogTried, Charged, Dug, Mounted, Dismounted, UnitLeft, BatteryCalled, BatteryAdjusted, BatteryFired";
    // Notice: half of what is worth noticing of both sides' actions, rounded up.
    AttackerActions "attacker_actions" "attacker's actions" ["actions" Number 3.0 false] (Effort, tail)
        "Actions taken by the attacker's units and markers, and missions of his batteries." "as actions, by who acts";
    DefenderActions "defender_actions" "defender's actions" ["actions" Number 3.0 false] (Effort, tail)
        "Actions taken by the defender's units and markers, and missions of his batteries." "as actions, by who acts";
    MenLostToRifles "men_lost_to_rifles" "men lost to rifles" ["men" Number 1.0 false] (Fire)
        "Men hit by sections, assault sections, leaders and observers, of either side." "MenLost after Fired";
    MenLostToMachineGuns "men_lost_to_machine_guns" "men lost to machine guns" ["men" Number 1.0 false] (Fire)
        "Men hit by light and tripod machine guns and by those of carriers, of either side." "MenLost after Fired";
    MenLostToMortars "men_lost_to_mortars" "men lost to mortars" ["men" Number 1.0 false] (Fire)
        "Men hit by light and medium mortars, of either side." "MenLost after Fired";
    MenLostToBatteries "men_lost_to_batteries" "men lost to batteries" ["men" Number 1.0 false] (Batteries)
        "Men hit by shells of off-table batteries, of either side." "MenLost after Shelled";
    MenLostToGuns "men_lost_to_guns" "men lost to guns" ["men" Number 1.0 false] (Fire)
        "Men hit by tanks, assault guns, anti-tank guns and anti-tank teams, and crews hit through their armour." "MenLost after Fired or GunFired";
    MenLostToFlame "men_lost_to_flame" "men lost to flame" ["men" Number 0.5 false] (Fire)
        "Men hit by flame teams, of either side." "MenLost after Fired";
    MenLostToAssault "men_lost_to_assault" "men lost hand to hand" ["men" Number 1.0 false] (Casualties)
        "Men hit in close assault on both sides, prisoners not counted." "MenLost after AssaultFought";
    MenLostToMines "men_lost_to_mines" "men lost to mines" ["men" Number 0.5 false] (Casualties)
        "Men hit by mines." "MenLost after MineStruck";
    SmallArmsShare "small_arms_share" "lost to small arms" ["share" Number 0.03 false] (Fire)
        "Men hit by rifles and machine guns, over all men hit by fire, that is neither hand to hand nor by mines." "MenLost, by the weapon before it";
    ShellShare "shell_share" "lost to mortars and batteries" ["share" Number 0.03 false] (Batteries)
        "Men hit by mortars and batteries, over all men hit by fire, that is neither hand to hand nor by mines." "MenLost, by the weapon before it";
    AssaultShare "assault_share" "lost hand to hand" ["share" Number 0.02 false] (Casualties)
        "Men hit in close assault, over all men hit." "MenLost after AssaultFought";
    OwnFire "own_fire" "lost to own fire" ["men" Number 0.25 false] (Casualties)
        "Men hit by a shot or a battery of their own side." "MenLost after Fired or Shelled of the same side";
    Assaults "assaults" "close assaults" ["assaults" Number 0.5 false] (Casualties)
        "Rushes that came to grips with the enemy." "Charged that reached";
    AssaultsWon "assaults_won" "close assaults won" ["share" Number 0.05 false] (Casualties)
        "Close assaults after which the enemy is gone, taken or thrown back and the unit that rushed stands, over all." "AssaultFought, then UnitLost, UnitBroke, Captured or FellBack";
    Prisoners "prisoners" "prisoners" ["men" Number 0.5 false] (Casualties)
        "Men of both sides taken prisoner." "Captured";
    VehiclesLost "vehicles_lost" "armour lost" ["vehicles" Number 0.2 false] (Armour)
        "Armoured vehicles of both sides knocked out, or left by a crew that broke." "VehicleDamaged, knocked out; UnitBroke";
    // Notice: as for both sides together, less a third, as for men.
    AttackerVehiclesLost "attacker_vehicles_lost" "attacker's armour lost" ["vehicles" Number 0.15 false] (Armour)
        "Armoured vehicles of the attacker knocked out, or left by a crew that broke." "VehicleDamaged, knocked out; UnitBroke";
    DefenderVehiclesLost "defender_vehicles_lost" "defender's armour lost" ["vehicles" Number 0.15 false] (Armour)
        "Armoured vehicles of the defender knocked out, or left by a crew that broke." "VehicleDamaged, knocked out; UnitBroke";
    GunHits "gun_hits" "hits of guns" ["share" Number 0.03 false] (Armour)
        "Shots at armour that hit, over all shots at armour." "GunFired";
    ArmourPierced "armour_pierced" "hits through the armour" ["share" Number 0.03 false] (Armour)
        "Blows on armour that went through, over all." "ArmourStruck";
    Bogged "bogged" "vehicles stuck" ["times" Number 0.2 false] (Armour)
        "Times a vehicle stuck in the ground." "Bogged";
    MinesStruck "mines_struck" "mines struck" ["mines" Number 0.2 false] (Casualties)
        "Mines that went off." "MineStruck";
    Missions "missions" "missions of batteries" ["missions" Number 0.25 false] (Batteries)
        "Times a battery fired shells." "BatteryFired, not smoke";
    Screens "screens" "smoke screens" ["screens" Number 0.25 false] (Batteries)
        "Smoke screens that batteries laid on the table." "BatteryFired, smoke on the table";
    Ambushes "ambushes" "ambushes" ["times" Number 0.25 false] (Hidden)
        "Markers hidden in a feature whose owner had them open fire." "MarkerRevealed, opened fire, hidden in a feature until then";
    FeaturesSearched "features_searched" "features searched" ["features" Number 0.5 false] (Hidden)
        "Searches after which it was known what a feature hides." "Searched that succeeded";
    ReservesArrived "reserves_arrived" "reserves arrive" ["turn" Number 0.25 false] (Friction)
        "Mean turn at whose end reserves came; turns played plus one for one that did not; 0 without reserves." "ReserveTested, GameEnded";
    UnitsLeft "units_left" "units led off" ["units" Number 0.25 false] (Friction)
        "Units that left the table where they were to." "UnitLeft";
    DugIn "dug_in" "units dug in" ["share" Number 0.02 false] (Friction)
        "Unit-turns that end in a hole the unit dug itself, over all unit-turns on the table." "Dug, per turn end";
    Dice "dice" "dice" ["dice" Number 20.0 false] (Effort, tail)
        "Dice rolled." "dice counted by the engine";
    Decisions "decisions" "decisions" ["choices" Number 10.0 false] (Effort, tail)
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
