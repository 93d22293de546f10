//! `ruleshift replay`: one game again, told or checked.

use ruleshift_batch::{GameEnd, GameId, play_one};
use ruleshift_game::{EventScript, Observer, Paths, RULES_VERSION, Table};
use ruleshift_hooks::Stack;
use ruleshift_record::Ticket;
use ruleshift_scenarios::Scenario;

use crate::args::ReplayArgs;
use crate::exit::Failure;
use crate::story::{HouseNames, Story};
use crate::wire::{Seated, arm_cast, variant_refs};
use crate::{board, resolve, screen};

pub(crate) fn run(args: &ReplayArgs) -> Result<(), Failure> {
    let ticket: Ticket =
        args.ticket.parse().map_err(|e| Failure::Input(format!("this is no ticket: {e}")))?;
    let parts = Parts::of(&ticket)?;
    if args.verify {
        let end = parts.play(&mut ());
        parts.verify(&end)?;
        parts.warn();
        screen::show(&format!(
            "The game is the one of the ticket: digest {:016x}.\n",
            ticket.digest
        ));
        return Ok(());
    }
    parts.warn();
    let names = HouseNames::of(&parts.stack);
    let mut story = Story::new(&parts.scenario.arena, &parts.rules.rules, names, !args.no_board);
    let end = parts.play(&mut story);
    screen::show(&parts.heading());
    if !args.no_board {
        screen::show(&format!("{}\n", board::legend()));
    }
    screen::show(&story.into_text());
    if let GameEnd::Faulted { fault, .. } = &end {
        screen::show(&format!("\nThe game stopped: {fault}\n"));
    }
    parts.verify(&end)
}

/// Everything a ticket names, found again.
struct Parts<'a> {
    ticket: &'a Ticket,
    scenario: Scenario,
    stack: Stack,
    rules: ruleshift_batch::ArmCast,
    attacker: Seated,
    defender: Seated,
    /// What is not as it was when the ticket was written.
    differs: Vec<String>,
}

impl<'a> Parts<'a> {
    fn of(ticket: &'a Ticket) -> Result<Parts<'a>, Failure> {
        let mut differs = Vec::new();
        if ticket.rules != RULES_VERSION {
            differs.push(format!(
                "the ticket is of rules version {}, this program has {RULES_VERSION}",
                ticket.rules
            ));
        }
        let scenario = resolve::scenario(&ticket.scenario)?;
        if scenario.digest != ticket.scenario_digest {
            differs.push(format!(
                "the scenario `{}` has changed since the ticket was written",
                ticket.scenario
            ));
        }
        let stack = resolve::stack(&ticket.stack_spec())?;
        for (then, now) in ticket.stack.iter().zip(variant_refs(&stack)) {
            if then.digest != now.digest {
                differs.push(format!(
                    "the variant `{}` has changed since the ticket was written",
                    then.name
                ));
            }
        }
        let (attacker, defender) =
            (resolve::player(&ticket.attacker.name)?, resolve::player(&ticket.defender.name)?);
        for (then, now) in [(&ticket.attacker, &attacker), (&ticket.defender, &defender)] {
            // Tickets of old name no digest.
            if !then.digest.is_empty() && then.digest != now.named().digest {
                differs.push(format!(
                    "the player `{}` has changed since the ticket was written",
                    then.name
                ));
            }
        }
        Ok(Parts { ticket, scenario, rules: arm_cast(&stack)?, stack, attacker, defender, differs })
    }

    fn play(&self, observer: &mut dyn Observer) -> GameEnd {
        let rules = &self.rules.rules;
        let paths = Paths::new(&self.scenario.arena, rules);
        let table = Table { arena: &self.scenario.arena, rules, paths: &paths };
        let mut script = self.rules.script.as_ref().map(|make| make());
        let script: Option<&mut dyn EventScript> = match &mut script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        let player = |seated: &Seated| seated.strategy.player(rules, self.rules.make());
        let (mut attacker, mut defender) = (player(&self.attacker), player(&self.defender));
        let id = GameId { table, seed: self.ticket.seed };
        play_one(id, script, &mut *attacker, &mut *defender, observer)
    }

    /// Says what has changed since: the story to be read may not be the ticket's.
    fn warn(&self) {
        for differs in &self.differs {
            screen::remark(&format!("warning: {differs}"));
        }
    }

    /// Whether the game just played is the ticket's; if not, what may be why.
    fn verify(&self, end: &GameEnd) -> Result<(), Failure> {
        let (GameEnd::Finished(digest) | GameEnd::Faulted { digest, .. }) = end;
        if *digest == self.ticket.digest {
            return Ok(());
        }
        let why = if self.differs.is_empty() {
            "engine, scenario, variants and players are the same: the ticket is damaged".to_owned()
        } else {
            self.differs.join("; ")
        };
        let (there, here) = (self.ticket.digest, digest);
        Err(Failure::Check(format!(
            "this is not the game of the ticket (digest {there:016x}, here {here:016x}): {why}"
        )))
    }

    fn heading(&self) -> String {
        let setup = self.scenario.arena.setup();
        format!(
            "{}\nAttacker: {} ({})  Defender: {} ({})  Rules: {}\n",
            setup.title,
            setup.sides.0[0].name,
            self.ticket.attacker.name,
            setup.sides.0[1].name,
            self.ticket.defender.name,
            self.ticket.stack_spec()
        )
    }
}
