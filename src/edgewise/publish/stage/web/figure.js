// @ts-check
/** The block diagram of a stage: its skeleton, and the values of a row drawn into it. */
import { KINDS, SVG, s, set } from "./elements.js";
import { codeOf, written } from "./codes.js";
import { X, wordText } from "./simulator.js";

/** @typedef {import("./simulator.js").Row} Row */
/** @typedef {import("./simulator.js").Compiled} Compiled */
/**
 * The skeleton as `figure_template.py` makes it.
 * @typedef {object} Skeleton
 * @property {number} width
 * @property {number} height
 * @property {string} svg
 * @property {[string, number[]][]} nets  kind and net numbers of each stroke
 * @property {[string, number[], number, number, number][]} words  name, nets, size of a cell
 * @property {Record<string, [number, number]>} [spots]  where the tip of a pointer at a name is
 * @property {[number[], string, number, string][]} ways  nets, path, a net of the store at its
 *   end, and the port at which it ends
 */
/** @typedef {{nets: number[], parts: Element[], now: string}} Stroke */
/** @typedef {{net: number, cell: Element, digit: Element, now: string}} Cell */

const FOLD = 16;
const FOLD_LOW = 8;
const MIDDLE = 0.345;
const SMALL = 12;
/** Milliseconds that bits travel. */
const TRAVEL = 420;
/** The outline of a pointer, its tip at (0, 0); `pointer.py` has the same. */
const POINTER = "M0 0V-17.5L4.5 -15L14.5 -32.5L20.5 -29L10.5 -11.5L15 -9Z";

let count = 0;

export class Figure {
  /**
   * @param {import("./words.js").Words} words @param {Skeleton} skeleton @param {Compiled} design
   * @param {string} [name]
   */
  constructor(words, skeleton, design, name = "") {
    this.words = words;
    this.design = design;
    this.skeleton = skeleton;
    const named = skeleton.svg.replace("<svg", `<svg xmlns="${SVG}"`);
    const holder = new DOMParser().parseFromString(named, "image/svg+xml");
    /** @type {any} */
    const root = document.importNode(holder.documentElement, true);
    /** @type {SVGSVGElement} */
    this.svg = root;
    this.svg.setAttribute("role", "img");
    this.svg.setAttribute("aria-label", name);
    this.svg.removeAttribute("aria-labelledby");
    this.svg.querySelectorAll("title, desc").forEach((told) => told.remove());
    this.hatch = `hatch-${++count}`;
    this.svg.prepend(hatching(this.hatch));
    /** @type {Stroke[]} */
    this.strokes = skeleton.nets.map(([, nets]) => ({ nets, parts: [], now: "" }));
    for (const part of this.svg.querySelectorAll("g.net")) {
      this.strokes[Number(part.getAttribute("data-name"))].parts.push(part);
    }
    /** @type {Cell[]} */
    this.cells = [];
    /** @type {(() => void)[]} */
    this.folded = [];
    /** @type {Row} */
    this.row = new Uint8Array();
    for (const place of this.svg.querySelectorAll("g.word")) this.word(place);
    this.travellers = s("g", { class: "travellers", "aria-hidden": "true" });
    this.pointers = s("g", { class: "pointers", "aria-hidden": "true" });
    this.svg.append(this.travellers, this.pointers);
    this.frame = 0;
  }

  /** Arrows at what is spoken of, as far as it is drawn. @param {string[]} names */
  point(names) {
    const spots = names.map((name) => this.skeleton.spots?.[name]).filter((spot) => spot !== undefined);
    this.pointers.replaceChildren(...spots.map(([x, y]) => s("g", { transform: `translate(${x} ${y})` },
      s("path", { class: "rim", d: POINTER }), s("path", { class: "arrow", d: POINTER }))));
  }

  /** Draws the empty cells of a word into their place. @param {Element} place */
  word(place) {
    const [, nets, width, height, digit] = this.skeleton.words[
      Number(place.getAttribute("data-name"))];
    const many = nets.length, fold = many > FOLD;
    for (let i = 0; i < (fold ? FOLD : many); i++) {
      if (fold && i === FOLD - 1 - FOLD_LOW) continue;
      const bit = fold && i < FOLD - 1 - FOLD_LOW ? many - 1 - i : (fold ? FOLD : many) - 1 - i;
      this.cells.push(this.cell(place, nets[bit], i * width, width, height, digit));
    }
    if (!fold) return;
    const left = (FOLD - 1 - FOLD_LOW) * width;
    place.append(s("text", {
      x: left + width / 2, y: height / 2 + (MIDDLE * digit) / 2, "font-size": digit,
      "text-anchor": "middle",
    }, "…"));
    const below = s("text", { y: height + 7 + 0.75 * SMALL + 3, "font-size": SMALL });
    place.append(below);
    this.folded.push(() => {
      const value = valueOf(this.words, this.design, this.row, nets);
      if (below.textContent !== value) below.textContent = value;
    });
  }

  /**
   * @param {Element} place @param {number} net @param {number} x @param {number} width
   * @param {number} height @param {number} size
   * @returns {Cell}
   */
  cell(place, net, x, width, height, size) {
    const digit = s("text", {
      x: x + width / 2, y: height / 2 + MIDDLE * size, "font-size": size, "text-anchor": "middle",
    });
    const large = height > 24;
    const cell = s("g", { class: "cell" },
      s("rect", { class: "ground", x, y: 0, width, height }),
      s("rect", { class: "hatch", x, y: 0, width, height, fill: `url(#${this.hatch})` }),
      digit,
      s("rect", {
        class: "band", x: x + 2, y: height + (large ? 3 : 2), width: width - 4,
        height: large ? 4 : 3,
      }));
    place.append(cell);
    return { net, cell, digit, now: "" };
  }

  /** @param {Row} row @param {Row | null} before  what changed since is marked */
  draw(row, before) {
    this.row = row;
    this.strokes.forEach(({ nets, parts, now }, i) => {
      const kind = this.skeleton.nets[i][0];
      const value = nets.length === 1 ? KINDS[row[nets[0]]] : "bus";
      const wanted = `net ${kind} ${value}`;
      if (wanted === now) return;
      this.strokes[i].now = wanted;
      parts.forEach((part) => part.setAttribute("class", wanted));
    });
    for (const cell of this.cells) {
      const bit = row[cell.net];
      const changed = before && before[cell.net] !== bit ? " changed" : "";
      const wanted = `cell ${KINDS[bit]}${changed}`;
      if (wanted === cell.now) continue;
      cell.now = wanted;
      cell.cell.setAttribute("class", wanted);
      cell.digit.textContent = "01X"[bit];
    }
    this.folded.forEach((draw) => draw());
  }

  /**
   * Lets the bits that an edge stores travel along their wires.
   * @param {Row} before  the row that the edge met
   * @param {(net: number, port: string) => boolean} stores  whether the store that has a net
   *   takes what is at a port
   */
  travel(before, stores) {
    this.still();
    const tokens = this.skeleton.ways
      .filter(([nets, , store, port]) => nets.length < 9 && stores(store, port))
      .map(([nets, data]) => {
        const way = new Way(data);
        const bits = nets.map((net) => before[net]);
        const text = bits.map((bit) => "01X"[bit]).reverse().join("");
        const wide = 9 * text.length + 7;
        const kind = text.includes("X") ? "unknown" : text === "1" ? "one" : "zero";
        const token = s("g", { class: `traveller ${kind}` },
          s("rect", { x: -wide / 2, y: -9, width: wide, height: 18, rx: 2 }),
          s("text", { y: MIDDLE * 14, "font-size": 14, "text-anchor": "middle" }, text));
        this.travellers.append(token);
        return { token, way };
      });
    if (!tokens.length) return;
    const start = performance.now();
    /** @param {number} now */
    const move = (now) => {
      const part = Math.min(1, Math.max(0, (now - start) / TRAVEL));
      if (part === 1) return this.still();
      const eased = part < 0.5 ? 2 * part * part : 1 - 2 * (1 - part) * (1 - part);
      for (const { token, way } of tokens) {
        const [x, y] = way.at(eased);
        token.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
      }
      this.frame = requestAnimationFrame(move);
    };
    move(start);
  }

  /** Takes away what travels. */
  still() {
    cancelAnimationFrame(this.frame);
    this.travellers.replaceChildren();
  }

  /** @param {string} text  what the figure shows, for those who can't see it */
  tell(text) {
    set(this.svg, "aria-label", text);
  }
}

/** Straight pieces from point to point, as path data of M, H, V and L. */
class Way {
  /** @param {string} data */
  constructor(data) {
    /** @type {[number, number][]} */
    this.points = [];
    let x = 0, y = 0;
    for (const [, letter, numbers] of data.matchAll(/([MHVL])([^MHVL]*)/g)) {
      const [a, b] = numbers.trim().split(/[ ,]+/).map(Number);
      if (letter === "H") x = a;
      else if (letter === "V") y = a;
      else [x, y] = [a, b];
      this.points.push([x, y]);
    }
    this.lengths = this.points.slice(1).map(([x1, y1], i) =>
      Math.hypot(x1 - this.points[i][0], y1 - this.points[i][1]));
    this.length = this.lengths.reduce((sum, one) => sum + one, 0);
  }

  /** The point after a part of the way. @param {number} part  0 to 1 @returns {[number, number]} */
  at(part) {
    let left = part * this.length;
    for (let i = 0; i < this.lengths.length; i++) {
      if (left <= this.lengths[i] && this.lengths[i]) {
        const [[x, y], [x1, y1]] = [this.points[i], this.points[i + 1]];
        const ratio = left / this.lengths[i];
        return [x + (x1 - x) * ratio, y + (y1 - y) * ratio];
      }
      left -= this.lengths[i];
    }
    return this.points[this.points.length - 1];
  }
}

/** @param {string} id */
function hatching(id) {
  return s("defs", {}, s("pattern", {
    id, width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)",
  }, s("rect", { class: "hatch-line", width: 1.5, height: 6 })));
}

/**
 * What stands below a folded word.
 * @param {import("./words.js").Words} words @param {Compiled} design @param {Row} row
 * @param {number[]} nets
 */
export function valueOf(words, design, row, nets) {
  const unknown = nets.filter((net) => row[net] === X).length;
  if (unknown === nets.length) return words.say("stage-all-unknown", { count: unknown });
  if (unknown) return words.say("stage-some-unknown", { count: unknown, all: nets.length });
  return `= ${written(wordText(row, nets), codeOf(design, nets))}`;
}
