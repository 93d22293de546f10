//! What is no whole run is refused, each kind with a code of its own.

use std::fs;

use super::{Parts, listed};
use crate::support::ruleshift;

const INPUT: i32 = 2;
const MISSING: i32 = 4;
const OVERLAP: i32 = 5;
const FOREIGN: i32 = 6;
const DIFFER: i32 = 7;

#[test]
fn gaps_and_overlaps_are_refused_by_what_they_are() {
    let parts = Parts::new();
    parts.shard("0/3").fine();
    parts.shard("2/3").fine();
    parts.merge().fails(MISSING, &["no shard holds the blocks 10..21", "ruleshift missing"]);
    parts.shard("5..21").fine();
    let said = parts.merge().fails(OVERLAP, &["two shards share blocks", "remove one of them"]).err;
    assert!(
        said.contains("shard-00000000-00000010-") && said.contains("shard-00000005-00000021-"),
        "{said}"
    );
    assert!(!parts.out.join("report.html").exists());
}

/// Damage of every kind, to any byte, is told with the name of the file; the part is then missing, and
/// playing it again mends it.
#[test]
fn a_damaged_shard_is_named_and_counts_as_missing() {
    let parts = Parts::new();
    parts.shards(3);
    let file = &parts.files()[1];
    let name = file.file_name().unwrap().to_str().unwrap();
    let sound = fs::read(file).unwrap();
    let flipped = |place: usize| {
        let mut bytes = sound.clone();
        bytes[place] ^= 4;
        bytes
    };
    let damaged = [
        sound[..sound.len() / 2].to_vec(),
        vec![],
        flipped(3),
        flipped(sound.len() / 2),
        flipped(sound.len() - 30),
        b"another file altogether".to_vec(),
    ];
    for bytes in damaged {
        fs::write(file, bytes).unwrap();
        let said =
            ["no shard holds the blocks 10..21", name, "its bytes are not those its name tells"];
        parts.merge().fails(MISSING, &said);
        let missing = parts.on("missing", &[]);
        assert_eq!((missing.code, &*missing.out), (0, "10..21\n"));
        assert!(missing.err.contains(name), "{}", missing.err);
    }
    assert!(parts.shard("1/3").fine().out.contains("is played"));
    assert!(fs::read(file).unwrap() == sound, "the same bytes");
    parts.come_to_the_whole();
}

#[test]
fn a_shard_of_another_plan_is_refused() {
    let (parts, folder) = (Parts::new(), tempfile::tempdir().unwrap());
    parts.shard("0/2").fine();
    let plan = folder.path().join("plan.ron");
    let text = fs::read_to_string(parts.whole.plan()).unwrap();
    fs::write(&plan, text.replace("seed: 1,", "seed: 2,")).unwrap();
    let other = folder.path().join("run");
    let into =
        |out: &str| ruleshift(["shard", "1/2", "--plan", plan.to_str().unwrap(), "--out", out]);
    into(parts.out.to_str().unwrap()).fails(FOREIGN, &["plan.ron is another plan", "--out"]);
    into(other.to_str().unwrap()).fine();
    let stray = &listed(&other.join("shards"))
        .into_iter()
        .find(|f| f.extension().unwrap() == "parquet")
        .unwrap();
    fs::copy(stray, parts.out.join("shards").join(stray.file_name().unwrap())).unwrap();
    let name = stray.file_name().unwrap().to_str().unwrap();
    parts.merge().fails(FOREIGN, &[name, "is of another plan"]);
    parts.on("missing", &[]).fails(FOREIGN, &[name]);
}

/// Two results for the same games: never merged, whoever is right.
#[test]
fn two_results_for_the_same_games_are_refused() {
    use ruleshift_record::{Keep, Plan, Shard, ShardWriter};
    let parts = Parts::new();
    parts.shards(2);
    let plan = Plan::from_ron(&fs::read_to_string(parts.out.join("plan.ron")).unwrap()).unwrap();
    let shard = Shard::open(fs::File::open(&parts.files()[0]).unwrap()).unwrap();
    let mut writer = ShardWriter::begin(&plan, shard.blocks(), Vec::new()).unwrap();
    let mut first = true;
    shard
        .each(&plan, &plan.blocks(plan.rounds()), &mut |mut played| {
            if std::mem::take(&mut first) {
                played.games[9].digest ^= 1;
            }
            writer.keep(&played).map_err(Into::into)
        })
        .unwrap();
    let (bytes, name) = writer.finish().unwrap();
    fs::write(parts.out.join("shards").join(name.to_string()), bytes).unwrap();
    let host = "fault of a machine or of this program";
    parts.merge().fails(DIFFER, &["two shards differ on the same blocks", "played on", host]);
}

#[test]
fn what_cannot_be_cut_says_why() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let plan = |name: &str, command: &str| {
        let file = path(name);
        ruleshift(command.split(' ').chain(["--plan-only", &file])).fine();
        ruleshift(["shard", "0/2", "--plan", &file, "--out", &path("run")])
    };
    plan("a.ron", "compare no-late-fire --scenario first-evening --until clear")
        .fails(INPUT, &["a.ron", "leave out `stop`"]);
    plan("b.ron", "tune tougher-sides:more=-20..40/20 --scenario first-evening")
        .fails(INPUT, &["b.ron", "ruleshift run"]);
    plan("c.ron", "hunt no-late-fire --scenario first-evening")
        .fails(INPUT, &["c.ron", "what it has found"]);
    let shard =
        |part: &str| ruleshift(["shard", part, "--plan", "none.ron", "--out", &path("run")]);
    shard("3/3").fails(INPUT, &["3/3", "from 0/3 to 2/3"]);
    shard("seven").fails(INPUT, &["seven", "3/12", "120..180"]);
    shard("0/3").fails(3, &["none.ron cannot be read"]);
    let parts = Parts::new();
    parts.shard("30..33").fails(INPUT, &["has 32 blocks", "30..33"]);
    ruleshift(["compare", "no-late-fire", "--plan-only", "plan"]).fails(INPUT, &["ends in .ron"]);
    for command in ["merge", "missing"] {
        ruleshift([command, &path("nowhere")]).fails(INPUT, &["nowhere holds no shards"]);
    }
    ruleshift(["clean", &path("nowhere")]).fails(INPUT, &["holds no run"]);
    assert!(!folder.path().join("run").exists(), "nothing was made");
}
