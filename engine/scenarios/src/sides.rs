//! From the form of a side and of an objective to what the game takes.

use ruleshift_game::{BatterySetup, BySide, Feature, GroupSetup, Objective, SideSetup, Start};

use crate::build::Build;
use crate::form::{
    BatteryForm, FeatureForm, GroupForm, ObjectiveForm, PointsForm, SideForm, StartForm,
};
use crate::groups::units;

/// One objective.
pub(crate) fn objective(form: &ObjectiveForm, build: &mut Build) -> Objective {
    let points = |form: &PointsForm| BySide([form.attacker, form.defender]);
    Objective {
        name: form.name.clone(),
        at: build.square(&format!("objective {}", form.name), form.at),
        each_turn: points(&form.each_turn),
        at_end: points(&form.at_end),
        leaving: points(&form.leaving),
        holder: form.holder.map(Into::into),
    }
}

/// One side; `side` names it in faults.
pub(crate) fn side(side: &str, form: &SideForm, build: &mut Build) -> SideSetup {
    SideSetup {
        name: form.name.clone(),
        spots: build.squares(&format!("{side}, spots"), &form.spots),
        groups: form.groups.iter().map(|form| group(side, form, build)).collect(),
        features: form.features.iter().map(|form| feature(side, form, build)).collect(),
        batteries: form.batteries.iter().map(|form| battery(side, form, build)).collect(),
        dummies: form.dummies,
        break_point: form.break_point,
        points: form.points,
    }
}

fn group(side: &str, form: &GroupForm, build: &mut Build) -> GroupSetup {
    let place = format!("{side}, group {}", form.name);
    let start = match &form.start {
        StartForm::Spot => Start::Spot,
        StartForm::Feature => Start::Feature,
        StartForm::Reserve { turn, entries } => Start::Reserve {
            turn: *turn,
            entries: build.squares(&format!("{place}, entries"), entries),
        },
    };
    GroupSetup { name: form.name.clone(), units: units(&place, form, build), start }
}

fn feature(side: &str, form: &FeatureForm, build: &mut Build) -> Feature {
    let at = build.square(&format!("{side}, feature {}", form.name), form.at);
    Feature { name: form.name.clone(), at }
}

fn battery(side: &str, form: &BatteryForm, build: &mut Build) -> BatterySetup {
    let place = format!("{side}, battery {}, registered", form.name);
    BatterySetup {
        name: form.name.clone(),
        response: form.response,
        missions: form.missions,
        smoke: form.smoke,
        registered: build.squares(&place, &form.registered),
    }
}
