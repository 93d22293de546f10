// What stands beside the table: the score, the cards, the last event and its dice, the turn so far.
function item(name, className, text) {
  const element = document.createElement(name);
  if (className) element.className = className;
  if (text !== undefined) element.textContent = text;
  return element;
}

function score(table) {
  const lead = table.points[0] - table.points[1];
  const ahead = lead === 0 ? "level" : `the ${SIDES[lead > 0 ? 0 : 1]} leads by ${Math.abs(lead)}`;
  return `Points: attacker ${table.points[0]}, defender ${table.points[1]} (${ahead}). ` +
    `Men lost: attacker ${table.lost[0]}, defender ${table.lost[1]}.`;
}

// The newest card comes last and is marked in words as well.
function cards(table) {
  return table.cards.map(([name, side], n) => {
    const newest = n === table.cards.length - 1;
    const card = item("span", `card side-${side}${newest ? " newest" : ""}`, name);
    card.setAttribute("role", "listitem");
    if (newest) card.setAttribute("aria-current", "true");
    return card;
  });
}

function dice(step) {
  if (!step || !step.d) return [];
  const [[how, numbers]] = Object.entries(step.d);
  if (how === "total") {
    const [rolled, needed] = numbers;
    return [item("span", "", `Rolled ${rolled}, needed ${needed}: ${rolled >= needed ? "made" : "missed"}`)];
  }
  const [count, from, hits] = numbers;
  const faces = Array.from({ length: count }, (_, n) => item("span", n < hits ? "die hit" : "die"));
  faces.forEach((face) => face.setAttribute("aria-hidden", "true"));
  return [...faces, item("span", "", ` ${count} dice, ${from} or more hits: ${hits}`)];
}

// The events of the turn up to now that these eyes are told of; each takes the reader to its moment.
function log(reel, n, count, eyes, go) {
  const turn = reel.steps[count - 1].t;
  const lines = [];
  for (let at = count - 1; at >= 0 && reel.steps[at].t === turn; at -= 1) {
    const step = reel.steps[at];
    if (!step.s || !(step.w & eyes)) continue;
    const line = item("li", `kind-${step.k}`);
    const button = item("button", "", step.s);
    button.type = "button";
    const moment = timeline.findIndex((ends) => ends[n] > at);
    button.addEventListener("click", () => go(moment));
    if (at === count - 1) line.setAttribute("aria-current", "true");
    if (film.parting && at === film.parting.step) {
      line.classList.add("parts");
      line.append(item("span", "mark", "Here they part: "));
    }
    line.append(button);
    lines.unshift(line);
  }
  return lines;
}

// What the last event was, for these eyes.
function sentence(step, eyes) {
  if (!step) return "Waits for the other game.";
  return step.w & eyes ? step.s : "Something that this side does not see.";
}
