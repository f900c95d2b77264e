// @ts-check
/**
 * Projecting a stage: the whole screen, large type, keys only; black on white or white on black.
 *
 * Notes are there where the page was given some (`element.notes`, in the preview): in a window of
 * their own, which follows the row.
 */
import { h } from "./elements.js";

/** @typedef {{text: string, rows: number[]}} Note */
/**
 * What is used of a stage.
 * @typedef {object} Shown
 * @property {HTMLElement} element
 * @property {HTMLElement} moves
 * @property {HTMLElement} told
 * @property {number} row
 * @property {{open: number}} ahead
 * @property {{title: string}} size
 * @property {(row: number, moved: boolean) => void} go
 * @property {() => void} pause
 * @property {(row: number) => string} moment
 */

const VIEWS = ["diagram", "signals", "table"];
const KEYS = "← → rows · V diagram, signals, table · B black or white · N notes · Esc ends";

export class Projection {
  /** @param {Shown} stage @param {HTMLElement} root */
  constructor(stage, root) {
    this.stage = stage;
    this.root = root;
    this.on = false;
    this.view = 0;
    this.dark = false;
    /** @type {BroadcastChannel | null} */
    this.channel = null;
    this.button = h("button", { type: "button", class: "to-project", click: () => this.begin() }, "Project");
    stage.moves.append(this.button);
    this.when = h("p", { class: "when", "aria-hidden": "true" });
    this.help = h("p", { class: "help" }, KEYS);
    this.key = (/** @type {KeyboardEvent} */ event) => this.pressed(event);
    this.left = () => {
      if (this.on && !document.fullscreenElement) this.end();
    };
  }

  begin() {
    if (this.on) return;
    this.on = true;
    this.stage.pause();
    const { element } = this.stage;
    element.classList.add("projected");
    element.prepend(this.when);
    element.append(this.help);
    element.dataset.view = VIEWS[this.view];
    document.addEventListener("keydown", this.key, true);
    document.addEventListener("fullscreenchange", this.left);
    // Where the whole screen is refused, the stage fills the window.
    element.requestFullscreen?.().catch(() => {});
    this.button.blur();
    this.moved();
  }

  end() {
    this.on = false;
    const { element } = this.stage;
    element.classList.remove("projected", "dark");
    this.when.remove();
    this.help.remove();
    document.removeEventListener("keydown", this.key, true);
    document.removeEventListener("fullscreenchange", this.left);
    if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
    this.channel?.close();
    this.channel = null;
    this.button.focus();
  }

  /** Takes a key, wherever on the page it was pressed. @param {KeyboardEvent} event */
  pressed(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (!this.take(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** @param {string} key @returns {boolean} whether it means something here */
  take(key) {
    const { stage } = this, { row, ahead: { open } } = stage;
    /** @type {Record<string, number>} */
    const rows = {
      ArrowLeft: row - 1, ArrowUp: row - 1, ArrowRight: row + 1, ArrowDown: row + 1,
      PageUp: row - 1, PageDown: row + 1, " ": row + 1, Home: 0, End: open,
    };
    if (key in rows) stage.go(rows[key], true);
    else if (key === "Escape") this.end();
    else if (/^v$/i.test(key)) this.turn();
    else if (/^b$/i.test(key)) this.stage.element.classList.toggle("dark", (this.dark = !this.dark));
    else if (/^n$/i.test(key)) this.openNotes();
    else return key === "Tab";
    this.help.classList.add("known");
    return true;
  }

  turn() {
    this.view = (this.view + 1) % VIEWS.length;
    this.stage.element.dataset.view = VIEWS[this.view];
    this.toRow();
  }

  /** Where the table is shown, its row. */
  toRow() {
    if (VIEWS[this.view] !== "table") return;
    this.stage.element.querySelector(".rows tr.now")?.scrollIntoView({ block: "center" });
  }

  /** @returns {Note[]} */
  notes() {
    return /** @type {any} */ (this.root).notes || [];
  }

  openNotes() {
    if (!location.protocol.startsWith("http")) return;
    if (!this.channel) {
      this.channel = new BroadcastChannel("edgewise-notes");
      this.channel.onmessage = ({ data }) => {
        if (data.key) this.take(data.key);
        if (data.ask) this.moved();
      };
    }
    window.open("/notes", "edgewise-notes", "popup,width=560,height=640");
  }

  /** After every move: the line above the figure, and the notes. */
  moved() {
    const { stage } = this;
    // Without edges there are no moves to stand among.
    if (stage.moves.hidden && this.button.parentElement === stage.moves) stage.moves.after(this.button);
    if (!this.on) return;
    this.toRow();
    const when = stage.moment(stage.row);
    this.when.textContent = when.slice(0, 1).toUpperCase() + when.slice(1);
    const notes = this.notes()
      .filter(({ rows }) => !rows.length || rows.includes(stage.row)).map(({ text }) => text);
    const told = stage.told.textContent || "";
    this.channel?.postMessage({ showing: { title: stage.size.title, when: this.when.textContent, told, notes } });
  }
}
