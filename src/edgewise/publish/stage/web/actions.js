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
/**
 * What is done, the control that decides it by name (empty: none, or one without a name), what
 * stands there, and the net that enables it where one does.
 * @typedef {{does: Action, by: string, bits: string, enabled?: number}} Decided
 */

/**
 * What a store does at the edge that follows `before`, and by whose decision.
 * @param {Store} store @param {Row} before @returns {Decided}
 */
export function decided(store, before) {
  const gate = store[8][2], clock = store[10][2];
  const arrives = gate >= 0 ? before[gate] : 1;
  if (!arrives) return { does: "hold", by: clock, bits: "0" };
  const at = atEdge(store, before);
  // What holds anyway does not mind whether the edge arrives.
  return arrives === 1 || at.does === "hold" ? at : { does: "unsure", by: clock, bits: "X" };
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
  /** @param {Action} does @param {number} net @param {number} name @returns {Decided} */
  const as = (does, net, name) => ({ does: before[net] === X ? "unsure" : does, by: by[name], bits: "01X"[before[net]] });
  if (clear > 0) return as("clear", controls[1], 1);
  // A part loads whether or not it is enabled.
  if (load >= 0 && before[load]) return as("load", load, 3);
  if (enable === 0 || enable === X) return as("hold", controls[0], 0);
  if (left >= 0 && before[left]) return as("left", left, 4);
  return enable === 1 ? { ...as(itself, controls[0], 0), enabled: controls[0] } : { does: itself, by: "", bits: "" };
}
