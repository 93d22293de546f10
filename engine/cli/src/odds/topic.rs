//! What there are chances of, and all of them together.

use ruleshift_game::{Hook, Rules};

use super::page::Group;
use super::scene::Scene;
use super::{assault, deck, fire, movement, scatter, spotting};

/// What a topic works its chances out from.
#[derive(Clone, Copy)]
pub(crate) struct Sheet<'a> {
    /// The rules it is about.
    pub(crate) rules: &'a Rules,
    /// All rules that are shown beside each other, which share their rows.
    pub(crate) all: &'a [&'a Rules],
    pub(crate) scene: &'a Scene,
}

/// Something there are chances of.
pub(crate) struct Topic {
    pub(crate) name: &'static str,
    pub(crate) title: &'static str,
    /// Hooks whose answers are in the chances.
    pub(crate) hooks: &'static [Hook],
    /// What a table cannot show and is held fixed.
    pub(crate) held: fn(&Scene) -> Vec<String>,
    /// Options of the command line that it heeds.
    pub(crate) options: &'static [&'static str],
    groups: fn(&Sheet<'_>) -> Vec<Group>,
}

/// All topics, in the order of a turn.
pub(crate) static TOPICS: [Topic; 6] = [
    Topic {
        name: "deck",
        title: "The deck",
        hooks: deck::HOOKS,
        held: deck::held,
        options: &["--cards"],
        groups: deck::groups,
    },
    Topic {
        name: "spotting",
        title: "Spotting",
        hooks: spotting::HOOKS,
        held: spotting::held,
        options: &["--range", "--cover"],
        groups: spotting::groups,
    },
    Topic {
        name: "fire",
        title: "Fire",
        hooks: fire::HOOKS,
        held: fire::held,
        options: &[
            "--range",
            "--cover",
            "--kind",
            "--men",
            "--pins",
            "--moved",
            "--enemy-men",
            "--enemy-pins",
            "--enemy-quality",
        ],
        groups: fire::groups,
    },
    Topic {
        name: "movement",
        title: "Movement",
        hooks: movement::HOOKS,
        held: movement::held,
        options: &["--kind", "--pins"],
        groups: movement::groups,
    },
    Topic {
        name: "assault",
        title: "Close assault",
        hooks: assault::HOOKS,
        held: assault::held,
        options: &[
            "--cover",
            "--kind",
            "--men",
            "--pins",
            "--quality",
            "--led",
            "--enemy-kind",
            "--enemy-men",
            "--enemy-pins",
            "--enemy-quality",
            "--enemy-led",
        ],
        groups: assault::groups,
    },
    Topic {
        name: "scatter",
        title: "Shells of batteries",
        hooks: scatter::HOOKS,
        held: scatter::held,
        options: &["--cover", "--enemy-men", "--enemy-pins", "--enemy-quality"],
        groups: scatter::groups,
    },
];

/// One topic's groups under the base rules and, where that is not the same, under the stack.
pub(crate) struct Shown {
    pub(crate) topic: &'static Topic,
    pub(crate) held: Vec<String>,
    pub(crate) base: Vec<Group>,
    pub(crate) stack: Option<Vec<Group>>,
}

/// The chances that were asked for.
pub(crate) struct Odds {
    /// The rule stack as it is typed; none for the base rules.
    pub(crate) stack: Option<String>,
    pub(crate) shown: Vec<Shown>,
    /// What the figures do not hold.
    pub(crate) notes: Vec<String>,
}

impl Odds {
    /// Works out the chances of a scene; `stack` is a rule stack, its rules and whether it has
    /// event hooks.
    pub(crate) fn new(stack: Option<(String, &Rules, bool)>, scene: &Scene) -> Odds {
        let base = Rules::base();
        let all: Vec<&Rules> =
            std::iter::once(&base).chain(stack.as_ref().map(|(_, rules, _)| *rules)).collect();
        let show = |topic: &'static Topic| {
            let groups = |rules| {
                let mut groups = (topic.groups)(&Sheet { rules, all: &all, scene });
                groups.iter_mut().for_each(|group| group.rows.retain(|r| scene.full || r.brief));
                groups
            };
            let stack = all.get(1).map(|rules| groups(rules));
            Shown { topic, held: (topic.held)(scene), base: groups(&base), stack }
        };
        let shown: Vec<Shown> = scene.topics.iter().map(|&topic| show(topic)).collect();
        let mut notes = Vec::new();
        if let Some((_, rules, has_events)) = &stack {
            notes.extend(unasked(&base, rules, &shown));
            notes.extend(has_events.then(|| {
                "This stack has event hooks, whose acts are not in these figures.".to_owned()
            }));
        }
        Odds { stack: stack.map(|(name, ..)| name), shown, notes }
    }
}

/// Hooks that the stack changes and no topic that is shown asks.
fn unasked(base: &Rules, stack: &Rules, shown: &[Shown]) -> Option<String> {
    let changed = |hook: &&Hook| base.table(**hook) != stack.table(**hook);
    let asked = |hook: &Hook| shown.iter().any(|shown| shown.topic.hooks.contains(hook));
    let names = Hook::ALL.iter().filter(changed).filter(|hook| !asked(hook));
    let names: Vec<String> = names.map(|hook| format!("`{}`", hook.spec().name)).collect();
    let (last, rest) = names.split_last()?;
    let list = if rest.is_empty() {
        format!("{last}, which is")
    } else {
        format!("{} and {last}, which are", rest.join(", "))
    };
    Some(format!("The stack changes {list} not in these figures."))
}
