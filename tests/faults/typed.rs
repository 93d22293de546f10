//! Names, numbers and folders.

use super::{FILE, INPUT, file, script};
use crate::support::{Run, ruleshift, ruleshift_in};

#[test]
fn help_documents_the_exit_codes() {
    let help = ruleshift(["--help"]).fine().out;
    for line in
        ["0  done", "1  a check failed", "2  something typed is wrong", "3  a file or folder"]
    {
        assert!(help.contains(line), "{line}");
    }
}

#[test]
fn an_unknown_name_is_told_with_the_nearest_one() {
    let said = |args: &str, parts: &[&str]| {
        let run = Run::start(args);
        assert!(!run.path("").exists(), "nothing is written");
        run.done.fails(INPUT, parts);
    };
    said("no-late-fir", &["no variant called `no-late-fir`", "did you mean `no-late-fire`?"]);
    said("xyzzy", &["no variant called `xyzzy`", "the nearest are ", "`ruleshift list variants`"]);
    said("base --scenario xyzzy", &["no scenario called `xyzzy`", "there are: ", "first-tanks"]);
    said("base --base thre-marker-actions", &["did you mean `three-marker-actions`?"]);
    said("base --scenario hasty-atack", &["no scenario called", "did you mean `hasty-attack`?"]);
    said("base --attacker steddy", &["no player called", "did you mean `steady`?"]);
    said("base --metric turn", &["no metric called `turn`", "`turns`"]);
    said("base --defender blod", &["no player called", "did you mean `bold`?"]);
}

/// Who has just written a script types its name as that of a shipped variant.
#[test]
fn a_script_that_lacks_its_ending_is_found_in_the_folder() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["mg", "flare"] {
        script(folder.path(), &format!("{name}.rhai"), "fn marker_actions(now) { 3 }");
    }
    let said = |args: &str, code: i32, part: &str| {
        let done = ruleshift_in(folder.path(), args.split('|')).fails(code, &[part]);
        assert!(!done.err.contains("no variant called"), "{}", done.err);
    };
    said("check|mg", 1, "mg.rhai lies here: write `mg.rhai`");
    said("check|mg + flare", 1, "mg.rhai, flare.rhai lie here: write `mg.rhai+flare.rhai`");
    said("check|mg.rhai+flare:x=2", 1, "flare.rhai lies here: write `mg.rhai+flare.rhai:x=2`");
    said("compare|mg|--games|8", 2, "mg.rhai lies here: write `mg.rhai`");
    ruleshift_in(folder.path(), ["check", "mg.rhai + flare.rhai", "--no-games"]).fine();
}

#[test]
fn all_faults_are_told_at_once() {
    let args = "no-late-fir two-turn-end-cards:crads=3 --scenario hasty-atack --attacker steddy";
    Run::start(args).done.fails(INPUT, &["`no-late-fire`", "crads", "`hasty-attack`", "`steady`"]);
}

#[test]
fn a_wrong_option_of_a_variant_is_told_with_what_there_is() {
    let said = |stack: &str, parts: &[&str]| {
        Run::start(stack).done.fails(INPUT, parts);
    };
    said("two-turn-end-cards:crads=3", &["crads", "cards"]);
    said("two-turn-end-cards:cards=9", &["9", "1 to 4"]);
    said("two-turn-end-cards:cards=many", &["needs a whole number, not `many`"]);
    said("two-turn-end-cards:cards", &["write `two-turn-end-cards:option=3`"]);
    said("no-late-fire++base", &["lacks the name of a variant"]);
}

#[test]
fn a_wrong_option_of_the_program_is_told() {
    let said = |args: &str, parts: &[&str]| {
        Run::start(args).done.fails(INPUT, parts);
    };
    said("base --games 0", &["0", "--games", "1..="]);
    said("base --games many", &["many", "--games"]);
    said("base --threads 0", &["--threads"]);
    said("base --seed -1", &["-1"]);
    said("base --gmes 5", &["--gmes", "--games"]);
    said("", &["VARIANT"]);
    said("base --scenario hasty-attack hasty-attack --games 4", &["named twice"]);
    ruleshift(["compaer"]).fails(INPUT, &["compare"]);
    ruleshift(["odds", "base", "--cards", "61"]).fails(INPUT, &["61", "1 to 60"]);
}

#[test]
fn a_file_that_cannot_be_read_is_named() {
    Run::start("missing/rule.rhai").done.fails(FILE, &["missing/rule.rhai", "cannot be read"]);
    Run::start("base --scenario missing.ron").done.fails(FILE, &["missing.ron", "cannot be read"]);
    Run::start("base --attacker missing.ron").done.fails(FILE, &["missing.ron", "cannot be read"]);
    ruleshift(["check", "missing.rhai"]).fails(FILE, &["missing.rhai", "cannot be read"]);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bytes.rhai");
    std::fs::write(&path, [0xff, 0xfe, 0x00]).unwrap();
    ruleshift(["check", path.to_str().unwrap()]).fails(FILE, &["bytes.rhai", "cannot be read"]);
}

#[test]
fn a_faulty_scenario_is_told_with_all_its_faults() {
    let folder = tempfile::tempdir().unwrap();
    let sound = crate::support::repository::text("engine/scenarios/files/first-tanks.ron");
    let faulty = sound.replacen("men: 10", "men: 40", 1).replacen("dummies: 1", "dummies: 9", 1);
    let path = file(folder.path(), "mine.ron", &faulty);
    let args = ["base", "--scenario", path.to_str().unwrap()];
    Run::with(args).done.fails(
        INPUT,
        &["mine.ron cannot be played", "40 men, expected 1 to 13", "9 dummies, expected 0 to 6"],
    );
    let path = file(folder.path(), "none.ron", "Scenario(title: 3)");
    Run::with(["base", "--scenario", path.to_str().unwrap()]).done.fails(INPUT, &["line 1"]);
}

#[test]
fn a_faulty_doctrine_is_told_with_all_its_faults() {
    let folder = tempfile::tempdir().unwrap();
    let sound = crate::support::repository::text("engine/players/doctrines/bold.ron");
    let faulty = sound.replace("advance: ", "advance: 9999").replace("hold: ", "hold: -");
    let faulty = faulty.replace("rally: ", "ralley: ");
    let path = file(folder.path(), "mine.ron", &faulty);
    let parts = [
        "doctrine ",
        "mine.ron: line 5:22: advance is 9999",
        "\n  line 5:39: hold is -13, expected 0 to 1000",
        "there is no weight called `ralley`; did you mean `rally`?",
        "line 5:5: the weight `rally` is missing",
    ];
    Run::with(["base", "--attacker", path.to_str().unwrap()]).done.fails(INPUT, &parts);
}

/// Works for the superuser too: nothing can be made below a plain file.
#[test]
fn a_folder_that_cannot_be_made_is_told_before_any_game() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path(), "plain", "").join("run");
    let args = ["compare", "base", "--games", "10000000", "--out", path.to_str().unwrap()];
    ruleshift(args).fails(FILE, &["plain", "cannot be made"]);
}

#[test]
fn a_folder_with_a_run_in_it_is_left_alone() {
    let run = Run::fine("no-late-fire --games 4");
    let before = run.bytes("games.parquet");
    let out = run.path("").to_string_lossy().into_owned();
    let again = ["compare", "no-late-fire", "--games", "6", "--out", &out];
    ruleshift(again).fails(INPUT, &["already holds an earlier run", "--out"]);
    assert!(run.bytes("games.parquet") == before);

    let folder = tempfile::tempdir().unwrap();
    file(folder.path(), "letter.txt", "Dear");
    let out = ["compare", "base", "--games", "4", "--out", "."];
    ruleshift_in(folder.path(), out).fails(INPUT, &["already holds other files"]);
}
