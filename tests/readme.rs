//! The commands of the pages for readers run as they stand, with fewer games.

use std::path::Path;

use crate::support::{Run, repository, ruleshift};

/// Pages with commands.
const PAGES: [&str; 3] = ["README.md", "DEVELOPERS.md", "variants/README.md"];

/// The program's own commands in the fences marked `sh`, without the program's name.
fn commands(page: &str) -> Vec<Vec<String>> {
    let text = repository::text(page);
    let mut fenced = false;
    let mut commands = Vec::new();
    for line in text.lines().map(str::trim) {
        match line {
            "```sh" => fenced = true,
            "```" => fenced = false,
            _ if fenced => commands.extend(arguments(line)),
            _ => {}
        }
    }
    commands
}

fn arguments(line: &str) -> Option<Vec<String>> {
    let own = line.strip_prefix("ruleshift ").or(line.strip_prefix("cargo run --release -- "))?;
    let own = own.split(" # ").next().unwrap_or(own);
    Some(own.split_whitespace().map(str::to_owned).collect())
}

/// Fewer games, a folder that goes away, a true ticket.
fn shortened(mut command: Vec<String>, run: &Run, folder: &Path) -> Vec<String> {
    let shared = folder.parent().expect("it lies in a folder");
    for word in command.iter_mut().skip(1) {
        match word.as_str() {
            // What one command leaves another takes.
            "plan.ron" | "run" => *word = shared.join(&word).display().to_string(),
            // Of the variant: the reference cannot part from itself.
            "TICKET" => *word = run.tickets().swap_remove(1),
            "PLAN" => *word = run.path("plan.ron").display().to_string(),
            "DIR" => *word = run.path("").display().to_string(),
            page if page.ends_with(".html") => {
                *word = folder.with_extension("html").display().to_string();
            }
            _ => {}
        }
    }
    let out = ("--out", folder.to_str().unwrap());
    let only_a_plan = command.iter().any(|word| word == "--plan-only");
    // A planner takes some hundred times as long.
    let games = if command.iter().any(|word| word.starts_with("planner")) { "2" } else { "20" };
    let short: &[(&str, &str)] = match command[0].as_str() {
        _ if only_a_plan => &[("--games", games)],
        "compare" | "sweep" | "cross" | "tune" => &[out, ("--games", games)],
        "run" => &[out],
        "ladder" => &[out, ("--games", games)],
        "handicap" => &[out, ("--games", "2")],
        "hunt" => &[out, ("--games", "8"), ("--budget", "4"), ("--judge", "8")],
        "new" if command[1] == "manual" => &[out],
        _ => &[],
    };
    for &(option, value) in short {
        if let Some(place) = command.iter().position(|word| word == option) {
            command.drain(place..place + 2);
        }
        command.extend([option.to_owned(), value.to_owned()]);
    }
    command
}

#[test]
fn commands_for_readers_run_as_they_stand() {
    let done = Run::fine("no-late-fire --games 1");
    let folder = tempfile::tempdir().unwrap();
    let mut run = 0;
    for page in PAGES {
        for (n, command) in commands(page).into_iter().enumerate() {
            let out = folder.path().join(format!("{}-{n}", page.replace('/', "-")));
            let command = shortened(command, &done, &out);
            let told = ruleshift(&command);
            assert_eq!(told.code, 0, "{page}: {command:?}\n{}{}", told.out, told.err);
            run += 1;
        }
    }
    assert!(run >= 8, "{run} commands were found");
}

#[test]
fn the_readme_shows_every_subcommand_and_every_exit_code() {
    let readme = repository::text("README.md");
    let help = ruleshift(["--help"]).fine().out;
    let listed = help.lines().skip_while(|line| *line != "Commands:").skip(1);
    let listed = listed.take_while(|line| !line.is_empty());
    // What is said of a command goes on in lines that are set in more.
    let listed = listed.filter(|line| !line.starts_with("   "));
    for command in listed.filter_map(|line| line.split_whitespace().next()) {
        assert!(command == "help" || readme.contains(&format!("ruleshift {command}")), "{command}");
    }
    let codes = help.lines().skip_while(|line| *line != "Exit codes:").skip(1);
    for code in codes.filter_map(|line| line.split_whitespace().next()?.parse::<u8>().ok()) {
        assert!(readme.contains(&format!("| {code} |")), "exit code {code}");
    }
}

/// Links to files of the repository lead somewhere.
#[test]
fn links_lead_somewhere() {
    for page in PAGES {
        let text = repository::text(page);
        let folder = Path::new(page).parent().unwrap().to_owned();
        for link in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let path = link.split('#').next().unwrap();
            let outside = link.contains("://") || path.is_empty();
            assert!(
                outside || repository::root().join(&folder).join(path).exists(),
                "{page}: {link}"
            );
        }
    }
}
