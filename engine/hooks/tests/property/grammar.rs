//! Scripts grown from random numbers: by the grammar right, by their meaning mostly.
//!
//! A script is a function of a tape of numbers, and an empty tape gives the plainest one, so that
//! proptest finds a short script for a fault.

use std::sync::LazyLock;

use ruleshift_game::{Arg, Domain, EVENT_HOOKS, HOOKS, HookSpec};
use ruleshift_hooks::reference;

/// Members of `game` as the reference writes them: `game.pins(unit)`.
static MEMBERS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let reference = reference();
    let lines = reference.lines().filter_map(|line| line.strip_prefix("| `game."));
    lines.filter_map(|line| Some(line.split_once('`')?.0.to_owned())).collect()
});

/// Constants, in the order of the reference.
static CONSTANTS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let reference = reference();
    let (_, table) = reference.split_once("### Constants").expect("the reference lists constants");
    table.split('`').skip(1).step_by(2).map(str::to_owned).collect()
});

/// Random numbers, 0 when they are used up.
pub(crate) struct Tape<'a> {
    numbers: std::slice::Iter<'a, u16>,
}

/// What an expression may name.
struct Scope {
    numbers: Vec<String>,
    flags: Vec<String>,
    /// Helpers that may be called, with the number of their arguments.
    helpers: usize,
}

impl<'a> Tape<'a> {
    pub(crate) fn new(numbers: &'a [u16]) -> Tape<'a> {
        Tape { numbers: numbers.iter() }
    }

    fn below(&mut self, count: usize) -> usize {
        usize::from(*self.numbers.next().unwrap_or(&0)) % count.max(1)
    }

    fn of<'b>(&mut self, list: &'b [String]) -> &'b str {
        let place = self.below(list.len());
        list.get(place).map_or("1", String::as_str)
    }

    /// A whole script.
    pub(crate) fn script(&mut self) -> String {
        let options = self.below(3);
        let mut text = about(options);
        let helpers = self.below(3);
        for helper in 0..helpers {
            let scope = Scope::new(["a", "b"], [], helper, options);
            let body = self.body(&scope, |tape, scope| tape.number(scope, 3));
            text += &format!("private fn helper{helper}(a, b) {{ {body} }}\n");
        }
        let mut used = Vec::new();
        for _ in 0..1 + self.below(4) {
            let hook = self.below(HOOKS.len());
            if !used.contains(&hook) {
                used.push(hook);
                text += &self.value_hook(&HOOKS[hook], helpers, options);
            }
        }
        for hook in &EVENT_HOOKS {
            if self.below(4) == 1 {
                let args: Vec<&str> = hook.args.iter().map(|arg| arg.name).collect();
                let acts: Vec<String> = (0..=self.below(4))
                    .map(|_| self.act(&Scope::of(hook.args, helpers, options)))
                    .collect();
                let args = args.iter().fold("game".to_owned(), |all, arg| format!("{all}, {arg}"));
                text += &format!("fn {}({args}) {{ {} }}\n", hook.name, acts.join(" "));
            }
        }
        text
    }

    fn value_hook(&mut self, hook: &HookSpec, helpers: usize, options: usize) -> String {
        let mut scope = Scope::of(hook.args, helpers, options);
        let now = if hook.result == Domain::Flag { &mut scope.flags } else { &mut scope.numbers };
        now.insert(0, "now".to_owned());
        let body = self.body(&scope, |tape, scope| tape.answer(hook.result, scope));
        format!("fn {} {{ {body} }}\n", hook.signature())
    }

    /// An answer in range, but for one in many.
    fn answer(&mut self, range: Domain, scope: &Scope) -> String {
        match range {
            Domain::Flag => self.flag(scope, 3),
            Domain::Int(low, high) if self.below(12) != 11 => {
                format!("clamp({}, {low}, {high})", self.number(scope, 3))
            }
            Domain::Int(..) => self.number(scope, 2),
            Domain::Named(names) => {
                let (yes, no) = (self.below(names.len()), self.below(names.len()));
                format!("if {} {{ {} }} else {{ {} }}", self.flag(scope, 2), names[yes], names[no])
            }
        }
    }

    /// A few statements before an answer.
    fn body(&mut self, scope: &Scope, answer: impl FnOnce(&mut Self, &Scope) -> String) -> String {
        let mut scope =
            Scope { numbers: scope.numbers.clone(), flags: scope.flags.clone(), ..*scope };
        let mut text = String::new();
        for n in 0..self.below(3) {
            text += &format!("let x{n} = {}; ", self.number(&scope, 2));
            scope.numbers.push(format!("x{n}"));
            let more = self.number(&scope, 1);
            text += &match self.below(5) {
                1 => format!("for n{n} in 0..{} {{ x{n} += {more}; }} ", self.below(6)),
                2 => format!("while x{n} > {more} {{ x{n} -= 1 + abs(x{n} / 2); }} "),
                3 => format!("try {{ x{n} = {more}; }} catch {{ x{n} = 0; }} "),
                4 => {
                    format!("let l{n} = [x{n}, {more}]; if {more} in l{n} {{ x{n} = len(l{n}); }} ")
                }
                _ => String::new(),
            };
        }
        text += &answer(self, &scope);
        text
    }

    fn number(&mut self, scope: &Scope, depth: usize) -> String {
        if depth == 0 {
            return match self.below(8) {
                0..=3 => self.of(&scope.numbers).to_owned(),
                4 => self.of(&CONSTANTS).to_owned(),
                7 => ["-1", "1000000", "4611686018427387904"][self.below(3)].to_owned(),
                _ => self.below(12).to_string(),
            };
        }
        let deeper = depth - 1;
        let part = |tape: &mut Self| tape.number(scope, deeper);
        let (a, b) = (part(self), part(self));
        match self.below(40) {
            0 => a,
            1 => format!("({a} - {b})"),
            2 => format!("({a} * {b})"),
            3 => format!("({a} / max({b}, 1))"),
            4 => format!("({a} % max({b}, 1))"),
            5 => format!("min({a}, {b})"),
            6 => format!("abs({a})"),
            7 => format!("clamp({a}, 0, {})", self.below(20)),
            8 => format!("switch {a} {{ 0 => {b}, 1 | 2 => {a}, _ => 3 }}"),
            9 if scope.helpers > 0 => format!("helper{}({a}, {b})", self.below(scope.helpers)),
            10 => format!("sign({a})"),
            11 => format!("(if {} {{ {a} }} else {{ {b} }})", self.flag(scope, deeper)),
            12 => format!("({a} / {b})"),
            _ => format!("({a} + {b})"),
        }
    }

    fn flag(&mut self, scope: &Scope, depth: usize) -> String {
        if depth == 0 {
            let flags = &scope.flags;
            return if flags.is_empty() { "true".to_owned() } else { self.of(flags).to_owned() };
        }
        let (a, b) = (self.number(scope, depth - 1), self.number(scope, depth - 1));
        match self.below(8) {
            0 => self.flag(scope, depth - 1),
            1 => format!("{a} < {b}"),
            2 => format!("{a} == {b}"),
            3 => format!("!({})", self.flag(scope, depth - 1)),
            4 => format!("({a} > 2 && {})", self.flag(scope, depth - 1)),
            5 => format!("({a} > 2 || {})", self.flag(scope, depth - 1)),
            6 => format!("is_odd({a})"),
            _ => format!("{a} in 0..{b}"),
        }
    }

    /// A statement that asks or does something in the game.
    fn act(&mut self, scope: &Scope) -> String {
        let member = self.of(&MEMBERS).to_owned();
        let (name, args) = member.trim_end_matches(')').split_once('(').unwrap_or((&member, ""));
        let values: Vec<String> = args
            .split(", ")
            .filter(|arg| !arg.is_empty())
            .map(|arg| match (arg, self.below(10)) {
                (_, 9) => self.number(scope, 1),
                ("unit" | "other" | "leader" | "target", _) => "u".to_owned(),
                ("text", _) => format!("`turn ${{game.turn}} ${{{}}}`", self.number(scope, 1)),
                ("side" | "owner", part) => ["ATTACKER", "DEFENDER"][part % 2].to_owned(),
                ("card", _) => "GUST".to_owned(),
                ("counter", _) => "TALLY".to_owned(),
                (_, part) => part.to_string(),
            })
            .collect();
        let call = match member.contains('(') {
            true => format!("game.{name}({})", values.join(", ")),
            false => format!("game.{name}"),
        };
        match self.below(6) {
            0 => format!("{{ let u = {}; let got = {call}; }}", self.below(12)),
            1 => format!("if game.roll() > 4 {{ let u = {}; {call}; }}", self.below(12)),
            _ => format!(
                "for u in 0..game.units {{ if game.on_table(u) && {} {{ {call}; }} }}",
                self.flag(scope, 1)
            ),
        }
    }
}

impl Scope {
    fn new<const N: usize, const F: usize>(
        numbers: [&str; N],
        flags: [&str; F],
        helpers: usize,
        options: usize,
    ) -> Scope {
        let options = (0..options).map(|n| format!("OPTION{n}"));
        let numbers = numbers.map(str::to_owned).into_iter().chain(options).collect();
        Scope { numbers, flags: flags.map(str::to_owned).to_vec(), helpers }
    }

    fn of(args: &[Arg], helpers: usize, options: usize) -> Scope {
        let mut scope = Scope::new([], [], helpers, options);
        for arg in args {
            let list =
                if arg.domain == Domain::Flag { &mut scope.flags } else { &mut scope.numbers };
            list.push(arg.name.to_owned());
        }
        scope
    }
}

/// A card and a counter of the script's own.
const OWN: &str =
    "cards: #{ gust: #{ title: \"Gust\", about: \"wind\" } }, counters: #{ tally: \"gusts\" }";

fn about(options: usize) -> String {
    let options: String = (0..options)
        .map(|n| format!("option{n}: #{{ default: {n}, min: 0, max: 9, about: \"one\" }}, "))
        .collect();
    format!(
        "fn about() {{ #{{ title: \"Grown\", summary: \"By chance.\", {OWN}, options: #{{ {options} }} }} }}\n"
    )
}
