// @ts-check
/**
 * What a learner tried on a stage, as one short code for a teacher. Nothing is sent anywhere.
 *
 * A code is fields with points between: `ew1`, the lesson, then what was done, then a checksum.
 *
 *   r6_m_1b_d   a run: parameters and operands in base 36, and how it starts
 *   b9          rows up to this one were shown
 *   s…          a row: the first try at each of its bits, and what became of it
 *
 * `practice/marking/attempts.py` reads it.
 */
import { X } from "./simulator.js";

/**
 * What became of a row: right at the first try, right in the end, shown, gone on with as the
 * learner's own, or left.
 * @typedef {"s" | "c" | "f" | "o" | "u"} End
 */

/** Fields that are kept: the first tries count, so the first are. */
const MOST = 500;
const FIELD = /^[rbscfou][\w-]*$/;

export class Attempts {
  /** @param {string} key  the page and the stage on it; nothing is kept for an empty one @param {string} lesson */
  constructor(key, lesson) {
    this.key = key && `edgewise ${key} attempts`;
    this.lesson = lesson;
    this.fields = this.read();
    this.run = this.fields.filter((field) => field[0] === "r").pop() || "";
    /** What stands before the next try; null: nothing is noted before rows are left out again. @type {string[] | null} */
    this.before = null;
    this.open = false;
  }

  /** @returns {string[]} */
  read() {
    try {
      const { lesson, fields } = JSON.parse(localStorage.getItem(this.key) || "null") || {};
      const sound = (/** @type {unknown} */ one) => typeof one === "string" && FIELD.test(one);
      if (lesson === this.lesson && Array.isArray(fields) && fields.every(sound)) return fields;
    } catch {
      // No storage here, or something else in it: begin anew.
    }
    return [];
  }

  /**
   * Rows are left out of a run.
   * @param {(number | bigint)[]} numbers  parameters and operands @param {number} start  -1: as designed
   * @param {number} row  the last that is shown
   */
  begin(numbers, start, row) {
    const run = `r${[...numbers.map((one) => one.toString(36)), "01xd".at(start)].join("_")}`;
    // A beginning without any try is not worth telling.
    this.before = [...(run === this.run ? [] : [run]), `b${row.toString(36)}`];
    this.open = false;
  }

  /**
   * A row as far as it is filled in.
   * @param {End} end @param {(number | null)[]} tries  the first at each bit
   * @param {(number | null)[]} [own]  the row that was gone on with
   * @param {number[]} [ideas]  the wrong ideas that give the first tries
   */
  note(end, tries, own = [], ideas = []) {
    if (!this.before || (this.fields.length + this.before.length >= MOST && !this.open)) return;
    if (this.before.length > 1) [this.run] = this.before;
    this.fields.push(...this.before);
    this.before = [];
    if (this.open) this.fields.pop();
    const said = [end + packed(tries)];
    if (own.length) said.push(packed(own));
    if (ideas.length) said.push(`i${ideas.map((one) => one.toString(36)).join("-")}`);
    this.fields.push(said.join("_"));
    this.open = end === "u";
    try {
      const kept = JSON.stringify({ lesson: this.lesson, fields: this.fields });
      if (this.key) localStorage.setItem(this.key, kept);
    } catch {
      // A browser that keeps nothing: the page works without.
    }
  }

  forget() {
    this.fields = [];
    this.run = "";
    this.before = null;
    this.open = false;
    try {
      localStorage.removeItem(this.key);
    } catch {
      // Nothing was kept.
    }
  }

  /** All of it, for a teacher; empty if nothing was tried. */
  get code() {
    if (!this.fields.length) return "";
    const told = ["ew1", this.lesson, ...this.fields].join(".");
    return `${told}.${checksum(told).toString(36)}`;
  }
}

/** Bits in base 36: 0, 1, X, or none yet, behind a 1 that keeps the zeros. @param {(number | null)[]} bits */
function packed(bits) {
  let number = 1n;
  for (const bit of bits) number = number * 4n + BigInt(bit === null ? X + 1 : bit);
  return number.toString(36);
}

/** CRC-32 (ISO/IEC 8802-3, ITU-T V.42) of letters below 128. @param {string} text */
function checksum(text) {
  let rest = -1;
  for (let i = 0; i < text.length; i++) {
    rest ^= text.charCodeAt(i);
    for (let k = 0; k < 8; k++) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return ~rest >>> 0;
}
