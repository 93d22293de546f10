//! Event hooks: the scripts of a rule stack, ready to be called by one worker.

use std::mem::swap;

use rhai::{AST, CallFnOptions, Dynamic, EvalAltResult, FuncArgs, Position, Scope};
use ruleshift_game::{
    EVENT_HOOKS, EventScript, EventSpec, Fault, Handle, Happening, Part as Share,
};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Diagnostics, Id};
use crate::evaluate::dynamic;
use crate::fault::Running;
use crate::game::Game;
use crate::limits::{EVENT_OPERATIONS, GAME_OPERATIONS};
use crate::sandbox::Sandbox;
use crate::source::Source;

/// The event hooks of one variant.
struct Part {
    source: Source,
    ast: AST,
    /// For each event hook the variant has, where its name stands.
    hooks: [Option<Position>; EVENT_HOOKS.len()],
    /// Its cards and counters among those of the stack.
    own: Share,
}

/// The event hooks of a rule stack.
pub(crate) struct StackScript {
    sandbox: Sandbox,
    scope: Scope<'static>,
    game: Game,
    parts: Vec<Part>,
    /// Operations left in this game.
    left: u64,
}

impl StackScript {
    pub(crate) fn new() -> StackScript {
        StackScript {
            sandbox: Sandbox::for_events(),
            scope: Scope::new(),
            game: Game::default(),
            parts: Vec::new(),
            left: GAME_OPERATIONS,
        }
    }

    /// Adds the event hooks `hooks` of a script behind the others.
    pub(crate) fn add(
        &mut self,
        source: &Source,
        constants: &Constants,
        hooks: &[usize],
        own: Share,
    ) -> Result<(), Diagnostics> {
        let compiled = self.sandbox.finish(&source.text, constants).map_err(|error| {
            Diagnostics::new(source, vec![crate::syntax::diagnostic(source, &error, constants)])
        })?;
        let mut places = [None; EVENT_HOOKS.len()];
        for &hook in hooks {
            let named = |(name, _): &&(String, Position)| name == EVENT_HOOKS[hook].name;
            places[hook] = compiled.names.iter().find(named).map(|(_, at)| *at);
        }
        self.parts.push(Part { source: source.clone(), ast: compiled.ast, hooks: places, own });
        Ok(())
    }

    /// Calls the hooks for `happening`, with the diagnostic of the first fault.
    pub(crate) fn run(
        &mut self,
        happening: Happening,
        handle: &mut Handle,
    ) -> Result<(), (usize, Box<Diagnostic>)> {
        swap(&mut *self.game.0.borrow_mut(), handle);
        let result = self.run_parts(happening);
        swap(&mut *self.game.0.borrow_mut(), handle);
        result
    }

    fn run_parts(&mut self, happening: Happening) -> Result<(), (usize, Box<Diagnostic>)> {
        let spec = &EVENT_HOOKS[happening.index()];
        for n in 0..self.parts.len() {
            let part = &self.parts[n];
            let (Some(at), Some(happening)) =
                (part.hooks[happening.index()], for_part(happening, part.own))
            else {
                continue;
            };
            let values = happening.arguments();
            self.game.0.borrow_mut().serve(part.own);
            let call = Arguments { spec, game: &self.game, values: &values };
            let options = CallFnOptions::new().eval_ast(false);
            let engine = &self.sandbox.engine;
            let result: Result<Dynamic, Box<EvalAltResult>> =
                engine.call_fn_with_options(options, &mut self.scope, &part.ast, spec.name, call);
            let used = self.sandbox.operations_used();
            let call = || call_text(spec, &values);
            if let Err(error) = result {
                let (source, operations) = (&part.source, EVENT_OPERATIONS);
                let diagnostic =
                    Running { source, call: call(), at, operations }.diagnostic(&error);
                return Err((n, Box::new(diagnostic)));
            }
            match self.left.checked_sub(used) {
                Some(left) => self.left = left,
                None => return Err((n, Box::new(exhausted(&part.source, &call(), at)))),
            }
        }
        Ok(())
    }
}

/// A happening as the script with these cards is told of it: extra cards by its own numbers, and
/// those of other scripts not at all.
fn for_part(happening: Happening, own: Share) -> Option<Happening> {
    let own_card = |card: u8| card.checked_sub(own.first_card).filter(|&card| card < own.cards);
    Some(match happening {
        Happening::ExtraCard { card, owner } => {
            Happening::ExtraCard { card: own_card(card)?, owner }
        }
        Happening::Chosen { card, owner, chosen } => {
            Happening::Chosen { card: own_card(card)?, owner, chosen }
        }
        other => other,
    })
}

fn exhausted(source: &Source, call: &str, at: Position) -> Diagnostic {
    let headline = format!(
        "all event hooks together took more than {GAME_OPERATIONS} operations in one game, the last ones for `{call}`"
    );
    Diagnostic::new(Id::Budget, source, at, headline)
        .help("do less in each call, or in fewer of them")
}

impl EventScript for StackScript {
    fn begin(&mut self) {
        self.left = GAME_OPERATIONS;
    }

    fn listens(&self, index: usize) -> bool {
        self.parts.iter().any(|part| part.hooks.get(index).is_some_and(Option::is_some))
    }

    fn call(&mut self, happening: Happening, handle: &mut Handle) -> Result<(), Fault> {
        self.run(happening, handle).map_err(|(part, diagnostic)| {
            let diagnostics = Diagnostics::new(&self.parts[part].source, vec![*diagnostic]);
            Fault { message: diagnostics.render(false) }
        })
    }
}

/// The arguments of one call.
struct Arguments<'a> {
    spec: &'a EventSpec,
    game: &'a Game,
    values: &'a [i32],
}

impl FuncArgs for Arguments<'_> {
    fn parse<ARGS: Extend<Dynamic>>(self, container: &mut ARGS) {
        let game = Dynamic::from(self.game.clone());
        let values = self.values.iter().zip(self.spec.args).map(|(&v, a)| dynamic(a.domain, v));
        container.extend(std::iter::once(game).chain(values));
    }
}

fn call_text(spec: &EventSpec, values: &[i32]) -> String {
    let mut parts = vec!["game".to_owned()];
    let named = values.iter().zip(spec.args);
    parts.extend(named.map(|(&value, arg)| format!("{} = {}", arg.name, arg.domain.show(value))));
    format!("{}({})", spec.name, parts.join(", "))
}
