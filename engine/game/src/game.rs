//! One game: asks the players, applies what they choose, and tells the observer.
//!
//! [`Game::advance`] plays on until a player must choose and lists the choices; [`Game::apply`]
//! carries one out. Everything that decides how the game goes on is in its [`State`].

use crate::arena::Arena;
use crate::choice::Choice;
use crate::digest::Digest;
use crate::event::{EndCause, Event, Observer};
use crate::happen::House;
use crate::kinds::Side;
use crate::legal::Choices;
use crate::limits::MAX_DECISIONS;
use crate::paths::Paths;
use crate::rules::Rules;
use crate::script::{EventScript, Fault};
use crate::stage::{Mover, Stage};
use crate::state::State;
use crate::view::View;

/// A player of one side.
pub trait Player {
    /// Chooses one of `choices`, of which there are at least two: its place among them. A place
    /// beyond the last counts as the last.
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize;
}

/// What all games of one scenario under one rule stack share.
#[derive(Clone, Copy)]
pub struct Table<'a> {
    /// The scenario.
    pub arena: &'a Arena,
    /// The rules.
    pub rules: &'a Rules,
    /// The ways over the arena under the rules.
    pub paths: &'a Paths,
}

/// How a game ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// Who won; none for a draw.
    pub winner: Option<Side>,
    /// Attacker's points minus defender's.
    pub margin: i16,
    /// Why it ended.
    pub cause: EndCause,
    /// Turns played.
    pub turns: u16,
    /// Digest of the event stream.
    pub digest: u64,
}

/// A game that cannot go on, with the digest of the events until then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Broken {
    /// What went wrong.
    pub fault: Fault,
    /// Turn in which it went wrong.
    pub turn: u16,
    /// Digest of the events so far.
    pub digest: u64,
}

/// One game under way.
pub struct Game<'a> {
    pub(crate) table: Table<'a>,
    pub(crate) state: State,
    pub(crate) house: House<'a>,
    pub(crate) fault: Option<Fault>,
    pub(crate) end: Option<(Option<Side>, i16, EndCause)>,
    observer: &'a mut dyn Observer,
    pub(crate) choices: Choices,
    digest: Digest,
}

impl<'a> Game<'a> {
    /// Sets up game number `seed` on `table`.
    pub fn new(
        table: Table<'a>,
        seed: u64,
        script: Option<&'a mut dyn EventScript>,
        observer: &'a mut dyn Observer,
    ) -> Game<'a> {
        let mut game = Game::resume(table, State::empty(seed), script, observer);
        game.set_up();
        game
    }

    /// Goes on from a state, such as a copy of another game's at the moment when a player is to
    /// choose. The digest counts from here.
    pub fn resume(
        table: Table<'a>,
        state: State,
        script: Option<&'a mut dyn EventScript>,
        observer: &'a mut dyn Observer,
    ) -> Game<'a> {
        Game {
            table,
            state,
            house: House::new(script, &table),
            fault: None,
            end: None,
            observer,
            choices: Choices::default(),
            digest: Digest::new(),
        }
    }

    /// Plays the game to its end.
    ///
    /// # Errors
    /// A fault of the rule stack, which stops the game.
    pub fn play(
        mut self,
        attacker: &mut dyn Player,
        defender: &mut dyn Player,
    ) -> Result<Outcome, Broken> {
        while let Some(side) = self.advance() {
            let player: &mut dyn Player = match side {
                Side::Attacker => &mut *attacker,
                Side::Defender => &mut *defender,
            };
            let place = player.choose(&self.view(side), self.choices.as_slice());
            self.apply(place);
        }
        self.finish()
    }

    /// Plays on until a player must choose between at least two things: whose turn to choose it
    /// is, or nothing when the game is over.
    pub fn advance(&mut self) -> Option<Side> {
        loop {
            if self.state.doing.placing == 0 && self.state.doing.stage != Stage::Over {
                self.tell_aside();
            }
            if self.fault.is_some() || self.state.doing.stage == Stage::Over {
                return None;
            }
            let Some(side) = self.list() else {
                self.step();
                continue;
            };
            match self.choices.as_slice().len() {
                0 => self.leave(),
                1 => self.carry_out(self.choices.as_slice()[0]),
                _ => {
                    self.look_ahead();
                    if self.fault.is_none() {
                        return Some(side);
                    }
                }
            }
        }
    }

    /// What the player may choose between, after [`Game::advance`].
    pub fn choices(&self) -> &[Choice] {
        self.choices.as_slice()
    }

    /// Carries out the choice at `place` among the choices; beyond the last counts as the last.
    pub fn apply(&mut self, place: usize) {
        self.state.tally.decisions += 1;
        if self.state.tally.decisions > MAX_DECISIONS {
            let message =
                format!("the game does not end: more than {MAX_DECISIONS} choices were made");
            self.fault = Some(Fault { message });
            return;
        }
        let choices = self.choices.as_slice();
        self.carry_out(choices[place.min(choices.len() - 1)]);
    }

    /// The game as one side knows it.
    pub fn view(&self, side: Side) -> View<'_> {
        View::new(side, &self.state, &self.table, &self.house.prospects)
    }

    /// Who has won and by how many points, attacker's minus defender's; nothing before the end.
    pub fn result(&self) -> Option<(Option<Side>, i16)> {
        self.end.map(|(winner, margin, _)| (winner, margin))
    }

    /// The whole state, hidden things included: for observers and tests, not for players.
    pub fn state(&self) -> &State {
        &self.state
    }

    fn finish(self) -> Result<Outcome, Broken> {
        let (turns, digest) = (self.state.turn, self.digest.value());
        match (self.fault, self.end) {
            (None, Some((winner, margin, cause))) => {
                Ok(Outcome { winner, margin, cause, turns, digest })
            }
            (fault, _) => {
                let unfinished = || Fault { message: "the game stopped before its end".to_owned() };
                Err(Broken { fault: fault.unwrap_or_else(unfinished), turn: turns, digest })
            }
        }
    }

    /// Lists the choices of whoever is asked next, innermost thing first; nothing when the turn
    /// goes on without a choice.
    fn list(&mut self) -> Option<Side> {
        self.choices.clear();
        crate::legal::list(&self.state, &self.table, &mut self.choices)
    }

    /// Goes on when nobody has anything to choose: the next card, or the next step of turn end.
    fn step(&mut self) {
        match self.state.doing.stage {
            Stage::Start => self.start_turn(),
            Stage::Cards => self.draw_card(),
            Stage::LateFire { .. } => self.late_fire_over(),
            Stage::TurnEnd => self.end_turn(),
            Stage::Over => {}
        }
    }

    /// Leaves the innermost thing, in which there is nothing left to choose.
    fn leave(&mut self) {
        let doing = &mut self.state.doing;
        if doing.placing != 0 {
            doing.placing &= doing.placing - 1;
        } else if doing.asked.is_some() {
            self.answer(None);
        } else if let Some(moving) = doing.moving.take() {
            // Every square within reach is taken: it has rolled and stays.
            self.report_move(moving);
        } else if doing.reaction.is_some() {
            self.next_reaction();
        } else if doing.battery.is_some() {
            doing.battery = None;
        } else if doing.unit.is_some() {
            doing.unit = None;
        } else if doing.leader.is_some() {
            doing.leader = None;
        } else if doing.group.is_some() {
            doing.group = None;
        } else if doing.marker.is_some() {
            doing.marker = None;
        } else if doing.marker_card.is_some() {
            doing.marker_card = None;
        } else {
            self.next_late_fire();
        }
    }

    fn carry_out(&mut self, choice: Choice) {
        let doing = self.state.doing;
        match choice {
            Choice::Done => self.leave(),
            Choice::PlaceAt(cell) => self.place_unit(cell),
            Choice::Stop(steps) => self.stop_move(steps),
            Choice::PickUnit(unit) => self.begin_unit(unit),
            Choice::PickMarker(marker) => {
                self.state.markers[marker as usize].picked = true;
                self.state.doing.marker = Some(marker);
            }
            Choice::Move(heading) => match (doing.unit, doing.leader, doing.marker) {
                (Some(unit), _, _) | (None, Some((unit, _)), _) => {
                    self.begin_move(Mover::Unit(unit), heading);
                }
                (None, None, Some(marker)) => self.begin_move(Mover::Marker(marker), heading),
                (None, None, None) => {}
            },
            Choice::OpenFire => self.open_fire(),
            Choice::Spot(marker) => self.spot(marker),
            Choice::Fire(target) => self.fire_choice(target),
            Choice::Rally => self.rally_itself(),
            Choice::OrderRally(unit) => self.order_rally(unit),
            Choice::OrderAction(unit) => self.order_action(unit),
            Choice::Turn(way) => self.turn_unit(way),
            Choice::Assault(target) => self.assault(target),
            Choice::DigIn => self.dig(),
            Choice::Mount(carrier) => self.mount(carrier),
            Choice::Dismount(way) => self.dismount(way),
            Choice::Call { battery, at, smoke } => self.call_battery(battery, at, smoke),
            Choice::FireBattery => self.fire_battery(),
            Choice::Adjust(battery) => self.adjust_battery(battery),
            Choice::Search(feature) => self.search(feature),
            Choice::Leave => self.leave_table(),
            Choice::HoldFire => self.hold_fire(),
            Choice::Answer(chosen) => self.answer(Some(chosen)),
        }
    }

    /// Tells the observer and the digest what happened.
    pub(crate) fn emit(&mut self, event: Event) {
        event.digest(&mut self.digest);
        self.put_aside(&event);
        self.observer.event(&event, &self.state);
    }

    pub(crate) fn emit_note(&mut self, line: &str) {
        let mut digest = Digest::new();
        digest.text(line);
        self.emit(Event::Noted { text: digest.value() as u32 });
        self.observer.note(line);
    }
}
