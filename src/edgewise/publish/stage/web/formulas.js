// @ts-check
/**
 * Formulas of a lesson over one run: whole numbers of any size, words of bits, truths.
 *
 * The tree is that of `design_data.py`; names and times mean what they mean in a lesson.
 */
import { codeOf, numberOf, pattern } from "./codes.js";
import { X, find } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {{design: Compiled, rows: Row[], operands: Record<string, bigint>}} Played */
/** @typedef {{bits: number[], what: string, code?: import("./codes.js").Code}} Word  LSB first */
/** @typedef {bigint | boolean | Word} Value */
/** @typedef {any[]} Tree */
/** @typedef {{row: number | null, counting: boolean}} Moment */

/** A formula that has no value here; why is a message with its facts. */
export class Meaningless extends Error {
  /** @param {string} message @param {Record<string, string>} [facts] */
  constructor(message, facts = {}) {
    super(message);
    this.facts = facts;
  }

  /** Why, in the words of the page. @param {import("./words.js").Words} words */
  told(words) {
    return words.say(this.message, this.facts);
  }
}

/** Functions that read a word in a code of their own. @type {Record<string, import("./codes.js").Code>} */
const READ = {
  value: "unsigned", signed: "twos-complement", ones_complement: "ones-complement",
  sign_magnitude: "sign-magnitude", bcd: "bcd", gray: "gray",
};

/** A word of which bits are unknown has no value: what is said of it can't be relied on. */
class Unknown extends Meaningless {}

const TIMELESS = { row: null, counting: false };
const WIDEST = 8192;

/**
 * The value of a formula.
 * @param {Tree} tree @param {Played} played @param {Moment} [at]
 * @returns {Value}
 */
export function evaluate(tree, played, at = TIMELESS) {
  switch (tree[0]) {
    case "number": return BigInt(tree[1]);
    case "unknown": throw new Unknown("stage-x-no-value");
    case "name": return lookUp(tree[1], tree[2], played, at);
    case "not": return !truth(evaluate(tree[1], played, at));
    case "minus": return -number(evaluate(tree[1], played, at));
    case "and":
      return truth(evaluate(tree[1], played, at)) && truth(evaluate(tree[2], played, at));
    case "or":
      return truth(evaluate(tree[1], played, at)) || truth(evaluate(tree[2], played, at));
    case "after":
    case "before": {
      const row = rowOf(tree, played, at);
      return evaluate(tree[1], played, { row, counting: false });
    }
    default:
      return apply(tree[0], evaluate(tree[1], played, at), evaluate(tree[2], played, at));
  }
}

/** @param {Tree} tree @param {Played} played @param {Moment} at */
function rowOf(tree, played, at) {
  const edge = number(evaluate(tree[2], played, { ...at, row: null, counting: true }));
  const last = BigInt(played.rows.length - 1), first = tree[0] === "before" ? 1n : 0n;
  if (edge < first || edge > last) {
    const facts = { edge: String(edge), first: String(first), last: String(last) };
    throw new Meaningless(last ? "stage-no-edge" : "stage-no-edges", facts);
  }
  return Number(edge - first);
}

/**
 * @param {string} operator @param {Value} left @param {Value} right
 * @returns {Value}
 */
function apply(operator, left, right) {
  if (typeof left === "boolean" && typeof right === "boolean" && /^[!=]=$/.test(operator)) {
    return (left === right) === (operator === "==");
  }
  const a = number(left), b = number(right);
  switch (operator) {
    case "==": return a === b;
    case "!=": return a !== b;
    case "<": return a < b;
    case "<=": return a <= b;
    case ">": return a > b;
    case ">=": return a >= b;
    case "+": return a + b;
    case "-": return a - b;
    case "*": return a * b;
    case "**":
      if (b < 0n) {
        throw new Meaningless("stage-negative-exponent", { base: String(a), exponent: String(b) });
      }
      if (b * BigInt(a.toString(2).length) > WIDEST && (a > 1n || a < -1n)) {
        throw new Meaningless("stage-too-large", { bits: String(WIDEST) });
      }
      return a ** b;
  }
  if (b === 0n) throw new Meaningless("stage-division-by-zero", { number: String(a), operator });
  const rest = a % b, low = rest !== 0n && (rest < 0n) !== (b < 0n);
  if (operator === "div") return a / b - (low ? 1n : 0n);
  return low ? rest + b : rest;
}

/** @param {Value} value @returns {bigint} */
export function number(value) {
  if (typeof value === "boolean") throw new Meaningless("stage-truth-no-number");
  if (typeof value === "bigint") return value;
  if (value.bits.includes(X)) {
    throw new Unknown("stage-word-no-value", { word: value.what, bits: shown(value) });
  }
  const { bits, code, what } = value;
  if (code === "bcd" && bits.length % 4) {
    throw new Meaningless("stage-bcd-width", { width: String(bits.length) });
  }
  const found = numberOf(bits.reduceRight((sum, bit) => sum * 2n + BigInt(bit), 0n), bits.length, code);
  if (found === null) throw new Unknown("stage-no-bcd", { word: what, bits: shown(value) });
  return found;
}

/** @param {Value} value @returns {boolean} */
function truth(value) {
  if (typeof value === "boolean") return value;
  throw new Meaningless("stage-number-no-truth");
}

/** A value as a lesson prints it. @param {Value} value */
export function shown(value) {
  if (typeof value !== "object") return String(value);
  return value.bits.map((bit) => "01X"[bit]).reverse().join("");
}

/**
 * The value of a name.
 * @param {string} base @param {any[]} steps @param {Played} played @param {Moment} at
 * @returns {Value}
 */
function lookUp(base, steps, played, at) {
  const kinds = at.row === null
    ? [fixed, operand, parameter, net] : [fixed, net, operand, parameter];
  for (const kind of kinds) {
    const value = kind(base, steps, played, at);
    if (value !== null) return value;
  }
  throw new Meaningless("stage-none-here", { name: canonical(base, steps, played) });
}

/** @typedef {(base: string, steps: any[], played: Played, at: Moment) => Value | null} Kind */

/** @type {Kind} */
function fixed(base, steps, played, at) {
  const { design, rows } = played;
  if (at.counting) {
    const ends = phases(canonical(base, steps, played), design).map(([, , last]) => last);
    if (ends.length) return BigInt(Math.max(...ends));
  }
  if (!steps.length) return /^(edges|end)$/.test(base) ? BigInt(rows.length - 1) : null;
  if (steps.length > 1 || steps[0][0] !== "select") return null;
  const items = steps[0].slice(1);
  if (["min", "max", "ceil_log2", "floor_log2"].includes(base)) {
    return call(base, items.map((/** @type {Tree} */ item) => number(evaluate(item, played, at))));
  }
  if (base === "edges" && items[0][0] === "name") {
    const wanted = canonical(items[0][1], items[0][2], played);
    const found = phases(wanted, design);
    if (!found.length) throw new Meaningless("stage-no-phase", { name: wanted });
    return found.reduce((sum, [, first, last]) => sum + BigInt(last - first + 1), 0n);
  }
  if (base === "total" && items[0][0] === "name") return total(items[0][1], played);
  if (base !== "known" && !Object.hasOwn(READ, base)) return null;
  const word = evaluate(items[0], played, at);
  if (typeof word !== "object") throw new Meaningless("stage-reads-word", { name: base });
  if (base === "known") return !word.bits.includes(X);
  return number({ ...word, code: READ[base] });
}

/** @param {string} wanted @param {Compiled} design */
function phases(wanted, design) {
  return design.phases.filter(([name]) => name === wanted || name.startsWith(`${wanted}(`));
}

/** @param {string} family @param {Played} played */
function total(family, played) {
  const members = Object.keys(played.operands).filter((name) => name.startsWith(`${family}(`));
  if (!members.length) throw new Meaningless("stage-no-family", { name: family });
  return members.reduce((sum, name) => sum + played.operands[name], 0n);
}

/** @param {string} name @param {bigint[]} given */
function call(name, given) {
  const [a, b] = given;
  if (name === "min") return a < b ? a : b;
  if (name === "max") return a > b ? a : b;
  if (a < 1n) throw new Meaningless("stage-needs-one", { name, number: String(a) });
  if (name === "floor_log2") return BigInt(a.toString(2).length - 1);
  return a === 1n ? 0n : BigInt((a - 1n).toString(2).length);
}

/** @type {Kind} */
function operand(base, steps, { design, operands, rows }) {
  const played = { design, operands, rows };
  let [whole, rest] = [base, steps];
  if (!Object.hasOwn(operands, whole) && steps.length && steps[0][0] === "select") {
    [whole, rest] = [base + step(steps[0], played), steps.slice(1)];
  }
  if (!Object.hasOwn(operands, whole)) return null;
  if (!rest.length) return operands[whole];
  const [, width, code] = design.operands.find(([name]) => name === whole) || ["", 0];
  const value = pattern(operands[whole], width, code);
  const [kind, ...bounds] = rest[0];
  if (rest.length > 1 || kind === "dot") return null;
  const [high, low] = bounds.map((/** @type {Tree} */ b) => Number(number(evaluate(b, played))));
  const bottom = kind === "slice" ? low : high;
  if (bottom < 0 || bottom > high || high >= width) {
    const facts = { index: String(high), name: whole, width: String(width) };
    throw new Meaningless("stage-no-bit", facts);
  }
  const bits = [];
  for (let i = bottom; i <= high; i++) bits.push(Number((value >> BigInt(i)) & 1n));
  return { bits, what: whole };
}

/** @type {Kind} */
function parameter(base, steps, { design }) {
  if (steps.length || !Object.hasOwn(design.parameters, base)) return null;
  return BigInt(design.parameters[base]);
}

/** @type {Kind} */
function net(base, steps, played, at) {
  const name = canonical(base, steps, played);
  const nets = find(played.design, name);
  if (!nets) return null;
  const edges = played.rows.length - 1;
  if (at.row === null && edges) throw new Meaningless("stage-changes", { name });
  const row = at.row || 0;
  const bits = nets.map((number) => played.rows[row][number]);
  return { bits, code: codeOf(played.design, nets), what: edges ? `${name} after ${row}` : name };
}

/** @param {string} base @param {any[]} steps @param {Played} played */
function canonical(base, steps, played) {
  return base + steps.map((one) => step(one, played)).join("");
}

/** @param {any[]} one @param {Played} played */
function step([kind, ...items], played) {
  if (kind === "dot") return `.${items[0]}`;
  const values = items.map((item) => number(evaluate(item, played)));
  return kind === "slice" ? `(${values[0]}..${values[1]})` : `(${values.join(", ")})`;
}

/**
 * Two operands of one width that a design adds, or nothing.
 * @param {Compiled} design
 * @returns {[string, string] | null}
 */
export function addends({ purposes, operands }) {
  for (const names of purposes.flatMap(([, formula]) => sums(formula, operands))) {
    const added = operands.filter(([name]) => names.includes(name));
    const widths = new Map(added.map(([name, width]) => [name, width]));
    for (const [first, width] of widths) {
      const other = [...widths].find(([name, same]) => name !== first && same === width);
      if (other) return [first, other[0]];
    }
  }
  return null;
}

/**
 * The operands that stand together in each sum of a formula.
 * @param {any} tree @param {import("./simulator.js").Operand[]} operands
 * @returns {string[][]}
 */
function sums(tree, operands) {
  if (!Array.isArray(tree)) return [];
  if (tree[0] === "+") return [terms(tree)];
  if (tree[0] === "name" && tree[1] === "total" && tree[2].length) {
    const family = tree[2][0][1][1];
    return [operands.map(([name]) => name).filter((name) => name.startsWith(`${family}(`))];
  }
  return tree.flatMap((part) => sums(part, operands));
}

/** @param {any} tree @returns {string[]} */
function terms([kind, left, right]) {
  if (kind === "name") return [left];
  return kind === "+" ? [...terms(left), ...terms(right)] : [];
}

/**
 * A claim as `design_data.py` writes it.
 * @typedef {{text: string, truth: Tree, sides: string[], ranges: [string, Tree, Tree][]}} Claim
 */

/**
 * Whether a claim holds for the numbers of a run: `holds`, `fails`, or `silent` where it says
 * nothing about them; and why.
 * @param {import("./words.js").Words} words @param {Claim} claim @param {Played} played
 * @returns {{state: "holds" | "fails" | "silent", why: string}}
 */
export function check(words, claim, played) {
  try {
    for (const [name, low, high] of claim.ranges) {
      const value = BigInt(played.design.parameters[name]);
      const [least, most] = [low, high].map((bound) => number(evaluate(bound, played)));
      if (value < least || value > most) {
        const range = least === most ? `= ${least}` : words.say("stage-speaks-in", { least: String(least), most: String(most) });
        return { state: "silent", why: words.say("stage-speaks-of", { name, range }) };
      }
    }
    if (truth(evaluate(claim.truth, played))) return { state: "holds", why: "" };
    if (!claim.sides.length) return { state: "fails", why: "" };
    const sides = claim.sides.map((text, i) => told(words, text, claim.truth[i + 1], played));
    return { state: "fails", why: sides.join("; ") };
  } catch (wrong) {
    if (wrong instanceof Unknown) return { state: "fails", why: wrong.told(words) };
    if (wrong instanceof Meaningless) return { state: "silent", why: wrong.told(words) };
    throw wrong;
  }
}

/** @param {import("./words.js").Words} words @param {string} text @param {Tree} side @param {Played} played */
function told(words, text, side, played) {
  const value = evaluate(side, played);
  const wide = typeof value === "object" && value.bits.length > 1;
  if (text === shown(value)) return words.say("stage-side-expected", { text });
  const facts = { text, value: shown(value) };
  return wide ? words.say("stage-side-is-number", { ...facts, number: shownNumber(words, value) }) : words.say("stage-side-is", facts);
}

/** @param {import("./words.js").Words} words @param {Word} word */
function shownNumber(words, word) {
  return word.bits.includes(X) ? words.say("stage-no-value") : String(number(word));
}

