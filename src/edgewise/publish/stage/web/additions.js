// @ts-check
/** What adders added at an edge: facts first, then sentences of them. */
import { familiesOf, familyGiven, familyWord, held } from "./families.js";
import { X, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/** @typedef {import("./families.js").Family} Family */
/** @typedef {import("./words.js").Words} Words */
/**
 * An adder: name, a, b, carry in, where that is from, sum, carry, and who reads that.
 * @typedef {[string, number, number, number, string, number, number, string]} Adder
 */
/**
 * A word that is added: nets, the name of what it comes from, the gate that stands between,
 * that gate's control and the name of that.
 * @typedef {[number[], string, string, number, string]} Addend
 */
/**
 * Adders that are told of together: name, lowest place first, and the two words that they add;
 * none where they pass no carries on.
 * @typedef {[string, Adder[], Addend[]]} AdderRow
 */
/** @typedef {{family: Family, nets: number[], action: string}} Taking  a store, and what it takes */
/** @typedef {{texts: string[], into: Family[]}} Goes  where results go, in words and as stores */

/** Bits of a word that is told by its name alone, where it has one. */
const WIDE = 16;

/**
 * What a row of adders added and where that goes, and the stores that it goes to; nothing if
 * it goes nowhere.
 * @param {Words} words @param {AdderRow} row @param {Store[]} stores
 * @param {(store: Store) => string} does @param {Row} before
 * @returns {{text: string, into: Set<string>} | null}
 */
export function addition(words, row, stores, does, before) {
  /** @type {Taking[]} */
  const taking = [];
  for (const action of ["shift", "take", "load"]) {
    for (const family of familiesOf(stores.filter((store) => does(store) === action))) {
      taking.push({ family, nets: familyGiven(family, action), action });
    }
  }
  const [, adders, addends] = row;
  const tell = adders.length === 1 ? bit : addends.length ? word : cells;
  const told = tell(words, row, taking, before);
  if (!told) return null;
  return {
    text: told.text,
    into: new Set(told.into.flatMap(({ members }) => members.map(([name]) => name))),
  };
}

/**
 * One adder, whose sum or carry is stored.
 * @param {Words} words @param {AdderRow} row @param {Taking[]} taking @param {Row} before
 */
function bit(words, [, [adder], addends], taking, before) {
  const [, a, b, carryIn, , sum, carry] = adder;
  const sums = takers(taking, [sum]), carries = takers(taking, [carry]);
  if (!sums.length && !carries.length) return null;
  const given = [["a", a, addends[0]], ["b", b, addends[1]]].map(
    ([port, net, addend]) => bitText(words, String(port), Number(net), /** @type {Addend} */ (addend), before));
  if (carryIn >= 0) given.push(carryText(words, adder, before));
  const goes = [];
  if (sums.length) {
    goes.push(words.say("stage-sum-entered", { bits: digit(before[sum]), stores: listed(words, names(sums)) }));
  }
  goes.push(...carryGoes(words, adder, carries, taking, before));
  return { text: found(words, given, goes), into: [...sums, ...carries] };
}

/**
 * Two words added by adders that pass their carries on.
 * @param {Words} words @param {AdderRow} row @param {Taking[]} taking @param {Row} before
 */
function word(words, [, adders, addends], taking, before) {
  const places = adders.length, first = adders[0], last = adders[places - 1];
  const result = [...adders.map(([, , , , , sum]) => sum), last[6]];
  /** @type {[number, string][]} */
  const shares = [];
  /** @type {Family[]} */
  const into = [], carries = [];
  for (const { family, nets, action } of taking) {
    const low = nets.length ? result.indexOf(nets[0]) : -1;
    if (low < 0 || nets.some((net, i) => net !== result[low + i])) continue;
    into.push(family);
    if (low === places) carries.push(family);
    else shares.push([low, shareText(words, family, nets, low, places, action, before)]);
  }
  if (!into.length) return null;
  const given = addends.map((addend) => addendText(words, addend, before));
  const nets = addends.flatMap(([bits]) => bits);
  if (first[3] >= 0 && first[4] !== "none") {
    given.push(carryText(words, first, before));
    nets.push(first[3]);
  }
  // Upper bits first, the carry last.
  shares.sort(([one], [other]) => other - one);
  const goes = [...shares.map(([, text]) => text), ...carryGoes(words, last, carries, taking, before)];
  const known = nets.every((net) => before[net] !== X);
  const total = known ? wordText(before, result) : "";
  return { text: found(words, given, goes, total || "?"), into };
}

/**
 * Bits added in many places, each by itself.
 * @param {Words} words @param {AdderRow} row @param {Taking[]} taking @param {Row} before
 */
function cells(words, [, adders], taking, before) {
  /** @type {string[]} */
  const goes = [];
  /** @type {Family[]} */
  const into = [];
  /** @param {number[]} made @param {string} message */
  const tell = (made, message) => {
    for (const { family, nets } of taking) {
      if (!nets.length || !nets.every((net) => made.includes(net))) continue;
      goes.push(words.say(message, {
        count: nets.length, bits: digits(words, wordText(before, nets)), stores: family.name,
      }));
      into.push(family);
    }
  };
  tell(adders.map(([, , , , , sum]) => sum), "stage-sums-entered");
  tell(adders.map(([, , , , , , carry]) => carry), "stage-carries-stored");
  if (!goes.length) return null;
  for (const [name, , , , , , carry, readBy] of adders) {
    if (readBy === "nobody" && before[carry] === 1) goes.push(words.say("stage-carry-of-lost", { adder: name }));
  }
  const nets = adders.flatMap(([, a, b, carryIn]) => (carryIn >= 0 ? [a, b, carryIn] : [a, b]));
  const half = adders.filter(([, , , carryIn]) => carryIn < 0).length;
  const carries = adders.filter(([, , , , , , carry]) => before[carry] === 1).length;
  const facts = {
    count: adders.length,
    inputs: half === adders.length ? "two" : half ? "both" : "three",
    goes: goes.join(", "),
  };
  const known = nets.every((net) => before[net] !== X);
  const text = known ? words.say("stage-cells", { ...facts, carries }) : words.say("stage-cells-unknown", facts);
  return { text, into };
}

/** The stores that take just these nets. @param {Taking[]} taking @param {number[]} wanted */
function takers(taking, wanted) {
  return taking.filter(({ nets, action }) => action !== "load"
    && nets.length === wanted.length && nets.every((net, i) => net === wanted[i])).map(({ family }) => family);
}

/**
 * Where a carry goes: to stores, or nowhere though it is 1 and only stores could keep it.
 * @param {Words} words @param {Adder} adder @param {Family[]} carries @param {Taking[]} taking
 * @param {Row} before
 */
function carryGoes(words, [, , , , , , carry, readBy], carries, taking, before) {
  const bits = digit(before[carry]);
  if (carries.length) {
    const stores = listed(words, carries.map((one) => {
      const old = familyWord(one, before, held);
      return words.say(old === bits && bits !== "X" ? "stage-store-same" : "stage-store-held", { store: one.name, old });
    }));
    return [words.say("stage-carry-stored", { bits, stores })];
  }
  const kept = readBy === "more" || taking.some(({ nets }) => nets.includes(carry));
  return !kept && bits === "1" ? [words.say("stage-carry-lost")] : [];
}

/**
 * What was found and where it goes; `total` is what words came to, "?" where that is unknown.
 * @param {Words} words @param {string[]} given @param {string[]} goes @param {string} [total]
 */
function found(words, given, goes, total) {
  const facts = { given: listed(words, given), goes: goes.join(", ") };
  if (!total) return words.say("stage-found", facts);
  return total === "?" ? words.say("stage-found-unknown", facts) : words.say("stage-found-words", { ...facts, total });
}

/** @param {Words} words @param {Adder} adder @param {Row} before */
function carryText(words, [, , , carryIn, from], before) {
  const bits = digit(before[carryIn]);
  return words.say(from === "stored" ? "stage-carry-from-store" : "stage-carry-from-outside", { bits });
}

/**
 * A bit that is added, complemented where it is.
 * @param {Words} words @param {string} port @param {number} net @param {Addend} addend
 * @param {Row} before
 */
function bitText(words, port, net, [, name, through, control, by], before) {
  const told = `${port}=${digit(before[net])}`;
  if (name && through === "not") return words.say("stage-complemented", { told, name });
  if (name && through === "xor" && before[control] === 1) {
    return words.say("stage-complemented-by", { told, name, control: by });
  }
  return told;
}

/**
 * A word that is added, and where it comes from.
 * @param {Words} words @param {Addend} addend @param {Row} before
 */
function addendText(words, [nets, name, through, control, by], before) {
  const bits = wordText(before, nets), wide = nets.length > WIDE;
  if (!name) return bits;
  const told = wide ? name : `${name} = ${bits}`;
  const passed = control >= 0 ? before[control] : X;
  if (through === "not") return words.say("stage-complemented", { told: wide ? "" : bits, name });
  if (through === "and" && passed === 1) return words.say("stage-let-through", { told, control: by });
  if (through === "and" && passed === 0) {
    return words.say("stage-kept-back", { told: wide ? "0" : bits, name, control: by });
  }
  if (through === "xor" && passed === 1) {
    return words.say("stage-complemented-by", { told: wide ? "" : bits, name, control: by });
  }
  return !through || (through === "xor" && passed === 0) ? told : bits;
}

/**
 * The part of a sum that goes somewhere.
 * @param {Words} words @param {Family} family @param {number[]} nets @param {number} low
 * @param {number} places @param {string} action @param {Row} before
 */
function shareText(words, family, nets, low, places, action, before) {
  const facts = { way: action === "shift" ? "entered" : "went", store: family.name };
  if (nets.length > places) return words.say("stage-share-all", facts);
  if (nets.length === places && !low) {
    const bits = nets.length <= WIDE ? wordText(before, nets) : "";
    return words.say(bits ? "stage-share-sum" : "stage-share-wide-sum", { ...facts, bits });
  }
  if (nets.length > 1) return words.say("stage-share-bits", { ...facts, high: low + nets.length - 1, low });
  return words.say("stage-share-bit", { ...facts, index: low });
}

/** A word behind what it is called. @param {Words} words @param {string} text */
function digits(words, text) {
  return text.length <= WIDE || /[^0]/.test(text) ? text : words.say("stage-all-zero");
}

/** @param {number} value */
function digit(value) {
  return "01X"[value];
}

/** @param {Family[]} some */
function names(some) {
  return some.map(({ name }) => name);
}

/** ``A, B and C`` @param {Words} words @param {string[]} some */
export function listed(words, some) {
  if (some.length < 2) return some.join("");
  return words.say("list-and", { first: some.slice(0, -1).join(", "), last: some[some.length - 1] });
}
