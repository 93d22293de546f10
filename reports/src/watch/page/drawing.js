// The pieces on the table, drawn anew for every moment. Sides differ in shape as well as in colour:
// attackers are round, defenders are pointed.
const FAR = film.objectives.length ? document.querySelector("svg.table").viewBox.baseVal.height : 48;
const across = (x) => x + 0.5;
const up = (y) => FAR - 0.5 - y;

function shape(name, attributes, text) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text !== undefined) element.textContent = text;
  return element;
}

// Two tables side by side are small: their pieces are drawn larger.
const SIZE = film.reels.length > 1 ? 1.3 : 1.1;

function group(name, x, y, title, ...parts) {
  const place = `translate(${across(x)} ${up(y)}) scale(${SIZE})`;
  const element = shape("g", { class: name, transform: place });
  if (title) element.append(shape("title", {}, title));
  element.append(...parts);
  return element;
}

const OUTLINE = [
  (r) => shape("circle", { class: "body", r }),
  (r) => shape("path", { class: "body", d: `M0 ${-r * 1.2}L${r * 1.2} 0L0 ${r * 1.2}L${-r * 1.2} 0Z` }),
];

function unitPiece(id, now, news) {
  const card = film.units[id], [, x, y, men, pins, flags, way] = now;
  const parts = [];
  if (news) parts.push(shape("circle", { class: "news", r: 1.35 }));
  if (flags & DUG_IN) parts.push(shape("path", { class: "hole", d: "M-1.15 .3A1.15 1.15 0 0 0 1.15 .3" }));
  if (card.front) {
    const turn = -45 * way;
    parts.push(shape("path", { class: "front", d: "M.7 -.35L1.35 0L.7 .35Z", transform: `rotate(${turn})` }));
  }
  parts.push(OUTLINE[card.side](0.78));
  parts.push(shape("text", { class: "sign", y: 0.31 }, card.sign));
  if (card.men > 1) parts.push(shape("text", { class: "men", x: 0.72, y: 1.15 }, men));
  // One stroke for each pin, above the piece.
  for (let n = 0; n < Math.min(pins, 8); n += 1) {
    const left = (n - (Math.min(pins, 8) - 1) / 2) * 0.3;
    parts.push(shape("path", { class: "pin", d: `M${left} -1.5v.45` }));
  }
  if (flags & SUPPRESSED) parts.push(shape("path", { class: "down", d: "M-1 -1L1 1M-1 1L1 -1" }));
  if (flags & HOLDS) parts.push(shape("path", { class: "holds", d: "M-1.25 -.5v1" }));
  const words = [`${card.name}, ${card.kind}, ${SIDES[card.side]}: ${men} of ${card.men} men, ${pins} pins`];
  if (flags & SUPPRESSED) words.push("suppressed");
  if (flags & DUG_IN) words.push("dug in");
  if (flags & HOLDS) words.push("holds its fire");
  if (flags & STUCK) words.push("cannot move");
  const acted = flags & ACTED ? " acted" : "";
  return group(`unit side-${card.side}${acted}`, x, y, words.join(", "), ...parts);
}

// A marker shows its letter; whoever may know sees what it hides.
function markerPiece(card, now, eyes) {
  const [where, x, y] = now;
  const knows = eyes === 3 || eyes === card.side + 1;
  if (where === 0 || (where === 2 && !knows)) return null;
  const truth = card.group === null ? "a dummy" : film.groups[card.group].name;
  const title = `${SIDES[card.side]} marker ${card.sign}: ${knows ? truth : "unknown"}`;
  const hollow = knows && card.group === null ? " dummy" : "";
  const parts = [
    shape("rect", { class: "body", x: -0.95, y: -0.75, width: 1.9, height: 1.5, rx: 0.3 }),
    shape("text", { class: "sign", y: 0.3 }, `${knows ? "" : "?"}${card.sign}`),
  ];
  const hidden = where === 2 ? " hidden" : "";
  return group(`marker side-${card.side}${hollow}${hidden}`, x, y, title, ...parts);
}

function linePiece([kind, x1, y1, x2, y2]) {
  const [ax, ay, bx, by] = [across(x1), up(y1), across(x2), up(y2)];
  if (kind === "shells") return shape("circle", { class: "line shells", cx: bx, cy: by, r: 3 });
  return shape("path", { class: `line ${kind}`, d: `M${ax} ${ay}L${bx} ${by}`, "marker-end": "url(#arrow)" });
}

function objectivePiece(spot, holder) {
  const title = `${spot.name}: held by ${holder === 2 ? "nobody" : `the ${SIDES[holder]}`}`;
  return group(`objective side-${holder}`, spot.x, spot.y, title,
    shape("path", { d: "M-.7 .9V-1.1M-.7 -1.1L.8 -.6L-.7 -.1" }),
    shape("text", { class: "place", y: 1.8 }, spot.name));
}

// Draws a table as seen by some eyes: 1 attacker, 2 defender, 3 all.
function draw(svg, reel, table, steps, eyes) {
  const pieces = [];
  film.objectives.forEach((spot, n) => pieces.push(objectivePiece(spot, table.holders[n])));
  film.features.forEach((spot, n) => {
    if (table.searched.includes(n)) return;
    pieces.push(group("feature", spot.x, spot.y, `${spot.name}: may hide troops of the ${SIDES[spot.side]}`,
      shape("path", { d: "M-.6 .5L0 -.6L.6 .5Z" })));
  });
  for (const [x, y, radius] of table.smoke) {
    pieces.push(shape("circle", { class: "smoke", cx: across(x), cy: up(y), r: radius + 0.5 }));
  }
  table.markers.forEach((now, n) => {
    const piece = markerPiece(reel.markers[n], now, eyes);
    if (piece) pieces.push(piece);
  });
  // Whoever has just changed has a ring around him.
  const news = new Set(steps.flatMap((step) => (step.u || []).map(([id]) => id)));
  const ring = news.size < 6 ? news : new Set();
  table.units.forEach((now, id) => {
    if (now[0] === ON_TABLE) pieces.push(unitPiece(id, now, ring.has(id)));
  });
  for (const step of steps) if (step.l && step.w & eyes) pieces.push(linePiece(step.l));
  svg.querySelector(".pieces").replaceChildren(...pieces);
}
