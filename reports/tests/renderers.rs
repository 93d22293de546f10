//! What each renderer to a file makes of one small run, word for word. Drawings, sheets of style and
//! scripts are left out: those are looked at in a browser.

use ruleshift_record::RunRecord;
use ruleshift_reports::watch::{Film, Parting, Reel, Step, watch_page};
use ruleshift_reports::{build, build_vote, html, json, markdown, summarise, vote_sheet};
use serde_json::Value;

use crate::made::{self, BASE, CARDS};

fn run() -> RunRecord {
    made::run(&[BASE, CARDS], 600)
}

/// `page` with nothing between each `open` and `close`.
fn without(page: &str, open: &str, close: &str) -> String {
    let mut parts = page.split(open);
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |text, part| {
        let rest = part.split_once(close).map_or("", |(_, rest)| rest);
        text + open + "…" + close + rest
    })
}

fn bare(page: &str) -> String {
    ["style", "script", "svg"]
        .iter()
        .fold(page.to_owned(), |page, tag| without(&page, &format!("<{tag}"), &format!("</{tag}>")))
}

/// From the first `from` up to the next `to`.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let (_, rest) = text.split_once(from).expect("the part begins");
    rest.split_once(to).expect("the part ends").0
}

#[test]
fn the_page_of_a_report() {
    let run = run();
    let page = bare(&html(&build(&summarise(&run), &run)));
    let (front, rest) = page.split_once("<h2 id=\"games-worth-a-look\"").expect("games");
    let balance = between(rest, "<h2 id=\"balance-by-scenario\"", "<h2 ");
    let meaning = between(rest, "<div class=\"meaning\"", "</div>");
    insta::assert_snapshot!([front, balance, meaning].join("\n--- and further down ---\n"));
}

#[test]
fn the_sheet_to_vote_on() {
    let sheet = build_vote(&summarise(&run()), 1).expect("an arm to vote on");
    insta::assert_snapshot!(bare(&vote_sheet(&sheet)));
}

#[test]
fn the_method_in_markdown() {
    let run = run();
    let text = markdown(&build(&summarise(&run), &run));
    insta::assert_snapshot!(between(&text, "## How this was measured", "## What the metrics mean"));
}

/// The summary with the first of each row of things and numbers to six digits, so that its form can be
/// read.
#[test]
fn the_form_of_the_summary() {
    fn first(value: &mut Value) {
        match value {
            Value::Array(all) => {
                all.truncate(1);
                all.iter_mut().for_each(first);
            }
            Value::Number(number) if number.is_f64() => {
                let number = number.as_f64().expect("a float");
                *value = format!("{number:.5e}").parse::<f64>().expect("a float").into();
            }
            Value::Object(fields) => fields.values_mut().for_each(first),
            _ => {}
        }
    }
    let mut summary = serde_json::from_str(&json(&summarise(&run()))).expect("JSON");
    first(&mut summary);
    insta::assert_snapshot!(serde_json::to_string_pretty(&summary).expect("JSON"));
}

#[test]
fn the_page_of_two_games() {
    let reel = |arm: &str, title: &str, text: &str| Reel {
        arm: arm.to_owned(),
        title: title.to_owned(),
        command: format!("ruleshift replay {arm}"),
        end: "The attacker wins.".to_owned(),
        steps: vec![Step { turn: 1, text: text.to_owned(), told: 3, ..Step::default() }],
        ..Reel::default()
    };
    let film = Film {
        title: "The mill & the <bridge>".to_owned(),
        facts: vec!["Attacker: A Company (steady)".to_owned()],
        reels: vec![reel("base", "Base rules", "Card: turn end"), reel("a", "A rule", "Card: <b>")],
        parting: Some(Parting { step: 0, why: vec!["The hook made it.".to_owned()] }),
        ..Film::default()
    };
    let page = watch_page(&film);
    let (body, data) = page.split_once("<script type=\"application/json\"").expect("data");
    let data = data.split_once("</script>").expect("the data ends").0;
    insta::assert_snapshot!(bare(body) + "\n--- data ---\n" + data);
}
