//! A shard without room, or without the right to write, says so and harms nothing. A limit on the size of
//! files stands for a disk that is full.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::PathBuf;
use std::process::Command;

use super::{Parts, listed};
use crate::support::{repository, ruleshift, unfolded};

#[test]
fn a_shard_without_room_may_be_tried_again() {
    let parts = Parts::new();
    parts.shard("0/2").fine();
    let limited = "ulimit -f 40; trap '' XFSZ; exec \"$@\"";
    let (plan, out) = (parts.whole.plan(), parts.out.clone());
    let limited = |words: &[&str]| {
        let mut command = Command::new("bash");
        command.args(["-c", limited, "bash", env!("CARGO_BIN_EXE_ruleshift-under-test")]);
        let output = command.args(words).current_dir(repository::root()).output().unwrap();
        (output.status.code(), unfolded(&String::from_utf8(output.stderr).unwrap()))
    };
    let words = ["shard", "1/2", "--plan", plan.to_str().unwrap(), "--out", out.to_str().unwrap()];
    let (code, said) = limited(&words);
    assert_eq!(code, Some(75), "{said}");
    assert!(said.contains("cannot be written") && said.contains("play it again"), "{said}");
    let half = |path: &PathBuf| path.file_name().unwrap().to_str().unwrap().starts_with(".half-");
    assert!(!listed(&parts.out.join("shards")).iter().any(half), "nothing half-written is left");
    parts.shard("1/2").fine();
    let (code, said) = limited(&["merge", out.to_str().unwrap(), "--quiet"]);
    assert_eq!(code, Some(3), "{said}");
    assert!(said.contains("make room, then merge again"), "{said}");
    parts.come_to_the_whole();
}

/// The superuser may write anywhere, so the program is run as nobody.
#[test]
fn a_folder_that_may_not_be_written_to_is_named() {
    let parts = Parts::new();
    let folder = tempfile::tempdir().unwrap();
    let shards = folder.path().join("run/shards");
    fs::create_dir_all(&shards).unwrap();
    fs::copy(parts.whole.run().join("plan.ron"), folder.path().join("run/plan.ron")).unwrap();
    let mode = |path: &std::path::Path, mode| {
        fs::set_permissions(path, PermissionsExt::from_mode(mode)).unwrap();
    };
    mode(folder.path(), 0o755);
    mode(&folder.path().join("run"), 0o755);
    mode(&shards, 0o555);
    let root = Command::new("id").arg("-u").output().unwrap().stdout == b"0\n";
    // A copy where nobody may read it.
    let program = folder.path().join("program");
    fs::copy(env!("CARGO_BIN_EXE_ruleshift-under-test"), &program).unwrap();
    let mut command = Command::new(if root { "setpriv" } else { "env" });
    if root {
        command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]);
    }
    let out = folder.path().join("run");
    command.arg(&program).args(["shard", "0/2", "--plan"]).arg(out.join("plan.ron"));
    let output = command.arg("--out").arg(&out).current_dir(folder.path()).output().unwrap();
    let said = unfolded(&String::from_utf8(output.stderr).unwrap());
    assert_eq!(output.status.code(), Some(3), "{said}");
    assert!(said.contains("shards cannot be written to"), "{said}");
    assert!(listed(&shards).is_empty());
    let plain = folder.path().join("plain");
    fs::write(&plain, "").unwrap();
    let plan = parts.whole.plan();
    let words =
        ["shard", "0/2", "--plan", plan.to_str().unwrap(), "--out", plain.to_str().unwrap()];
    ruleshift(words).fails(3, &["plain", "cannot be made"]);
}
