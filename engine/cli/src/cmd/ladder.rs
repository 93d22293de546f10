//! `ruleshift ladder`: everyone plays everyone from both sides, and the results rank them.

use ruleshift_batch::Progress;
use ruleshift_record::{Metric, RunRecord, TicketNote};
use ruleshift_reports::{self as reports, LadderGames, LadderRow, Outcome};

use super::compare::{cores, interrupted, keep, stopped, together};
use crate::args::LadderArgs;
use crate::bars::Bars;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::wire::{Seated, Setting};
use crate::{resolve, screen, seating};

pub(crate) fn run(args: &LadderArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    let cast = setting.cast()?;
    let pairings = setting.pairings.len() as u32;
    let plan = setting.plan(args.games.saturating_mul(pairings), args.run.seed);
    let folder = Folder::named(args.run.out.as_deref(), "ladder", &plan)?;
    let threads = args.run.threads.map_or_else(cores, usize::from);

    let bars = Bars::new(plan.games(), args.run.quiet);
    let run = ruleshift_batch::run(&plan, &cast, threads, &bars);
    bars.finish();
    let run = run.map_err(|e| Failure::File(format!("threads cannot be started: {e}")))?;

    let summary = reports::rank(&games(&run, args.games));
    let report = reports::build_ladder(&summary);
    folder.keep(&run, &reports::json(&summary), &report)?;
    if args.run.json {
        screen::show(&reports::json(&summary));
    } else if !args.run.quiet {
        screen::show(&reports::terminal(&report, screen::width(), screen::colour()));
        screen::show(&format!("\nWritten to {0}; read {0}/report.html\n", folder.path().display()));
    }
    let ends: Vec<String> =
        interrupted(bars.stopped(), &run).into_iter().chain(stopped(&run)).collect();
    if ends.is_empty() { Ok(()) } else { Err(Failure::Check(ends.join("\n"))) }
}

/// Everything that was typed, with all that is wrong with it at once.
fn setting(args: &LadderArgs) -> Result<Setting, Failure> {
    let mut faults = Vec::new();
    let stack = keep(resolve::stack(&args.rules), &mut faults);
    let scenarios = keep(resolve::scenarios(&args.scenarios), &mut faults);
    let players = seating::named(&args.players, &mut faults);
    if players.as_ref().is_some_and(|players| players.len() == 1) {
        faults.push(Failure::Input("a ladder needs two players or more".to_owned()));
    }
    match (stack, scenarios, players) {
        (Some(stack), Some(scenarios), Some(players)) if faults.is_empty() => Ok(Setting {
            stacks: vec![stack],
            scenarios,
            pairings: seating::each_against_each(&players).into_iter().filter(differ).collect(),
            roster: players.iter().map(|player| player.spec.to_string()).collect(),
            ..Setting::default()
        }),
        _ => Err(together(faults)),
    }
}

/// Whether two players are not the same one: against himself nobody climbs.
fn differ([attacker, defender]: &[Seated; 2]) -> bool {
    attacker.spec != defender.spec
}

/// The games of a run as a ladder counts them.
fn games(run: &RunRecord, games_per_pairing: u32) -> LadderGames {
    let plan = &run.plan;
    let place =
        |name: &str| plan.roster.iter().position(|player| player == name).unwrap_or_default();
    let row = |game: &ruleshift_record::GameRow| {
        let players = plan.players(game.arm, plan.pairing(game.game));
        let outcome = match (game.get(Metric::Drawn) > 0.0, game.get(Metric::AttackerWins) > 0.0) {
            (true, _) => Outcome::Draw,
            (false, true) => Outcome::Attacker,
            (false, false) => Outcome::Defender,
        };
        LadderRow {
            attacker: place(&players.attacker.name),
            defender: place(&players.defender.name),
            scenario: game.scenario,
            seed: game.seed,
            outcome,
        }
    };
    LadderGames {
        rules: plan.rules,
        arm: plan.arms[0].name.clone(),
        players: plan.roster.clone(),
        scenarios: plan.scenarios.iter().map(|scenario| scenario.name.clone()).collect(),
        reference: place(REFERENCE),
        seed: plan.seed,
        games_per_pairing,
        rows: run.games.iter().map(row).collect(),
        tickets: closest(run).into_iter().collect(),
    }
}

/// The player whose strength is 0, when he takes part.
const REFERENCE: &str = "steady";

/// A game worth a look: the closest one.
fn closest(run: &RunRecord) -> Option<TicketNote> {
    let game = run.games.iter().min_by(|one, other| {
        let margin = |game: &ruleshift_record::GameRow| game.get(Metric::Margin).abs();
        margin(one).total_cmp(&margin(other))
    })?;
    Some(TicketNote {
        why: format!("The closest finish, margin {}", game.get(Metric::Margin)),
        arm: run.plan.arms[game.arm].name.clone(),
        ticket: run.ticket(game).to_string(),
    })
}
