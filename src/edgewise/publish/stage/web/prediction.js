// @ts-check
/**
 * Predicting the next rows.
 *
 * Each bit is marked when it is filled in, against what follows from the row before: the
 * learner's own, if they went on with one that was wrong.
 */
import { listed } from "./additions.js";
import { h, set } from "./elements.js";
import { Handing } from "./handing.js";
import { X, fedAt, nextStored, settle } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Flat} Flat */
/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./actions.js").Store} Store */
/** @typedef {import("./progress.js").Progress} Progress */
/** @typedef {import("./attempts.js").Attempts} Attempts */
/** @typedef {import("./attempts.js").End} End */
/**
 * A wrong idea: its thought, the netlist of one who has it, and the order of its flip-flops.
 * @typedef {[string, Flat, number[]]} Misconception
 */
/**
 * @typedef {{design: Compiled, stores: Store[], misconceptions: Misconception[], rows: Row[],
 *   bits: number[], numbers: (number | bigint)[], start: number}} Exercise
 */
/** @typedef {{flipFlop: number, label: string, button: HTMLButtonElement}} Blank */

export class Prediction {
  /**
   * @param {import("./words.js").Words} words
   * @param {Progress} progress @param {Attempts} attempts
   * @param {number} most  rows that can be left out; 0: all
   * @param {() => number} here  the row shown
   * @param {(row: number) => void} changed  called when other rows may be seen
   */
  constructor(words, progress, attempts, most, here, changed) {
    this.words = words;
    this.progress = progress;
    this.attempts = attempts;
    this.handing = new Handing(words, attempts);
    this.most = most;
    this.here = here;
    this.changed = changed;
    this.active = false;
    /** @type {Exercise | null} */
    this.exercise = null;
    /** @type {Row[]} */
    this.world = [];
    /** @type {Set<number>} */
    this.own = new Set();
    /** @type {Blank[]} */
    this.blanks = [];
    /** @type {(number | null)[]} */
    this.filled = [];
    /** The first try at each bit. @type {Map<number, number>} */
    this.tried = new Map();
    /** @type {number[]} */
    this.expected = [];
    this.at = 0;
    /** Rows that were left out at the beginning. */
    this.left = 0;
    this.level = h("select");
    this.sheet = h("div", { class: "sheet" });
    this.verdict = h("p", { class: "verdict", role: "status" });
    this.choices = h("div", { class: "row" });
    this.tally = h("p", { class: "tally" });
    const button = (/** @type {string} */ text, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, text);
    this.stopping = button(words.say("stage-show-all"), () => this.stop());
    this.beginning = button(words.say("stage-begin"), () => this.begin(Number(this.level.value)));
    this.stopping.hidden = true;
    this.element = h("details", { class: "prediction" },
      h("summary", {}, words.say("stage-predict")),
      h("div", { class: "row" },
        h("label", {}, `${words.say("stage-left-out")} `, this.level),
        this.beginning,
        ...(most ? [] : [button(words.say("stage-begin-here"), () => this.beginHere())]),
        this.stopping),
      this.sheet, this.verdict, this.choices, this.tally,
      this.handing.element,
      h("div", { class: "row" }, button(words.say("stage-forget"), () => this.forget())));
    this.keys = h("div", { class: "keys", role: "group", "aria-label": words.say("stage-fill-in") },
      ...["0", "1", "X"].map((digit) => button(digit, () => this.press(digit))),
      button(words.say("stage-take-back"), () => this.press("Backspace")));
  }

  /** Another run to work on. @param {Exercise} exercise */
  set(exercise) {
    const dropped = this.active;
    this.exercise = exercise;
    const edges = exercise.rows.length - 1;
    const most = Math.min(this.most || edges, edges);
    this.level.replaceChildren(...Array.from({ length: most }, (_, i) =>
      h("option", { value: i + 1 }, String(i + 1))));
    this.level.value = String(Math.min(this.progress.reached.level, most));
    this.element.hidden = !edges || !exercise.stores.length;
    this.end();
    if (dropped) this.say(this.words.say("stage-run-changed"));
    this.count();
  }

  /** The last row that may be seen. */
  get open() {
    if (!this.exercise) return 0;
    return this.active ? this.world.length - 1 : this.exercise.rows.length - 1;
  }

  /** The rows as they are to be shown. */
  get rows() {
    if (!this.exercise) return [];
    return this.exercise.rows.map((row, k) => (this.active && this.world[k]) || row);
  }

  beginHere() {
    if (!this.exercise) return;
    const left = this.exercise.rows.length - 1 - this.here();
    if (left < 1) this.say(this.words.say("stage-nothing-follows"));
    else this.begin(left);
  }

  /** @param {number} left  rows left out */
  begin(left) {
    if (!this.exercise) return;
    this.active = true;
    this.left = left;
    this.own.clear();
    this.world = this.exercise.rows.slice(0, this.exercise.rows.length - left);
    this.attempts.begin(this.exercise.numbers, this.exercise.start, this.world.length - 1);
    this.stopping.hidden = false;
    this.say("");
    this.next();
    this.focus();
  }

  /** Puts the focus where one goes on: on the bit to fill in, else on what can be chosen. */
  focus() {
    const onward = this.blanks[this.at]?.button || this.choices.querySelector("button")
      || (this.active ? this.stopping : this.beginning);
    onward.focus();
  }

  /** The sheet of the row that comes next, or the end. */
  next() {
    const { exercise } = this;
    if (!exercise) return;
    this.changed(this.open);
    this.choices.replaceChildren();
    const row = this.world.length;
    if (row === exercise.rows.length) return this.finish();
    this.expected = nextStored(exercise.design, this.world[row - 1]);
    this.tried.clear();
    const numbers = new Map(exercise.design.flipFlops.map(([, q], i) => [q, i]));
    this.blanks = [];
    const words = exercise.stores.map(([name, , nets]) => {
      const bits = [...nets].reverse().map((net, i) => this.blank(
        numbers.get(net) ?? -1, nets.length > 1 ? this.words.say("stage-bit-of", { name, index: nets.length - 1 - i }) : name));
      return h("div", { class: "blank", role: "group", "aria-label": name },
        h("span", { class: "name", "aria-hidden": "true" }, name), h("span", { class: "bits" }, ...bits));
    });
    // What is stored inside parts is not asked for.
    const asked = new Set(this.blanks.map(({ flipFlop }) => flipFlop));
    this.filled = this.expected.map((bit, i) => (asked.has(i) ? null : bit));
    this.sheet.replaceChildren(
      h("p", {}, this.words.say("stage-what-stands", { edge: row })),
      h("div", { class: "blanks", keydown: (event) => this.key(event) }, ...words), this.keys);
    this.pick(0, false);
  }

  /** @param {number} flipFlop @param {string} label */
  blank(flipFlop, label) {
    const at = this.blanks.length;
    const button = h("button", {
      type: "button", class: "bit", tabindex: -1, "aria-label": this.words.say("stage-bit-empty", { bit: label }),
      click: () => this.pick(at, true),
    });
    this.blanks.push({ flipFlop, label, button });
    return button;
  }

  /** @param {number} at @param {boolean} focus */
  pick(at, focus) {
    this.blanks[this.at]?.button.setAttribute("tabindex", "-1");
    this.at = Math.max(0, Math.min(this.blanks.length - 1, at));
    this.blanks.forEach(({ button }, i) => button.classList.toggle("here", i === this.at));
    const { button } = this.blanks[this.at];
    button.setAttribute("tabindex", "0");
    if (focus) button.focus();
  }

  /** @param {any} event */
  key(event) {
    const inside = this.blanks.findIndex(({ button }) => button === event.target);
    if (inside >= 0) this.at = inside;
    const way = { ArrowLeft: -1, ArrowRight: 1 }[/** @type {"ArrowLeft"} */ (event.key)];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (way) this.pick(this.at + way, true);
    else if (!/^([01xX]|Backspace|Delete)$/.test(event.key)) return;
    else this.press(event.key, true);
    event.preventDefault();
    event.stopPropagation();
  }

  /** Fills in a bit, or takes it back. @param {string} key @param {boolean} [focus] */
  press(key, focus = false) {
    const blank = this.blanks[this.at];
    if (!blank || !this.active) return;
    if (/^(Backspace|Delete)$/.test(key)) {
      const empty = this.filled[blank.flipFlop] === null;
      if (empty && this.at > 0) this.pick(this.at - 1, focus);
      this.write(this.blanks[this.at], null);
      this.choices.replaceChildren(); // what stood there was about a whole row
      this.say("");
      return;
    }
    const bit = key === "0" ? 0 : key === "1" ? 1 : X;
    this.write(blank, bit);
    this.score(blank.flipFlop, bit);
    const right = bit === this.expected[blank.flipFlop];
    this.say(this.words.say(right ? "stage-said-right" : "stage-said-wrong", { bit: blank.label, value: "01X"[bit] }));
    const full = this.filled.every((one) => one !== null);
    const wrong = this.filled.some((one, i) => one !== this.expected[i]);
    if (full) this.judge();
    if (wrong) this.onward(focus); // else the next row has begun
  }

  /** Goes to the next bit that is empty; when all are filled in, to the next wrong one. @param {boolean} focus */
  onward(focus) {
    const full = this.filled.every((one) => one !== null);
    const waits = this.blanks.map(({ flipFlop }) =>
      (full ? this.filled[flipFlop] !== this.expected[flipFlop] : this.filled[flipFlop] === null));
    const after = waits.indexOf(true, this.at + 1);
    this.pick(after >= 0 ? after : waits.indexOf(true), focus);
  }

  /** @param {Blank} blank @param {number | null} bit */
  write({ flipFlop, label, button }, bit) {
    this.filled[flipFlop] = bit;
    const right = bit === this.expected[flipFlop];
    button.textContent = bit === null ? "" : "01X"[bit];
    const mark = bit === null ? "" : right ? " agrees" : " differs";
    const kind = bit === null ? "" : [" zero", " one", " unknown"][bit];
    set(button, "class", `bit${kind}${mark}${this.blanks[this.at].button === button ? " here" : ""}`);
    const told = bit === null ? "stage-bit-empty" : right ? "stage-bit-right" : "stage-bit-wrong";
    button.setAttribute("aria-label", this.words.say(told, { bit: label, value: bit === null ? "" : "01X"[bit] }));
  }

  /** Counts the first try at each bit. @param {number} flipFlop @param {number} bit */
  score(flipFlop, bit) {
    if (this.tried.has(flipFlop)) return;
    this.tried.set(flipFlop, bit);
    this.note("u");
    const { bits, right } = this.progress.reached;
    const hit = bit === this.expected[flipFlop] ? 1 : 0;
    this.progress.note({ bits: bits + 1, right: right + hit });
    this.count();
  }

  /** Keeps the first tries at a row, and what became of it. @param {End} end */
  note(end) {
    const tries = this.blanks.map(({ flipFlop }) => this.tried.get(flipFlop) ?? null);
    const first = this.expected.map((bit, i) => this.tried.get(i) ?? bit);
    const own = end === "o" ? this.blanks.map(({ flipFlop }) => this.filled[flipFlop]) : [];
    const told = !tries.includes(null) && first.some((bit, i) => bit !== this.expected[i]);
    this.attempts.note(end, tries, own, told ? this.fitting(first) : []);
  }

  /** The whole row is filled in. */
  judge() {
    const row = this.world.length;
    const wrong = this.blanks.filter(
      ({ flipFlop }) => this.filled[flipFlop] !== this.expected[flipFlop]);
    if (!wrong.length) {
      const own = [...this.own].filter((k) => k < row);
      this.say(own.length ? this.words.say("stage-row-right-from", { row, own: Math.max(...own) })
        : this.words.say("stage-row-right", { row }));
      const focused = this.sheet.contains(document.activeElement);
      const first = this.blanks.every(({ flipFlop }) => this.tried.get(flipFlop) === this.expected[flipFlop]);
      this.accept(this.expected, first ? "s" : "c");
      if (focused && this.active) this.focus();
      return;
    }
    const places = wrong.length > 4 ? this.words.say("stage-bits-differ", { count: wrong.length }) : listed(this.words, wrong.map(({ label }) => label));
    const differs = this.words.say("stage-row-differs", { row, places, count: wrong.length });
    this.say([differs, ...this.ideas()].join(" "));
    const button = (/** @type {string} */ text, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, text);
    this.choices.replaceChildren(
      h("span", {}, this.words.say("stage-change-or")),
      button(this.words.say("stage-go-on"), () => {
        this.own.add(row);
        this.say(this.words.say("stage-went-on", { row }));
        this.accept(/** @type {number[]} */ (this.filled), "o");
        this.focus();
      }),
      button(this.words.say("stage-show-follows"), () => {
        this.say(this.words.say("stage-as-follows", { row }));
        this.accept(this.expected, "f");
        this.focus();
      }));
  }

  /** One kind sentence, where the row is what a known wrong idea leads to. */
  ideas() {
    const [one, other, ...more] = this.fitting(this.filled).map((i) => this.exercise?.misconceptions[i][0] || "");
    if (!one || more.length) return [];
    return [other ? this.words.say("stage-two-ideas", { one, other }) : this.words.say("stage-idea", { one })];
  }

  /** The wrong ideas that lead to a row. @param {(number | null)[]} row */
  fitting(row) {
    const { exercise } = this;
    if (!exercise) return [];
    const k = this.world.length - 1;
    const stored = exercise.design.flipFlops.map(([, q]) => this.world[k][q]);
    return exercise.misconceptions.flatMap((idea, number) =>
      (stepOf(idea, stored, exercise.bits, k).every((bit, i) => bit === row[i]) ? [number] : []));
  }

  /** @param {number[]} stored @param {End} end */
  accept(stored, end) {
    const { exercise } = this;
    if (!exercise) return;
    this.note(end);
    const k = this.world.length;
    this.world.push(settle(exercise.design, stored, fedAt(exercise.design, exercise.bits, k)));
    this.next();
  }

  finish() {
    const level = this.left, most = this.level.options.length;
    const { done, level: reached } = this.progress.reached;
    this.progress.note({ done: done + 1, level: Math.max(reached, Math.min(level + 1, most)) });
    this.sheet.replaceChildren();
    const last = this.words.say(this.own.size ? "stage-last-row-own" : "stage-last-row");
    this.say(`${this.verdict.textContent} ${last}`);
    this.blanks = [];
    if (level < most) {
      this.choices.replaceChildren(h("button", {
        type: "button",
        click: () => {
          this.level.value = String(level + 1);
          this.begin(level + 1);
        },
      }, this.words.say("stage-one-more")));
    }
    this.count();
  }

  stop() {
    this.end();
    this.changed(this.here());
    this.focus();
  }

  end() {
    this.active = false;
    this.blanks = [];
    this.stopping.hidden = true;
    this.sheet.replaceChildren();
    this.choices.replaceChildren();
    this.say("");
  }

  forget() {
    this.progress.forget();
    this.attempts.forget();
    this.level.value = "1";
    this.count();
    this.say(this.words.say("stage-forgotten"));
  }

  /** @param {string} text */
  say(text) {
    this.verdict.textContent = text;
  }

  count() {
    this.handing.update();
    const { bits, right, done } = this.progress.reached;
    const message = done ? "stage-tally-finished" : "stage-tally";
    this.tally.textContent = bits ? this.words.say(message, { right, bits, count: done }) : "";
  }
}

/**
 * What one who has a wrong idea would store at edge k + 1.
 * @param {Misconception} misconception @param {number[]} stored  in the order of the design's flip-flops
 * @param {number[]} bits  of the operands @param {number} k
 */
export function stepOf([, flat, order], stored, bits, k) {
  /** @type {number[]} */
  const theirs = [];
  order.forEach((place, i) => { theirs[place] = stored[i]; });
  const next = nextStored(flat, settle(flat, theirs, fedAt(flat, bits, k)));
  return order.map((place) => next[place]);
}
