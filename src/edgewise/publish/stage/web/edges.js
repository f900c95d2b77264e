// @ts-check
/** The edge table of a stage: a line a row, the words in bits, MSB left. */
import { h } from "./elements.js";
import { reach } from "./reach.js";
import { valueOf } from "./figure.js";
import { codeOf, written } from "./codes.js";
import { X, stretches, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {[string, number[]][]} Columns */
/**
 * What a table shows.
 * @typedef {object} Shown
 * @property {import("./words.js").Words} say  our own words
 * @property {Compiled} design
 * @property {Columns} columns
 * @property {Row[]} rows
 * @property {number} open  rows after it are left blank
 * @property {string} caption
 * @property {boolean} numbers  whether the number stands beside the bits of a word
 * @property {number} cells  a word of more bits is written as a number
 */

const CLASSES = ["", "one", "unknown"];
/** A box that would hide less than this part of its height shows the whole table. */
const NEARLY = 0.15;

/* Measures on paper in ems of the table; `.papers` in stage.css has the same. */
const DIGIT = 0.54, LETTER = 0.56, GAP = 0.8;
const CELL = 1.23, SMALL_CELL = 0.86;
/** Px of type on paper: at most, at least in one table, and in several below one another. */
const LARGE = 13.3, LEAST = 10.5, SMALL = 11;

export class EdgeTable {
  /** @param {import("./words.js").Words} say */
  constructor(say) {
    this.say = say;
    this.element = h("div", { class: "box rows", role: "region", tabindex: 0 });
    /** @type {HTMLElement[]} */
    this.lines = [];
    this.now = -1;
    this.numbers = false;
    /** A word of more bits is written as a number. */
    this.cells = Infinity;
    /** @type {Shown | null} */
    this.shown = null;
    this.settled = "";
  }

  /**
   * @param {Compiled} design @param {Columns} columns @param {Row[]} rows
   * @param {number} open  rows after it are left blank
   * @param {string} given  the operands, for the caption
   */
  draw(design, columns, rows, open, given) {
    const message = rows.length > 1 ? "caption-words-each" : "caption-words";
    const caption = given ? this.say.say(`${message}-of`, { given }) : this.say.say(message);
    this.shown = { say: this.say, design, columns, rows, open, caption, numbers: this.numbers, cells: this.cells };
    this.lines = [];
    this.element.setAttribute("aria-label", this.say.say(rows.length > 1 ? "stage-edge-table" : "stage-word-table"));
    this.element.replaceChildren(made(this.shown, this.lines));
    this.now = -1;
    this.settled = "";
  }

  /** Draws it again, words of more bits than these as numbers. @param {number} cells */
  fold(cells) {
    this.cells = cells;
    if (!this.shown || this.shown.cells === cells) return;
    const now = this.now;
    this.shown = { ...this.shown, cells };
    this.lines = [];
    this.element.replaceChildren(made(this.shown, this.lines));
    this.now = -1;
    this.settled = "";
    this.show(now);
  }

  /** Marks a row as the present one. @param {number} row */
  show(row) {
    if (row === this.now) return;
    const before = this.lines[this.now], line = this.lines[row];
    if (before) {
      before.classList.remove("now");
      before.removeAttribute("aria-current");
    }
    this.now = row;
    if (!line) return;
    line.classList.add("now");
    line.setAttribute("aria-current", "true");
  }

  /** Scrolls the box, never the page, by whole rows, if the present row can't be seen whole. */
  follow() {
    const line = this.lines[this.now], box = this.element;
    if (!line) return;
    this.settle();
    reach(box);
    if (box.scrollHeight <= box.clientHeight) return;
    const head = this.head(), top = this.top(line), high = line.offsetHeight;
    const seen = box.scrollTop;
    if (top >= seen + head - 1 && top + high <= seen + box.clientHeight + 1) return;
    const fitting = Math.floor((box.clientHeight - head) / high);
    const first = this.now - Math.floor(fitting / 2);
    // Before the first row stands the caption.
    box.scrollTop = first > 0 ? this.top(this.lines[first]) - head : 0;
  }

  /** Makes the box as high as its table, if that is little more; else it ends on a whole row. */
  settle() {
    const box = this.element;
    const table = /** @type {HTMLElement | null} */ (box.firstElementChild);
    const measure = () => `${box.clientWidth} ${box.clientHeight} ${table?.offsetHeight}`;
    if (!table || measure() === this.settled) return;
    box.classList.remove("whole");
    table.style.marginBottom = "";
    box.classList.toggle("whole", table.offsetHeight <= (1 + NEARLY) * box.clientHeight);
    const last = box.scrollHeight - box.clientHeight;
    if (last > 0) {
      const head = this.head();
      const next = this.lines.map((line) => this.top(line) - head).find((top) => top >= last - 0.5);
      if (next) table.style.marginBottom = `${Math.max(0, next - last)}px`;
    }
    this.settled = measure();
  }

  /** Px from the top of what scrolls to a line. @param {HTMLElement} line */
  top(line) {
    const box = this.element;
    return line.getBoundingClientRect().top - box.getBoundingClientRect().top + box.scrollTop;
  }

  /** Height of the heading, which stays in sight. */
  head() {
    return this.element.querySelector("thead")?.offsetHeight || 0;
  }

  /**
   * Tables for paper: one in smaller type, or several below one another, with all bits in them.
   * @param {number} room  px from margin to margin
   * @returns {HTMLElement[]}
   */
  papers(room) {
    const { shown } = this;
    if (!shown) return [];
    const lead = shown.rows.length > 1 ? leading(shown.say, shown.design) : 0;
    const wide = (/** @type {number} */ cell) => (/** @type {[string, number[]]} */ column) =>
      width(column, cell, shown.numbers);
    const total = shown.columns.map(wide(CELL)).reduce((sum, one) => sum + one, lead);
    const size = Math.min(LARGE, room / total);
    if (size >= LEAST) return [onPaper({ ...shown, cells: Infinity }, this.now, size, "")];
    const most = room / SMALL - lead;
    const cells = Math.floor((most - GAP) / SMALL_CELL);
    return groups(shown.columns, wide(SMALL_CELL), most).map((columns, i) => onPaper({
      ...shown, columns, cells,
      caption: i ? this.say.say("stage-further-columns", { names: columns.map(([name]) => name).join(", ") }) : shown.caption,
    }, this.now, SMALL, "small"));
  }
}

/** @param {Shown} shown @param {number} now @param {number} size @param {string} kind */
function onPaper(shown, now, size, kind) {
  /** @type {HTMLElement[]} */
  const lines = [];
  const table = made(shown, lines);
  lines[now]?.classList.add("now");
  table.style.fontSize = `${size.toFixed(2)}px`;
  if (kind) table.classList.add(kind);
  return table;
}

/** Ems that phase and edge take. @param {import("./words.js").Words} say @param {Compiled} design */
function leading(say, design) {
  const longest = Math.max(...design.phases.map(([name]) => name.length), say.say("table-phase").length);
  return longest * LETTER + say.say("table-after-edge").length * LETTER + 2 * GAP;
}

/**
 * Ems that a column takes.
 * @param {[string, number[]]} column @param {number} cell @param {boolean} numbers
 */
function width([name, nets], cell, numbers) {
  const bits = nets.length;
  const number = numbers && bits > 1 ? (Math.ceil(bits * Math.log10(2)) + 3) * LETTER : 0;
  return Math.max(name.length * DIGIT, bits * cell + number) + GAP;
}

/**
 * Columns parted so that each part fits.
 * @param {Columns} columns @param {(column: [string, number[]]) => number} wide @param {number} room
 * @returns {Columns[]}
 */
function groups(columns, wide, room) {
  /** @type {Columns[]} */
  const found = [];
  let left = 0;
  for (const column of columns) {
    const needed = wide(column);
    if (!found.length || needed > left) {
      found.push([]);
      left = room;
    }
    found[found.length - 1].push(column);
    left -= needed;
  }
  return found;
}

/** @param {Shown} shown @param {HTMLElement[]} lines  gets the line of each row */
function made(shown, lines) {
  const { say, design, columns, rows, caption } = shown;
  const edges = rows.length > 1;
  const names = [...(edges ? [say.say("table-phase"), say.say("table-after-edge")] : []), ...columns.map(([name]) => name)];
  const table = h("table", { class: `edge-table${edges ? "" : " timeless"}` },
    h("caption", {}, caption),
    h("thead", {}, h("tr", {}, ...names.map((name) => h("th", { scope: "col" }, name)))));
  const outputs = new Map(design.outputs);
  const answers = new Set(design.purposes.flatMap(([output]) => outputs.get(output) || []));
  const heads = table.querySelectorAll("thead th");
  columns.forEach(([, nets], i) => {
    if (nets.every((net) => answers.has(net))) heads[names.length - columns.length + i].classList.add("answer");
  });
  /** @type {[string, number, number][]} */
  const parts = edges ? stretches(design) : [["", 0, 0]];
  for (const [name, first, last] of parts) {
    const body = h("tbody");
    for (let k = first; k <= Math.min(last, rows.length - 1); k++) {
      const made = line(shown, k, edges && k === first ? [name, last - first + 1] : null);
      lines.push(made);
      body.append(made);
    }
    if (body.firstChild) table.append(body);
  }
  return table;
}

/**
 * @param {Shown} shown @param {number} k
 * @param {[string, number] | null} phase  its name and number of rows, in its first row
 */
function line({ say, design, columns, rows, open, numbers, cells }, k, phase) {
  const line = h("tr", { "data-row": k });
  if (phase && phase[0]) {
    // The name keeps in sight within its own rows.
    line.append(h("th", { scope: "rowgroup", rowspan: phase[1] }, h("span", {}, phase[0])));
  }
  if (phase && !phase[0]) line.append(h("td"));
  if (rows.length > 1) line.append(h("th", { scope: "row" }, k ? String(k) : say.say("table-start")));
  for (const [, nets] of columns) {
    if (k > open) line.append(blank(say, nets.length > cells ? 3 : nets.length));
    else if (nets.length > cells) line.append(whole(say, design, rows, k, nets));
    else {
      const cell = word(rows, k, nets);
      if (numbers && nets.length > 1) cell.append(number(design, rows[k], nets));
      line.append(cell);
    }
  }
  return line;
}

/** @param {import("./words.js").Words} say @param {number} width */
function blank(say, width) {
  return h("td", { class: "closed" }, h("span", { "aria-hidden": "true" }, "·".repeat(width)),
    h("span", { class: "unseen" }, say.say("stage-not-yet")));
}

/** @param {Row[]} rows @param {number} k @param {number} net */
function changed(rows, k, net) {
  return k > 0 && rows[k - 1][net] !== rows[k][net];
}

/** @param {Row[]} rows @param {number} k @param {number[]} nets */
function word(rows, k, nets) {
  const cell = h("td");
  for (let i = nets.length - 1; i >= 0; i--) {
    const bit = rows[k][nets[i]];
    const kind = [CLASSES[bit], changed(rows, k, nets[i]) ? "changed" : ""].filter(Boolean).join(" ");
    const digit = document.createElement("i");
    if (kind) digit.className = kind;
    digit.textContent = "01X"[bit];
    cell.append(digit);
  }
  return cell;
}

/** A word as a number, as below a folded word of the figure. @param {import("./words.js").Words} say @param {Compiled} design @param {Row[]} rows @param {number} k @param {number[]} nets */
function whole(say, design, rows, k, nets) {
  const kind = nets.some((net) => changed(rows, k, net)) ? "whole changed" : "whole";
  return h("td", {}, h("span", { class: kind }, valueOf(say, design, rows[k], nets)));
}

/** The number that a word stands for. @param {Compiled} design @param {Row} row @param {number[]} nets */
function number(design, row, nets) {
  const known = nets.every((net) => row[net] !== X);
  const value = known ? written(wordText(row, nets), codeOf(design, nets)) : "?";
  return h("span", { class: "number" }, ` = ${value}`);
}
