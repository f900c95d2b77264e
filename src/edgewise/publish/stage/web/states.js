// @ts-check
/** The state diagrams of a page that show no row of their own: the stage's state is marked in each. */

/** @typedef {import("./simulator.js").Compiled} Design */
/** @typedef {import("./simulator.js").Row} Row */

/**
 * Marks the state of a row, and the transition that led to it; none where the diagrams are of
 * another size, or the state is not known.
 * @param {Design} design @param {Row[]} rows @param {number} at @param {boolean} own
 */
export function markState(design, rows, at, own) {
  for (const diagram of document.querySelectorAll("g.following")) {
    const words = (diagram.getAttribute("data-name") || "").split(", ").map((word) => word.split(" ").map(Number));
    /** @param {Row | undefined} row */
    const spelled = (row) => words.map((word) => word.map((i) => (row ? "01X"[row[design.flipFlops[i][1]]] : "")).join("")).join(" ");
    const here = own ? spelled(rows[at]) : "";
    const led = own && at ? `${spelled(rows[at - 1])} ${here}` : "";
    for (const one of diagram.querySelectorAll(".state, .transition")) {
      const name = one.getAttribute("data-name");
      one.classList.toggle("here", name === (one.classList.contains("state") ? here : led));
    }
  }
}
