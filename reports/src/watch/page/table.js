// What stands where after so many events of a game: all of them are applied again, which takes no time.
function tableAfter(reel, count) {
  const table = {
    units: film.units.map((unit) => [0, 0, 0, unit.men, 0, 0, 0]),
    markers: reel.markers.map(() => [0, 0, 0]),
    points: [0, 0], lost: [0, 0], holders: film.objectives.map(() => 2), smoke: [], searched: [],
    cards: [], turn: 0,
  };
  for (let n = 0; n < count; n += 1) {
    const step = reel.steps[n];
    if (step.t !== table.turn) { table.turn = step.t; table.cards = []; }
    for (const [id, now] of step.u || []) table.units[id] = now;
    for (const [id, now] of step.m || []) table.markers[id] = now;
    if (step.p) table.points = step.p;
    if (step.x) table.lost = step.x;
    if (step.h) table.holders = step.h;
    if (step.o) table.smoke = step.o;
    if (step.f) table.searched = step.f;
    if (step.c) table.cards.push(step.c);
  }
  return table;
}

const SIDES = ["attacker", "defender", "nobody"];
const [HIDDEN, ON_TABLE, CARRIED] = [0, 1, 2];
const SUPPRESSED = 1, DUG_IN = 2, HOLDS = 4, STUCK = 8, ACTED = 16;
