// The controls: what is shown now, and how to get to another moment.
const find = (id) => document.getElementById(id);
const reels = [...document.querySelectorAll(".reel")];
const shown = { moment: 0, eyes: 3, timer: 0 };

function show() {
  const { moment, eyes } = shown;
  const news = fresh(moment);
  film.reels.forEach((reel, n) => {
    const count = timeline[moment][n], table = tableAfter(reel, count);
    const part = (name) => reels[n].querySelector(name);
    draw(part("svg.table"), reel, table, news[n] ? [news[n]] : [], eyes);
    part("svg.table").setAttribute("aria-label",
      `The table in turn ${table.turn}. ${score(table)} ${news[n] ? sentence(news[n], eyes) : ""}`);
    part(".score").textContent = score(table);
    part(".cards").replaceChildren(...cards(table));
    part(".now").textContent = count === reel.steps.length && !news[n] ? reel.end : sentence(news[n], eyes);
    part(".dice").replaceChildren(...(news[n] && news[n].w & eyes ? dice(news[n]) : []));
    const list = part(".log");
    list.replaceChildren(...log(reel, n, count, eyes, go));
    list.scrollTop = list.scrollHeight;
  });
  const turn = turns[moment];
  find("when").value = moment;
  find("when").setAttribute("aria-valuetext", `turn ${turn}, event ${moment + 1} of ${last + 1}`);
  find("turn").value = turn;
  find("turn").setAttribute("aria-valuetext", turn === 0 ? "before the game" : `turn ${turn} of ${lastTurn}`);
  const parted = parting >= 0 && moment >= parting ? "; the games have parted" : "";
  find("where").textContent =
    `${turn === 0 ? "Before the game" : `Turn ${turn} of ${lastTurn}`}, event ${moment + 1} of ${last + 1}${parted}`;
}

function go(moment) {
  shown.moment = Math.min(Math.max(moment, 0), last);
  show();
}

function jump(kind) {
  const moment = next(shown.moment, kind);
  if (moment >= 0) go(moment);
  else find("where").textContent += `: no more ${kind}`;
}

function pause() {
  clearTimeout(shown.timer);
  shown.timer = 0;
  find("play").setAttribute("aria-pressed", "false");
  find("play").textContent = "Play";
}

function tick() {
  if (shown.moment >= last) { pause(); return; }
  go(shown.moment + 1);
  shown.timer = setTimeout(tick, Number(find("speed").value));
}

function play() {
  if (shown.timer) { pause(); return; }
  if (shown.moment >= last) go(0);
  find("play").setAttribute("aria-pressed", "true");
  find("play").textContent = "Pause";
  shown.timer = setTimeout(tick, Number(find("speed").value));
}

function see(eyes) {
  shown.eyes = eyes;
  document.querySelector(`input[name=eyes][value="${eyes}"]`).checked = true;
  show();
}

function turnBack() {
  const start = startOf(turns[shown.moment]);
  go(shown.moment > start ? start : startOf(turns[shown.moment] - 1));
}

function turnOn() {
  const turn = turns[shown.moment];
  go(turn >= lastTurn ? last : startOf(turn + 1));
}

function bigger() {
  const on = find("bigger").getAttribute("aria-pressed") !== "true";
  find("bigger").setAttribute("aria-pressed", String(on));
  find("reels").classList.toggle("big", on);
}

const buttons = {
  first: () => go(0), last: () => go(last), back: () => go(shown.moment - 1), on: () => go(shown.moment + 1),
  "turn-back": turnBack, "turn-on": turnOn, play, bigger,
  "next-spot": () => jump("spot"), "next-contact": () => jump("contact"),
  "next-fire": () => jump("fire"), "next-loss": () => jump("loss"), "to-parting": () => go(parting),
};
for (const [id, act] of Object.entries(buttons)) {
  if (find(id)) find(id).addEventListener("click", act);
}
find("when").addEventListener("input", (event) => go(Number(event.target.value)));
find("turn").addEventListener("input", (event) => go(startOf(Number(event.target.value))));
for (const radio of document.querySelectorAll("input[name=eyes]")) {
  radio.addEventListener("change", () => see(Number(radio.value)));
}

const keys = {
  ArrowLeft: buttons.back, ArrowRight: buttons.on, PageUp: turnBack, PageDown: turnOn,
  Home: buttons.first, End: buttons.last, " ": play, b: bigger,
  s: buttons["next-spot"], c: buttons["next-contact"], f: buttons["next-fire"], l: buttons["next-loss"],
  p: () => { if (parting >= 0) go(parting); }, 1: () => see(3), 2: () => see(1), 3: () => see(2),
};
// Keys that move a slider or press a button go on doing so.
const own = { INPUT: ["ArrowLeft", "ArrowRight", "PageUp", "PageDown", "Home", "End", " "], BUTTON: [" "],
  SELECT: Object.keys(keys), SUMMARY: [" "] };
document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (!keys[key] || (own[event.target.tagName] || []).includes(key)) return;
  event.preventDefault();
  keys[key]();
});

// Signs for the legend, drawn by what draws the table.
function legend() {
  const kinds = new Map();
  film.units.forEach((unit, id) => { if (!kinds.has(unit.kind)) kinds.set(unit.kind, id); });
  const entries = [...kinds].map(([kind, id]) =>
    [unitPiece(id, [1, 1, FAR - 2, film.units[id].men, 0, 0, 0]), kind]);
  const any = (flags, pins) => unitPiece(0, [1, 1, FAR - 2, film.units[0].men, pins, flags, 0]);
  const marker = (side, hides, eyes) =>
    markerPiece({ side, sign: "a", group: hides }, [1, 1, FAR - 2], eyes);
  entries.push(
    [any(0, 3), "three pins"], [any(SUPPRESSED, 5), "suppressed"], [any(DUG_IN, 0), "dug in"],
    [any(HOLDS, 0), "holds its fire"], [any(ACTED, 0), "has acted this turn"],
    [marker(0, 0, 3), "attacker's marker: what it hides is known"], [marker(0, null, 3), "a dummy"],
    [marker(1, 0, 1), "defender's marker: unknown"],
    [objectivePiece({ name: "", x: 1, y: FAR - 2 }, 2), "objective: a flag in the holder's colour"],
    [group("feature", 1, FAR - 2, "", shape("path", { d: "M-.6 .5L0 -.6L.6 .5Z" })), "place that may hide troops"],
  );
  find("signs").replaceChildren(...entries.map(([piece, words]) => {
    const svg = shape("svg", { viewBox: "0 0 3 3", "aria-hidden": "true" });
    svg.append(piece);
    const line = item("li", "", words);
    line.prepend(svg);
    return line;
  }));
}

find("when").max = last;
find("turn").max = lastTurn;
if (parting >= 0 && last > 0) {
  const mark = item("span", "parts");
  mark.style.left = `${(100 * parting) / last}%`;
  find("ticks").append(mark);
}
legend();
show();
