//! The pages under test, written by the program itself, once for all tests.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use ruleshift_record::{Plan, read_games};

use crate::support::ruleshift;

/// Every page: its name in failures, and its file.
pub(crate) struct Pages {
    folder: PathBuf,
    /// Name and file, in the order in which they were made.
    pub(crate) all: Vec<(String, PathBuf)>,
}

/// Games of a comparison: enough for every part of a report.
const GAMES: &str = "160";

/// The pages, in a folder of the target directory.
pub(crate) static PAGES: LazyLock<Pages> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pages");
    // Those of an earlier run may be of an earlier program.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("the target directory can be written");
    let mut pages = Pages::into(&folder);
    pages.run("one", &["compare", "two-turn-end-cards", "--games", GAMES]);
    let three = ["two-turn-end-cards", "no-late-fire", "kinder-pin-recovery"];
    pages.run("three", &[&["compare"], &three[..], &["--games", GAMES]].concat());
    pages.run("sweep", &["sweep", "two-turn-end-cards:cards=1..3", "--games", "40"]);
    pages.run("cross", &["cross", "no-late-fire", "quick-feet", "--games", "40"]);
    let ticket = pages.ticket();
    pages.page("replay", &["replay", &ticket, "--html"]);
    pages.page("diverge", &["diverge", "two-turn-end-cards", "--seed", "7", "--html"]);
    pages
});

impl Pages {
    /// No pages yet; they will be written below `folder`.
    pub(crate) fn into(folder: &Path) -> Pages {
        Pages { folder: folder.to_owned(), all: vec![] }
    }

    /// The file of the first page whose name begins so.
    #[track_caller]
    pub(crate) fn file(&self, name: &str) -> &Path {
        let found = self.all.iter().find(|(page, _)| page.starts_with(name));
        let names = || self.all.iter().map(|(page, _)| page.as_str()).collect::<Vec<_>>();
        &found.unwrap_or_else(|| panic!("no page {name} among {:?}", names())).1
    }

    /// Pages of a run, all that lie in its folder or below.
    pub(crate) fn run(&mut self, name: &str, command: &[&str]) {
        let out = self.folder.join(name);
        let out_text = out.to_string_lossy();
        ruleshift(command.iter().chain(&["--quiet", "--out", &out_text])).fine();
        let mut found = html(&out);
        // Of the games worth a look, one page stands for all.
        let further = |file: &PathBuf| {
            let stem = file.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
            stem.starts_with("game-") && stem != "game-1"
        };
        found.retain(|file| !further(file));
        found.sort();
        assert!(found.contains(&out.join("report.html")), "{found:?}");
        self.all.extend(found.into_iter().map(|file| {
            let stem = file.strip_prefix(&out).expect("it lies there").with_extension("");
            (format!("{name}/{}", stem.display()), file)
        }));
    }

    /// A page that a command writes to the file named last.
    pub(crate) fn page(&mut self, name: &str, command: &[&str]) {
        let file = self.folder.join(format!("{name}.html"));
        let file_text = file.to_string_lossy().into_owned();
        let done = ruleshift(command.iter().chain(&[file_text.as_str()]));
        assert_eq!(done.code, 0, "{}", done.err);
        self.all.push((name.to_owned(), file));
    }

    /// The ticket of a game of the first run.
    fn ticket(&self) -> String {
        let read =
            |name: &str| fs::read(self.folder.join("one").join(name)).expect("a run is whole");
        let plan = String::from_utf8(read("plan.ron")).expect("a plan is text");
        let plan = Plan::from_ron(&plan).expect("a plan can be read back");
        let games = fs::File::open(self.folder.join("one/games.parquet")).expect("a run has games");
        let games = read_games(&plan, games).expect("games can be read back");
        let last = games.last().expect("it has games");
        plan.ticket(last.key(), last.seed, last.digest).to_string()
    }
}

/// All pages in a folder and below.
fn html(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("the folder can be read").flatten();
    let below = |path: PathBuf| if path.is_dir() { html(&path) } else { vec![path] };
    let files = entries.flat_map(|entry| below(entry.path()));
    files.filter(|path| path.extension().is_some_and(|kind| kind == "html")).collect()
}
