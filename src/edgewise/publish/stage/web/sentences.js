// @ts-check
/** What happened at an edge, and why, in sentences made from the rows of a run. */
import { addition, listed } from "./additions.js";
import { codeOf, written } from "./codes.js";
import { familiesOf, familyWord, givenTo, held, isMany } from "./families.js";
import { doing as doingAt } from "./selection.js";
import { nextStored, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/** @typedef {import("./actions.js").Decided} Decided */
/** @typedef {import("./additions.js").AdderRow} AdderRow */
/** @typedef {import("./families.js").Family} Family */
/** @typedef {import("./words.js").Words} Words */
/** A control and what stands there. @typedef {{control: string, bit: string} | null} Reason */
/** A word that is fed from bits of its own: name, net, what that is made of, where it enters. */
/** @typedef {[string, number, string, string[]]} Feedback */
/**
 * What is told of: a design and its storage elements.
 * @typedef {Compiled & {stores: Store[], adders: AdderRow[], feedback: Feedback[],
 *   selectors: import("./selection.js").Selector[]}} Told
 */

/** Characters of a formula that is left out of a sentence. */
const LONG = 52;
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
  const said = actsOf(words, design, rows, k).join(" ");
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
 * @param {Words} words @param {Told} design @param {Row[]} rows @param {number} k
 */
function actsOf(words, { stores: all, adders, feedback, selectors }, rows, k) {
  const before = rows[k - 1], after = rows[k];
  const { stores, decisions } = doingAt(all, selectors, rows, before);
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
  /** @param {Family[]} some @param {(one: Family) => string} clause */
  const sentences = (some, clause) => {
    said.push(...decidedBy(some, decisions).map(([by, each]) => withReason(
      words, "stage-sentence", { clauses: listed(words, each.map(clause)) }, by)));
  };
  /** @param {string} message @param {string} action */
  const stored = (message, action) => (/** @type {Family} */ one) => words.say(
    message, { store: one.name, bits: familyWord(one, before, (store) => givenTo(store, action)) });
  const fed = new Map(feedback.map((one) => [one[0], one]));
  for (const [by, some] of decidedBy([...doing("shift"), ...doing("left")], decisions)) {
    said.push(...shifting(words, some, does, fed, before).map(
      (clauses) => withReason(words, "stage-sentence", { clauses }, by, "as")));
  }
  const taking = doing("take"), back = taking.filter(({ name }) => fed.has(name));
  for (const one of back) said.push(fedBack(words, one, /** @type {Feedback} */ (fed.get(one.name)), before));
  sentences(taking.filter((one) => !back.includes(one)), stored("stage-took", "take"));
  sentences(doing("load"), stored("stage-loaded", "load"));
  sentences(doing("count"), (one) => counting(words, one, before, after));
  for (const [action, message] of [["clear", "stage-cleared"], ["unsure", "stage-unsure"]]) {
    said.push(...decidedBy(doing(action), decisions).map(
      ([by, some]) => withReason(words, message, several(words, some), by)));
  }
  const holding = doing("hold");
  if (holding.length > NAMED) {
    said.push(words.say(said.length ? "stage-others-kept" : "stage-all-kept"));
  } else {
    said.push(...decidedBy(holding, decisions).map(
      ([by, some]) => withReason(words, "stage-kept", several(words, some), by)));
  }
  return said;
}

/**
 * Families by what decided of them, each where its first family stands.
 * @param {Family[]} some @param {Map<string, Decided>} decisions
 * @returns {[Reason, Family[]][]}
 */
function decidedBy(some, decisions) {
  /** @type {Map<string, [Reason, Family[]]>} */
  const found = new Map();
  for (const one of some) {
    const each = one.members.map(([name]) => decisions.get(name));
    const [first] = each;
    const by = first && first.by && each.every((other) => other?.by === first.by && other.bits === first.bits)
      ? { control: first.by, bit: first.bits } : null;
    const key = JSON.stringify(by);
    if (!found.has(key)) found.set(key, [by, []]);
    found.get(key)?.[1].push(one);
  }
  return [...found.values()];
}

/**
 * A sentence, and the control that decided it where that has a name.
 * @param {Words} words @param {string} message @param {import("./words.js").Facts} facts
 * @param {Reason} by @param {"by" | "as"} [manner]  in brackets, or behind brackets
 */
function withReason(words, message, facts, by, manner = "by") {
  return by ? words.say(`${message}-${manner}`, { ...facts, ...by }) : words.say(message, facts);
}

/** Stores as one subject; it counts them. @param {Words} words @param {Family[]} some */
function several(words, some) {
  const many = some.length > 1 || isMany(some[0]);
  return { count: many ? 2 : 1, stores: listed(words, some.map(({ name }) => name)) };
}

/**
 * What shifted to either side: the bits that came in, what they are made of, and those that
 * went out at the other end.
 * @param {Words} words @param {Family[]} all @param {(store: Store) => string} does
 * @param {Map<string, Feedback>} fed @param {Row} before
 */
function shifting(words, all, does, fed, before) {
  const way = (/** @type {Family} */ { members: [first] }) => (does(first) === "left" ? "left" : first[9]);
  return ["right", "left"].flatMap((to) => {
    const some = all.filter((one) => way(one) === to);
    if (!some.length) return [];
    const moves = some.map((one) => {
      const action = does(one.members[0]);
      const facts = {
        came: familyWord(one, before, (store) => givenTo(store, action)),
        gone: familyWord(one, before, ([, , q]) => (to === "right" ? q.slice(0, 1) : q.slice(-1))),
      };
      const feedback = action === "shift" && fed.get(one.name);
      return feedback ? words.say("stage-move-fed", { ...facts, source: feedback[2] }) : words.say("stage-move", facts);
    });
    return [words.say("stage-shifted", { ...several(words, some), way: to, moves: moves.join("; ") })];
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
    const nets = outputs.get(output) || [], bits = wordText(rows[k], nets);
    return resultOf(words, { output, bits, formula: shown }, value(formula), codeOf(design, nets));
  }).join(" ");
}

/**
 * What a word is, beside what it should be.
 * @param {Words} words @param {{output: string, bits: string, formula: string}} read
 * @param {bigint | null} wanted @param {import("./codes.js").Code} [code]
 */
function resultOf(words, read, wanted, code) {
  if (wanted === null) return words.say("stage-reads", read);
  // A formula that says no more than the number, or too much to be read, stays out.
  const silent = read.formula.length > LONG || /^-?[0-9]+$/.test(read.formula);
  const facts = { ...read, wanted: String(wanted) };
  if (read.bits.includes("X")) return words.say(`stage-reads-unknown${silent ? "-plainly" : ""}`, facts);
  const number = written(read.bits, code), wide = read.bits.length > WIDE;
  const message = `stage-reads-${read.bits.length > 1 && !wide ? "number" : "bit"}`
    + `-${number === String(wanted) ? "right" : "wrong"}${silent ? "-plainly" : ""}`;
  return words.say(message, { ...facts, bits: wide ? number : read.bits, number });
}
