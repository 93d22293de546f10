//! A shard that is asked to stop, or that runs twice at once, leaves a whole file or none.

use std::fs;
use std::path::PathBuf;
use std::process::{Child, Command};
use std::thread::sleep;
use std::time::Duration;

use super::{Parts, listed};

const AGAIN: i32 = 75;

/// Waits until something is half written in the folder of the shards.
fn begun(parts: &Parts) -> PathBuf {
    let half = || {
        let files = listed(&parts.out.join("shards"));
        files
            .into_iter()
            .find(|path| path.file_name().unwrap().to_str().unwrap().starts_with(".half-"))
    };
    let mut looks = (0..4000).map(|_| {
        sleep(Duration::from_millis(5));
        half()
    });
    looks.find_map(|half| half).expect("the shard does not begin")
}

fn signal(child: &Child, name: &str) {
    let sent = Command::new("kill").args([name, &child.id().to_string()]).status().unwrap();
    assert!(sent.success(), "the process is there to be asked");
}

#[test]
fn a_shard_that_is_asked_to_stop_leaves_nothing_and_says_try_again() {
    let parts = Parts::new();
    for name in ["-TERM", "-INT"] {
        let child = parts.shard_command("0/2", &["--quiet", "--threads", "1"]).spawn().unwrap();
        begun(&parts);
        signal(&child, name);
        let output = child.wait_with_output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(AGAIN), "{said}");
        assert!(said.contains("nothing of this shard is kept"), "{said}");
        assert!(listed(&parts.out.join("shards")).is_empty(), "{name}");
    }
    parts.shards(2);
    parts.come_to_the_whole();
}

/// A scheduler may start a part again while the first copy still plays.
#[test]
fn two_copies_of_a_shard_at_once_end_in_one_file() {
    let parts = Parts::new();
    let copies: Vec<Child> =
        (0..2).map(|_| parts.shard_command("0/2", &["--threads", "1"]).spawn().unwrap()).collect();
    for copy in copies {
        let output = copy.wait_with_output().unwrap();
        let said = String::from_utf8(output.stdout).unwrap();
        assert!(output.status.success() && said.contains(" is played"), "both play it: {said}");
    }
    assert_eq!(parts.files().len(), 1);
    parts.shard("1/2").fine();
    parts.come_to_the_whole();
}

/// What a killed shard leaves is removed when it is old; the clock of another machine may be ahead.
#[test]
fn only_old_leavings_are_removed() {
    let parts = Parts::new();
    parts.shard("0/2").fine();
    let mut child = parts.shard_command("1/2", &["--quiet", "--threads", "1"]).spawn().unwrap();
    let half = begun(&parts);
    child.kill().unwrap();
    child.wait().unwrap();
    let clean = || parts.on("clean", &[]).fine().out;
    assert_eq!(clean(), "There is nothing to remove\n", "it is young");
    let hour = Duration::from_secs(3700);
    let now = fs::metadata(&half).unwrap().modified().unwrap();
    let touch =
        |time| fs::File::options().write(true).open(&half).unwrap().set_modified(time).unwrap();
    touch(now + hour);
    assert_eq!(clean(), "There is nothing to remove\n", "it is of the future");
    touch(now - hour);
    assert_eq!(clean(), "1 file is removed\n");
    assert!(!half.exists() && parts.files().len() == 1);
    parts.shard("1/2").fine();
    parts.come_to_the_whole();
}
