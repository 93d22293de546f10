//! `ruleshift replay`: one game again, told, shown or checked.

use std::path::Path;

use ruleshift_batch::GameEnd;
use ruleshift_record::Ticket;
use ruleshift_reports::watch::watch_page;

use crate::account::page::fold;
use crate::account::{Account, Both, Length};
use crate::again::{Again, plain};
use crate::args::ReplayArgs;
use crate::exit::Failure;
use crate::why::{self, Why};
use crate::{board, film, page, screen};

pub(crate) fn run(args: &ReplayArgs) -> Result<(), Failure> {
    if let Some(path) = &args.html {
        page::check(path)?;
    }
    let ticket = ticket(&args.ticket)?;
    let (again, differs) = Again::of(&ticket)?;
    let game = Game { ticket: &ticket, again, differs };
    if args.verify {
        let end = game.again.play(game.again.players().map(plain), &mut ());
        game.verify(&end)?;
        game.warn();
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
    game.warn();
    match &args.html {
        Some(path) => game.show(path),
        None => game.tell(args),
    }
}

/// The ticket that was typed.
///
/// # Errors
/// What is wrong with it.
pub(crate) fn ticket(typed: &str) -> Result<Ticket, Failure> {
    typed.parse().map_err(|e| Failure::Input(format!("this is no ticket: {e}")))
}

/// The game of a ticket.
struct Game<'a> {
    ticket: &'a Ticket,
    again: Again,
    /// What is not as it was when the ticket was written.
    differs: Vec<String>,
}

impl Game<'_> {
    /// Tells the game: its account, then its story.
    fn tell(&self, args: &ReplayArgs) -> Result<(), Failure> {
        let one = args.why.flatten();
        let boards = !args.no_board && !args.brief && one.is_none();
        let mut story = self.again.story(boards).coloured(screen::colour());
        let mut account = self.account();
        let players = self.again.players();
        let (end, text) = match args.why {
            None => {
                let mut both = Both(&mut story, &mut account);
                let end = self.again.play(players.map(plain), &mut both);
                (end, story.into_text())
            }
            Some(_) => {
                let why = Why::new(story, one);
                let mut listener = why.listen();
                let mut both = Both(&mut listener, &mut account);
                let end = self.again.play(players.map(|player| why.ask(player)), &mut both);
                drop(listener);
                (end, why.into_text().map_err(Failure::Input)?)
            }
        };
        screen::show(&match one {
            Some(_) => self.heading(),
            None if args.brief => self.told(&account, Length::Screen),
            None => self.told(&account, Length::Full),
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
        self.verify(&end)
    }

    /// Someone who takes account of the game.
    fn account(&self) -> Account<'_> {
        let Again { scenario, rules, .. } = &self.again;
        Account::new(&scenario.arena, &rules.rules, self.again.story(false))
    }

    /// The account of the game just played.
    fn told(&self, account: &Account<'_>, length: Length) -> String {
        let players = [&self.ticket.attacker, &self.ticket.defender].map(|p| p.name.as_str());
        account.text(players, &self.ticket.stack_spec(), length)
    }

    /// Writes the page on which the game can be watched.
    fn show(&self, path: &Path) -> Result<(), Failure> {
        let (take, end) = self.again.film();
        let mut film = self.again.set();
        film.reels = vec![film::reel(&self.again, take, &end)];
        page::write(path, &watch_page(&film))?;
        self.verify(&end)
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
        let [attacker, defender] = self.again.sides();
        let (title, rules) = (self.again.scenario.title(), self.ticket.stack_spec());
        format!("{title}\nRules: {rules}\n{attacker}\n{defender}\n")
    }
}
