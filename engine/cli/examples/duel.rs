use ruleshift_batch::*;
use ruleshift_game::*;
use ruleshift_hooks as h;
use ruleshift_players::*;
use std::time::Instant;
fn strat(t: &str) -> Strategy {
    let spec: PlayerSpec = t.parse().unwrap();
    Strategy::new::<String>(&spec, &mut |n: &str| {
        ruleshift_players::shipped()
            .into_iter()
            .find(|d| d.name == n)
            .ok_or_else(|| n.to_owned())
            .or_else(|n| {
                Doctrine::from_ron(&std::fs::read_to_string(&n).map_err(|e| format!("{n} {e}"))?)
                    .map_err(|e| e.to_string())
            })
    })
    .unwrap()
}
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let (p, q, n, seed, stack) = (
        strat(&a[1]),
        strat(&a[2]),
        a[3].parse::<u64>().unwrap(),
        a[4].parse::<u64>().unwrap(),
        a.get(5).cloned().unwrap_or("base".into()),
    );
    let spec: h::StackSpec = stack.parse().unwrap();
    let st = h::Stack::new(
        spec.variants
            .iter()
            .map(|v| {
                h::Variant::load(
                    &h::Source::new(&v.name, h::shipped(&v.name).unwrap().text),
                    &v.overrides,
                )
                .unwrap()
            })
            .collect(),
    );
    let rules = st.rules().unwrap();
    let mk = || st.script().unwrap();
    let make: Option<&dyn Fn() -> Box<dyn EventScript>> =
        if st.has_events() { Some(&mk) } else { None };
    let nsc = std::env::var("S").map_or(8.0, |s| s.split(',').count() as f64);
    let mut tot = [0.0f64; 2];
    let mut ssq = 0.0;
    let mut cnt = 0u64;
    let mut time = 0.0;
    for (si, (name, _)) in ruleshift_scenarios::SHIPPED.iter().enumerate() {
        if std::env::var("S").is_ok_and(|s| !s.split(',').any(|s| s == *name)) {
            continue;
        }
        let arena = ruleshift_scenarios::shipped(name).unwrap().arena;
        let paths = Paths::new(&arena, &rules);
        let table = Table { arena: &arena, rules: &rules, paths: &paths };
        let mut w = [0.0; 2];
        let t = Instant::now();
        for (role, ww) in w.iter_mut().enumerate() {
            let (mut x, mut y) = (p.player(&rules, make), q.player(&rules, make));
            for g in 0..n {
                let sd = luck::game_seed(seed, (si * 2 + role) as u32, g as u32);
                let mut o = ();
                let mut sc = make.map(|m| m());
                let s: Option<&mut dyn EventScript> = match &mut sc {
                    Some(s) => Some(&mut **s),
                    None => None,
                };
                let game = Game::new(table, sd, s, &mut o);
                let out = if role == 0 {
                    game.play(&mut *x, &mut *y)
                } else {
                    game.play(&mut *y, &mut *x)
                }
                .unwrap();
                let v = match out.winner {
                    None => 0.5,
                    Some(s) => {
                        if (s as usize) == role {
                            1.0
                        } else {
                            0.0
                        }
                    }
                };
                *ww += v;
                ssq += v * v;
                cnt += 1;
            }
        }
        let el = t.elapsed().as_secs_f64();
        time += el;
        println!(
            "{name:20} att {:.3} def {:.3}  {:.1} games/s",
            w[0] / n as f64,
            w[1] / n as f64,
            2.0 * n as f64 / el
        );
        tot[0] += w[0] / n as f64 / nsc;
        tot[1] += w[1] / n as f64 / nsc;
    }
    let m = (tot[0] + tot[1]) / 2.0;
    println!(
        "{} vs {}: att {:.3} def {:.3} mean {:.3} +- {:.3}  {:.1} games/s",
        a[1],
        a[2],
        tot[0],
        tot[1],
        m,
        1.96 * ((ssq / cnt as f64 - m * m).max(0.0) / cnt as f64).sqrt(),
        cnt as f64 / time
    );
}
