// @ts-check
/** What a storage element does at an edge, and which control decides it. */
import { X } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/**
 * A storage element: name, what it does by itself, q, takes, load, left, loads, leftIn, [enable, clear, gate],
 * direction, and the names of what feeds enable, clear, clock, load and left.
 * @typedef {[string, Action, number[], number[], number, number, number[], number[],
 *   [number, number, number], string, string[]]} Store
 */
/** @typedef {"hold" | "clear" | "load" | "take" | "shift" | "left" | "count" | "unsure"} Action */
/** @typedef {{does: Action, by: string}} Decided  `by`: the control that decides, by name */

/**
 * What a store does at the edge that follows `before`, and by whose decision.
 * @param {Store} store @param {Row} before @returns {Decided}
 */
export function decided(store, before) {
  const gate = store[8][2], clock = store[10][2];
  const arrives = gate >= 0 ? before[gate] : 1;
  if (!arrives) return { does: "hold", by: clock };
  const at = atEdge(store, before);
  // What holds anyway does not mind whether the edge arrives.
  return arrives === 1 || at.does === "hold" ? at : { does: "unsure", by: clock };
}

/** What a store does at the edge that follows. @param {Store} store @param {Row} before */
export function actionOf(store, before) {
  return decided(store, before).does;
}

/**
 * What a store does at an edge that arrives.
 * @param {Store} store @param {Row} before @returns {Decided}
 */
function atEdge([, itself, , , load, left, , , controls, , by], before) {
  const [enable, clear] = controls.map((net) => (net >= 0 ? before[net] : -1));
  if (clear > 0) return { does: clear === 1 ? "clear" : "unsure", by: by[1] };
  // A part loads whether or not it is enabled.
  if (load >= 0 && before[load]) return { does: before[load] === 1 ? "load" : "unsure", by: by[3] };
  if (enable === 0) return { does: "hold", by: by[0] };
  if (enable === X) return { does: "unsure", by: by[0] };
  if (left >= 0 && before[left]) return { does: before[left] === 1 ? "left" : "unsure", by: by[4] };
  return { does: itself, by: "" };
}
