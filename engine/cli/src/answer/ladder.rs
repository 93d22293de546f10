//! The games of a run as a ladder counts them.

use ruleshift_record::{Metric, RunRecord, TicketNote};
use ruleshift_reports::{LadderGames, LadderRow, Outcome};

/// The games of a run as a ladder counts them.
pub(super) fn games(run: &RunRecord) -> LadderGames {
    let plan = &run.plan;
    let games_per_pairing = plan.games_per_arm / plan.pairings.len() as u32;
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
        rows: run.games.rows().iter().map(row).collect(),
        tickets: closest(run).into_iter().collect(),
    }
}

/// The player whose strength is 0, when he takes part.
const REFERENCE: &str = "steady";

/// A game worth a look: the closest one.
fn closest(run: &RunRecord) -> Option<TicketNote> {
    let rows = run.games.rows();
    let game = rows.iter().min_by(|one, other| {
        let margin = |game: &ruleshift_record::GameRow| game.get(Metric::Margin).abs();
        margin(one).total_cmp(&margin(other))
    })?;
    Some(TicketNote {
        why: format!("The closest finish, margin {}", game.get(Metric::Margin)),
        arm: run.plan.arms[game.arm].name.clone(),
        ticket: run.ticket(game).to_string(),
    })
}
