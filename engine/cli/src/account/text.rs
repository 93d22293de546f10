//! The account in its parts, each under its head: the outcome first, then how it came about.

use ruleshift_game::{Side, State};

use super::Account;
use super::page::fold;
use super::{course, forces};

/// How much an account tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Length {
    /// What fits one screen.
    Screen,
    /// All there is.
    Full,
}

impl Length {
    /// Units and batteries told of for the harm they did.
    pub(super) fn deeds(self) -> usize {
        match self {
            Length::Screen => 3,
            Length::Full => 6,
        }
    }

    /// Turning points told, and how many more if they weigh half as much as the heaviest.
    pub(super) fn turns(self) -> [usize; 2] {
        match self {
            Length::Screen => [3, 0],
            Length::Full => [3, 3],
        }
    }
}

/// Lines under a head.
struct Part {
    head: String,
    lines: Vec<String>,
}

impl Account<'_> {
    /// The account in lines of at most eighty columns: `players` are the names of who played, the
    /// attacker's first, `stack` that of the rules.
    pub(crate) fn text(&self, players: [&str; 2], stack: &str, length: Length) -> String {
        let mut parts = vec![self.outcome(stack), self.situation(players, length)];
        if let Some(state) = &self.last {
            parts.extend(self.told(state, length));
        }
        let part = |Part { head, lines }: &Part| {
            let lines = lines.iter().map(|line| fold(line) + "\n");
            fold(head) + "\n" + lines.collect::<String>().as_str()
        };
        parts.iter().map(part).collect::<Vec<_>>().join("\n")
    }

    /// Who won and why, under the title.
    fn outcome(&self, stack: &str) -> Part {
        let mut lines = vec![format!("Rules: {stack}")];
        match (&self.ending, &self.last) {
            (Some(ending), Some(state)) => {
                lines.extend(ending.lines(&self.turns, self.field, state));
            }
            _ => lines.push("The game was stopped before it was over.".to_owned()),
        }
        lines.extend(self.house.line().map(|line| format!("{line}.")));
        Part { head: self.things.arena.setup().title.clone(), lines }
    }

    fn situation(&self, players: [&str; 2], length: Length) -> Part {
        let (arena, rules) = (self.things.arena, self.things.rules);
        let mut lines = match length {
            Length::Screen => vec![],
            Length::Full => forces::situation(arena, rules),
        };
        let force = |(&side, player)| forces::force(arena, side, player, length);
        lines.extend(Side::ALL.iter().zip(players).map(force));
        let turns = rules.turn_limit(arena.setup().turn_limit);
        let what = match length {
            Length::Screen => "forces",
            Length::Full => "situation",
        };
        Part { head: format!("The {what}, with {turns} turns at most"), lines }
    }

    fn told(&self, state: &State, length: Length) -> Vec<Part> {
        let course = match length {
            Length::Screen => "The course: the turns that weighed most",
            Length::Full => course::RULE,
        };
        let dice =
            self.ending.map_or_else(String::new, |end| format!("{} dice in all; ", end.dice));
        let luck = format!("How luck fell ({dice}± as chance has it in two games of three)");
        let harm = "Who did the harm: men hit, men driven off or taken, vehicles, pins";
        [
            ("How it opened", self.opening.lines(&self.things, state)),
            (course, course::lines(&self.turns, &self.things, state, length)),
            (harm, self.deeds.lines(&self.things, state, length)),
            ("Men and vehicles lost", self.losses.lines(state)),
            (&luck, self.luck.lines()),
        ]
        .map(|(head, lines)| Part { head: head.to_owned(), lines })
        .into()
    }
}
