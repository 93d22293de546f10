// The moments of one or two games. Two games are kept in step: the same turn, and within it the same
// number of cards drawn; whoever has nothing more to show there waits.
const film = JSON.parse(document.getElementById("film").textContent);

// The place of every event: turn and cards drawn in it, as one number that rises.
function places(reel) {
  let cards = 0, turn = -1;
  return reel.steps.map((step) => {
    if (step.t !== turn) { turn = step.t; cards = 0; }
    if (step.c) cards += 1;
    return turn * 1000 + cards;
  });
}

// For every moment the number of events that each game has seen by then, from one on.
function moments(reels) {
  const all = reels.map(places);
  const keys = [...new Set(all.flat())].sort((a, b) => a - b);
  const seen = reels.map(() => 0), out = [];
  for (const key of keys) {
    const until = all.map((list, n) => {
      let end = seen[n];
      while (end < list.length && list[end] === key) end += 1;
      return end;
    });
    const longest = Math.max(...until.map((end, n) => end - seen[n]));
    for (let k = 1; k <= longest; k += 1) {
      out.push(until.map((end, n) => Math.min(seen[n] + k, end)));
    }
    until.forEach((end, n) => { seen[n] = end; });
  }
  return out.map((at) => at.map((end) => Math.max(end, 1)));
}

const timeline = moments(film.reels);
const last = timeline.length - 1;

// The events that come new at a moment, one for each game that goes on there.
function fresh(moment) {
  return film.reels.map((reel, n) => {
    const before = moment > 0 ? timeline[moment - 1][n] : 0;
    return timeline[moment][n] > before ? reel.steps[timeline[moment][n] - 1] : null;
  });
}

// The turn of a moment: that of the game that is further on.
const turnAt = (moment) =>
  Math.max(...film.reels.map((reel, n) => reel.steps[timeline[moment][n] - 1].t));
const turns = timeline.map((_, moment) => turnAt(moment));
const lastTurn = turns[last];
// The moment at which a turn begins.
const startOf = (turn) => Math.max(turns.findIndex((at) => at >= turn), 0);
// The moment at which the two games part.
const parting = film.parting
  ? timeline.findIndex((at) => at.some((end) => end > film.parting.step))
  : -1;

// The next moment from here on at which something of that kind happens; none when there is no more.
function next(moment, kind) {
  for (let at = moment + 1; at <= last; at += 1) {
    if (fresh(at).some((step) => step && step.k === kind)) return at;
  }
  return -1;
}
