//! The pages on faults.

use ruleshift_hooks::Id;

use crate::support::{ruleshift, ruleshift_in};

#[test]
fn every_kind_of_fault_is_listed_and_has_its_page() {
    let list = ruleshift(["explain"]).fine().out;
    for id in Id::ALL {
        let page = ruleshift(["explain", id.text()]).fine().out;
        assert!(page.starts_with(&format!("{}\n\n", id.text())) && !page.contains("```"), "{page}");
        assert!(list.contains(&format!("  {} ", id.text())), "{} is not listed", id.text());
    }
}

#[test]
fn a_page_on_one_screen() {
    insta::assert_snapshot!(ruleshift(["explain", "arithmetic"]).fine().out, @r#"
    arithmetic

    A division by zero, or a number too large to be held.

      fn about() { #{ title: "Example", summary: "Shows a fault." } }
      fn pinned_move(now, rolled, pins) { rolled / pins }

    To mend it

    Look at the case in the message, and treat it by itself.

      fn about() { #{ title: "Example", summary: "Shows a fault." } }
      fn pinned_move(now, rolled, pins) {
          if pins == 0 { now } else { rolled / pins }
      }
    "#);
}

#[test]
fn an_unknown_name_has_a_nearest_one() {
    ruleshift(["explain", "unknwon-hook"])
        .fails(2, &["`unknwon-hook`", "did you mean `unknown-hook`?"]);
    ruleshift(["explain", "weather"])
        .fails(2, &["`weather`", "`ruleshift explain` lists them all"]);
}

#[test]
fn faults_and_warnings_end_with_a_word_on_explain() {
    let faulty =
        [("a.rhai", "fn marker_action(now) { 3 }"), ("b.rhai", "fn turn_limit(now) { now }")];
    let one =
        super::check(&faulty, "a.rhai").fails(1, &["`ruleshift explain unknown-hook` tells more."]);
    assert!(one.err.trim_end().ends_with("tells more."), "{}", one.err);
    super::check(&faulty, "a.rhai b.rhai").fails(1, &["for arguments, unknown-hook."]);
    let warned = super::check(&[("c.rhai", "private fn a() { 1 }")], "c.rhai").fine().out;
    assert!(warned.ends_with("`ruleshift explain no-hooks` tells more.\n"), "{warned}");
}

/// The page whose example is found by games; all others are tried beside the pages.
#[test]
fn the_example_of_never_matters_never_matters_and_the_mended_one_does() {
    let page = ruleshift(["explain", "never-matters"]).fine().out;
    let (before, mended) = page.split_once("To mend it").unwrap();
    let told = |part: &str| {
        let lines = part.lines().filter_map(|line| line.strip_prefix("  "));
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("x.rhai"), lines.collect::<Vec<_>>().join("\n")).unwrap();
        ruleshift_in(folder.path(), ["check", "x.rhai"]).fine().out
    };
    assert!(told(before).contains("warning[never-matters]"), "{}", told(before));
    assert!(!told(mended).contains("warning"), "{}", told(mended));
}
