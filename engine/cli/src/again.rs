//! A game that can be played again, as often as one likes and with anyone watching.

use ruleshift_batch::{ArmCast, GameEnd, GameId, play_one};
use ruleshift_game::{EventScript, Observer, Paths, Player, RULES_VERSION, Table};
use ruleshift_hooks::Stack;
use ruleshift_players::Weighing;
use ruleshift_record::{PlayerRef, Ticket};
use ruleshift_scenarios::Scenario;

use crate::exit::Failure;
use crate::film::{self, Camera, Take};
use crate::resolve;
use crate::story::{HouseNames, Story};
use crate::wire::{Seated, arm_cast, variant_refs};

/// Everything that decides a game.
pub(crate) struct Again {
    pub(crate) scenario: Scenario,
    pub(crate) stack: Stack,
    pub(crate) rules: ArmCast,
    /// The attacker's player, then the defender's.
    pub(crate) seats: [Seated; 2],
    pub(crate) seed: u64,
}

impl Again {
    /// The game that `ticket` names, and what is not as it was when it was written.
    ///
    /// # Errors
    /// What cannot be found any more.
    pub(crate) fn of(ticket: &Ticket) -> Result<(Again, Vec<String>), Failure> {
        let scenario = resolve::scenario(&ticket.scenario)?;
        let stack = resolve::stack(&ticket.stack_spec())?;
        let seats =
            [resolve::player(&ticket.attacker.name)?, resolve::player(&ticket.defender.name)?];
        let differs = differences(ticket, &scenario, &stack, &seats);
        let rules = arm_cast(&stack)?;
        Ok((Again { scenario, stack, rules, seats, seed: ticket.seed }, differs))
    }

    /// The same game under other rules.
    ///
    /// # Errors
    /// Faults that come about only because one variant of a stack follows another.
    pub(crate) fn under(&self, stack: &Stack) -> Result<Again, Failure> {
        Ok(Again {
            scenario: self.scenario.clone(),
            stack: stack.clone(),
            rules: arm_cast(stack)?,
            seats: self.seats.clone(),
            seed: self.seed,
        })
    }

    /// Both players.
    pub(crate) fn players(&self) -> [Box<dyn Weighing>; 2] {
        let player = |seated: &Seated| seated.strategy.player(&self.rules.rules, self.rules.make());
        [&self.seats[0], &self.seats[1]].map(player)
    }

    /// Someone who tells the game in words.
    pub(crate) fn story(&self, boards: bool) -> Story<'_> {
        let names = HouseNames::of(&self.stack);
        Story::new(&self.scenario.arena, &self.rules.rules, names, boards)
    }

    /// Plays it with those players for that observer.
    pub(crate) fn play(
        &self,
        [mut attacker, mut defender]: [Box<dyn Player + '_>; 2],
        observer: &mut dyn Observer,
    ) -> GameEnd {
        let paths = Paths::new(&self.scenario.arena, &self.rules.rules);
        self.play_on(&self.table(&paths), [&mut *attacker, &mut *defender], observer)
    }

    /// The table it is played on, with ways that were worked out for it.
    pub(crate) fn table<'a>(&'a self, paths: &'a Paths) -> Table<'a> {
        Table { arena: &self.scenario.arena, rules: &self.rules.rules, paths }
    }

    /// As [`Again::play`], on a table that is there already.
    pub(crate) fn play_on(
        &self,
        table: &Table<'_>,
        [attacker, defender]: [&mut dyn Player; 2],
        observer: &mut dyn Observer,
    ) -> GameEnd {
        let mut script = self.rules.script.as_ref().map(|make| make());
        let script: Option<&mut dyn EventScript> = match &mut script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        play_one(GameId { table: *table, seed: self.seed }, script, attacker, defender, observer)
    }

    /// Plays it and takes it down.
    pub(crate) fn film(&self) -> (Take, GameEnd) {
        let mut camera = Camera::new(self.story(false));
        let end = self.play(self.players().map(plain), &mut camera);
        (camera.into_take(), end)
    }

    /// The ticket of the game, which ended with that digest.
    pub(crate) fn ticket(&self, digest: u64) -> Ticket {
        let [attacker, defender]: [PlayerRef; 2] = [self.seats[0].named(), self.seats[1].named()];
        Ticket {
            rules: RULES_VERSION,
            scenario: self.scenario.name.clone(),
            scenario_digest: self.scenario.digest.clone(),
            stack: variant_refs(&self.stack),
            attacker,
            defender,
            seed: self.seed,
            digest,
        }
    }

    /// The title of its rules.
    pub(crate) fn title(&self) -> String {
        let titles: Vec<&str> = self.stack.variants().iter().map(|v| v.title()).collect();
        if titles.is_empty() { "Base rules".to_owned() } else { titles.join(" + ") }
    }

    /// Who plays what, a line for each side.
    pub(crate) fn sides(&self) -> [String; 2] {
        let names = &self.scenario.arena.setup().sides.0;
        let line = |n: usize, side| format!("{side}: {} ({})", names[n].name, self.seats[n].spec);
        [line(0, "Attacker"), line(1, "Defender")]
    }

    /// The table, the places and the forces of a film of it.
    pub(crate) fn set(&self) -> ruleshift_reports::watch::Film {
        let facts = self.sides().into_iter().chain([format!("Seed {:016x}", self.seed)]);
        film::film(&self.scenario.arena, facts.collect())
    }
}

/// A player who is only asked to choose.
pub(crate) fn plain(player: Box<dyn Weighing>) -> Box<dyn Player> {
    player
}

/// What is not as it was when a ticket was written.
fn differences(
    ticket: &Ticket,
    scenario: &Scenario,
    stack: &Stack,
    seats: &[Seated; 2],
) -> Vec<String> {
    let mut differs = Vec::new();
    if ticket.rules != RULES_VERSION {
        differs.push(format!(
            "the ticket is of rules version {}, this program has {RULES_VERSION}",
            ticket.rules
        ));
    }
    let mut changed = |what: &str, name: &str| {
        differs.push(format!("the {what} `{name}` has changed since the ticket was written"));
    };
    if scenario.digest != ticket.scenario_digest {
        changed("scenario", &ticket.scenario);
    }
    for (then, now) in ticket.stack.iter().zip(variant_refs(stack)) {
        if then.digest != now.digest {
            changed("variant", &then.name);
        }
    }
    for (then, now) in [&ticket.attacker, &ticket.defender].into_iter().zip(seats) {
        // Tickets of old name no digest.
        if !then.digest.is_empty() && then.digest != now.named().digest {
            changed("player", &then.name);
        }
    }
    differs
}
