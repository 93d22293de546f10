//! From the text of a scenario file to an arena, with all faults at once.

use std::fmt;

use ruleshift_game::{Arena, BySide, Setup};

use crate::build::Build;
use crate::digest::digest;
use crate::form::ScenarioForm;
use crate::library::Library;
use crate::reinforce::reinforce;
use crate::sides::{objective, side};
use crate::support::Support;
use crate::terrain::ground;
use crate::text::read;

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
        Scenario::with(Library::shipped(), name, text)
    }

    /// Reads a scenario whose lists and vehicles are those of a library.
    pub(crate) fn with(
        library: &Library,
        name: &str,
        text: &str,
    ) -> Result<Scenario, ScenarioError> {
        Loading::read(library, name, text)?.finish()
    }

    /// Reads a scenario from RON text and adds support to it.
    ///
    /// # Errors
    /// As [`Scenario::from_ron`], and what keeps the support from being added.
    pub fn supported(
        name: &str,
        text: &str,
        support: &[Support],
    ) -> Result<Scenario, ScenarioError> {
        let error = |faults| ScenarioError { name: name.to_owned(), faults };
        let mut form: ScenarioForm = read(text).map_err(|fault| error(vec![fault]))?;
        let added = reinforce(&mut form, support);
        let mut loading = Loading::of(Library::shipped(), name, form);
        loading.faults.extend(added.err().into_iter().flatten());
        loading.finish()
    }

    /// Title for a reader.
    pub fn title(&self) -> &str {
        &self.arena.setup().title
    }
}

/// A scenario file that has been read, before lines of sight are worked out.
pub(crate) struct Loading {
    name: String,
    form: ScenarioForm,
    /// What the file says; places that it got wrong are stood in for.
    pub(crate) setup: Setup,
    faults: Vec<String>,
}

impl Loading {
    /// Reads the text of a file.
    ///
    /// # Errors
    /// Where the text is not RON of the right form.
    pub(crate) fn read(
        library: &Library,
        name: &str,
        text: &str,
    ) -> Result<Loading, ScenarioError> {
        let error = |fault| ScenarioError { name: name.to_owned(), faults: vec![fault] };
        Ok(Loading::of(library, name, read(text).map_err(error)?))
    }

    /// Builds what a form says.
    fn of(library: &Library, name: &str, form: ScenarioForm) -> Loading {
        let mut build = Build::new(library);
        let setup = setup(&form, &mut build);
        Loading { name: name.to_owned(), form, setup, faults: build.faults }
    }

    /// Checks everything and works out the arena.
    ///
    /// # Errors
    /// Everything that is wrong.
    pub(crate) fn finish(self) -> Result<Scenario, ScenarioError> {
        let Loading { name, form, setup, mut faults } = self;
        let digest = digest(&form, &setup);
        match Arena::new(setup) {
            Ok(arena) if faults.is_empty() => {
                Ok(Scenario { name, about: form.about, digest, arena })
            }
            Ok(_) => Err(ScenarioError { name, faults }),
            Err(more) => {
                faults.extend(more.iter().map(ToString::to_string));
                Err(ScenarioError { name, faults })
            }
        }
    }
}

fn setup(form: &ScenarioForm, build: &mut Build) -> Setup {
    let ground = ground(&form.terrain, build);
    let sides =
        BySide([side("attacker", &form.attacker, build), side("defender", &form.defender, build)]);
    Setup {
        title: form.title.clone(),
        ground,
        sides,
        guns: std::mem::take(&mut build.guns),
        objectives: form.objectives.iter().map(|form| objective(form, build)).collect(),
        turn_limit: form.turns,
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
        let (name, text) = SHIPPED[1];
        let faulty = text
            .replacen("men: 10", "men: 40", 1)
            .replacen("dummies: ", "dummies: 9", 1)
            .replacen("area: [(", "area: [(99, 3), (", 1)
            .replacen("turns: ", "turns: 1", 1);
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
