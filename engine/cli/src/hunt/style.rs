//! Styles as points of a space that can be searched.

use ruleshift_players::{Doctrine, WEIGHTS, Weights};
use ruleshift_record::HuntWeight;

use super::USUAL;
use crate::exit::Failure;
use crate::resolve;
use crate::wire::Seated;

/// The largest weight a doctrine may have.
const LARGEST: f64 = Weights::LARGEST as f64;
/// Length of every axis.
pub(super) const AXIS: f64 = 10.0;

/// The style that a search starts from, whose weights give the space its axes.
pub(super) struct Space {
    weights: Vec<(&'static str, i32)>,
}

/// A value for each weight.
pub(super) type Style = Vec<i32>;

impl Space {
    /// The space around a doctrine; none around one that leaves all to chance.
    pub(super) fn around(doctrine: &Doctrine) -> Option<Space> {
        Some(Space { weights: doctrine.weights.as_ref()?.named().to_vec() })
    }

    /// The point the search starts from.
    pub(super) fn start(&self) -> Vec<f64> {
        let place = |value: i32| AXIS * (f64::from(value) + 1.0).ln() / (LARGEST + 1.0).ln();
        self.weights.iter().map(|&(_, value)| place(value)).collect()
    }

    /// The style at a point. One more on an axis is about twice the weight: what matters is how
    /// weights compare, so 2 and 4 are as far apart as 200 and 400, and 0 is not far from either.
    pub(super) fn style(&self, point: &[f64]) -> Style {
        let value = |at: &f64| (LARGEST + 1.0).powf(at.clamp(0.0, AXIS) / AXIS) - 1.0;
        point.iter().map(|at| value(at).round() as i32).collect()
    }

    /// The weights of a style beside those of the start.
    pub(super) fn weights(&self, style: &Style) -> Vec<HuntWeight> {
        let weight = |(&(name, usual), &found): (&(&str, i32), &i32)| HuntWeight {
            name: name.to_owned(),
            usual,
            found,
        };
        self.weights.iter().zip(style).map(weight).collect()
    }

    /// A style as the file of a doctrine.
    pub(super) fn ron(&self, style: &Style, name: &str, about: &str) -> String {
        let weights = self.weights.iter().zip(style);
        let weights: Vec<String> =
            weights.map(|((name, _), value)| format!("{name}: {value}")).collect();
        format!(
            "Doctrine(\n    name: {name:?},\n    about: {about:?},\n    weights: Weights({}),\n)\n",
            weights.join(", ")
        )
    }

    /// A style as a player: the one that the search starts from with other weights, so that whoever
    /// has the name has the style.
    ///
    /// # Errors
    /// Never for a style of this space.
    pub(super) fn seated(&self, style: &Style) -> Result<Seated, Failure> {
        let weights: Vec<String> = style.iter().map(ToString::to_string).collect();
        resolve::player(&format!("{USUAL}:{WEIGHTS}={}", weights.join(".")))
    }
}

#[cfg(test)]
mod tests {
    use ruleshift_players::{PlayerSpec, Strategy};

    use super::*;

    fn space() -> (Space, Doctrine) {
        let steady = ruleshift_players::shipped().into_iter().find(|d| d.name == "steady").unwrap();
        (Space::around(&steady).unwrap(), steady)
    }

    #[test]
    fn the_search_starts_from_the_doctrine_itself() {
        let (space, steady) = space();
        let style = space.style(&space.start());
        let weights: Vec<i32> = steady.weights.unwrap().named().iter().map(|w| w.1).collect();
        assert_eq!(style, weights);
    }

    #[test]
    fn nothing_little_and_all_can_be_reached() {
        let (space, _) = space();
        let at = |place: f64| space.style(&vec![place; space.weights.len()])[0];
        assert_eq!(
            [at(-1.0), at(0.0), at(1.0), at(5.0), at(10.0), at(12.0)],
            [0, 0, 1, 31, 1000, 1000]
        );
    }

    #[test]
    fn a_style_comes_back_from_its_file() {
        let (space, _) = space();
        let style: Style = (0..space.weights.len() as i32).map(|n| n * 7).collect();
        let doctrine = Doctrine::from_ron(&space.ron(&style, "found", "A \"trick\".")).unwrap();
        let weights: Vec<i32> = doctrine.weights.unwrap().named().iter().map(|w| w.1).collect();
        assert_eq!((doctrine.name.as_str(), weights), ("found", style));
    }

    /// The player that is named and the file of the doctrine are one style.
    #[test]
    fn a_style_is_named_by_its_weights() {
        let (space, _) = space();
        let style: Style = (0..space.weights.len() as i32).map(|n| n * 90).collect();
        let seated = space.seated(&style).unwrap_or_else(|e| panic!("{e}"));
        let doctrine = Doctrine::from_ron(&space.ron(&style, "found", "Found.")).unwrap();
        let mut find = |_: &str| Ok::<_, String>(doctrine.clone());
        let filed = Strategy::new(&PlayerSpec::plain("found.ron"), &mut find).unwrap();
        assert_eq!(seated.strategy.digest(), filed.digest());
        assert!(seated.spec.to_string().starts_with("steady:weights=0.90.180."));
    }
}
