// @ts-check
/**
 * The simulator of a page: three-valued, one row at a time, as the reference engine does it.
 *
 * Row k is everything as it stands after edge k and before edge k+1, combinational nets
 * settled; row 0 is the start. Bits are 0, 1, and 2 for X (Kleene's strong logic).
 */

import { pattern } from "./codes.js";

/**
 * What a gate computes, as `truth.py` says it: the place of an input, `"all"` of them, a constant
 * `"0"` or `"1"`, or an operation and what it is of.
 * @typedef {number | string | [string, ...any[]]} Truth
 */

/**
 * A netlist as `design_data.py` writes it.
 * @typedef {object} Flat
 * @property {number} size  number of nets; 0, 1, 2 are the constants 0, 1, X, 3 is the clock
 * @property {[string, number[]][]} inputs  net numbers, LSB first
 * @property {Truth[]} truths  what the gates compute
 * @property {number[][]} gates  which truth, output, inputs...; each after all that it reads
 * @property {{stores: Truth, next: Truth, unfed: number[]}} rule  what a flip-flop stores: over its
 *   nets, and what `stores` gave, unless a cover decides; `unfed` is what stands at controls that
 *   are not there
 * @property {number[][]} flipFlops  d, q, enable, clear, gate, start; -1: not there
 * @property {[number, [number[], number[]][]][]} covers  what a part decides of a net where its
 *   gates leave it unknown: products, each of which is true where every literal of the first list is,
 *   and any of the second if it has some; a literal is twice a net, plus the bit that makes it true
 * @property {number[][]} feeds  a source for each input bit: 0, 1, 2, or 3 + operand bit
 * @property {number[]} schedule  the feed of each row
 */

/**
 * @typedef {object} DesignParts
 * @property {string} name
 * @property {string} title
 * @property {Record<string, number>} parameters
 * @property {[string, number[]][]} outputs
 * @property {Operand[]} operands
 * @property {[number[], Code][]} [coded]  words whose numbers are not unsigned, by their nets
 * @property {[string, number, number][]} phases  name, first edge, last edge
 * @property {[string, any[], number, string][]} purposes  output, formula, row, its text
 * @property {Record<string, number[]>} names
 * @typedef {Flat & DesignParts} Compiled
 */

/** @typedef {Uint8Array} Row  the bit of each net */
/** @typedef {import("./codes.js").Code} Code */
/** @typedef {[string, number, Code?]} Operand  name, width, and code if it is not unsigned */

/**
 * Each phase that has edges, with the first and the last row that hold its inputs: row k holds
 * what edge k + 1 samples. The last phase goes on in the last row.
 * @param {{phases: [string, number, number][]}} design
 * @returns {[string, number, number][]}
 */
export function stretches({ phases }) {
  const edges = phases.length ? phases[phases.length - 1][2] : 0;
  return phases.filter(([, first, last]) => first <= last).map(
    ([name, first, last]) => [name, first - 1, last < edges ? last - 1 : last]);
}

/** The unknown bit. */
export const X = 2;
/** Every flip-flop starts as its circuit says. */
export const AS_DESIGNED = -1;

const AND = [[0, 0, 0], [0, 1, X], [0, X, X]];
const OR = [[0, 1, X], [1, 1, 1], [X, 1, X]];
const XOR = [[0, 1, X], [1, 0, X], [X, X, X]];
const NOT = [1, 0, X];
/** @type {Record<string, number[][]>} */
const JOINED = { and: AND, or: OR, xor: XOR };

/**
 * `one` if `select` is 1, `zero` if it is 0; where `select` is X, what both agree on.
 * @param {number} select @param {number} zero @param {number} one
 */
function choose(select, zero, one) {
  if (select === X) return zero === one ? zero : X;
  return select ? one : zero;
}

/**
 * A function of a row and the nets to read there, the first of which stands at `from`.
 * @param {Truth} truth @param {number} from
 * @returns {(row: ArrayLike<number>, nets: number[]) => number}
 */
function compiled(truth, from) {
  if (typeof truth === "number") return (row, nets) => row[nets[from + truth]];
  if (truth === "all") return (row, nets) => row[nets[from]];
  if (typeof truth === "string") return () => Number(truth);
  const [operation, ...of] = truth;
  const table = JOINED[operation];
  if (table && of[0] === "all") {
    return (row, nets) => {
      let bit = row[nets[from]];
      for (let i = from + 1; i < nets.length; i++) bit = table[bit][row[nets[i]]];
      return bit;
    };
  }
  const parts = of.map((one) => compiled(one, from));
  const [first, second, third] = parts;
  if (operation === "not") return (row, nets) => NOT[first(row, nets)];
  if (operation === "choose") {
    return (row, nets) => choose(first(row, nets), second(row, nets), third(row, nets));
  }
  return (row, nets) => parts.slice(1).reduce(
    (bit, part) => table[bit][part(row, nets)], first(row, nets));
}

/** @type {WeakMap<Flat["truths"], ReturnType<typeof compiled>[]>} */
const gatesKnown = new WeakMap();

/**
 * What the gates compute.
 * @param {Flat} flat
 */
function functionsOf({ truths }) {
  const found = gatesKnown.get(truths) ?? truths.map((truth) => compiled(truth, 2));
  gatesKnown.set(truths, found);
  return found;
}

/** @type {WeakMap<Flat["rule"], ReturnType<typeof compiled>[]>} */
const rulesKnown = new WeakMap();

/**
 * What a flip-flop stores before and after its cover decides.
 * @param {Flat} flat
 */
function ruleOf({ rule }) {
  const found = rulesKnown.get(rule) ?? [compiled(rule.stores, 0), compiled(rule.next, 0)];
  rulesKnown.set(rule, found);
  return found;
}

/**
 * Every net, once the combinational nets have settled.
 * @param {Flat} flat
 * @param {ArrayLike<number>} stored  what each flip-flop holds
 * @param {number[]} fed  the bits of the inputs, one after another, LSB first
 * @returns {Row}
 */
export function settle(flat, stored, fed) {
  const row = new Uint8Array(flat.size);
  row[1] = 1;
  row[2] = X;
  row[3] = 1;
  let at = 0;
  for (const [, nets] of flat.inputs) for (const net of nets) row[net] = fed[at++];
  flat.flipFlops.forEach((flipFlop, i) => { row[flipFlop[1]] = stored[i]; });
  const covers = coversOf(flat);
  const functions = functionsOf(flat);
  for (const gate of flat.gates) {
    const net = gate[1];
    row[net] = functions[gate[0]](row, gate);
    if (row[net] === X && covers.has(net)) row[net] = sum(covers.get(net) ?? [], row);
  }
  return row;
}

/** @type {WeakMap<Flat["covers"], Map<number, [number[], number[]][]>>} */
const known = new WeakMap();

/**
 * The products that decide a net, by its number.
 * @param {Flat} flat
 */
function coversOf({ covers }) {
  const found = known.get(covers) ?? new Map(covers);
  known.set(covers, found);
  return found;
}

/**
 * What the products say; see `Flat.covers`.
 * @param {[number[], number[]][]} products @param {Row} row
 */
function sum(products, row) {
  /** @param {number} literal */
  const bit = (literal) => (literal & 1 ? row[literal >> 1] : NOT[row[literal >> 1]]);
  let total = 0;
  for (const [every, some] of products) {
    let all = some.length ? some.reduce((any, literal) => OR[any][bit(literal)], 0) : 1;
    for (const literal of every) all = AND[all][bit(literal)];
    total = OR[total][all];
  }
  return total;
}

/**
 * What a flip-flop stores at the edge that follows `row`.
 * @param {Flat} flat @param {number[]} flipFlop @param {Row} row
 */
export function nextBit(flat, flipFlop, row) {
  const [stores, next] = ruleOf(flat);
  const nets = flipFlop.slice(0, 5);
  const bits = nets.map((net, i) => (net < 0 ? flat.rule.unfed[i - 2] : row[net]));
  bits.push(stores(bits, PLACES));
  if (bits[5] === X) {
    const products = coversOf(flat).get(flipFlop[1]);
    if (products) bits[5] = sum(products, row);
  }
  return next(bits, PLACES);
}

/** Each bit of a flip-flop where it stands. */
const PLACES = [0, 1, 2, 3, 4, 5];

/**
 * What all flip-flops store at the edge that follows `row`.
 * @param {Flat} flat @param {Row} row
 */
export function nextStored(flat, row) {
  return flat.flipFlops.map((flipFlop) => nextBit(flat, flipFlop, row));
}

/**
 * The bits of all operands one after another, LSB first.
 * @param {Operand[]} operands
 * @param {Record<string, bigint>} values
 */
export function operandBits(operands, values) {
  /** @type {number[]} */
  const bits = [];
  for (const [name, width, code] of operands) {
    const word = pattern(values[name], width, code);
    for (let i = 0; i < width; i++) bits.push(Number((word >> BigInt(i)) & 1n));
  }
  return bits;
}

/**
 * The bits of the inputs in row `k`.
 * @param {Flat} flat @param {number[]} bits  of the operands @param {number} k
 */
export function fedAt(flat, bits, k) {
  const sources = flat.feeds[flat.schedule[Math.min(k, flat.schedule.length - 1)]];
  return sources.map((source) => (source < 3 ? source : bits[source - 3]));
}

/**
 * The design with every flip-flop starting at the same bit.
 * @param {Compiled} design @param {number} bit  or `AS_DESIGNED`
 * @returns {Compiled}
 */
export function startedWith(design, bit) {
  if (bit === AS_DESIGNED) return design;
  const flipFlops = design.flipFlops.map((flipFlop) => [...flipFlop.slice(0, 5), bit]);
  return { ...design, flipFlops };
}

/**
 * The whole run.
 * @param {Compiled} design @param {Record<string, bigint>} values  the operands
 * @returns {Row[]}  edges + 1 rows
 */
export function run(design, values) {
  const bits = operandBits(design.operands, values);
  let stored = design.flipFlops.map((flipFlop) => flipFlop[5]);
  /** @type {Row[]} */
  const rows = [];
  design.schedule.forEach((_, k) => {
    if (k) stored = nextStored(design, rows[k - 1]);
    rows.push(settle(design, stored, fedAt(design, bits, k)));
  });
  return rows;
}

/**
 * The net numbers of a name, LSB first; an index or slice may stand behind it.
 * @param {Compiled} design @param {string} name
 * @returns {number[] | null}
 */
export function find(design, name) {
  if (Object.hasOwn(design.names, name)) return design.names[name];
  const selected = /^(.+)\((\d{1,6})(?:\.\.(\d{1,6}))?\)$/.exec(name);
  if (!selected || !Object.hasOwn(design.names, selected[1])) return null;
  const bits = design.names[selected[1]];
  const high = Number(selected[2]);
  const low = selected[3] === undefined ? high : Number(selected[3]);
  return low <= high && high < bits.length ? bits.slice(low, high + 1) : null;
}

/**
 * A word as it is printed, MSB left.
 * @param {Row} row @param {number[]} nets  LSB first
 */
export function wordText(row, nets) {
  let text = "";
  for (let i = nets.length - 1; i >= 0; i--) text += "01X"[row[nets[i]]];
  return text;
}
