//! Nothing that happens on the table tells what a marker hides.
//!
//! From many moments of random games two games go on in step: the real one, and one in which the
//! enemy's secrets were dealt anew. Both sides choose the same in both. As long as nothing gives a
//! secret away by right, the side that looks must be told of the very same events in both.

use ruleshift_game::luck::Stream;
use ruleshift_game::{Choice, Event, Game, Observer, Side, State, View};
use ruleshift_scenarios::SHIPPED;

use crate::support::stage::Stage;

const GAMES: u64 = 4;
/// Choices after each of which the two games start.
const APART: u64 = 9;
/// Choices for which they go on in step.
const STEPS: u32 = 40;

/// Notes what a side is told of.
struct Ears {
    side: Side,
    told: Vec<Event>,
}

impl Observer for Ears {
    fn event(&mut self, event: &Event, state: &State) {
        if event.told(self.side, state) {
            self.told.push(*event);
        }
    }
}

/// What must not be done in step: it gives something away by right.
fn gives_away(view: &View<'_>, choice: Choice) -> bool {
    let acting = view.doing().marker.and_then(|marker| view.own_marker(marker));
    let hidden = acting.is_some_and(|marker| marker.feature.is_some());
    match choice {
        Choice::OpenFire | Choice::Call { .. } | Choice::Adjust(_) => true,
        Choice::Move(_) | Choice::Spot(_) | Choice::Search(_) => hidden,
        _ => false,
    }
}

/// Whether an event gives away by right what was hidden, or what comes of it.
fn reveals(event: &Event) -> bool {
    match *event {
        Event::MarkerRevealed { .. } | Event::BatteryFired { .. } | Event::SideTested { .. } => {
            true
        }
        Event::Searched { rolled, needed, .. } => rolled >= needed,
        _ => false,
    }
}

/// What a side can choose in both games, which ask it the same question.
fn common(side: Side, one: &Game<'_>, other: &Game<'_>) -> Vec<Choice> {
    let fits = |choice: &&Choice| {
        other.choices().contains(choice) && !gives_away(&one.view(side), **choice)
    };
    let same = one.view(side).doing() == other.view(side).doing();
    one.choices().iter().filter(|_| same).filter(fits).copied().collect()
}

fn apply(game: &mut Game<'_>, choice: Choice) {
    let place = game.choices().iter().position(|other| *other == choice).expect("it is offered");
    game.apply(place);
}

/// Plays on in step: how many choices were made, and how many events were told alike.
fn in_step(stage: &Stage, state: State, other: State, side: Side, luck: &mut Stream) -> [usize; 2] {
    let (mut here, mut there) = (Ears { side, told: vec![] }, Ears { side, told: vec![] });
    let mut steps = 0;
    {
        let mut real = Game::resume(stage.table(), state, None, &mut here);
        let mut dealt = Game::resume(stage.table(), other, None, &mut there);
        for _ in 0..STEPS {
            let (Some(one), Some(two)) = (real.advance(), dealt.advance()) else { break };
            let choices = if one == two { common(one, &real, &dealt) } else { vec![] };
            if choices.is_empty() {
                break;
            }
            let choice = choices[luck.below(choices.len() as u32) as usize];
            apply(&mut real, choice);
            apply(&mut dealt, choice);
            steps += 1;
        }
    }
    // A move that meets someone ends there, before he is revealed.
    let before = |place: usize| place.saturating_sub(1);
    let until = |told: &[Event]| told.iter().position(reveals).map_or(told.len(), before);
    let shorter = until(&here.told).min(until(&there.told));
    for (one, two) in here.told.iter().zip(&there.told).take(shorter) {
        assert_eq!(one, two, "{side} is told something else, turn {}", state.turn());
    }
    [steps, shorter]
}

#[test]
fn no_event_tells_what_a_marker_hides() {
    for (scenario, _) in SHIPPED {
        let stage = Stage::shipped(scenario);
        let (mut dealt, mut steps, mut told) = (0, 0, 0);
        for seed in 0..GAMES {
            let (mut luck, mut nobody) = (Stream::new(seed), ());
            let mut game = Game::new(stage.table(), seed, None, &mut nobody);
            let mut made = 0;
            while game.advance().is_some() {
                // Of a group that is being placed, half shows already.
                if made % APART == 0 && game.view(Side::Attacker).doing().placing == 0 {
                    let side = Side::ALL[(made / APART % 2) as usize];
                    let state = *game.state();
                    let other = state.dealt_anew(&stage.arena, side, luck.next());
                    dealt += u32::from(other.markers() != state.markers());
                    let [more, alike] = in_step(&stage, state, other, side, &mut luck);
                    (steps, told) = (steps + more, told + alike);
                }
                made += 1;
                game.apply(luck.below(game.choices().len() as u32) as usize);
            }
        }
        assert!(dealt > 50 && steps > 1_000 && told > 1_000, "{scenario}: {dealt} {steps} {told}");
    }
}
