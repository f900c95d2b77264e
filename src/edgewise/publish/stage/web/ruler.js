// @ts-check
/** The edge ruler: a line of numbered edges, grouped by phase. */
import { h, set } from "./elements.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */

const SWIPE = 36;

export class Ruler {
  /** @param {import("./words.js").Words} words @param {(row: number) => void} go */
  constructor(words, go) {
    this.words = words;
    this.go = go;
    this.row = 0;
    this.last = 0;
    this.open = 0;
    /** @type {HTMLElement[]} */
    this.marks = [];
    this.element = h("div", {
      class: "ruler", role: "slider", tabindex: 0, "aria-label": words.say("stage-clock-edge"),
      "aria-valuemin": 0, click: (event) => this.clicked(event),
    });
    swipes(this.element, (way) => this.go(this.row + way));
  }

  /** @param {Compiled} design @param {number} edges */
  measure(design, edges) {
    this.last = edges;
    this.marks = [];
    const phases = design.phases.filter(([, first, last]) => last >= first);
    this.element.replaceChildren(
      ...phases.map(([name, first, last], i) => this.span(name, i ? first : 0, last)));
  }

  /**
   * A phase and its edges; the start stands before the first.
   * @param {string} name @param {number} first @param {number} last
   */
  span(name, first, last) {
    const marks = h("span", { class: "marks" });
    for (let row = first; row <= last; row++) {
      const mark = h("span", { class: "mark", "data-row": row }, h("b", {}, String(row)));
      this.marks.push(mark);
      marks.append(mark);
    }
    const names = h("span", { class: "names" }, ...(first ? [] : [h("span", {}, this.words.say("table-start"))]),
      h("span", {}, name));
    return h("span", { class: first ? "span" : "span start", title: this.words.say("stage-edges-of-phase", { phase: name }) }, names, marks);
  }

  /** @param {any} event */
  clicked(event) {
    const mark = event.target.closest("[data-row]");
    if (mark) this.go(Number(mark.getAttribute("data-row")));
  }

  /** @param {number} row @param {number} open  the last row that may be seen @param {string} told */
  show(row, open, told) {
    this.row = row;
    this.open = open;
    this.marks.forEach((mark, at) => {
      set(mark, "class", `mark${at === row ? " now" : ""}${at > open ? " closed" : ""}`);
    });
    set(this.element, "aria-valuemax", String(open));
    set(this.element, "aria-valuenow", String(row));
    set(this.element, "aria-valuetext", told);
  }
}

/**
 * Calls `step` with 1 or -1 when a finger is drawn across an element.
 * @param {HTMLElement} element @param {(way: number) => void} step
 */
export function swipes(element, step) {
  let x = 0, y = 0, on = false;
  element.addEventListener("touchstart", (event) => {
    on = event.touches.length === 1;
    [x, y] = [event.touches[0].clientX, event.touches[0].clientY];
  }, { passive: true });
  element.addEventListener("touchend", (event) => {
    if (!on) return;
    const [dx, dy] = [event.changedTouches[0].clientX - x, event.changedTouches[0].clientY - y];
    // Drawn to the left, the next edge comes in from the right.
    if (Math.abs(dx) > SWIPE && Math.abs(dx) > 2 * Math.abs(dy)) step(dx < 0 ? 1 : -1);
  }, { passive: true });
}
