// @ts-check
/** What happened at an edge, and why, in sentences made from the rows of a run. */
import { decided } from "./actions.js";
import { addition, listed } from "./additions.js";
import { familiesOf, familyWord, givenTo, held, isMany } from "./families.js";
import { nextStored, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/** @typedef {import("./actions.js").Decided} Decided */
/** @typedef {import("./additions.js").AdderRow} AdderRow */
/** @typedef {import("./families.js").Family} Family */
/** @typedef {import("./words.js").Words} Words */
/** A word that is fed from bits of its own: name, net, what that is made of, where it enters. */
/** @typedef {[string, number, string, string[]]} Feedback */
/**
 * What is told of: a design and its storage elements.
 * @typedef {Compiled & {stores: Store[], adders: AdderRow[], feedback: Feedback[]}} Told
 */

/** Characters of a formula that is left out of a sentence. */
const LONG = 60;
/** An output of more bits is told as a number. */
const WIDE = 16;
/** Parts that hold and are named, at most. */
const NAMED = 3;

/**
 * What happened at the edge that led to row `k`; for row 0 the start.
 * @param {Words} words @param {Told} design @param {Row[]} rows @param {number} k
 */
export function acts(words, design, rows, k) {
  if (rows.length < 2) return "";
  if (!k) {
    const values = familiesOf(design.stores).map((one) => `${one.name} = ${familyWord(one, rows[0], held)}`);
    return values.length ? words.say("stage-start", { values: values.join(", ") }) : words.say("stage-start-nothing");
  }
  const phase = phaseOf(design, k);
  /** @type {import("./words.js").Facts} */
  const facts = phase ? { edge: k, phase: phase[0] } : { edge: k };
  const said = actsOf(words, design, rows[k - 1], rows[k]).join(" ");
  const message = `stage-edge${phase ? "-of-phase" : ""}`;
  return said ? `${words.say(message, facts)} ${said}` : words.say(`${message}-nothing`, facts);
}

/**
 * What is to be said of row `k` in place of `acts` if it is not what follows from the row
 * before, but a reader's own; else nothing.
 * @param {Words} words @param {Compiled} design @param {Store[]} stores
 * @param {Row[]} rows  as shown, the reader's own among them
 * @param {number} k
 */
export function stands(words, design, stores, rows, k) {
  if (!k) return "";
  const follows = Uint8Array.from(rows[k]);
  const next = nextStored(design, rows[k - 1]);
  design.flipFlops.forEach(([, q], i) => { follows[q] = next[i]; });
  const other = familiesOf(stores.filter(
    ([, , q]) => q.some((net) => rows[k][net] !== follows[net])));
  if (!other.length) return "";
  /** @param {Row} row */
  const told = (row) => listed(words, other.map((one) => `${one.name} = ${familyWord(one, row, held)}`));
  return words.say("stage-own-row", { row: k, own: told(rows[k]), before: k - 1, follows: told(follows) });
}

/**
 * The phase of an edge, or nothing.
 * @param {Compiled} design @param {number} k
 */
export function phaseOf(design, k) {
  return design.phases.find(([, first, last]) => first <= k && k <= last);
}

/**
 * @param {Words} words @param {Told} design @param {Row} before @param {Row} after
 */
function actsOf(words, { stores, adders, feedback }, before, after) {
  /** @type {Map<string, Decided>} */
  const decisions = new Map(stores.map((store) => [store[0], decided(store, before)]));
  const does = (/** @type {Store} */ [name]) => decisions.get(name)?.does || "";
  /** @type {string[]} */
  const said = [];
  /** @type {Set<string>} */
  const toldOf = new Set();
  for (const row of adders) {
    const told = addition(words, row, stores, does, before);
    if (!told) continue;
    said.push(adders.length > 1 ? words.say("stage-by-adder", { adder: row[0], said: told.text }) : told.text);
    told.into.forEach((name) => toldOf.add(name));
  }
  const rest = stores.filter(([name]) => !toldOf.has(name));
  /** @param {string} action */
  const doing = (action) => familiesOf(rest.filter((store) => does(store) === action));
  /** @param {string[]} clauses */
  const sentence = (clauses) => {
    if (clauses.length) said.push(words.say("stage-sentence", { clauses: listed(words, clauses) }));
  };
  const fed = new Map(feedback.map((one) => [one[0], one]));
  sentence(shifting(words, doing("shift"), doing("left"), fed, before));
  const taking = doing("take"), back = taking.filter(({ name }) => fed.has(name));
  for (const one of back) said.push(fedBack(words, one, /** @type {Feedback} */ (fed.get(one.name)), before));
  sentence(taking.filter((one) => !back.includes(one)).map((one) => words.say(
    "stage-took", { store: one.name, bits: familyWord(one, before, (store) => givenTo(store, "take")) })));
  said.push(...decidedBy(doing("load"), decisions).map(([by, some]) => {
    const clauses = some.map((one) => words.say(
      "stage-loaded", { store: one.name, bits: familyWord(one, before, (store) => givenTo(store, "load")) }));
    return withReason(words, "stage-sentence", { clauses: listed(words, clauses) }, by, "1");
  }));
  sentence(doing("count").map((one) => counting(words, one, before, after)));
  for (const [action, message, bit] of [["clear", "stage-cleared", "1"], ["unsure", "stage-unsure", "X"]]) {
    said.push(...decidedBy(doing(action), decisions).map(
      ([by, some]) => withReason(words, message, several(words, some), by, bit)));
  }
  const holding = doing("hold");
  if (holding.length > NAMED) {
    said.push(words.say(said.length ? "stage-others-kept" : "stage-all-kept"));
  } else {
    said.push(...decidedBy(holding, decisions).map(
      ([by, some]) => withReason(words, "stage-kept", several(words, some), by, "0")));
  }
  return said;
}

/**
 * Families by the control that decided of them, each control where its first family stands.
 * @param {Family[]} some @param {Map<string, Decided>} decisions
 */
function decidedBy(some, decisions) {
  /** @type {Map<string, Family[]>} */
  const found = new Map();
  for (const one of some) {
    const each = new Set(one.members.map(([name]) => decisions.get(name)?.by || ""));
    const by = each.size === 1 ? [...each][0] : "";
    found.set(by, [...found.get(by) || [], one]);
  }
  return [...found];
}

/**
 * A sentence, and the control that decided it where that has a name.
 * @param {Words} words @param {string} message @param {import("./words.js").Facts} facts
 * @param {string} by @param {string} bit
 */
function withReason(words, message, facts, by, bit) {
  return by ? words.say(`${message}-by`, { ...facts, control: by, bit }) : words.say(message, facts);
}

/** Stores as one subject; it counts them. @param {Words} words @param {Family[]} some */
function several(words, some) {
  const many = some.length > 1 || isMany(some[0]);
  return { count: many ? 2 : 1, stores: listed(words, some.map(({ name }) => name)) };
}

/**
 * What shifted to either side: the bits that came in, what they are made of, and those that
 * went out at the other end.
 * @param {Words} words @param {Family[]} onward  by their own way @param {Family[]} left
 * @param {Map<string, Feedback>} fed @param {Row} before
 */
function shifting(words, onward, left, fed, before) {
  /** @type {[string, string, Family][]} */
  const all = [
    .../** @type {[string, string, Family][]} */ (onward.map((one) => [one.members[0][9], "shift", one])),
    .../** @type {[string, string, Family][]} */ (left.map((one) => ["left", "left", one])),
  ];
  return ["right", "left"].flatMap((way) => {
    const some = all.filter(([one]) => one === way);
    if (!some.length) return [];
    const moves = some.map(([, action, one]) => {
      const facts = {
        came: familyWord(one, before, (store) => givenTo(store, action)),
        gone: familyWord(one, before, ([, , q]) => (way === "right" ? q.slice(0, 1) : q.slice(-1))),
      };
      const feedback = action === "shift" && fed.get(one.name);
      return feedback ? words.say("stage-move-fed", { ...facts, source: feedback[2] }) : words.say("stage-move", facts);
    });
    const stores = several(words, some.map(([, , one]) => one));
    return [words.say("stage-shifted", { ...stores, way, moves: moves.join("; ") })];
  });
}

/**
 * Stages that shift, with what is fed back into some of them.
 * @param {Words} words @param {Family} one @param {Feedback} fed @param {Row} before
 */
function fedBack(words, one, [, net, source, taps], before) {
  return words.say("stage-fed-back", {
    store: one.name,
    bits: familyWord(one, before, (store) => givenTo(store, "take")),
    bit: "01X"[before[net]],
    source,
    taps: listed(words, taps),
  });
}

/** @param {Words} words @param {Family} one @param {Row} before @param {Row} after */
function counting(words, one, before, after) {
  const [from, to] = [before, after].map((row) => familyWord(one, row, held));
  return /X/.test(from + to) ? words.say("stage-counted-unknown", { store: one.name })
    : words.say("stage-counted", { store: one.name, from, to });
}

// ---------------------------------------------------------------- results

/**
 * What stands at the outputs that are due in row `k`.
 * @param {Words} words @param {Compiled} design @param {Row[]} rows @param {number} k
 * @param {(formula: any[]) => bigint | null} value  a purpose's value, or nothing
 */
export function results(words, design, rows, k, value) {
  const outputs = new Map(design.outputs);
  return design.purposes.filter(([, , row]) => row === k).map(([output, formula, , shown]) => {
    const bits = wordText(rows[k], outputs.get(output) || []);
    return resultOf(words, { output, bits, formula: shown }, value(formula));
  }).join(" ");
}

/**
 * What a word is, beside what it should be.
 * @param {Words} words @param {{output: string, bits: string, formula: string}} read
 * @param {bigint | null} wanted
 */
function resultOf(words, read, wanted) {
  if (wanted === null) return words.say("stage-reads", read);
  // A formula that says no more than the number, or too much to be read, stays out.
  const silent = read.formula.length > LONG || /^-?[0-9]+$/.test(read.formula);
  const facts = { ...read, wanted: String(wanted) };
  if (read.bits.includes("X")) return words.say(`stage-reads-unknown${silent ? "-plainly" : ""}`, facts);
  const number = BigInt(`0b${read.bits}`), wide = read.bits.length > WIDE;
  const message = `stage-reads-${read.bits.length > 1 && !wide ? "number" : "bit"}`
    + `-${number === wanted ? "right" : "wrong"}${silent ? "-plainly" : ""}`;
  return words.say(message, { ...facts, bits: wide ? String(number) : read.bits, number: String(number) });
}
