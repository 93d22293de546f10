//! The table of metrics as users see it, and the timing table as they write it.

use ruleshift_record::{METRICS, Theme, Timing};

use crate::support::{ruleshift, ruleshift_in};

#[test]
fn the_list_has_every_metric_once_under_its_theme() {
    let list = ruleshift(["list", "metrics"]).fine().out;
    let mut sections = list.split("\n\n");
    assert!(sections.next().unwrap().starts_with("Metrics, "), "{list}");
    for theme in Theme::ALL {
        let section = sections.next().unwrap_or_else(|| panic!("no section {}", theme.word()));
        assert!(
            section.starts_with(&format!("{}: {}\n", theme.word(), theme.about())),
            "{section}"
        );
        for metric in &METRICS {
            let listed = section.contains(&format!(" {}  [", metric.name));
            assert_eq!(listed, metric.theme == *theme, "{} under {}", metric.name, theme.word());
        }
    }
    assert_eq!(sections.next(), None, "nothing else");
    // Long lines are folded.
    let list = list.split_whitespace().collect::<Vec<_>>().join(" ");
    for metric in &METRICS {
        let parts = [
            format!("{}; {}; worth noticing from {}]", metric.label, metric.unit, metric.notice),
            metric.about.to_owned(),
            format!("From: {}", metric.from),
        ];
        for part in parts {
            assert!(list.contains(&part), "{}: `{part}`", metric.name);
        }
    }
}

#[test]
fn every_theme_has_metrics_and_long_waits_have_tails() {
    for &theme in Theme::ALL {
        assert!(METRICS.iter().any(|metric| metric.theme == theme), "{}", theme.word());
    }
    for name in ["turns", "minutes", "longest_wait", "player_wait", "longest_watch"] {
        let metric = METRICS.iter().find(|metric| metric.name == name).unwrap();
        assert!(metric.tail, "{name}");
    }
    let rates = METRICS.iter().filter(|m| m.kind == ruleshift_record::MetricKind::Rate);
    assert!(rates.clone().all(|metric| !metric.tail), "a yes or no has no tail");
}

#[test]
fn a_new_timing_table_is_a_file_to_edit() {
    let folder = tempfile::tempdir().unwrap();
    let shown = ruleshift(["new", "timing"]).fine().out;
    assert_eq!(shown, Timing::FILE);
    assert_eq!(Timing::from_ron(&shown), Ok(Timing::default()));
    let write = |out| ruleshift_in(folder.path(), ["new", "timing", "--out", out]);
    assert!(write("ours.ron").fine().out.contains("ours.ron"));
    let text = std::fs::read_to_string(folder.path().join("ours.ron")).unwrap();
    assert_eq!(text, Timing::FILE, "the file and the screen get the same");
    write("ours.ron").fails(2, &["ours.ron is there already"]);
    write("ours.txt").fails(2, &["`ours.txt`", "ends in .ron"]);
    write("missing/ours.ron").fails(3, &["ours.ron", "cannot be written"]);
}
