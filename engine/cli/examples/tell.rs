//! scratch
#[path = "../src/board.rs"]
mod board;
#[path = "../src/story.rs"]
mod story;
use ruleshift_game::*;
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let s = ruleshift_scenarios::shipped(&a[1]).unwrap();
    let seed: u64 = a[2].parse().unwrap();
    let docs = ruleshift_players::shipped();
    let d = docs.iter().find(|d| d.name == "steady").unwrap();
    let rules = Rules::base();
    let paths = Paths::new(&s.arena, &rules);
    let mut st = story::Story::new(&s.arena, true);
    let mut p1 = ruleshift_players::player(d, &rules);
    let mut p2 = ruleshift_players::player(d, &rules);
    Game::new(Table { arena: &s.arena, rules: &rules, paths: &paths }, seed, None, &mut st)
        .play(&mut *p1, &mut *p2)
        .unwrap();
    println!("{}", st.into_text());
    let _ = board::LEGEND;
    let _ = std::mem::size_of::<State>();
    println!("{}", std::mem::size_of::<State>());
}
