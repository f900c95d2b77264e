// @ts-check
/**
 * What happened at an edge, and why, in sentences made from the rows of a run.
 *
 * Says the same as `sentences.py`, word for word.
 */
import { familiesOf, familyGiven, familyWord, givenTo, held, isMany } from "./families.js";
import { X, nextStored, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Row} Row */
/**
 * A storing part: name, what it does by itself, q, takes, load, left, loads, leftIn, [enable, clear, gate],
 * direction.
 * @typedef {[string, string, number[], number[], number, number, number[], number[],
 *   [number, number, number], string]} Store
 */
/**
 * An adder: name, a, b, carry in, where that is from, sum, carry.
 * @typedef {[string, number, number, number, string, number, number]} Adder
 */
/**
 * A word that is added: nets, the name of what it comes from, the gate that stands between,
 * that gate's control and the name of that.
 * @typedef {[number[], string, string, number, string]} Addend
 */
/**
 * Adders that are told of together: name, lowest place first, and the two words that they add
 * if they pass their carries on.
 * @typedef {[string, Adder[], Addend[]]} AdderRow
 */
/** @typedef {import("./families.js").Family} Family */
/** @typedef {Map<string, string>} Does  what each store does, by its name */

/** Characters of a formula that is left out of a sentence. */
const LONG = 60;
/** Bits of a word that is told by its name alone, where it has one. */
const WIDE = 16;
/** Parts that hold and are named, at most. */
const NAMED = 3;
const NOTHING = "nothing is stored";

/**
 * What happened at the edge that led to row `k`; for row 0 the start.
 * @param {Compiled} design @param {Store[]} stores @param {AdderRow[]} adders
 * @param {Row[]} rows @param {number} k
 */
export function acts(design, stores, adders, rows, k) {
  if (rows.length < 2) return "";
  if (!k) {
    const values = familiesOf(stores).map((one) => `${one.name} = ${familyWord(one, rows[0], held)}`);
    return `At the start: ${values.join(", ") || NOTHING}.`;
  }
  const phase = phaseOf(design, k);
  const head = phase ? `Edge ${k}, phase ${phase[0]}:` : `Edge ${k}:`;
  const said = actsOf(stores, adders, rows[k - 1], rows[k]).join(" ");
  return `${head} ${said || `${NOTHING}.`}`;
}

/**
 * What is to be said of row `k` in place of `acts` if it is not what follows from the row
 * before, but a reader's own; else nothing.
 * @param {Compiled} design @param {Store[]} stores
 * @param {Row[]} rows  as shown, the reader's own among them
 * @param {number} k
 */
export function stands(design, stores, rows, k) {
  if (!k) return "";
  const follows = Uint8Array.from(rows[k]);
  const next = nextStored(design, rows[k - 1]);
  design.flipFlops.forEach(([, q], i) => { follows[q] = next[i]; });
  const other = familiesOf(stores.filter(
    ([, , q]) => q.some((net) => rows[k][net] !== follows[net])));
  if (!other.length) return "";
  /** @param {Row} row */
  const words = (row) => and(other.map((one) => `${one.name} = ${familyWord(one, row, held)}`));
  return `Row ${k} is your own: ${words(rows[k])}. `
    + `From row ${k - 1} would follow ${words(follows)}.`;
}

/**
 * The phase of an edge, or nothing.
 * @param {Compiled} design @param {number} k
 */
export function phaseOf(design, k) {
  return design.phases.find(([, first, last]) => first <= k && k <= last);
}

/**
 * @param {Store[]} stores @param {AdderRow[]} adders @param {Row} before @param {Row} after
 */
function actsOf(stores, adders, before, after) {
  /** @type {Does} */
  const does = new Map(stores.map((store) => [store[0], actionOf(store, before)]));
  /** @type {string[]} */
  const said = [];
  /** @type {Set<string>} */
  const toldOf = new Set();
  for (const row of adders) {
    const [text, names] = addition(row, stores, does, before);
    if (!text) continue;
    said.push(adders.length > 1 ? `${row[0]}: ${text}` : text);
    names.forEach((name) => toldOf.add(name));
  }
  const rest = stores.filter(([name]) => !toldOf.has(name));
  /** @param {string} action */
  const doing = (action) => familiesOf(rest.filter(([name]) => does.get(name) === action));
  /** @param {Family[]} some @param {string} one @param {string} more */
  const together = (some, one, more) => {
    const single = some.length === 1 && !isMany(some[0]);
    if (some.length) said.push(`${and(some.map(({ name }) => name))} ${single ? one : more}.`);
  };
  /** @param {string[]} clauses */
  const sentence = (clauses) => { if (clauses.length) said.push(`${and(clauses)}.`); };
  /** @param {Family} one @param {string} action */
  const word = (one, action) => familyWord(one, before, (store) => givenTo(store, action));
  // The bit that came in and the one that went out, at the other end.
  /** @param {"shift" | "left"} action */
  const entering = (action) => doing(action).map((one) => {
    const way = action === "left" ? "left" : one.members[0][9];
    const gone = familyWord(one, before, ([, , q]) => (way === "right" ? q.slice(0, 1) : q.slice(-1)));
    return `${one.name} shifted ${way} (${word(one, action)} came in, ${gone} went out)`;
  });
  sentence([...entering("shift"), ...entering("left")]);
  for (const action of ["take", "load"]) {
    sentence(doing(action).map(
      (one) => `${one.name} ${action === "take" ? "took" : "loaded"} ${word(one, action)}`));
  }
  sentence(doing("count").map((one) => {
    const [from, to] = [before, after].map((row) => familyWord(one, row, held));
    return /X/.test(from + to) ? `${one.name} counted, and its value is not all known`
      : `${one.name} counted from ${from} to ${to}`;
  }));
  together(doing("clear"), "was cleared", "were cleared");
  const unsure = doing("unsure").map(({ name }) => name);
  if (unsure.length) said.push(`What ${and(unsure)} did is unknown.`);
  const holding = doing("hold");
  if (holding.length <= NAMED) together(holding, "kept its value", "kept their values");
  else said.push(said.length ? "The others kept their values." : "Every storing part kept its value.");
  return said;
}

// ---------------------------------------------------------------- stores

/**
 * What a store does at the edge that follows `before`.
 * @param {Store} store @param {Row} before
 */
export function actionOf(store, before) {
  const gate = store[8][2], arrives = gate >= 0 ? before[gate] : 1;
  if (!arrives) return "hold";
  const does = atEdge(store, before);
  // What holds anyway does not mind whether the edge arrives.
  return arrives === 1 || does === "hold" ? does : "unsure";
}

/**
 * What a store does at an edge that arrives.
 * @param {Store} store @param {Row} before
 */
function atEdge([, does, , , load, left, , , controls], before) {
  const [enable, clear] = controls.map((net) => (net >= 0 ? before[net] : -1));
  if (clear > 0) return clear === 1 ? "clear" : "unsure";
  // A part loads whether or not it is enabled.
  if (load >= 0 && before[load]) return before[load] === 1 ? "load" : "unsure";
  if (enable === 0) return "hold";
  if (enable === X) return "unsure";
  if (left >= 0 && before[left]) return before[left] === 1 ? "left" : "unsure";
  return does;
}

// ---------------------------------------------------------------- adders

/**
 * What a row of adders adds and where that goes; and the names of the stores it goes to.
 * @param {AdderRow} row @param {Store[]} stores @param {Does} does @param {Row} before
 * @returns {[string, string[]]}
 */
function addition(row, stores, does, before) {
  const [, adders, addends] = row;
  if (adders.length === 1) return oneAdder(adders[0], stores, does, before);
  /** @type {[Family, number[], string][]} */
  const taking = [];
  for (const action of ["shift", "take", "load"]) {
    for (const one of familiesOf(stores.filter(([name]) => does.get(name) === action))) {
      taking.push([one, familyGiven(one, action), action]);
    }
  }
  const [text, into] = addends.length ? wordsAdded(row, taking, before) : bitsAdded(row, taking, before);
  return [text, into.flatMap(({ members }) => members.map(([name]) => name))];
}

/**
 * @param {Adder} adder @param {Store[]} stores @param {Does} does @param {Row} before
 * @returns {[string, string[]]}
 */
function oneAdder(adder, stores, does, before) {
  const [, a, b, carryIn, , sum, carry] = adder;
  /** @param {number} net */
  const into = (net) => stores
    .filter((s) => s[3].length === 1 && s[3][0] === net)
    .filter((s) => ["shift", "take"].includes(does.get(s[0]) || ""))
    .map((s) => s[0]);
  const sums = into(sum), carries = into(carry);
  if (!sums.length && !carries.length) return ["", []];
  const nets = carryIn >= 0 ? [a, b, carryIn] : [a, b];
  const given = [`a=${"01X"[before[a]]}`, `b=${"01X"[before[b]]}`];
  if (carryIn >= 0) given.push(carryText(adder, before));
  const total = "01X"[before[sum]], over = "01X"[before[carry]];
  const result = known(nets, before) ? `made sum ${total} and carry ${over}` : "were not all known";
  const goes = [];
  if (sums.length) goes.push(`the sum bit ${total} entered ${and(sums)}`);
  if (carries.length) {
    const each = stores.filter(([name]) => carries.includes(name))
      .map(([name, , q]) => `${name}${was("01X"[before[q[0]]], over)}`);
    goes.push(`the carry ${over} was stored in ${and(each)}`);
  }
  return [`just before, ${and(given)} ${result}; ${goes.join(", ")}.`, [...sums, ...carries]];
}

/** @param {Adder} adder @param {Row} before */
function carryText([, , , carryIn, from], before) {
  return `the ${from === "stored" ? "stored" : "incoming"} carry ${"01X"[before[carryIn]]}`;
}

/** @param {number[]} nets @param {Row} row */
function known(nets, row) {
  return nets.every((net) => row[net] !== X);
}

/**
 * Two words added by adders that pass their carries on.
 * @param {AdderRow} row @param {[Family, number[], string][]} taking @param {Row} before
 * @returns {[string, Family[]]}
 */
function wordsAdded([, adders, addends], taking, before) {
  const places = adders.length, first = adders[0];
  const result = [...adders.map(([, , , , , sum]) => sum), adders[places - 1][6]];
  /** @type {[number, string][]} */
  const goes = [];
  /** @type {Family[]} */
  const into = [];
  for (const [one, nets, action] of taking) {
    const low = nets.length ? result.indexOf(nets[0]) : -1;
    if (low < 0 || nets.some((net, i) => net !== result[low + i])) continue;
    const share = shareOf(nets, low, places, before);
    // Upper bits first, the carry last.
    goes.push([low === places ? low : -low, share + wayTo(one, action, share, before)]);
    into.push(one);
  }
  if (!goes.length) return ["", []];
  const given = addends.map((addend) => addendText(addend, before));
  const nets = addends.flatMap(([bits]) => bits);
  if (first[3] >= 0 && first[4] !== "none") {
    given.push(carryText(first, before));
    nets.push(first[3]);
  }
  const added = known(nets, before) ? `added up to ${wordText(before, result)}` : "were not all known";
  goes.sort(([one], [other]) => one - other);
  return [`just before, ${and(given)} ${added}; ${goes.map(([, text]) => text).join(", ")}.`, into];
}

/**
 * The part of a sum that goes somewhere.
 * @param {number[]} nets @param {number} low @param {number} places @param {Row} before
 */
function shareOf(nets, low, places, before) {
  const digits = nets.length <= WIDE ? ` ${wordText(before, nets)}` : "";
  if (low === places) return `the carry${digits}`;
  if (nets.length > places) return "all of it";
  if (nets.length === places && !low) return `the sum${digits}`;
  return nets.length > 1 ? `bits ${low + nets.length - 1}..${low}` : `bit ${low}`;
}

/**
 * Where a part of a sum goes.
 * @param {Family} family @param {string} action @param {string} share @param {Row} before
 */
function wayTo(family, action, share, before) {
  const { name } = family;
  if (share.startsWith("the carry")) {
    const old = familyWord(family, before, held);
    return ` was stored in ${name}${was(old, share.slice(share.lastIndexOf(" ") + 1))}`;
  }
  return ` ${action === "shift" ? "entered" : "went to"} ${name}`;
}

/**
 * What stood there until the edge.
 * @param {string} old @param {string} fresh
 */
function was(old, fresh) {
  return old === fresh && !old.includes("X") ? " (unchanged)" : ` (before: ${old})`;
}

/**
 * A word that is added, and where it comes from.
 * @param {Addend} addend @param {Row} before
 */
function addendText([nets, name, through, control, by], before) {
  const bits = wordText(before, nets), wide = nets.length > WIDE;
  if (!name) return bits;
  const told = wide ? name : `${name} = ${bits}`;
  if (!through) return told;
  const passed = before[control];
  if (through === "and" && passed === 1) return `${told} (${by} = 1 let it through)`;
  if (through === "and" && passed === 0) return `${wide ? "0" : bits} (${by} = 0 kept ${name} back)`;
  if (through === "xor" && passed === 0) return told;
  if (through === "xor" && passed === 1) return `${bits} (${name} complemented, as ${by} = 1)`;
  return bits;
}

/**
 * Bits added in many places, each by itself.
 * @param {AdderRow} row @param {[Family, number[], string][]} taking @param {Row} before
 * @returns {[string, Family[]]}
 */
function bitsAdded([, adders], taking, before) {
  /** @type {string[]} */
  const goes = [];
  /** @type {Family[]} */
  const into = [];
  /** @param {number[]} made @param {[string, string]} one @param {[string, string]} more */
  const tell = (made, one, more) => {
    for (const [family, nets] of taking) {
      if (!nets.length || !nets.every((net) => made.includes(net))) continue;
      const [what, verb] = nets.length > 1 ? more : one;
      goes.push(`the ${what}${digits(wordText(before, nets))} ${verb} ${family.name}`);
      into.push(family);
    }
  };
  tell(adders.map(([, , , , , sum]) => sum), ["sum bit", "entered"], ["sum bits", "entered"]);
  tell(adders.map(([, , , , , , over]) => over), ["carry", "was stored in"], ["carries", "were stored in"]);
  if (!goes.length) return ["", []];
  const nets = adders.flatMap(([, a, b, carryIn]) => (carryIn >= 0 ? [a, b, carryIn] : [a, b]));
  const half = adders.filter(([, , , carryIn]) => carryIn < 0).length;
  const adds = half === adders.length ? "two bits" : half ? "two or three bits" : "three bits";
  const carries = adders.filter(([, , , , , , over]) => before[over] === 1).length;
  const some = known(nets, before)
    ? `${carries || "none"} of them with a carry`
    : "not all of these were known";
  return [`just before, each of the ${adders.length} adders added ${adds}, ${some}; ${goes.join(", ")}.`, into];
}

/** A word behind what it is called. @param {string} text */
function digits(text) {
  return text.length <= WIDE || /[^0]/.test(text) ? ` ${text}` : ", all 0,";
}

// ---------------------------------------------------------------- results

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
    return wanted === null ? `${text}.` : `${text}${compared(word, shown, wanted)}.`;
  }).join(" ");
}

/**
 * What a word is, beside what it should be.
 * @param {string} word @param {string} formula @param {bigint} wanted
 */
function compared(word, formula, wanted) {
  // A formula that says no more than the number, or too much to be read, stays out.
  const silent = formula.length > LONG || /^-?[0-9]+$/.test(formula);
  const should = silent ? `expected: ${wanted}` : `${formula} is ${wanted}`;
  if (word.includes("X")) return `, not all of it known; ${should}`;
  const found = BigInt(`0b${word}`);
  const number = word.length > 1 ? `, which is ${found}` : "";
  if (found !== wanted) return `${number}; ${should}`;
  return `${number}${silent ? ", as expected" : ` = ${formula}`}`;
}

/** @param {string[]} names */
export function and(names) {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}
