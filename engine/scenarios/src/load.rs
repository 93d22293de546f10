//! From the text of a scenario file to an arena, with all faults at once.

use std::fmt;

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{
    Arena, BySide, Cell, Digest, Ground, GroupSetup, Kind, Objective, Quality, Setup, Side,
    SideSetup, UnitSetup,
};

use crate::form::{
    GroundName, KindName, ObjectiveForm, PieceForm, Point, PointsForm, QualityName, ScenarioForm,
    SideForm, SideName, UnitForm,
};
use crate::shape::{along, inside};

/// A scenario ready to be played.
#[derive(Clone)]
pub struct Scenario {
    /// Name or path, as the user gave it.
    pub name: String,
    /// What it is about, in one or two sentences.
    pub about: String,
    /// Digest of its content, 8 hexadecimal digits; comments and layout do not count.
    pub digest: String,
    /// Map and forces.
    pub arena: Arena,
}

/// Everything that is wrong with a scenario file, a line each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScenarioError {
    /// The file or shipped name.
    pub name: String,
    /// The faults.
    pub faults: Vec<String>,
}

impl fmt::Display for ScenarioError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "scenario {} cannot be played:", self.name)?;
        self.faults.iter().try_for_each(|fault| write!(f, "\n  {fault}"))
    }
}

impl std::error::Error for ScenarioError {}

impl Scenario {
    /// Reads a scenario from RON text.
    ///
    /// # Errors
    /// Where the text is not RON of the right form; or else everything that is wrong with it.
    pub fn from_ron(name: &str, text: &str) -> Result<Scenario, ScenarioError> {
        let fail = |faults| Err(ScenarioError { name: name.to_owned(), faults });
        let form: ScenarioForm = match ron::from_str(text) {
            Ok(form) => form,
            Err(error) => return fail(vec![format!("line {error}")]),
        };
        let mut faults = Vec::new();
        let setup = setup(&form, &mut faults);
        match Arena::new(setup) {
            Ok(arena) if faults.is_empty() => Ok(Scenario {
                name: name.to_owned(),
                about: form.about.clone(),
                digest: digest(&form),
                arena,
            }),
            Ok(_) => fail(faults),
            Err(more) => {
                fail(faults.into_iter().chain(more.iter().map(ToString::to_string)).collect())
            }
        }
    }

    /// Title for a reader.
    pub fn title(&self) -> &str {
        &self.arena.setup().title
    }
}

fn digest(form: &ScenarioForm) -> String {
    let mut digest = Digest::new();
    digest.text(&ron::to_string(form).expect("a form holds only plain data"));
    digest.short()
}

fn setup(form: &ScenarioForm, faults: &mut Vec<String>) -> Setup {
    Setup {
        title: form.title.clone(),
        ground: ground(&form.terrain, faults),
        sides: BySide([
            side("attacker", &form.attacker, faults),
            side("defender", &form.defender, faults),
        ]),
        objectives: form.objectives.iter().map(|form| objective(form, faults)).collect(),
        turn_limit: form.turns,
        guns: vec![],
    }
}

/// Later pieces lie on top of earlier ones.
fn ground(pieces: &[PieceForm], faults: &mut Vec<String>) -> Vec<Ground> {
    let mut ground = vec![Ground::Open; Cell::all().count()];
    for (n, piece) in pieces.iter().enumerate() {
        let place = format!("terrain, piece {}", n + 1);
        for &point in piece.area.iter().chain(&piece.line) {
            if !(0..=i32::from(WIDTH)).contains(&point.0)
                || !(0..=i32::from(HEIGHT)).contains(&point.1)
            {
                faults.push(format!(
                    "{place}: {point:?} is off the table, expected 0 to {WIDTH} and 0 to {HEIGHT}"
                ));
            }
        }
        let shaped = piece.area.len() >= 3 && piece.line.is_empty()
            || piece.line.len() >= 2 && piece.area.is_empty();
        if !shaped {
            faults.push(format!(
                "{place}: expected an `area` of 3 points or more, or a `line` of 2 or more"
            ));
        }
        if !(1..=10).contains(&piece.width) {
            faults.push(format!("{place}: width {}, expected 1 to 10", piece.width));
            continue;
        }
        let covers = |cell| inside(&piece.area, cell) || along(&piece.line, piece.width, cell);
        for cell in Cell::all().filter(|&cell| covers(cell)) {
            ground[cell.index()] = ground_of(piece.kind);
        }
    }
    ground
}

fn square(place: &str, (x, y): Point, faults: &mut Vec<String>) -> Cell {
    Cell::new(x, y).unwrap_or_else(|| {
        let (most_x, most_y) = (WIDTH - 1, HEIGHT - 1);
        faults.push(format!(
            "{place}: ({x}, {y}) is off the table, expected 0 to {most_x} and 0 to {most_y}"
        ));
        Cell::default()
    })
}

fn objective(form: &ObjectiveForm, faults: &mut Vec<String>) -> Objective {
    let points = |form: &PointsForm| BySide([form.attacker, form.defender]);
    Objective {
        name: form.name.clone(),
        at: square(&format!("objective {}", form.name), form.at, faults),
        each_turn: points(&form.each_turn),
        at_end: points(&form.at_end),
        leaving: BySide([0; 2]),
        holder: form.holder.map(|side| match side {
            SideName::Attacker => Side::Attacker,
            SideName::Defender => Side::Defender,
        }),
    }
}

fn side(name: &str, form: &SideForm, faults: &mut Vec<String>) -> SideSetup {
    let spots =
        form.spots.iter().map(|&spot| square(&format!("{name}, spots"), spot, faults)).collect();
    let groups = form.groups.iter().map(|group| GroupSetup {
        name: group.name.clone(),
        start: ruleshift_game::Start::Spot,
        units: group.units.iter().flat_map(|unit| units(name, &group.name, unit, faults)).collect(),
    });
    SideSetup {
        name: form.name.clone(),
        groups: groups.collect(),
        dummies: form.dummies,
        break_point: form.break_point,
        points: form.points,
        spots,
        features: vec![],
        batteries: vec![],
    }
}

/// One line of a group: `count` units alike, numbered when there are several.
fn units(side: &str, group: &str, form: &UnitForm, faults: &mut Vec<String>) -> Vec<UnitSetup> {
    if !(1..=12).contains(&form.count) {
        faults.push(format!("{side}, group {group}: count {}, expected 1 to 12", form.count));
        return vec![];
    }
    let kind = kind_of(form.kind);
    let name = if form.name.is_empty() { kind.label() } else { &form.name };
    let numbered = |n: i32| if form.count > 1 { format!("{name} {n}") } else { name.to_owned() };
    let unit = |n| UnitSetup {
        name: numbered(n),
        kind,
        quality: quality_of(form.quality),
        men: form.men,
        grade: form.grade,
        armour: [0; 3],
        gun: None,
    };
    (1..=form.count).map(unit).collect()
}

fn kind_of(name: KindName) -> Kind {
    match name {
        KindName::Section => Kind::Section,
        KindName::LightGun => Kind::LightGun,
        KindName::TripodGun => Kind::TripodGun,
        KindName::LightMortar => Kind::LightMortar,
        KindName::Leader => Kind::Leader,
    }
}

fn quality_of(name: QualityName) -> Quality {
    match name {
        QualityName::Green => Quality::Green,
        QualityName::Regular => Quality::Regular,
        QualityName::Veteran => Quality::Veteran,
    }
}

fn ground_of(name: GroundName) -> Ground {
    match name {
        GroundName::Open => Ground::Open,
        GroundName::Road => Ground::Road,
        GroundName::Crops => Ground::Crops,
        GroundName::Scrub => Ground::Scrub,
        GroundName::Wood => Ground::Wood,
        GroundName::Hedge => Ground::Hedge,
        GroundName::Wall => Ground::Wall,
        GroundName::Stream => Ground::Stream,
        GroundName::Ford => Ground::Ford,
        GroundName::Bridge => Ground::Bridge,
        GroundName::Building => Ground::Building,
        GroundName::Rubble => Ground::Rubble,
        GroundName::Hill => Ground::Hill,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shipped::SHIPPED;

    #[test]
    fn comments_and_layout_do_not_change_the_digest() {
        let (name, text) = SHIPPED[0];
        let digest = |text: &str| Scenario::from_ron(name, text).unwrap().digest;
        let spread = format!("// another comment\n{}", text.replace("(kind", "(\n  kind"));
        assert_eq!(digest(text), digest(&spread));
        assert_ne!(digest(text), digest(&text.replace("title: \"", "title: \"Another ")));
    }

    #[test]
    fn all_faults_are_told_at_once() {
        let (name, text) = SHIPPED[0];
        let faulty = text
            .replacen("men: 10", "men: 40", 1)
            .replacen("dummies: ", "dummies: 9", 1)
            .replacen("area: [(", "area: [(99, 3), (", 1)
            .replacen("turns: 1", "turns: 9", 1);
        let error = Scenario::from_ron(name, &faulty).err().unwrap();
        let told = error.to_string();
        for part in [
            "40 men, expected 1 to 13",
            "dummies, expected 0 to 6",
            "(99, 3) is off the table",
            "turns, expected 1 to 30",
        ] {
            assert!(told.contains(part), "{part} is not in:\n{told}");
        }
    }

    #[test]
    fn a_text_that_is_no_scenario_is_refused_with_its_place() {
        let error = Scenario::from_ron("mine.ron", "Scenario(title: 3)").err().unwrap();
        assert!(error.faults[0].starts_with("line 1:"), "{error}");
    }
}
