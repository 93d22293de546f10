//! Where the work is done that used up the allowance of a call. The engine forgets the place of
//! an error about a limit, so it is looked for in the text. So is what gives no answer.

use rhai::{ASTNode, Position, Stmt};

use crate::constants::Constants;
use crate::diagnostic::Id;
use crate::sandbox::{Compiled, Sandbox};
use crate::source::Source;
use crate::survey::Survey;

/// The place of the loop or call that must have brought about a fault of that kind in the hook,
/// when the text leaves no doubt.
pub(crate) fn culprit(source: &Source, hook: &str, id: Id) -> Option<Position> {
    // Only places are wanted, so any number does for a constant.
    let mut sandbox = Sandbox::for_values();
    let compiled = sandbox.draft(&source.text, &Constants::new(), true).ok()?;
    let survey = Survey::of(&compiled);
    let reached = survey.reached(|function| function.name == hook);
    let within = |at: Position| survey.inside(at).is_some_and(|function| reached[function]);
    match id {
        Id::Budget | Id::Size => {
            let mut loops = Vec::new();
            compiled.ast.walk(&mut |path: &[ASTNode]| {
                loops.extend(outermost_loop(path).filter(|at| within(*at)));
                true
            });
            the_only_one(loops)
        }
        Id::Depth => first_of_the_cycle(&survey, &reached),
        _ => None,
    }
}

/// Why a hook may answer nothing.
pub(crate) fn nothing(compiled: &Compiled, hook: &str) -> String {
    let survey = Survey::of(compiled);
    let reached = survey.reached(|function| function.name == hook);
    let within = |at: Position| survey.inside(at).is_some_and(|function| reached[function]);
    let mut open = Vec::new();
    compiled.ast.walk(&mut |path: &[ASTNode]| {
        if let Some(ASTNode::Stmt(Stmt::Switch(parts, at))) = path.last()
            && parts.1.def_case.is_none()
            && within(*at)
        {
            open.push(*at);
        }
        true
    });
    open.into_iter().min().and_then(Position::line).map_or_else(
        || "the last expression is the answer, and an `if` needs its `else`".to_owned(),
        |line| {
            format!(
                "the `switch` on line {line} gives nothing in other cases: end it with `_ => now`"
            )
        },
    )
}

/// The loop at the end of a path, unless another one holds it.
fn outermost_loop(path: &[ASTNode]) -> Option<Position> {
    let place = |node: &ASTNode| match node {
        ASTNode::Stmt(Stmt::While(_, at) | Stmt::Do(_, _, at) | Stmt::For(_, at)) => Some(*at),
        _ => None,
    };
    let (last, before) = path.split_last()?;
    place(last).filter(|_| before.iter().all(|node| place(node).is_none()))
}

fn the_only_one(mut places: Vec<Position>) -> Option<Position> {
    places.sort_unstable();
    places.dedup();
    match places[..] {
        [place] => Some(place),
        _ => None,
    }
}

/// The first call, in the order of the text, by which a function comes back to itself.
fn first_of_the_cycle(survey: &Survey, reached: &[bool]) -> Option<Position> {
    let returns = |call: &&crate::survey::Call| {
        let Some(caller) = call.inside.filter(|&function| reached[function]) else { return false };
        let caller = &survey.functions[caller].name;
        let from_called = survey.reached(|function| function.name == call.name);
        let functions = survey.functions.iter().zip(from_called);
        functions.filter(|(_, reached)| *reached).any(|(function, _)| function.name == *caller)
    };
    survey.calls.iter().filter(returns).map(|call| call.at).min()
}
