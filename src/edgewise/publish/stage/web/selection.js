// @ts-check
/** Where storage elements take their bits from in a row, through multiplexers whose select is known. */
import { decided } from "./actions.js";
import { familiesOf, givenTo } from "./families.js";
import { X } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/** @typedef {import("./actions.js").Decided} Decided */
/**
 * A multiplexer of two: output, select, what it gives at 0 and at 1; the name of the select bit,
 * the word of which that is a bit, its index and the word's width.
 * @typedef {[number, number, number, number, string, string, number, number]} Selector
 */
/** Storing parts and what each does, by name. @typedef {{stores: Store[], decisions: Map<string, Decided>}} Doing */

/** Where a store has the nets that it stores, by what it does. @type {Record<string, number>} */
const GIVEN = { take: 3, shift: 3, load: 6, left: 7 };

/**
 * What storage elements do at the edge that follows `before`, each taking from where its bits come
 * in that row: one that takes back its own word holds, those that take one another's shift.
 * @param {Store[]} stores @param {Selector[]} selectors @param {Row[]} rows  of the whole run
 * @param {Row} before @returns {Doing}
 */
export function doing(stores, selectors, rows, before) {
  const decisions = new Map(stores.map((store) => [store[0], telling(decided(store, before), rows)]));
  if (!selectors.length) return { stores, decisions };
  const at = new Map(selectors.map((one) => [one[0], one]));
  /** @type {Set<string>} */
  const chosen = new Set();
  const traced = stores.map((store) => {
    const decision = /** @type {Decided} */ (decisions.get(store[0]));
    const place = GIVEN[decision.does];
    if (!place) return store;
    /** @type {Set<Selector>} */
    const passed = new Set();
    const nets = givenTo(store, decision.does).map((net) => origin(net, at, before, passed));
    if (!passed.size) return store;
    if (decision.does === "take") {
      const held = nets.every((net, i) => net === store[2][i]);
      // Where one is still undecided, those on the way to it do not tell what came.
      const by = nets.some((net) => at.has(net)) ? { by: "", bits: "" } : control(passed, store[2], before);
      decisions.set(store[0], { does: held ? "hold" : "take", ...by });
      chosen.add(store[0]);
    }
    return /** @type {Store} */ (store.map((one, i) => (i === place ? nets : one)));
  });
  return { stores: moving(traced, decisions, chosen), decisions };
}

/**
 * A decision, without its reason where an enable is 1 in every row: it decides nothing then.
 * @param {Decided} one @param {Row[]} rows @returns {Decided}
 */
function telling(one, rows) {
  const { enabled } = one;
  return enabled !== undefined && rows.every((row) => row[enabled] === 1) ? { ...one, by: "", bits: "" } : one;
}

/**
 * The net from which a bit comes in a row.
 * @param {number} net @param {Map<number, Selector>} at @param {Row} before
 * @param {Set<Selector>} passed  the multiplexers on the way are put here
 */
function origin(net, at, before, passed) {
  for (let one = at.get(net); one && before[one[1]] !== X; one = at.get(net)) {
    passed.add(one);
    net = before[one[1]] ? one[3] : one[2];
  }
  return net;
}

/**
 * The word or the bit that selects, if one does that is not the store's own; else nobody.
 * @param {Set<Selector>} passed @param {number[]} q @param {Row} before
 */
function control(passed, q, before) {
  const bits = new Map([...passed].map((one) => [one[1], one]));
  const [first] = bits.values();
  if (q.some((net) => bits.has(net))) return { by: "", bits: "" };
  if (bits.size === 1) return { by: first[4], bits: "01X"[before[first[1]]] };
  const [, , , , , word, , width] = first;
  const places = [...bits.values()].filter((one) => one[5] === word).sort((one, other) => other[6] - one[6]);
  if (!word || bits.size !== width || places.length !== width) return { by: "", bits: "" };
  return { by: word, bits: places.map(([, select]) => "01X"[before[select]]).join("") };
}

/**
 * The stores, those as one that take one another's bits as a shift does.
 * @param {Store[]} stores @param {Map<string, Decided>} decisions @param {Set<string>} chosen
 */
function moving(stores, decisions, chosen) {
  const taking = stores.filter(([name]) => chosen.has(name) && decisions.get(name)?.does === "take");
  /** @type {Map<string, Store[]>} */
  const instead = new Map();
  for (const { name, members } of familiesOf(taking)) {
    if (members.length > 1 && members[0][2].length > 1) continue;
    const lowFirst = [...members].reverse();
    const q = lowFirst.flatMap((store) => store[2]), takes = lowFirst.flatMap((store) => store[3]);
    const reasons = new Set(lowFirst.map(([one]) => JSON.stringify(decisions.get(one))));
    const way = shift(q, takes);
    if (!way || reasons.size > 1) continue;
    const came = way === "right" ? takes.slice(-1) : takes.slice(0, 1);
    const [first] = members;
    decisions.set(name, { .../** @type {Decided} */ (decisions.get(first[0])), does: "shift" });
    members.forEach(([one]) => instead.set(one, []));
    instead.set(first[0], [[name, "shift", q, came, -1, -1, [], [], [-1, -1, -1], way, ["", "", "", "", ""]]]);
  }
  return stores.flatMap((store) => instead.get(store[0]) ?? [store]);
}

/**
 * The way in which a word moves by one place; none if it does not.
 * @param {number[]} q  LSB first @param {number[]} takes
 */
function shift(q, takes) {
  const most = q.length - 1;
  if (!most) return "";
  if (takes.slice(0, most).every((net, i) => net === q[i + 1])) return "right";
  return takes.slice(1).every((net, i) => net === q[i]) ? "left" : "";
}
