// @ts-check
/** Stores that are told of as one: the stages of a word, or equal parts with indices in a row. */
import { wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/**
 * Its name, `R(3..0)` or that of the only member; the highest index first.
 * @typedef {{name: string, members: Store[]}} Family
 */

/** The nets in which a store's word stands. @param {Store} store */
export const held = ([, , q]) => q;

/** The nets that a store stores when it does this. @param {Store} store @param {string} action */
export function givenTo([, , , takes, , , loads, leftIn], action) {
  return action === "load" ? loads : action === "left" ? leftIn : takes;
}

/**
 * Stores of one name and width with indices in a row, as one; each where its first stands.
 * @param {Store[]} stores
 */
export function familiesOf(stores) {
  /** @type {Map<string, [number, Store][]>} */
  const bases = new Map();
  for (const store of stores) {
    const member = /^(.+)\(([0-9]{1,6})\)$/.exec(store[0]);
    const key = `${store[2].length} ${member ? `${member[1]}(` : store[0]}`;
    if (!bases.has(key)) bases.set(key, []);
    bases.get(key)?.push([member ? Number(member[2]) : 0, store]);
  }
  /** @type {Family[]} */
  const found = [];
  for (const members of bases.values()) {
    members.sort(([one], [other]) => one - other);
    let start = 0;
    for (let end = 1; end <= members.length; end++) {
      if (end < members.length && members[end][0] === members[end - 1][0] + 1) continue;
      const [low, first] = members[start], [high] = members[end - 1];
      const base = first[0].slice(0, first[0].lastIndexOf("("));
      const name = end - start > 1 ? `${base}(${high}..${low})` : first[0];
      found.push({ name, members: members.slice(start, end).map(([, one]) => one).reverse() });
      start = end;
    }
  }
  return found;
}

/** Whether a family is several words; stages of one bit each make one. @param {Family} family */
export function isMany({ members }) {
  return members.length > 1 && members[0][2].length > 1;
}

/**
 * What stands at some nets of each member of a family, the highest index left.
 * @param {Family} family @param {Row} row @param {(store: Store) => number[]} nets
 */
export function familyWord({ members }, row, nets) {
  const words = members.map((store) => wordText(row, nets(store)));
  return words.join(words.every((one) => one.length === 1) ? "" : " ");
}

/**
 * The nets of the word that a family stores, LSB first; none where it is several words.
 * @param {Family} family @param {string} action
 */
export function familyGiven({ members }, action) {
  const each = members.map((store) => givenTo(store, action)).reverse();
  return each.length > 1 && each.some((nets) => nets.length !== 1) ? [] : each.flat();
}
