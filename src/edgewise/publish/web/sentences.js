// @ts-check
/**
 * What happened at an edge, and why, in sentences made from the rows of a run.
 *
 * Says the same as `sentences.py`, word for word.
 */
import { X, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Row} Row */
/**
 * A storing part: name, kind, q, takes, load, left, loads, leftIn, [enable, clear, gate].
 * @typedef {[string, string, number[], number[], number, number, number[], number[],
 *   [number, number, number]]} Store
 */
/**
 * An adder whose result is stored: name, a, b, carry in, where that is from, sum, carry.
 * @typedef {[string, number, number, number, string, number, number]} Adder
 */

/**
 * What happened at the edge that led to row `k`; for row 0 the start.
 * @param {Compiled} design @param {Store[]} stores @param {Adder[]} adders
 * @param {Row[]} rows @param {number} k
 */
export function acts(design, stores, adders, rows, k) {
  if (rows.length < 2) return "";
  if (!k) {
    const values = stores.map(([name, , q]) => `${name} = ${wordText(rows[0], q)}`);
    return `At the start: ${values.join(", ")}.`;
  }
  const phase = phaseOf(design, k);
  const head = phase ? `After edge ${k}, phase ${phase[0]}:` : `After edge ${k}:`;
  return [head, ...actsOf(stores, adders, rows[k - 1], rows[k])].join(" ");
}

/**
 * The phase of an edge, or nothing.
 * @param {Compiled} design @param {number} k
 */
export function phaseOf(design, k) {
  return design.phases.find(([, first, last]) => first <= k && k <= last);
}

/**
 * @param {Store[]} stores @param {Adder[]} adders @param {Row} before @param {Row} after
 */
function actsOf(stores, adders, before, after) {
  const does = new Map(stores.map((store) => [store[0], actionOf(store, before)]));
  /** @type {string[]} */
  const said = [];
  /** @type {Set<string>} */
  const toldOf = new Set();
  for (const adder of adders) {
    const [text, names] = addition(adder, stores, does, before);
    if (!text) continue;
    said.push(adders.length > 1 ? `${adder[0]}: ${text}` : text);
    names.forEach((name) => toldOf.add(name));
  }
  const rest = stores.filter(([name]) => !toldOf.has(name));
  /** @param {string} action */
  const doing = (action) => rest.filter(([name]) => does.get(name) === action);
  /** @param {string[]} names @param {string} one @param {string} many */
  const together = (names, one, many) => {
    if (names.length) said.push(`${and(names)} ${names.length === 1 ? one : many}.`);
  };
  /** @param {string[]} clauses */
  const sentence = (clauses) => { if (clauses.length) said.push(`${and(clauses)}.`); };
  sentence([
    ...doing("shift").map((s) => `${wordText(before, s[3])} enters ${s[0]}`),
    ...doing("left").map((s) => `${wordText(before, s[7])} enters ${s[0]} from the right`),
  ]);
  sentence(doing("take").map((s) => `${s[0]} takes ${wordText(before, s[3])}`));
  sentence(doing("load").map((s) => `${s[0]} loads ${wordText(before, s[6])}`));
  sentence(doing("count").map(
    (s) => `${s[0]} counts from ${wordText(before, s[2])} to ${wordText(after, s[2])}`,
  ));
  together(doing("clear").map((s) => s[0]), "is cleared", "are cleared");
  together(doing("hold").map((s) => s[0]), "holds", "hold");
  const unsure = doing("unsure").map((s) => s[0]);
  if (unsure.length) said.push(`What ${and(unsure)} should do is unknown.`);
  return said;
}

/**
 * What a store does at the edge that follows `before`.
 * @param {Store} store @param {Row} before
 */
export function actionOf([, kind, , , load, left, , , controls], before) {
  const [enable, clear, gate] = controls.map((net) => (net >= 0 ? before[net] : -1));
  if (gate === 0) return "hold";
  if (gate === X || clear === X) return "unsure";
  if (clear === 1) return "clear";
  if (enable === 0) return "hold";
  if (enable === X) return "unsure";
  if (load >= 0 && before[load]) return before[load] === 1 ? "load" : "unsure";
  if (left >= 0 && before[left]) return before[left] === 1 ? "left" : "unsure";
  return kind === "shift-register" ? "shift" : kind === "counter" ? "count" : "take";
}

/**
 * @param {Adder} adder @param {Store[]} stores @param {Map<string, string>} does
 * @param {Row} before
 * @returns {[string, string[]]}
 */
function addition([, a, b, carryIn, from, sum, carry], stores, does, before) {
  /** @param {number} net */
  const into = (net) => stores
    .filter((s) => s[3].length === 1 && s[3][0] === net)
    .filter((s) => ["shift", "take"].includes(does.get(s[0]) || ""))
    .map((s) => s[0]);
  const sums = into(sum), carries = into(carry);
  if (!sums.length && !carries.length) return ["", []];
  const nets = carryIn >= 0 ? [a, b, carryIn] : [a, b];
  const bits = nets.map((net) => "01X"[before[net]]);
  const given = [`a=${bits[0]}`, `b=${bits[1]}`];
  if (carryIn >= 0) given.push(`the ${from || "incoming"} carry ${bits[2]}`);
  const total = "01X"[before[sum]], over = "01X"[before[carry]];
  const result = bits.includes("X") ? "are not all known" : `add to ${over}${total}`;
  const goes = [];
  if (sums.length) goes.push(`the sum bit ${total} enters ${and(sums)}`);
  if (carries.length) goes.push(`the carry ${over} stays in ${and(carries)}`);
  return [`${and(given)} ${result}: ${goes.join(", ")}.`, [...sums, ...carries]];
}

/**
 * What stands at the outputs that are due in row `k`.
 * @param {Compiled} design @param {Row[]} rows @param {number} k
 * @param {(formula: any[]) => bigint | null} value  a purpose's value, or nothing
 */
export function results(design, rows, k, value) {
  const outputs = new Map(design.outputs);
  return design.purposes.filter(([, , row]) => row === k).map(([name, formula, , shown]) => {
    const word = wordText(rows[k], outputs.get(name) || []);
    const text = `${name} reads ${word}`;
    const wanted = value(formula);
    if (wanted === null) return `${text}.`;
    if (word.includes("X")) return `${text}, not all of it known; ${shown} is ${wanted}.`;
    const found = BigInt(`0b${word}`);
    if (found !== wanted) return `${text}, which is ${found}; ${shown} is ${wanted}.`;
    return `${text}${word.length > 1 ? `, which is ${wanted}` : ""} = ${shown}.`;
  }).join(" ");
}

/** @param {string[]} names */
export function and(names) {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}
