//! The digest of a scenario: what its file says, and what the lists and the armoury made of it.

use ruleshift_game::{Digest, Gun, Setup, UnitSetup};

use crate::form::ScenarioForm;

/// 8 hexadecimal digits. Comments and layout do not count; a list or a gun that is not used does
/// not count either, but one that is used and changes does.
pub(crate) fn digest(form: &ScenarioForm, setup: &Setup) -> String {
    let mut digest = Digest::new();
    digest.text(&ron::to_string(form).expect("a form holds only plain data"));
    for group in setup.sides.0.iter().flat_map(|side| &side.groups) {
        digest.word(group.units.len() as u64);
        group.units.iter().for_each(|unit| add_unit(&mut digest, unit));
    }
    setup.guns.iter().for_each(|gun| add_gun(&mut digest, gun));
    digest.short()
}

fn add_unit(digest: &mut Digest, unit: &UnitSetup) {
    digest.text(&unit.name);
    digest.text(unit.kind.label());
    digest.text(unit.quality.label());
    digest.word(unit.men.into());
    digest.word(unit.grade.into());
    unit.armour.iter().for_each(|&plate| digest.word(plate.into()));
    digest.word(unit.gun.map_or(u64::MAX, u64::from));
}

fn add_gun(digest: &mut Digest, gun: &Gun) {
    digest.text(&gun.name);
    gun.penetration.iter().for_each(|&plate| digest.word(plate.into()));
    digest.word(gun.shaped.into());
}
