// @ts-check
/** The edge table of a stage: a line a row, the words in bits, MSB left. */
import { h } from "./elements.js";
import { X } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {[string, number[]][]} Columns */

const CLASSES = ["", "one", "unknown"];

export class EdgeTable {
  /** @param {string} caption */
  constructor(caption) {
    this.caption = caption;
    this.element = h("div", {
      class: "box rows", role: "region", "aria-label": "Edge table", tabindex: 0,
    });
    /** @type {HTMLElement[]} */
    this.lines = [];
    this.now = -1;
    /** Whether the number stands beside the bits of a word. */
    this.numbers = false;
  }

  /**
   * @param {Compiled} design @param {Columns} columns @param {Row[]} rows
   * @param {number} open  rows after it are left blank
   * @param {string} numbers  the operands, for the caption
   */
  draw(design, columns, rows, open, numbers) {
    const heads = columns.map(([name]) => h("th", { scope: "col" }, name));
    const table = h("table", { class: "edge-table" },
      h("caption", {}, `${this.caption}${numbers ? ` (${numbers})` : ""}`),
      h("thead", {}, h("tr", {},
        h("th", { scope: "col" }, "phase"), h("th", { scope: "col" }, "edge"), ...heads)));
    this.lines = [];
    /** @type {[string, number, number][]} */
    const groups = [["", 0, 0], ...design.phases];
    for (const [name, first, last] of groups) {
      const body = h("tbody");
      for (let k = first; k <= Math.min(last, rows.length - 1); k++) {
        body.append(this.line(k, columns, rows, open, k === first ? [name, last - first + 1] : null));
      }
      if (body.firstChild) table.append(body);
    }
    this.element.replaceChildren(table);
    this.now = -1;
  }

  /**
   * @param {number} k @param {Columns} columns @param {Row[]} rows @param {number} open
   * @param {[string, number] | null} phase  its name and number of rows, in its first row
   */
  line(k, columns, rows, open, phase) {
    const line = h("tr", { "data-row": k });
    if (phase && phase[0]) {
      // The name keeps in sight within its own rows.
      line.append(h("th", { scope: "rowgroup", rowspan: phase[1] }, h("span", {}, phase[0])));
    }
    if (phase && !phase[0]) line.append(h("td"));
    line.append(h("th", { scope: "row" }, k ? String(k) : "start"));
    for (const [, nets] of columns) {
      const cell = k > open ? blank(nets.length) : word(rows, k, nets);
      if (this.numbers && k <= open && nets.length > 1) cell.append(number(rows[k], nets));
      line.append(cell);
    }
    this.lines.push(line);
    return line;
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

  /** Scrolls the box to the present row, never the page. */
  follow() {
    const line = this.lines[this.now], box = this.element;
    if (!line) return;
    const height = box.clientHeight;
    if (box.scrollHeight > height) box.scrollTop = Math.max(0, line.offsetTop - height / 2);
  }
}

/** @param {number} width */
function blank(width) {
  return h("td", { class: "closed" }, h("span", { "aria-hidden": "true" }, "·".repeat(width)),
    h("span", { class: "unseen" }, "not yet"));
}

/** @param {Row[]} rows @param {number} k @param {number[]} nets */
function word(rows, k, nets) {
  const cell = h("td");
  for (let i = nets.length - 1; i >= 0; i--) {
    const bit = rows[k][nets[i]];
    const changed = k && rows[k - 1][nets[i]] !== bit ? "changed" : "";
    const kind = [CLASSES[bit], changed].filter(Boolean).join(" ");
    const digit = document.createElement("i");
    if (kind) digit.className = kind;
    digit.textContent = "01X"[bit];
    cell.append(digit);
  }
  return cell;
}

/** What a word is as a number without sign. @param {Row} row @param {number[]} nets */
function number(row, nets) {
  const known = nets.every((net) => row[net] !== X);
  const value = known ? nets.reduceRight((sum, net) => sum * 2n + BigInt(row[net]), 0n) : "?";
  return h("span", { class: "number" }, ` = ${value}`);
}
