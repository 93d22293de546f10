//! Everything that scenarios may name: force lists and the armoury.

use std::sync::OnceLock;

use ruleshift_game::Kind;

use crate::armoury::Armoury;
use crate::form::UnitForm;
use crate::lists::{ForceFile, ForceList};
use crate::nearest::unknown;
use crate::text::read;

/// The armoury and the force lists that come with the program.
pub(crate) const TEXTS: (&str, [&str; 4]) = (
    include_str!("../forces/armoury.ron"),
    [
        include_str!("../forces/united-states.ron"),
        include_str!("../forces/british.ron"),
        include_str!("../forces/german.ron"),
        include_str!("../forces/soviet.ron"),
    ],
);

/// Force lists and armoury together.
#[derive(Clone, Debug)]
pub(crate) struct Library {
    pub(crate) armoury: Armoury,
    pub(crate) lists: Vec<ForceList>,
}

/// What a list holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Men who come on the table.
    pub(crate) on_table: u16,
    /// Men who do not.
    pub(crate) others: u16,
    /// Units.
    pub(crate) units: u16,
    /// Vehicles.
    pub(crate) vehicles: u16,
    /// Units that are a weapon and its crew.
    pub(crate) weapons: u16,
}

impl Library {
    /// The lists that come with the program.
    pub(crate) fn shipped() -> &'static Library {
        static SHIPPED: OnceLock<Library> = OnceLock::new();
        SHIPPED.get_or_init(|| {
            let (armoury, forces) = TEXTS;
            Library::read(armoury, &forces).expect("shipped lists are tested")
        })
    }

    /// Reads an armoury and the force lists of some nations.
    ///
    /// # Errors
    /// Where a text is not of its form.
    pub(crate) fn read(armoury: &str, forces: &[&str]) -> Result<Library, String> {
        let mut lists = Vec::new();
        for text in forces {
            let file: ForceFile = read(text)?;
            let nation = |list| ForceList { nation: file.nation.clone(), ..list };
            lists.extend(file.lists.into_iter().map(nation));
        }
        Ok(Library { armoury: read(armoury)?, lists })
    }

    /// The force list of that name.
    ///
    /// # Errors
    /// The nearest name, and all there are.
    pub(crate) fn list(&self, name: &str) -> Result<&ForceList, String> {
        let names = self.lists.iter().map(|list| list.name.as_str());
        let found = self.lists.iter().find(|list| list.name == name);
        found.ok_or_else(|| unknown("force list", name, names))
    }

    /// What a list holds, its parts included; a part or a vehicle that does not exist counts
    /// nothing.
    pub(crate) fn tally(&self, list: &ForceList) -> Tally {
        let mut tally =
            Tally { others: list.others.iter().map(|o| o.men).sum(), ..Tally::default() };
        for unit in &list.units {
            tally.add(self.tally_unit(unit), unit.count);
        }
        for part in &list.parts {
            if let Ok(inner) = self.list(&part.list) {
                tally.add(self.tally(inner), part.count);
            }
        }
        tally
    }

    fn tally_unit(&self, unit: &UnitForm) -> Tally {
        let class = unit.vehicle.as_ref().and_then(|name| self.armoury.vehicle(name).ok());
        let men = unit.men.or(class.map(|class| class.crew)).unwrap_or_default();
        let weapon = unit.kind.map(Kind::from).is_some_and(is_crewed_weapon);
        Tally {
            on_table: men.into(),
            units: 1,
            vehicles: class.is_some().into(),
            weapons: weapon.into(),
            ..Tally::default()
        }
    }
}

impl Tally {
    fn add(&mut self, other: Tally, count: i32) {
        let count = u16::try_from(count).unwrap_or_default();
        self.on_table += other.on_table * count;
        self.others += other.others * count;
        self.units += other.units * count;
        self.vehicles += other.vehicles * count;
        self.weapons += other.weapons * count;
    }
}

fn is_crewed_weapon(kind: Kind) -> bool {
    let crewed = [
        Kind::LightGun,
        Kind::TripodGun,
        Kind::LightMortar,
        Kind::MediumMortar,
        Kind::AntiTankTeam,
        Kind::AntiTankGun,
    ];
    crewed.contains(&kind)
}

/// The guns and vehicles that come with the program.
pub fn armoury() -> &'static Armoury {
    &Library::shipped().armoury
}
