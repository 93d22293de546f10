use ruleshift_game::*; use ruleshift_players::*;
fn main(){ let rules=Rules::base(); let st=shipped().into_iter().find(|d|d.name=="steady").unwrap();
 for (si,(name,_)) in ruleshift_scenarios::SHIPPED.iter().enumerate(){ let arena=ruleshift_scenarios::shipped(name).unwrap().arena; let paths=Paths::new(&arena,&rules); let table=Table{arena:&arena,rules:&rules,paths:&paths};
  let (mut a,mut b)=(player(&st,&rules),player(&st,&rules));
  for g in 0..400u32 { let mut o=(); let mut game=Game::new(table,luck::game_seed(77,si as u32,g),None,&mut o); let mut turn=0; let mut rows=vec![];
   while let Some(side)=game.advance(){
     if game.state().turn()!=turn { turn=game.state().turn(); let v=game.view(side); let s=game.state();
       let mut f=vec![]; for side in [Side::Attacker,Side::Defender]{ let (lost,first)=s.losses(side); let bp=v.break_point(side).max(1) as f64; let turns=(v.turn_limit() as i32 - turn as i32 +1).max(1);
         let tc:i32=v.objectives().iter().zip(s.holders()).filter(|(_,h)|**h==Some(side)).map(|(ob,_)| rules.objective_points(side,ob.each_turn[side])*turns+rules.final_points(side,ob.at_end[side])).sum();
         let men:u32=s.units().iter().filter(|u|u.side==side && (u.here()||u.place==Place::Hidden)).map(|u|u.men as u32).sum();
         let pins:u32=s.on_table().filter(|(_,u)|u.side==side).map(|(_,u)|u.pins.min(u.men) as u32).sum();
         let hidden:u32=s.units().iter().filter(|u|u.side==side && u.place==Place::Hidden).map(|u|u.men as u32).sum();
         f.extend([s.points()[side] as f64, tc as f64, lost as f64*100.0/first as f64/bp, pins as f64/first as f64, men as f64/first as f64, hidden as f64/first as f64]); }
       rows.push((turn as f64/v.turn_limit() as f64,f)); }
     let p= if side==Side::Attacker {a.choose(&game.view(side),game.choices())} else {b.choose(&game.view(side),game.choices())}; game.apply(p); }
   let w=match game.result().unwrap().0{Some(Side::Attacker)=>1.0,None=>0.5,_=>0.0};
   for (t,f) in rows { print!("{si},{w},{t:.4}"); for x in f{print!(",{x:.4}");} println!(); } } } }
