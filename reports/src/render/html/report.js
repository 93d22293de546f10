// Tables sort by the heads of their columns: upwards, downwards, then as they were.
(() => {
  "use strict";
  const few = 2;
  const order = { ascending: 1, descending: -1 };

  // The first number of a cell, "about to", percent, units and verdicts left out; NaN without any.
  const number = (text) => {
    if (/^\s*never\b/.test(text)) return 0;
    const found = text.replace(/\u2212/g, "-").replace(/(\d),(?=\d{3})/g, "$1").match(/-?\d+(\.\d+)?/);
    if (!found) return NaN;
    // "< 0.001" comes before 0.001 itself.
    return Number(found[0]) - (text.trimStart().startsWith("<") ? 1e-9 : 0);
  };

  const numbers = (a, b, way) => {
    // What is no number comes last either way.
    if (isNaN(a) || isNaN(b)) return isNaN(a) - isNaN(b);
    return way * (a - b);
  };

  const sort = (body, rows, column, way, numeric) => {
    const text = (row) => row.cells[column].textContent;
    const compare = numeric
      ? (a, b) => numbers(number(text(a)), number(text(b)), way)
      : (a, b) => way * text(a).localeCompare(text(b), document.documentElement.lang, { numeric: true });
    body.append(...(way ? [...rows].sort(compare) : rows));
  };

  for (const table of document.querySelectorAll("table")) {
    const body = table.tBodies[0];
    const rows = [...body.rows];
    if (rows.length <= few) continue;
    const heads = [...table.tHead.rows[0].cells];
    heads.forEach((head, column) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "sort";
      button.append(...head.childNodes);
      head.append(button);
      button.addEventListener("click", () => {
        const next = { ascending: "descending", descending: null }[head.getAttribute("aria-sort")];
        const state = next === undefined ? "ascending" : next;
        heads.forEach((other) => other.removeAttribute("aria-sort"));
        if (state) head.setAttribute("aria-sort", state);
        sort(body, rows, column, order[state] || 0, head.classList.contains("number"));
      });
    });
  }
})();
