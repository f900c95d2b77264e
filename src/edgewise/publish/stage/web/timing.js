// @ts-check
/** The timing diagram of a stage: a bit thick and high for 1, a word as a chain of lozenges. */
import { arrivals, falling, gatedClocks } from "./clocks.js";
import { codeOf, written } from "./codes.js";
import { h, s } from "./elements.js";
import { X, stretches, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./codes.js").Code} Code */
/** @typedef {import("./edges.js").Columns} Columns */

const HIGH = 20, LINE = 34, SLOPE = 5, HEAD = 44, LEFT = 10;
/** Px from the last edge of a phase to the end of its bracket. */
const AFTER = SLOPE + 1;
const LEAST = 36, BITS = 8, DIGIT = 7.3;
/** Px of a letter, and the most that a pitch grows to for the name of a phase. */
const LETTER = 7, NAMED = 72;
/** Scale on paper, at most and at least, and px of paper that a diagram may take. */
const PAPER = 0.78, LEAST_PAPER = 0.68, PAGES = 1900;
/** Px between two lines on paper. */
const BETWEEN = 22;
let count = 0;

/** @typedef {import("./words.js").Words} Words */
/** @typedef {{words: Words, design: Compiled, columns: Columns, rows: Row[], pitch: number}} Drawn */

export class Timing {
  /** @param {Words} words @param {(row: number) => void} go */
  constructor(words, go) {
    this.words = words;
    this.go = go;
    this.names = s("svg", { class: "names", "aria-hidden": "true" });
    this.box = h("div", {
      class: "box", role: "region", "aria-label": words.say("stage-timing"), tabindex: 0,
      click: (event) => this.clicked(event),
    });
    this.element = h("div", { class: "timing" }, this.names, this.box);
    this.veil = s("rect");
    this.cursor = s("rect");
    this.pitch = LEAST;
    this.rows = 0;
    this.open = 0;
    this.height = 0;
    /** @type {Drawn | null} */
    this.drawn = null;
  }

  /** @param {Compiled} design @param {Columns} columns @param {Row[]} rows */
  draw(design, columns, rows) {
    this.rows = rows.length;
    this.pitch = pitch(design, columns, rows);
    this.height = HEAD + LINE * (columns.length + 1) - 8;
    this.drawn = { words: this.words, design, columns, rows, pitch: this.pitch };
    const strip = new Strip(this.drawn, 0, rows.length - 1);
    this.cursor = strip.cursor;
    this.veil = strip.veil;
    this.box.replaceChildren(strip.svg);
    this.label(columns.map(([name]) => name));
    // Where a browser does not tell of a print, what is longer than a page is left out.
    this.element.classList.toggle("long", this.width() > 760);
  }

  /** Px of the whole diagram without its names. */
  width() {
    return LEFT + this.pitch * this.rows + SLOPE + 2;
  }

  /** @param {number} row */
  x(row) {
    return LEFT + this.pitch * row;
  }

  /** @param {string[]} names */
  label(names) {
    const all = [this.words.say("timing-clock"), ...names];
    const width = Math.ceil(Math.max(...all.map((name) => name.length)) * 7.4 + 14);
    const texts = all.map((name, i) => text(
      i ? "name" : "name slate", 0, HEAD + LINE * i + HIGH / 2 + 5, name, "start"));
    this.names.replaceChildren(text("small", 0, HEAD - 9, this.words.say("timing-edge"), "start"), ...texts);
    this.names.setAttribute("width", String(width));
    this.names.setAttribute("height", String(this.height));
  }

  /** @param {number} row @param {number} open */
  show(row, open) {
    this.open = open;
    this.cursor.setAttribute("x", String(this.x(row)));
    const closed = this.x(open + 1) + 1;
    this.veil.setAttribute("x", String(closed));
    this.veil.setAttribute("width", String(Math.max(0, this.width() - closed)));
  }

  /** Scrolls to a row, if it can't be seen. @param {number} row */
  follow(row) {
    const { box } = this;
    if (box.scrollWidth <= box.clientWidth) return;
    const left = this.x(row), right = left + this.pitch;
    if (left < box.scrollLeft || right > box.scrollLeft + box.clientWidth) {
      box.scrollLeft = Math.max(0, left - box.clientWidth / 2);
    }
  }

  /** @param {MouseEvent} event */
  clicked(event) {
    const svg = this.box.firstElementChild;
    if (!svg) return;
    const { left, width } = svg.getBoundingClientRect();
    // A diagram that is projected is drawn larger.
    const x = ((event.clientX - left) * this.width()) / width;
    const row = Math.floor((x - LEFT) / this.pitch);
    if (row >= 0 && row < this.rows) this.go(row);
  }

  /**
   * The diagram for paper, in lines below one another; too long a one is left out, and it says so.
   * @param {number} room  px from margin to margin
   * @returns {HTMLElement[]}
   */
  papers(room) {
    const { drawn } = this;
    if (!drawn) return [];
    const names = Number(this.names.getAttribute("width"));
    const free = room / LEAST_PAPER - names - LEFT - SLOPE - 2;
    const lines = Math.ceil(this.rows / Math.max(1, Math.floor(free / this.pitch)));
    const each = Math.ceil(this.rows / lines);
    const scale = Math.min(PAPER, room / (names + LEFT + this.pitch * each + SLOPE + 2));
    if (lines * (this.height + BETWEEN) * scale > PAGES) {
      return [h("p", { class: "omitted" }, this.words.say(
        "stage-timing-too-long", { edges: this.rows - 1 }))];
    }
    return Array.from({ length: lines }, (_, i) => {
      const strip = new Strip(drawn, i * each, Math.min(this.rows, (i + 1) * each) - 1);
      strip.cursor.remove();
      strip.close(this.open);
      const line = h("div", { class: "timing" }, this.names.cloneNode(true), strip.svg);
      line.style.zoom = scale.toFixed(3);
      return line;
    });
  }
}

/** The rows of a run from `first` to `last` as one picture. */
class Strip {
  /** @param {Drawn} drawn @param {number} first @param {number} last */
  constructor({ words, design, columns, rows, pitch }, first, last) {
    this.words = words;
    this.pitch = pitch;
    this.first = first;
    this.last = last;
    this.hatch = `timing-hatch-${++count}`;
    this.width = LEFT + pitch * (last - first + 1) + SLOPE + 2;
    this.height = HEAD + LINE * (columns.length + 1) - 8;
    this.cursor = s("rect", { class: "cursor", y: 18, width: pitch, height: this.height - 18 });
    this.veil = s("rect", { class: "veil", y: 0, height: this.height });
    this.svg = s("svg", {
      width: this.width, height: this.height, viewBox: `0 0 ${this.width} ${this.height}`, role: "img",
      "aria-label": words.say("stage-timing-about"),
    });
    this.svg.append(s("defs", {}, s("pattern", {
      id: this.hatch, width: 6, height: 6, patternUnits: "userSpaceOnUse",
      patternTransform: "rotate(45)",
    }, s("rect", { class: "hatch-line", width: 1.5, height: 6 }))), this.cursor, ...this.heads(design),
      this.clock(arrivals(design, columns.flatMap(([, nets]) => nets)), rows));
    columns.forEach(([, nets], i) => {
      const top = HEAD + LINE * (i + 1);
      const held = holding(design, rows, nets, first, last);
      this.svg.append(nets.length === 1 ? this.levels(held, top) : this.lozenges(held, top, codeOf(design, nets)));
    });
    this.svg.append(this.veil);
  }

  /** @param {number} row */
  x(row) {
    return LEFT + this.pitch * (row - this.first);
  }

  /** Numbers of the edges, phases. @param {Compiled} design @returns {Element[]} */
  heads(design) {
    /** @type {Element[]} */
    const made = [];
    for (let k = Math.max(1, this.first); k <= this.last; k++) {
      const x = this.x(k);
      made.push(s("path", { class: "guide", d: `M${x} ${HEAD - 4}V${this.height}` }));
      made.push(text("number", x, HEAD - 9, String(k), "middle"));
    }
    if (!this.first) made.push(text("small", this.x(0), HEAD - 9, this.words.say("table-start"), "start"));
    for (const [name, opening, closing] of stretches(design)) {
      const first = Math.max(opening, this.first), last = Math.min(closing, this.last);
      if (last < first) continue;
      // Inputs change just after the last edge of their phase, which stands below the bracket.
      const begins = opening === first && first > 0, goesOn = closing > last || last === this.last;
      const start = this.x(first) + (begins ? AFTER + 3 : first ? -AFTER : 3);
      made.push(this.phase(name, start, this.x(last + 1) + (goesOn ? -3 : AFTER - 1)));
    }
    return made;
  }

  /**
   * A bracket over the time of its inputs; a name without room above it is told, not cut.
   * @param {string} name @param {number} start @param {number} end
   */
  phase(name, start, end) {
    const fits = name.length * LETTER <= end - start + 4;
    return s("g", { class: "phase" }, s("title", {}, name),
      s("path", { d: `M${start} 22V17H${end}V22` }),
      ...(fits ? [text("", (start + end) / 2, 13, name, "middle")] : []));
  }

  /**
   * High in the first half of each row; an arrow marks an edge that arrives.
   * @param {(before: Row) => boolean} arrives @param {Row[]} rows
   */
  clock(arrives, rows) {
    const top = HEAD, low = HEAD + HIGH, middle = HEAD + HIGH / 2;
    let data = `M${LEFT} ${low}`;
    const arrows = [];
    for (let k = Math.max(1, this.first); k <= this.last; k++) {
      const x = this.x(k);
      data += `H${x}V${top}H${x + this.pitch / 2}V${low}`;
      if (arrives(rows[k - 1])) {
        arrows.push(s("path", { class: "arrow", d: `M${x - 3.5} ${middle + 3.5}L${x} ${middle - 4}L${x + 3.5} ${middle + 3.5}Z` }));
      }
    }
    return s("g", {}, s("path", { class: "clock", d: `${data}H${this.x(this.last + 1)}` }), ...arrows);
  }

  /** Covers what is after a row. @param {number} open */
  close(open) {
    const closed = this.x(Math.max(this.first - 1, open) + 1) + 1;
    if (open >= this.last) this.veil.remove();
    this.veil.setAttribute("x", String(closed));
    this.veil.setAttribute("width", String(Math.max(0, this.width - closed)));
  }

  /** @param {string[][]} held @param {number} top */
  levels(held, top) {
    const low = top + HIGH;
    const paths = { hatched: "", thin: "", thick: "" };
    runs(held.flat()).forEach(([bit, from, to], i, all) => {
      const before = i ? all[i - 1][0] : "", after = i + 1 < all.length ? all[i + 1][0] : "";
      const [start, end] = [from, to].map((at) => this.x(this.first + at / held[0].length));
      if (bit === "X") {
        const [a, b] = [start + (before === "0" ? SLOPE : 0), start + (before === "1" ? SLOPE : 0)];
        const [c, d] = [end + (after === "1" ? SLOPE : 0), end + (after === "0" ? SLOPE : 0)];
        paths.hatched += `M${a} ${top}H${d}L${c} ${low}H${b}Z`;
        paths.thin += `M${a} ${top}H${d}M${b} ${low}H${c}`;
        if (before) paths.thin += `M${a} ${top}L${b} ${low}`;
        if (after) paths.thin += `M${d} ${top}L${c} ${low}`;
        return;
      }
      const y = bit === "1" ? top : low, other = bit === "1" ? low : top;
      paths[bit === "1" ? "thick" : "thin"] += `M${start + (before ? SLOPE : 0)} ${y}H${end}`;
      if (after && after !== "X") paths.thin += `M${end} ${y}L${end + SLOPE} ${other}`;
    });
    return this.strokes(paths);
  }

  /** @param {string[][]} held @param {number} top @param {Code} [code] */
  lozenges(held, top, code) {
    const low = top + HIGH, middle = top + HIGH / 2;
    const paths = { hatched: "", thin: "", thick: "" };
    /** @type {Node[]} */
    const texts = [];
    runs(held.flat()).forEach(([word, from, to], i, all) => {
      const [start, end] = [from, to].map((at) => this.x(this.first + at / held[0].length));
      const left = i ? `L${start + SLOPE} ${low}L${start + SLOPE / 2} ${middle}L${start + SLOPE} ${top}`
        : `L${start} ${low}V${top}`;
      const right = i + 1 < all.length ? `H${end}L${end + SLOPE / 2} ${middle}L${end} ${low}` : `H${end}V${low}`;
      const outline = `M${i ? start + SLOPE : start} ${top}${right}${left}Z`;
      if (word.includes("X")) paths.hatched += outline;
      paths.thin += outline;
      const value = spelt(word, code);
      if (!value) return;
      const x = (start + (i ? SLOPE : 0) + end) / 2, wide = value.length * DIGIT + 6;
      if (word.includes("X")) {
        texts.push(s("rect", { class: "paper", x: x - wide / 2, y: top + 2.5, width: wide, height: HIGH - 5 }));
      }
      texts.push(text("value", x, middle + 4.2, value, "middle"));
    });
    const group = this.strokes(paths);
    group.append(...texts);
    return group;
  }

  /** @param {{hatched: string, thin: string, thick: string}} paths */
  strokes({ hatched, thin, thick }) {
    const group = s("g", { class: "signal" });
    if (hatched) group.append(s("path", { class: "hatched", d: hatched, fill: `url(#${this.hatch})` }));
    if (thin) group.append(s("path", { class: "thin", d: thin }));
    if (thick) group.append(s("path", { class: "thick", d: thick }));
    return group;
  }
}

/**
 * What nets hold in each row from `first` to `last`, as one text or as one for each half: what
 * gates a clock changes at the falling edge, and a gated clock is high until then.
 * @param {Compiled} design @param {Row[]} rows @param {number[]} nets
 * @param {number} first @param {number} last
 */
function holding(design, rows, nets, first, last) {
  const late = falling(design), pulsed = gatedClocks(design).has(nets[0]);
  const halves = pulsed || nets.every((net) => late.has(net));
  const held = [];
  for (let k = first; k <= last; k++) {
    const before = k ? wordText(rows[k - 1], nets) : "", now = wordText(rows[k], nets);
    if (pulsed) held.push([before || "0", "0"]);
    else held.push(halves ? [before || now, now] : [now]);
  }
  return held;
}

/**
 * Equal neighbours joined: word, first row, row after the last.
 * @param {string[]} words
 * @returns {[string, number, number][]}
 */
function runs(words) {
  /** @type {[string, number, number][]} */
  const found = [];
  words.forEach((word, k) => {
    const last = found[found.length - 1];
    if (last && last[0] === word) last[2] = k + 1;
    else found.push([word, k, k + 1]);
  });
  return found;
}

/** What stands in a lozenge: up to 8 bits, else "=" and the number. @param {string} word @param {Code} [code] */
function spelt(word, code) {
  if (!/[01]/.test(word)) return "";
  if (word.length <= BITS) return word;
  return word.includes("X") ? "" : `= ${written(word, code)}`;
}

/**
 * Px from edge to edge: room for the widest word and, within reason, for the name of each phase.
 * @param {Compiled} design @param {Columns} columns @param {Row[]} rows
 */
function pitch(design, columns, rows) {
  const digits = columns.map(([, nets]) => widest(design, rows, nets));
  const least = Math.max(LEAST, Math.ceil(Math.max(...digits) * DIGIT + SLOPE + 8));
  const named = design.phases.map(([name, first, last]) =>
    Math.ceil((name.length * LETTER + 2) / Math.max(1, last - first + 1)));
  return Math.max(least, ...named.filter((wide) => wide <= NAMED));
}

/** @param {Compiled} design @param {Row[]} rows @param {number[]} nets */
function widest(design, rows, nets) {
  if (nets.length === 1) return 0;
  if (nets.length <= BITS) return nets.length;
  const known = rows.filter((row) => !nets.some((net) => row[net] === X));
  return Math.max(0, ...known.map((row) => spelt(wordText(row, nets), codeOf(design, nets)).length));
}

/** @param {string} kind @param {number} x @param {number} y @param {string} said @param {string} anchor */
function text(kind, x, y, said, anchor) {
  return s("text", { class: kind, x, y, "text-anchor": anchor }, said);
}
