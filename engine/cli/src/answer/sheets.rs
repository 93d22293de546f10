//! The sheets to vote on: one for each variant of a comparison.

use ruleshift_record::Summary;
use ruleshift_reports::{PageLink, Report, build_vote, vote_sheet};

use crate::folder::{plain, short};

/// Adds a sheet for each variant to the pages, and links to it from the report.
pub(super) fn add(summary: &Summary, report: &mut Report, pages: &mut Vec<(String, String)>) {
    let names = names(summary.arms.iter().skip(1).map(|arm| arm.name.as_str()));
    for (n, file) in names.into_iter().enumerate() {
        let Some(sheet) = build_vote(summary, n + 1) else { continue };
        let title = format!("Sheet to vote on: {}", sheet.title);
        report.pages.push(PageLink { title, file: file.clone() });
        pages.push((file, vote_sheet(&sheet)));
    }
}

/// A name of a file for each arm, numbered from the second on where several would be equal, on disks
/// too that do not tell capitals.
fn names<'a>(arms: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for arm in arms {
        let stem = format!("vote-{}", plain(&short(arm).unwrap_or_default()));
        let numbered = |n: u32| match n {
            1 => format!("{stem}.html"),
            n => format!("{stem}-{n}.html"),
        };
        let taken = |name: &String| names.iter().any(|other| other.eq_ignore_ascii_case(name));
        names.extend((1..).map(numbered).find(|name| !taken(name)));
    }
    names
}

#[cfg(test)]
mod tests {
    use super::names;

    #[test]
    fn sheets_have_names_of_their_own_that_any_disk_takes() {
        let arms = ["a/b.rhai", "b", "B", "two:n=3", "two:n=-3", "x y<z>", "b-2"];
        assert_eq!(
            names(arms.into_iter()),
            [
                "vote-b.html",
                "vote-b-2.html",
                "vote-B-3.html",
                "vote-two-n=3.html",
                "vote-two-n=-3.html",
                "vote-x-y-z-.html",
                "vote-b-2-2.html",
            ]
        );
    }
}
