//! What the reader of a tuning must keep in mind.

use ruleshift_record::{RunRecord, TuneShape, TuneStanding, TuneSummary};

use super::headline::plain;
use crate::format::and;
use crate::summarise::of_games;

pub(super) fn caveats(run: &RunRecord, summary: &TuneSummary) -> Vec<String> {
    let mut caveats = of_games(run);
    caveats.extend(shape(summary));
    caveats.extend(behind(summary));
    if summary.scenarios.len() > 1 {
        caveats.push(
            "The mean is that over all scenarios with as many games in each; a single scenario may \
             need another value."
                .to_owned(),
        );
    }
    caveats
}

/// A shape that was asserted and is refuted.
fn shape(summary: &TuneSummary) -> Option<String> {
    let said = match summary.shape {
        TuneShape::Any => return None,
        TuneShape::Rising => "never falls",
        TuneShape::Falling => "never rises",
    };
    (!summary.shape_holds).then(|| {
        format!(
            "It was said that the metric {said} as the option rises. The games refute it, so it was \
             not used."
        )
    })
}

/// Settings that stayed open without all their games.
fn behind(summary: &TuneSummary) -> Option<String> {
    let most = summary.settings.iter().map(|setting| setting.games).max()?;
    let open =
        |s: &&ruleshift_record::TuneSetting| s.standing == TuneStanding::Open && s.games < most;
    let names: Vec<String> =
        summary.settings.iter().filter(open).map(|setting| plain(setting.value)).collect();
    (!names.is_empty()).then(|| {
        format!(
            "Open with fewer games than others, since the answer did not hang on them: {}.",
            and(&names)
        )
    })
}
