//! `ruleshift replay`: one game again, told, shown or checked.

use std::path::Path;

use ruleshift_batch::GameEnd;
use ruleshift_record::Ticket;
use ruleshift_reports::watch::watch_page;

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
    game.warn();
    if args.verify {
        let end = game.again.play(game.again.players().map(plain), &mut ());
        game.verify(&end)?;
        screen::show(&format!(
            "The game is the one of the ticket: digest {:016x}.\n",
            ticket.digest
        ));
        return Ok(());
    }
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
    /// Tells the story.
    fn tell(&self, args: &ReplayArgs) -> Result<(), Failure> {
        let one = args.why.flatten();
        let boards = !args.no_board && one.is_none();
        let mut story = self.again.story(boards);
        let players = self.again.players();
        let (end, text) = match args.why {
            None => {
                let end = self.again.play(players.map(plain), &mut story);
                (end, story.into_text())
            }
            Some(_) => {
                let why = Why::new(story, one);
                let end = self.again.play(players.map(|p| why.ask(p)), &mut why.listen());
                (end, why.into_text().map_err(Failure::Input)?)
            }
        };
        screen::show(&self.heading());
        if args.why.is_some() {
            screen::show(&format!("\n{}\n", why::LEGEND));
        }
        if boards {
            screen::show(&format!("{}\n", board::legend()));
        }
        screen::show(&text);
        if let GameEnd::Faulted { fault, .. } = &end {
            screen::show(&format!("\nThe game stopped: {fault}\n"));
        }
        self.verify(&end)
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
        format!("{title}\n{attacker}  {defender}  Rules: {rules}\n")
    }
}
