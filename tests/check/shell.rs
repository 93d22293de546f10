//! What a shell and the reader of manuals are given.

use std::fs;
use std::process::{Command, Stdio};

use crate::support::{ruleshift, ruleshift_in};

/// Each names the commands; bash, where there is one, reads its own without a complaint.
#[test]
fn every_shell_is_told_the_commands() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = ruleshift(["new", "completions", shell]).fine().out;
        for word in ["compare", "handicap", "no-board", "completions"] {
            assert!(script.contains(word), "{shell}: {word}");
        }
        assert!(!script.contains("under-test"), "{shell}: the name is the installed one");
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ruleshift.bash");
    fs::write(&path, ruleshift(["new", "completions", "bash"]).fine().out).unwrap();
    if Command::new("bash").arg("--version").stdout(Stdio::null()).status().is_ok() {
        let read = Command::new("bash").arg("-n").arg(&path).output().unwrap();
        assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
        let text = "source \"$1\"; COMP_WORDS=(ruleshift han); COMP_CWORD=1\n\
                    _ruleshift ruleshift han ruleshift; echo \"${COMPREPLY[@]}\"";
        let done = Command::new("bash").args(["-c", text, "bash"]).arg(&path).output().unwrap();
        assert_eq!(String::from_utf8_lossy(&done.stdout).trim(), "handicap");
    }
    ruleshift(["new", "completions", "fsh"]).fails(2, &["'fsh'", "bash", "fish"]);
}

/// A page for the program and one for each command, in requests that a formatter knows.
#[test]
fn the_manual_has_a_page_for_each_command() {
    let folder = tempfile::tempdir().unwrap();
    let new = || ruleshift_in(folder.path(), ["new", "manual", "--out", "man"]);
    assert!(new().fine().out.contains("man -l man/ruleshift.1"));
    let page = |name: &str| fs::read_to_string(folder.path().join("man").join(name)).unwrap();
    let first = page("ruleshift.1");
    let help = ruleshift(["--help"]).fine().out;
    let listed = help.lines().skip_while(|line| *line != "Commands:").skip(1);
    let listed = listed.take_while(|line| !line.is_empty()).filter(|line| !line.starts_with("   "));
    let mut pages = 1;
    for command in listed.filter_map(|line| line.split_whitespace().next()) {
        if command != "help" {
            let page = page(&format!("ruleshift-{command}.1"));
            assert!(page.contains(".SH OPTIONS") && page.contains(".SH SYNOPSIS"), "{command}");
            assert!(first.contains(&format!("ruleshift\\-{command}(1)")), "{command}");
            pages += 1;
        }
    }
    assert!(pages > 15 && first.contains("Exit codes"), "{first}");
    page("ruleshift-new-scenario.1");
    for entry in fs::read_dir(folder.path().join("man")).unwrap() {
        let path = entry.unwrap().path();
        formatted(&fs::read_to_string(&path).unwrap(), &path.display().to_string());
        formatter(&path);
    }
    new().fails(2, &["`man`", "new or empty folder"]);
    assert_eq!(page("ruleshift.1"), first, "it is left alone");
    ruleshift(["new", "manual"]).fails(2, &["--out <DIR>"]);
}

/// Lines that begin with a point are requests; those are all that these pages need.
#[track_caller]
fn formatted(page: &str, name: &str) {
    let known =
        [".TH", ".SH", ".TP", ".IP", ".RS", ".RE", ".PP", ".br", ".ie", ".el", ".nf", ".fi"];
    for line in page.lines().filter(|line| line.starts_with(['.', '\''])) {
        let request = line.split(' ').next().unwrap();
        assert!(known.contains(&request), "{name}: {line}");
    }
    assert_eq!(page.lines().filter(|line| line.starts_with(".TH ")).count(), 1, "{name}");
}

/// Where there is a formatter, it warns of nothing.
fn formatter(path: &std::path::Path) {
    let format = ["-man", "-ww", "-Tutf8", "-z"];
    if let Ok(done) = Command::new("groff").args(format).arg(path).output() {
        assert!(done.status.success() && done.stderr.is_empty(), "{path:?}: {done:?}");
    }
}
