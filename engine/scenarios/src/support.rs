//! Support that the name of a scenario adds to it: `probe+defender:german-machine-gun-section`.

use crate::form::GroupForm;
use crate::library::Library;
use crate::lists::ForceList;
use crate::names::SideName;
use crate::nearest::unknown;
use crate::sketch::{mains, part_of_list};

const HOW: &str =
    "write `+SIDE:LIST` or `+SIDE:LIST:COUNT`, as in `+defender:german-machine-gun-section`";
const SIDES: [(&str, SideName); 2] =
    [("attacker", SideName::Attacker), ("defender", SideName::Defender)];

/// The word for a break point, where the name of a list might stand.
const BREAK_POINT: &str = "break-point";

/// What a side gets besides, or instead of, what the scenario gives it.
#[derive(Clone, Debug)]
pub struct Support {
    pub(crate) side: SideName,
    pub(crate) what: What,
}

/// What that is.
#[derive(Clone, Debug)]
pub(crate) enum What {
    Group(Piece),
    /// Another break point, in percent.
    BreakPoint(u8),
}

/// A force list, or a part of one.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    list: &'static ForceList,
    /// Units besides leaders, if it is not the whole list.
    count: Option<i32>,
}

/// The name of a scenario without the support it adds, and the text of that: what follows the first
/// `+`, which in a path follows the ending.
pub fn parted(name: &str) -> (&str, Option<&str>) {
    const ENDING: &str = ".ron";
    if let Some(at) = name.find(".ron+") {
        let (path, added) = name.split_at(at + ENDING.len());
        return (path, Some(&added[1..]));
    }
    let is_path = name.ends_with(ENDING) || name.contains(['/', '\\']);
    match name.split_once('+') {
        Some((name, added)) if !is_path => (name, Some(added)),
        _ => (name, None),
    }
}

impl Support {
    /// All that a text adds: `defender:german-machine-gun-section+attacker:us-rifle-squad`.
    ///
    /// # Errors
    /// Everything that is wrong with it, with the nearest names.
    pub fn several(text: &str) -> Result<Vec<Support>, Vec<String>> {
        let (mut found, mut faults) = (vec![], vec![]);
        for piece in text.split('+') {
            match Support::read(piece) {
                Ok(support) => found.push(support),
                Err(wrong) => {
                    faults.extend(wrong.iter().map(|wrong| format!("`+{piece}`: {wrong}")));
                }
            }
        }
        if faults.is_empty() { Ok(found) } else { Err(faults) }
    }

    fn read(piece: &str) -> Result<Support, Vec<String>> {
        let parts: Vec<&str> = piece.split(':').collect();
        let (side, name, count) = match parts[..] {
            [side, list] => (side, list, None),
            [side, list, count] => (side, list, Some(count)),
            _ => return Err(vec![HOW.to_owned()]),
        };
        match (side_of(side), what_of(name, count)) {
            (Ok(side), Ok(what)) => Ok(Support { side, what }),
            (side, what) => Err(side.err().into_iter().chain(what.err()).collect()),
        }
    }

    /// The side, as texts name it.
    pub(crate) fn side_word(&self) -> &'static str {
        SIDES[self.side as usize].0
    }

    /// What a reader calls it.
    pub(crate) fn called(&self) -> String {
        match &self.what {
            What::Group(piece) => piece.called(),
            What::BreakPoint(percent) => format!("Break point {percent}"),
        }
    }
}

impl Piece {
    /// The group it makes, whose name none of `others` has.
    pub(crate) fn group(&self, others: &[GroupForm]) -> GroupForm {
        let taken = |name: &String| others.iter().any(|other| other.name == *name);
        let name = self.called();
        let names = (2..).map(|n| format!("{name} {n}"));
        let free = std::iter::once(name.clone()).chain(names).find(|name| !taken(name));
        let part = part_of_list(&free.unwrap_or(name), &self.list.name, self.count.unwrap_or(1));
        if self.count.is_some() { part } else { GroupForm { without: vec![], ..part } }
    }

    /// What a reader calls it: the name of the list without its nation.
    pub(crate) fn called(&self) -> String {
        let words = self.list.name.split('-').skip(1).collect::<Vec<_>>().join(" ");
        let words = words.replace("anti tank", "anti-tank");
        let (first, rest) = words.split_at(1);
        format!("{}{rest}", first.to_ascii_uppercase())
    }

    /// Whether it has vehicles.
    pub(crate) fn is_driven(&self) -> bool {
        Library::shipped().tally(self.list).vehicles > 0
    }
}

fn what_of(name: &str, number: Option<&str>) -> Result<What, String> {
    if name != BREAK_POINT {
        let list = list_of(name)?;
        return Ok(What::Group(Piece { list, count: count_of(list, number)? }));
    }
    let typed = number.unwrap_or_default();
    let percent = typed.parse::<u8>().ok().filter(|percent| percent.to_string() == typed);
    percent.filter(|percent| (1..=100).contains(percent)).map(What::BreakPoint).ok_or_else(|| {
        format!("its percentage is `{typed}`, expected 1 to 100, as in `+defender:break-point:45`")
    })
}

fn side_of(word: &str) -> Result<SideName, String> {
    let found = SIDES.iter().find(|(side, _)| *side == word);
    found.map(|&(_, side)| side).ok_or_else(|| unknown("side", word, SIDES.map(|(word, _)| word)))
}

fn list_of(name: &str) -> Result<&'static ForceList, String> {
    let library = Library::shipped();
    if let Ok(list) = library.list(name).map(|list| &list.parts)
        && !list.is_empty()
    {
        let parts: Vec<&str> = list.iter().map(|part| part.list.as_str()).collect();
        return Err(format!("it is several groups; add one of each of: {}", parts.join(", ")));
    }
    let groups = library.lists.iter().filter(|list| list.parts.is_empty());
    let found = groups.clone().find(|list| list.name == name);
    found.ok_or_else(|| unknown("force list", name, groups.map(|list| list.name.as_str())))
}

/// A count has one way of being written, so that one scenario has one name.
fn count_of(list: &ForceList, typed: Option<&str>) -> Result<Option<i32>, String> {
    let Some(typed) = typed else { return Ok(None) };
    let most = mains(&list.name);
    let count = typed.parse::<i32>().ok().filter(|count| count.to_string() == typed);
    let count = count.filter(|count| (1..=most).contains(count));
    count.map(Some).ok_or_else(|| {
        let units = if most == 1 { "unit" } else { "units" };
        let name = &list.name;
        format!("its count is `{typed}`, expected 1 to {most}: {name} has {most} {units} besides leaders")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(support: &Support) -> &Piece {
        match &support.what {
            What::Group(piece) => piece,
            What::BreakPoint(_) => panic!("{support:?}"),
        }
    }

    #[test]
    fn a_name_is_parted_where_support_begins() {
        for (name, parts) in [
            ("probe", ("probe", None)),
            ("probe+a:b+c:d", ("probe", Some("a:b+c:d"))),
            ("probe+", ("probe", Some(""))),
            ("one+two.ron", ("one+two.ron", None)),
            ("one+two.ron+a:b", ("one+two.ron", Some("a:b"))),
            ("../a+b/mine.ron+a:b", ("../a+b/mine.ron", Some("a:b"))),
            ("a+b/mine", ("a+b/mine", None)),
        ] {
            assert_eq!(parted(name), parts, "{name}");
        }
    }

    #[test]
    fn support_is_read_with_its_count_and_called_what_it_is() {
        let read = Support::several("defender:german-anti-tank-platoon:1+attacker:us-rifle-squad");
        let read = read.unwrap();
        assert_eq!(
            read.iter().map(Support::side_word).collect::<Vec<_>>(),
            ["defender", "attacker"]
        );
        assert_eq!(read[0].called(), "Anti-tank platoon");
        let gun = piece(&read[0]).group(&[]);
        assert_eq!(gun.without, ["leader", "7.5 cm gun 2", "7.5 cm gun 3"]);
        assert_eq!(piece(&read[0]).group(&[gun]).name, "Anti-tank platoon 2");
        let squad = piece(&read[1]).group(&[]);
        assert_eq!((&*squad.name, squad.list.as_deref()), ("Rifle squad", Some("us-rifle-squad")));
        assert!(squad.without.is_empty(), "the whole list");
        let whole = Support::several("defender:german-anti-tank-platoon").unwrap();
        assert!(piece(&whole[0]).group(&[]).without.is_empty(), "leaders too");
    }

    #[test]
    fn everything_that_is_wrong_is_told_at_once() {
        let text = "defendr:german-machin-gun-section+attacker+attacker:german-rifle-company\
                    +defender:german-anti-tank-platoon:4+defender:us-rifle-squad:01\
                    +defender:break-point+attacker:break-point:101";
        let told = Support::several(text).unwrap_err();
        let parts = [
            "`+defendr:german-machin-gun-section`: there is no side called `defendr`; did you mean `defender`?",
            "did you mean `german-machine-gun-section`? There are: us-rifle-squad, ",
            "`+attacker`: write `+SIDE:LIST` or `+SIDE:LIST:COUNT`",
            "`+attacker:german-rifle-company`: it is several groups; add one of each of: german-company-headquarters",
            "its count is `4`, expected 1 to 3: german-anti-tank-platoon has 3 units besides leaders",
            "its count is `01`, expected 1 to 1: us-rifle-squad has 1 unit besides leaders",
            "its percentage is ``, expected 1 to 100, as in `+defender:break-point:45`",
            "its percentage is `101`, expected 1 to 100",
        ];
        assert_eq!(told.len(), parts.len(), "{told:#?}");
        for (told, part) in told.iter().zip(parts) {
            assert!(told.contains(part), "{part} is not in: {told}");
        }
        assert!(!told[1].contains("german-rifle-company"), "lists of several groups do not fit");
    }
}
