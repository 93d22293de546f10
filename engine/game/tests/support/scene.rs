//! A builder of small scenes.

use std::ops::Range;

use ruleshift_game::cell::CELLS;
use ruleshift_game::{
    Arena, BySide, Cell, Game, Ground, GroupSetup, Hook, Kind, Objective, Observer, Outcome, Paths,
    Player, Quality, Rules, Setup, Side, SideSetup, Start, Table, UnitSetup,
};

use super::Record;

/// A regular unit.
pub(crate) fn unit(kind: Kind, men: u8) -> UnitSetup {
    UnitSetup {
        name: kind.label().to_owned(),
        kind,
        quality: Quality::Regular,
        men,
        grade: 0,
        armour: [0; 3],
        gun: None,
    }
}

/// A regular leader with his runner.
pub(crate) fn leader(grade: u8) -> UnitSetup {
    UnitSetup { grade, ..unit(Kind::Leader, 2) }
}

/// A scene in the making: open ground, one objective in the middle, nobody on the table.
#[derive(Clone)]
pub(crate) struct Scene {
    pub(crate) setup: Setup,
    pub(crate) rules: Rules,
}

impl Scene {
    pub(crate) fn new() -> Scene {
        let side = |name: &str| SideSetup {
            name: name.to_owned(),
            break_point: 100,
            ..SideSetup::default()
        };
        Scene {
            setup: Setup {
                title: "Trial ground".to_owned(),
                ground: vec![Ground::Open; CELLS],
                sides: BySide([side("Reeds"), side("Stones")]),
                guns: vec![],
                objectives: vec![],
                turn_limit: 3,
            },
            rules: Rules::base(),
        }
        .objective((36, 24), [0, 0], [0, 0], None)
    }

    pub(crate) fn turns(mut self, turns: u8) -> Scene {
        self.setup.turn_limit = turns;
        self
    }

    pub(crate) fn ground(mut self, kind: Ground, xs: Range<u8>, ys: Range<u8>) -> Scene {
        for cell in Cell::all().filter(|cell| xs.contains(&cell.x) && ys.contains(&cell.y)) {
            self.setup.ground[cell.index()] = kind;
        }
        self
    }

    pub(crate) fn objective(
        mut self,
        at: (u8, u8),
        each_turn: [u8; 2],
        at_end: [u8; 2],
        holder: Option<Side>,
    ) -> Scene {
        self.setup.objectives.push(Objective {
            name: "the mill".to_owned(),
            at: Cell { x: at.0, y: at.1 },
            each_turn: BySide(each_turn),
            at_end: BySide(at_end),
            leaving: BySide([0; 2]),
            holder,
        });
        self
    }

    /// Leaves the scene without the objective it starts with.
    pub(crate) fn no_objective(mut self) -> Scene {
        self.setup.objectives.clear();
        self
    }

    /// Adds a group and a spot, which is the group's own when it is the side's only one.
    pub(crate) fn group(mut self, side: Side, at: (u8, u8), units: &[UnitSetup]) -> Scene {
        let setup = &mut self.setup.sides[side];
        let name = format!("Group {}", setup.groups.len() + 1);
        setup.groups.push(GroupSetup { name, units: units.to_vec(), start: Start::Spot });
        setup.spots.push(Cell { x: at.0, y: at.1 });
        self
    }

    /// Adds a dummy and a spot.
    pub(crate) fn dummy(mut self, side: Side, at: (u8, u8)) -> Scene {
        self.setup.sides[side].dummies += 1;
        self.setup.sides[side].spots.push(Cell { x: at.0, y: at.1 });
        self
    }

    pub(crate) fn break_point(mut self, side: Side, percent: u8) -> Scene {
        self.setup.sides[side].break_point = percent;
        self
    }

    /// Changes one rule.
    pub(crate) fn rule(mut self, hook: Hook, answer: impl Fn(i32, &[i32]) -> i32) -> Scene {
        let changed = self.rules.change(hook, |now, args| Ok::<_, ()>(answer(now, args).into()));
        changed.expect("no error is made").expect("the answer is in range");
        self
    }

    /// Lets every card of every turn be drawn: no turn-end card ends a turn.
    pub(crate) fn all_cards(self) -> Scene {
        self.rule(Hook::TurnEnds, |_, _| 0)
    }

    pub(crate) fn ready(self) -> Ready {
        let arena = Arena::new(self.setup).expect("the scene is sound");
        let paths = Paths::new(&arena, &self.rules);
        Ready { arena, rules: self.rules, paths }
    }

    /// Plays one game and keeps all of it.
    pub(crate) fn play(
        self,
        seed: u64,
        attacker: &mut dyn Player,
        defender: &mut dyn Player,
    ) -> Record {
        let ready = self.ready();
        let mut record = Record::default();
        ready.play(seed, attacker, defender, &mut record);
        record
    }
}

/// A scene ready to be played.
pub(crate) struct Ready {
    pub(crate) arena: Arena,
    pub(crate) rules: Rules,
    pub(crate) paths: Paths,
}

impl Ready {
    /// The same map and forces under other rules; lines of sight are not worked out again.
    pub(crate) fn under(&self, rules: Rules) -> Ready {
        let arena = self.arena.clone();
        Ready { paths: Paths::new(&arena, &rules), arena, rules }
    }

    pub(crate) fn table(&self) -> Table<'_> {
        Table { arena: &self.arena, rules: &self.rules, paths: &self.paths }
    }

    pub(crate) fn play(
        &self,
        seed: u64,
        attacker: &mut dyn Player,
        defender: &mut dyn Player,
        observer: &mut dyn Observer,
    ) -> Outcome {
        let game = Game::new(self.table(), seed, None, observer);
        game.play(attacker, defender).unwrap_or_else(|broken| panic!("seed {seed}: {broken:?}"))
    }
}
