//! Sketches by name: `sketch-7`, `sketch-7-attack-close`, and many at once.

use std::ops::RangeInclusive;

use super::words::{Mission, Terrain};
use super::{Sketch, Sketched};

/// Sketches that one word may stand for.
pub const MOST_SKETCHES: RangeInclusive<u32> = 1..=1000;

const HOW: &str = "a sketch is called `sketch-SEED` or `sketch-SEED-MISSION-TERRAIN`, as in `sketch-7-attack-close`";
const HOW_MANY: &str = "write `generated:COUNT` or `generated:COUNT:MISSION:TERRAIN`, as in `generated:20:attack:close`";

/// What comes of a sketch's name; nothing when the name is not one of a sketch. The mission and
/// terrain that a name leaves out are drawn from its seed.
///
/// # Errors
/// What is wrong with the name, with the nearest word; or that nothing playable came of it.
pub fn named(name: &str) -> Option<Result<Sketched, String>> {
    let rest = name.strip_prefix("sketch-")?;
    let sketch = sketch(rest).map_err(|fault| format!("`{name}` is no sketch: {fault}"));
    Some(sketch.and_then(|sketch| sketch.draw(name).map_err(|e| e.to_string())))
}

fn sketch(rest: &str) -> Result<Sketch, String> {
    let parts: Vec<&str> = rest.split('-').collect();
    match parts[..] {
        [seed] => Ok(Sketch::new(number(seed)?, None, None)),
        [seed, mission, terrain] => {
            let (mission, terrain) = both(mission, terrain)?;
            Ok(Sketch { seed: number(seed)?, mission, terrain })
        }
        _ => Err(HOW.to_owned()),
    }
}

/// A seed has one way of being written, so that one scenario has one name.
fn number(typed: &str) -> Result<u64, String> {
    let seed = typed.parse::<u64>().ok().filter(|seed| seed.to_string() == typed);
    seed.ok_or_else(|| format!("its seed is `{typed}`, expected 0 to {}; {HOW}", u64::MAX))
}

fn both(mission: &str, terrain: &str) -> Result<(Mission, Terrain), String> {
    match (Mission::by_word(mission), Terrain::by_word(terrain)) {
        (Ok(mission), Ok(terrain)) => Ok((mission, terrain)),
        (Err(mission), Err(terrain)) => Err(format!("{mission}\n  {terrain}")),
        (Err(fault), _) | (_, Err(fault)) => Err(fault),
    }
}

/// The names that `generated:20` or `generated:20:attack:close` stands for: those of seeds 1 to 20,
/// whatever the seed of a run; nothing when the text does not begin so.
///
/// # Errors
/// What is wrong with the text, with the nearest word.
pub fn several(typed: &str) -> Option<Result<Vec<String>, String>> {
    let rest = typed.strip_prefix("generated")?;
    let names = names(rest.strip_prefix(':').unwrap_or_default());
    Some(names.map_err(|fault| format!("`{typed}` names no scenarios: {fault}")))
}

fn names(rest: &str) -> Result<Vec<String>, String> {
    let parts: Vec<&str> = rest.split(':').collect();
    let (count, kind) = match parts[..] {
        [count] if !count.is_empty() => (count, String::new()),
        [count, mission, terrain] => {
            let (mission, terrain) = both(mission, terrain)?;
            (count, format!("-{mission}-{terrain}"))
        }
        _ => return Err(HOW_MANY.to_owned()),
    };
    let most = count.parse().ok().filter(|count| MOST_SKETCHES.contains(count));
    let most = most.ok_or_else(|| {
        let (least, most) = (MOST_SKETCHES.start(), MOST_SKETCHES.end());
        format!("its count is `{count}`, expected {least} to {most}; {HOW_MANY}")
    })?;
    Ok((1..=most).map(|seed| format!("sketch-{seed}{kind}")).collect())
}
