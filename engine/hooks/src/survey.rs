//! What a compiled script consists of: its functions, and the calls and names in them.

use rhai::{AST, ASTNode, Expr, Position, Stmt};

use crate::sandbox::Compiled;

/// One function of a script.
#[derive(Clone, Debug)]
pub(crate) struct Defined {
    pub(crate) name: String,
    pub(crate) params: Vec<String>,
    pub(crate) private: bool,
    /// Where its name stands.
    pub(crate) at: Position,
    /// Whether nothing stands between its braces.
    pub(crate) empty: bool,
    /// Where its body starts and ends.
    body: (Position, Position),
}

/// A call of a function.
#[derive(Clone, Debug)]
pub(crate) struct Call {
    pub(crate) name: String,
    pub(crate) args: usize,
    /// Whether it is written `value.name(...)`.
    pub(crate) method: bool,
    /// The plain name before the dot: `game` in `game.roll()`.
    pub(crate) of: Option<String>,
    /// Its first argument, when that is a number or a constant.
    pub(crate) first: Option<i64>,
    pub(crate) at: Position,
    /// Place in [`Survey::functions`] of the function it stands in.
    pub(crate) inside: Option<usize>,
}

/// A name that stands alone, or behind the name of a value.
#[derive(Clone, Debug)]
pub(crate) struct Named {
    pub(crate) name: String,
    /// The value it is a property of: `game` in `game.turn`.
    pub(crate) of: Option<String>,
    pub(crate) at: Position,
    /// Place in [`Survey::functions`] of the function it stands in.
    pub(crate) inside: Option<usize>,
}

/// The whole script.
#[derive(Debug, Default)]
pub(crate) struct Survey {
    /// In the order of the text.
    pub(crate) functions: Vec<Defined>,
    pub(crate) calls: Vec<Call>,
    /// Names that no variable, argument or constant explains.
    pub(crate) unknown: Vec<Named>,
    /// Variables where they are made.
    pub(crate) variables: Vec<Named>,
    /// Variables and arguments that are read.
    pub(crate) reads: Vec<Named>,
    /// Properties of plain names.
    pub(crate) properties: Vec<Named>,
    /// Texts with letters that nobody sees, written as `\x1b` and the like.
    pub(crate) steering: Vec<Position>,
    /// Statements outside functions.
    pub(crate) top_level: Vec<Position>,
}

impl Survey {
    pub(crate) fn of(compiled: &Compiled) -> Survey {
        let mut survey = Survey { functions: functions(compiled), ..Survey::default() };
        let statements: &[Stmt] = compiled.ast.as_ref();
        survey.top_level = statements.iter().map(Stmt::position).collect();
        compiled.ast.walk(&mut |path: &[ASTNode]| {
            survey.visit(path);
            true
        });
        survey.sort();
        survey
    }

    /// Into the order of the text: functions are walked in an order that differs between builds.
    fn sort(&mut self) {
        self.calls.sort_by_key(|call| call.at);
        for names in [&mut self.unknown, &mut self.variables, &mut self.reads, &mut self.properties]
        {
            names.sort_by_key(|named| named.at);
        }
        self.steering.sort_unstable();
    }

    fn visit(&mut self, path: &[ASTNode]) {
        let Some(node) = path.last() else { return };
        let inside = self.inside(node.position());
        if let Some(function) = inside {
            self.functions[function].empty = false;
        }
        match node {
            ASTNode::Expr(expr) => self.expression(expr, path, inside),
            ASTNode::Stmt(Stmt::FnCall(call, at)) => self.call(call, None, *at, inside),
            ASTNode::Stmt(Stmt::Var(var, ..)) => {
                let (name, at) = (var.0.name.to_string(), var.0.pos);
                self.variables.push(Named { name, of: None, at, inside });
            }
            _ => {}
        }
    }

    fn expression(&mut self, expr: &Expr, path: &[ASTNode], inside: Option<usize>) {
        match expr {
            Expr::FnCall(call, at) => self.call(call, None, *at, inside),
            Expr::StringConstant(text, at) if text.chars().any(crate::letters::steers) => {
                self.steering.push(*at);
            }
            Expr::MethodCall(call, at) => self.call(call, Some(path), *at, inside),
            Expr::Variable(name, None, at) if name.0.is_none() => {
                let name = name.1.to_string();
                self.unknown.push(Named { name, of: None, at: *at, inside });
            }
            Expr::Variable(name, _, at) => {
                let name = name.1.to_string();
                self.reads.push(Named { name, of: None, at: *at, inside });
            }
            Expr::Property(name, at) => {
                let of = path.iter().rev().nth(1).and_then(owner);
                self.properties.push(Named { name: name.2.to_string(), of, at: *at, inside });
            }
            _ => {}
        }
    }

    /// A call; of a method with the path to it.
    fn call(
        &mut self,
        call: &rhai::FnCallExpr,
        method: Option<&[ASTNode]>,
        at: Position,
        inside: Option<usize>,
    ) {
        if !call.is_operator_call() {
            let of = method.and_then(|path| path.iter().rev().nth(1)).and_then(owner);
            let first = match call.args.first() {
                Some(Expr::IntegerConstant(number, _)) => Some(*number),
                _ => None,
            };
            let (name, args, method) = (call.name.to_string(), call.args.len(), method.is_some());
            self.calls.push(Call { name, args, method, of, first, at, inside });
        }
    }

    /// The function a position lies in.
    pub(crate) fn inside(&self, at: Position) -> Option<usize> {
        if at.is_none() {
            return None;
        }
        self.functions.iter().position(|f| f.body.0 <= at && at <= f.body.1)
    }

    /// The function of that name, whatever its arguments.
    pub(crate) fn function(&self, name: &str) -> Option<&Defined> {
        self.functions.iter().find(|f| f.name == name)
    }

    /// Whether a function reads one of its variables or arguments.
    pub(crate) fn reads(&self, function: &str, name: &str) -> bool {
        let of = |read: &Named| read.inside.is_some_and(|n| self.functions[n].name == function);
        self.reads.iter().any(|read| read.name == name && of(read))
    }

    /// For each function, whether one of `roots` calls it, directly or not. Its bare name counts
    /// for a call: that is a fault of its own.
    pub(crate) fn reached(&self, roots: impl Fn(&Defined) -> bool) -> Vec<bool> {
        let mut reached: Vec<bool> = self.functions.iter().map(roots).collect();
        let calls = self.calls.iter().map(|call| (&call.name, call.inside));
        let names = self.unknown.iter().map(|named| (&named.name, named.inside));
        let uses: Vec<(&String, Option<usize>)> = calls.chain(names).collect();
        loop {
            let before = reached.clone();
            for (name, _) in uses.iter().filter(|(_, inside)| inside.is_some_and(|n| before[n])) {
                for (function, reached) in self.functions.iter().zip(&mut reached) {
                    *reached |= function.name == **name;
                }
            }
            if reached == before {
                return reached;
            }
        }
    }
}

/// The plain name before the dot, when the path is at a property right behind it.
fn owner(node: &ASTNode) -> Option<String> {
    let ASTNode::Expr(Expr::Dot(parts, ..)) = node else { return None };
    match &parts.lhs {
        Expr::Variable(name, ..) => Some(name.1.to_string()),
        _ => None,
    }
}

fn functions(compiled: &Compiled) -> Vec<Defined> {
    let mut functions: Vec<Defined> = compiled
        .ast
        .iter_fn_def()
        .map(|function| {
            let body = (function.body.start_position(), function.body.end_position());
            // The last place of that name before the body: overloads share a name.
            let names = compiled
                .names
                .iter()
                .filter(|(name, at)| *name == function.name.as_str() && *at <= body.0);
            Defined {
                name: function.name.to_string(),
                params: function.params.iter().map(ToString::to_string).collect(),
                private: function.access == rhai::FnAccess::Private,
                at: names.map(|(_, at)| *at).next_back().unwrap_or(body.0),
                empty: true,
                body,
            }
        })
        .collect();
    functions.sort_by_key(|function| function.body.0);
    functions
}

/// The only statement of a function, when it is an expression.
pub(crate) fn only_expression(ast: &AST, function: &Defined) -> Option<Expr> {
    let mut statements = Vec::new();
    ast.walk(&mut |path: &[ASTNode]| {
        if let [ASTNode::Stmt(statement)] = path
            && (function.body.0..=function.body.1).contains(&statement.position())
        {
            statements.push((*statement).clone());
        }
        true
    });
    match statements.as_slice() {
        [Stmt::Expr(expr)] => Some((**expr).clone()),
        _ => None,
    }
}
