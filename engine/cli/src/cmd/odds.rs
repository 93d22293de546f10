//! `ruleshift odds`: exact chances under a rule stack, beside the base rules.

use crate::args::OddsArgs;
use crate::exit::Failure;
use crate::odds::{Document, Odds, Wanted, text};
use crate::{resolve, screen, wire};

pub(crate) fn run(args: &OddsArgs) -> Result<(), Failure> {
    let (scene, stack) = match (wanted(args).scene(), resolve::stack(&args.stack)) {
        (Ok(scene), Ok(stack)) => (scene, stack),
        (Err(faults), Ok(_)) => return Err(Failure::Input(faults.join("\n"))),
        (Ok(_), Err(failure)) => return Err(failure),
        (Err(faults), Err(Failure::Input(told))) => {
            return Err(Failure::Input(format!("{}\n{told}", faults.join("\n"))));
        }
        (Err(_), Err(failure)) => return Err(failure),
    };
    let rules = wire::arm_cast(&stack)?.rules;
    let named = !stack.variants().is_empty();
    let odds = Odds::new(named.then(|| (stack.spec(), &rules, stack.has_events())), &scene);
    if args.json {
        let json = serde_json::to_string_pretty(&Document::new(&odds));
        let json = json.map_err(|e| Failure::Check(format!("no JSON can be written: {e}")))?;
        screen::show(&format!("{json}\n"));
    } else {
        screen::show(&text(&odds, screen::width()));
    }
    Ok(())
}

/// The options that were typed.
fn wanted(args: &OddsArgs) -> Wanted {
    let words = [
        ("--topic", &args.topics),
        ("--cards", &args.cards),
        ("--range", &args.ranges),
        ("--cover", &args.covers),
        ("--kind", &args.kinds),
    ];
    let single = [
        ("--men", &args.men),
        ("--pins", &args.pins),
        ("--quality", &args.quality),
        ("--enemy-kind", &args.enemy_kind),
        ("--enemy-men", &args.enemy_men),
        ("--enemy-pins", &args.enemy_pins),
        ("--enemy-quality", &args.enemy_quality),
    ];
    let flags = [("--moved", args.moved), ("--led", args.led), ("--enemy-led", args.enemy_led)];
    let mut options = Vec::new();
    let typed = words.into_iter().filter(|(_, typed)| !typed.is_empty());
    options.extend(typed.map(|(option, typed)| (option, typed.clone())));
    let typed = single.into_iter().filter_map(|(option, typed)| Some((option, typed.clone()?)));
    options.extend(typed.map(|(option, word)| (option, vec![word])));
    options.extend(flags.into_iter().filter(|(_, set)| *set).map(|(option, _)| (option, vec![])));
    Wanted { full: args.json, options }
}
