//! `ruleshift replay`: one game again, told or checked.

use ruleshift_batch::{GameEnd, GameId, play_one};
use ruleshift_game::{EventScript, Observer, Paths, Player, RULES_VERSION, Table};
use ruleshift_hooks::Stack;
use ruleshift_players::Weighing;
use ruleshift_record::Ticket;
use ruleshift_scenarios::Scenario;

use crate::account::page::fold;
use crate::account::{Account, Both};
use crate::args::ReplayArgs;
use crate::exit::Failure;
use crate::story::{HouseNames, Story};
use crate::why::{self, Why};
use crate::wire::{Seated, arm_cast, variant_refs};
use crate::{board, resolve, screen};

pub(crate) fn run(args: &ReplayArgs) -> Result<(), Failure> {
    let ticket: Ticket =
        args.ticket.parse().map_err(|e| Failure::Input(format!("this is no ticket: {e}")))?;
    let parts = Parts::of(&ticket)?;
    if args.verify {
        let end = parts.play(parts.players().map(plain), &mut ());
        parts.verify(&end)?;
        parts.warn();
        screen::show(&format!(
            "The game is the one of the ticket: digest {:016x}.\n",
            ticket.digest
        ));
        return Ok(());
    }
    if args.brief && args.why.is_some() {
        return Err(Failure::Input(
            "`--brief` tells the game in one screen, which has no room for decisions: leave out \
             `--brief` or `--why`"
                .to_owned(),
        ));
    }
    parts.warn();
    let one = args.why.flatten();
    let boards = !args.no_board && !args.brief && one.is_none();
    let mut story = parts.story(boards).coloured(screen::colour());
    let mut account = parts.account();
    let (end, text) = match args.why {
        None => {
            let mut both = Both(&mut story, &mut account);
            let end = parts.play(parts.players().map(plain), &mut both);
            (end, story.into_text())
        }
        Some(_) => {
            let why = Why::new(story, one);
            let mut listener = why.listen();
            let mut both = Both(&mut listener, &mut account);
            let end = parts.play(parts.players().map(|player| why.ask(player)), &mut both);
            drop(listener);
            (end, why.into_text().map_err(Failure::Input)?)
        }
    };
    screen::show(&match one {
        Some(_) => parts.heading(),
        None => parts.told(&account),
    });
    if !args.brief {
        if args.why.is_some() {
            screen::show(&format!("\n{}\n", fold(why::LEGEND)));
        }
        if boards {
            screen::show(&format!("\n{}\n", board::legend()));
        }
        screen::show(&text);
    }
    if let GameEnd::Faulted { fault, .. } = &end {
        screen::show(&format!("\nThe game stopped: {fault}\n"));
    }
    parts.verify(&end)
}

/// A player who is only asked to choose.
fn plain(player: Box<dyn Weighing>) -> Box<dyn Player> {
    player
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

    fn players(&self) -> [Box<dyn Weighing>; 2] {
        let player = |seated: &Seated| seated.strategy.player(&self.rules.rules, self.rules.make());
        [&self.attacker, &self.defender].map(player)
    }

    fn story(&self, boards: bool) -> Story<'_> {
        let names = HouseNames::of(&self.stack);
        Story::new(&self.scenario.arena, &self.rules.rules, names, boards)
    }

    fn account(&self) -> Account<'_> {
        Account::new(&self.scenario.arena, &self.rules.rules, self.story(false))
    }

    /// The account of the game just played.
    fn told(&self, account: &Account<'_>) -> String {
        let players = [&self.ticket.attacker, &self.ticket.defender].map(|p| p.name.as_str());
        account.text(players, &self.ticket.stack_spec())
    }

    fn play(
        &self,
        [mut attacker, mut defender]: [Box<dyn Player + '_>; 2],
        observer: &mut dyn Observer,
    ) -> GameEnd {
        let rules = &self.rules.rules;
        let paths = Paths::new(&self.scenario.arena, rules);
        let table = Table { arena: &self.scenario.arena, rules, paths: &paths };
        let mut script = self.rules.script.as_ref().map(|make| make());
        let script: Option<&mut dyn EventScript> = match &mut script {
            Some(script) => Some(&mut **script),
            None => None,
        };
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
        let (title, players) = (&setup.title, [&self.ticket.attacker, &self.ticket.defender]);
        format!(
            "{title}\nRules: {}\nAttacker: {} ({})\nDefender: {} ({})\n",
            self.ticket.stack_spec(),
            setup.sides.0[0].name,
            players[0].name,
            setup.sides.0[1].name,
            players[1].name
        )
    }
}
