//! The only constructor of script engines.
//!
//! Scripts come from strangers. An engine starts with nothing, is given the library and, for
//! event hooks, the game, and bounds everything a script may use. There is no file, network,
//! clock, thread, printing or randomness to reach; value hooks cannot even reach the game.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use rhai::{AST, Engine, OptimizationLevel, ParseError, Position, Scope, Token};

use crate::constants::Constants;
use crate::{game, library, limits};

/// Words of the language that look like functions and are refused: they build functions from
/// texts, run texts, or ask what the script itself contains.
pub(crate) const FORBIDDEN: &[&str] = &[
    "eval",
    "Fn",
    "call",
    "curry",
    "is_def_fn",
    "is_def_var",
    "is_shared",
    "print",
    "debug",
    "type_of",
    "this",
];

/// An engine for scripts.
pub(crate) struct Sandbox {
    pub(crate) engine: Engine,
    lexer: Rc<RefCell<Lexer>>,
    used: Rc<Cell<u64>>,
}

/// A compiled script.
pub(crate) struct Compiled {
    pub(crate) ast: AST,
    /// Where the name of each function stands, in the order of the text.
    pub(crate) names: Vec<(String, Position)>,
}

/// What the reader of words does beyond reading: it puts numbers in the place of constants, so
/// that they serve wherever a number does, and remembers where functions are named.
#[derive(Default)]
struct Lexer {
    constants: Constants,
    /// Takes unknown upper-case names for constants too.
    lenient: bool,
    last: Last,
    names: Vec<(String, Position)>,
}

#[derive(Clone, Copy, Default, PartialEq)]
enum Last {
    Fn,
    Dot,
    #[default]
    Other,
}

impl Sandbox {
    /// An engine for value hooks: no game, no dice.
    pub(crate) fn for_values() -> Sandbox {
        Sandbox::new(limits::VALUE_OPERATIONS)
    }

    /// An engine for event hooks.
    pub(crate) fn for_events() -> Sandbox {
        let mut sandbox = Sandbox::new(limits::EVENT_OPERATIONS);
        game::register(&mut sandbox.engine);
        sandbox
    }

    fn new(operations: u64) -> Sandbox {
        let mut engine = Engine::new_raw();
        library::register(&mut engine);
        bound(&mut engine, operations);
        for word in FORBIDDEN {
            engine.disable_symbol(*word);
        }
        let used = Rc::new(Cell::new(0));
        let count = Rc::clone(&used);
        engine.on_progress(move |operations| {
            count.set(operations);
            None
        });
        let lexer = Rc::new(RefCell::new(Lexer::default()));
        let reader = Rc::clone(&lexer);
        #[expect(deprecated, reason = "marked so only because it may change")]
        engine.on_parse_token(move |token, position, _| reader.borrow_mut().read(token, position));
        Sandbox { engine, lexer, used }
    }

    /// Compiles a script as it is written, with unknown names left in it.
    pub(crate) fn draft(
        &mut self,
        text: &str,
        constants: &Constants,
        lenient: bool,
    ) -> Result<Compiled, ParseError> {
        self.engine.set_optimization_level(OptimizationLevel::None);
        self.engine.set_strict_variables(false);
        self.compile(text, constants, lenient)
    }

    /// Compiles a script to be run.
    pub(crate) fn finish(
        &mut self,
        text: &str,
        constants: &Constants,
    ) -> Result<Compiled, ParseError> {
        self.engine.set_optimization_level(OptimizationLevel::Simple);
        self.engine.set_strict_variables(true);
        self.compile(text, constants, false)
    }

    fn compile(
        &self,
        text: &str,
        constants: &Constants,
        lenient: bool,
    ) -> Result<Compiled, ParseError> {
        *self.lexer.borrow_mut() =
            Lexer { constants: constants.clone(), lenient, ..Lexer::default() };
        let ast = self.engine.compile_with_scope(&Scope::new(), text)?;
        Ok(Compiled { ast, names: self.lexer.take().names })
    }

    /// Operations of the last call of a hook.
    pub(crate) fn operations_used(&self) -> u64 {
        self.used.take()
    }
}

impl Lexer {
    fn read(&mut self, token: Token, position: Position) -> Token {
        let last = std::mem::take(&mut self.last);
        match token {
            Token::Fn => self.last = Last::Fn,
            Token::Period | Token::Elvis => self.last = Last::Dot,
            Token::Identifier(ref name) if last == Last::Fn => {
                self.names.push((name.to_string(), position));
            }
            Token::Identifier(ref name) if last == Last::Other => {
                if let Some(number) = self.number(name) {
                    return Token::IntegerConstant(number);
                }
            }
            // Reserved by the language and used nowhere in it; options say `default:`.
            Token::Reserved(ref name) if name.as_str() == "default" => {
                return Token::Identifier(name.clone());
            }
            _ => {}
        }
        token
    }

    fn number(&self, name: &str) -> Option<i64> {
        let upper = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_';
        let constant = self.constants.get(name).copied();
        constant.or_else(|| (self.lenient && name.chars().all(upper)).then_some(0))
    }
}

/// Sets every limit and switch: the defaults differ between builds.
fn bound(engine: &mut Engine, operations: u64) {
    engine
        .set_max_operations(operations)
        .set_max_call_levels(limits::CALL_LEVELS)
        .set_max_expr_depths(limits::EXPRESSION_DEPTH, limits::EXPRESSION_DEPTH)
        .set_max_functions(limits::MAX_FUNCTIONS)
        .set_max_variables(limits::MAX_VARIABLES)
        .set_max_array_size(limits::MAX_LIST)
        .set_max_map_size(limits::MAX_MAP)
        .set_max_string_size(limits::MAX_TEXT)
        .set_allow_anonymous_fn(false)
        .set_allow_shadowing(false)
        .set_fail_on_invalid_map_property(true)
        .set_fast_operators(true);
}
