//! One unit: what its line says, with what its vehicle or its gun brings.

use ruleshift_game::{Kind, Quality, UnitSetup};

use crate::armoury::VehicleClass;
use crate::build::Build;
use crate::form::UnitForm;
use crate::names::QualityName;

/// The unit of a line, called after its vehicle, its gun or its kind; or nothing, when faults have
/// been told. `quality` is that of its group.
pub(crate) fn unit(
    group: &str,
    quality: Option<QualityName>,
    form: &UnitForm,
    build: &mut Build,
) -> Option<UnitSetup> {
    let place = place(group, form);
    let quality = form.quality.or(quality).map_or(Quality::Regular, Quality::from);
    let library = build.library;
    let Some(name) = &form.vehicle else { return on_foot(&place, quality, form, build) };
    let class = build.found(&place, library.armoury.vehicle(name));
    if form.kind.is_some() || form.gun.is_some() {
        let message = "a vehicle brings its kind and its gun: leave `kind` and `gun` out";
        build.fault(&place, message);
    }
    vehicle(&place, quality, class?, form, build)
}

fn place(group: &str, form: &UnitForm) -> String {
    let kind = form.kind.map(|kind| Kind::from(kind).label());
    let name = Some(form.name.as_str()).filter(|name| !name.is_empty());
    let name = name.or(form.vehicle.as_deref()).or(kind).unwrap_or("without a name");
    format!("{group}, unit {name}")
}

fn vehicle(
    place: &str,
    quality: Quality,
    class: &VehicleClass,
    form: &UnitForm,
    build: &mut Build,
) -> Option<UnitSetup> {
    let library = build.library;
    let entry = class.gun.as_ref().map(|name| library.armoury.gun(name, false)).transpose();
    let gun = build.found(place, entry)?.map(|entry| build.gun(entry));
    Some(UnitSetup {
        name: class.name.clone(),
        kind: class.kind,
        quality,
        men: form.men.unwrap_or(class.crew),
        grade: form.grade,
        armour: class.armour,
        gun,
    })
}

/// A unit that is no vehicle of the armoury.
fn on_foot(place: &str, quality: Quality, form: &UnitForm, build: &mut Build) -> Option<UnitSetup> {
    let kind = form.kind.map(Kind::from);
    if kind.is_some_and(is_classed) {
        build.fault(place, format_args!("no `vehicle`, expected one of {}", classes(kind, build)));
        return None;
    }
    if form.men.is_none() {
        build.fault(place, "no `men`, expected 1 to 13");
    }
    let kind = build.found(place, kind.ok_or("expected a `kind` or a `vehicle`".to_owned()))?;
    let gun = gun(kind, form, build);
    let gun = build.found(place, gun);
    let name = form.gun.as_deref().filter(|_| kind == Kind::AntiTankGun).unwrap_or(kind.label());
    Some(UnitSetup {
        name: name.to_owned(),
        kind,
        quality,
        men: form.men?,
        grade: form.grade,
        armour: [0; 3],
        gun: gun?,
    })
}

/// Whether a unit of this kind has to be a vehicle of the armoury: without armour or a gun it
/// would be none.
fn is_classed(kind: Kind) -> bool {
    matches!(kind, Kind::Tank | Kind::AssaultGun | Kind::Carrier)
}

/// The names of the vehicles of a kind.
fn classes(kind: Option<Kind>, build: &Build) -> String {
    let classes = build.library.armoury.vehicles.iter().filter(|class| Some(class.kind) == kind);
    classes.map(|class| class.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// The gun of a unit that is no vehicle; most have none.
fn gun(kind: Kind, form: &UnitForm, build: &mut Build) -> Result<Option<u8>, String> {
    let armoury = &build.library.armoury;
    let hand_held = kind == Kind::AntiTankTeam;
    let has_gun = hand_held || kind == Kind::AntiTankGun;
    match &form.gun {
        Some(name) if has_gun => armoury.gun(name, hand_held).map(|entry| Some(build.gun(entry))),
        Some(name) => Err(format!("the gun `{name}`, expected none for a {kind}")),
        None if has_gun => {
            let fitting = armoury.guns.iter().filter(|gun| gun.hand_held == hand_held);
            let names: Vec<&str> = fitting.map(|gun| gun.name.as_str()).collect();
            Err(format!("no `gun`, expected one of {}", names.join(", ")))
        }
        None => Ok(None),
    }
}
