//! scratch
use ruleshift_batch::*;
use ruleshift_game::*;
use ruleshift_record::*;
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let n: u32 = a.get(1).map_or(1000, |s| s.parse().unwrap());
    let att = a.get(2).cloned().unwrap_or("steady".into());
    let def = a.get(3).cloned().unwrap_or("steady".into());
    let docs = ruleshift_players::shipped();
    let d = |n: &str| {
        if n.ends_with(".ron") {
            ruleshift_players::Doctrine::from_ron(&std::fs::read_to_string(n).unwrap()).unwrap()
        } else {
            docs.iter().find(|d| d.name == n).unwrap().clone()
        }
    };
    let (da, dd) = (d(&att), d(&def));
    let scs: Vec<_> = ["hasty-attack", "meeting-engagement"]
        .iter()
        .map(|n| ruleshift_scenarios::shipped(n).unwrap())
        .collect();
    for s in &scs {
        let plan = Plan {
            headline: vec![],
            format: 1,
            rules: 1,
            arms: vec![Arm {
                name: "base".into(),
                title: String::new(),
                summary: String::new(),
                stack: vec![],
            }],
            scenarios: vec![PlanScenario {
                name: s.name.clone(),
                title: String::new(),
                digest: s.digest.clone(),
            }],
            attacker: att.clone(),
            defender: def.clone(),
            games_per_arm: n,
            seed: 1,
            timing: Timing::default(),
        };
        let cast = Cast {
            arenas: vec![&s.arena],
            arms: vec![ArmCast { rules: Rules::base(), script: None }],
            player: Box::new(|side, r| {
                ruleshift_players::player(if side == Side::Attacker { &da } else { &dd }, r)
            }),
        };
        let t = std::time::Instant::now();
        let run = run(&plan, &cast, 1, &()).unwrap();
        let el = t.elapsed().as_secs_f64();
        println!("== {} {} games/s {:.0}", s.name, run.games.len(), n as f64 / el);
        for f in &run.faults {
            println!("FAULT {}", f.message);
        }
        for &m in Metric::ALL {
            let mean: f64 =
                run.games.iter().map(|g| g.get(m)).sum::<f64>() / run.games.len() as f64;
            println!("  {:22} {:.3}", m.spec().name, mean);
        }
    }
}
