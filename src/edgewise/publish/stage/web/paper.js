// @ts-check
/** A stage on paper: before a print, its table and its timing diagram are laid out for a page. */
import { h } from "./elements.js";

/** @typedef {import("./edges.js").EdgeTable} EdgeTable */
/** @typedef {import("./timing.js").Timing} Timing */

/** Px between the margins of A4 and of US Letter, with some to spare. */
const ROOM = 640;

export class Paper {
  /** @param {HTMLElement} stage @param {EdgeTable} table @param {Timing} timing */
  constructor(stage, table, timing) {
    this.stage = stage;
    this.table = table;
    this.timing = timing;
    /** @type {HTMLElement | null} */
    this.sheet = null;
    this.lay = () => this.laid();
    this.clear = () => this.cleared();
    this.turned = () => (this.print.matches ? this.laid() : this.cleared());
    this.print = matchMedia("print");
    this.print.addEventListener("change", this.turned);
    addEventListener("beforeprint", this.lay);
    addEventListener("afterprint", this.clear);
  }

  laid() {
    if (this.sheet) return;
    const tables = this.table.papers(ROOM);
    if (!tables.length) return;
    const timing = this.timing.element.hidden ? [] : this.timing.papers(ROOM);
    this.sheet = h("div", { class: "papers" }, ...timing, ...tables);
    this.stage.append(this.sheet);
    this.stage.classList.add("laid");
  }

  cleared() {
    this.sheet?.remove();
    this.sheet = null;
    this.stage.classList.remove("laid");
  }

  close() {
    this.cleared();
    this.print.removeEventListener("change", this.turned);
    removeEventListener("beforeprint", this.lay);
    removeEventListener("afterprint", this.clear);
  }
}
