// @ts-check
/**
 * Projecting a stage: the whole screen, large type, black on white or white on black.
 *
 * Keys do everything; the buttons of the bar do too, for a finger. They rest while keys are used,
 * and come back when the mouse moves, with Tab, and with "?". Notes are there where the page was
 * given some (`element.notes`, in the preview): in a window of their own, which follows the row.
 */
import { h } from "./elements.js";
import { fit } from "./fitting.js";
import { Steps } from "./steps.js";

/** @typedef {{text: string, rows: number[]}} Note */
/** @typedef {import("./edges.js").EdgeTable} EdgeTable */
/** @typedef {import("./timing.js").Timing} Timing */
/**
 * What is used of a stage.
 * @typedef {object} Shown
 * @property {HTMLElement} element
 * @property {HTMLElement} moves
 * @property {HTMLElement} told
 * @property {EdgeTable} table
 * @property {Timing} timing
 * @property {number} row
 * @property {ArrayLike<unknown>} run
 * @property {{open: number}} prediction
 * @property {{title: string}} size
 * @property {import("./words.js").Words} words
 * @property {(row: number, moved: boolean) => void} go
 * @property {() => void} pause
 * @property {(way: number) => void} step
 * @property {boolean} own
 * @property {{steps?: import("./steps.js").Step[]}} data
 * @property {(row: number) => string} moment
 */

/** @type {Record<string, string>} */
const VIEWS = { diagram: "stage-view-diagram", signals: "stage-view-signals", table: "stage-view-table" };
/** Milliseconds without a move of the mouse after which the bar rests. */
const RESTING = 4000;
export class Projection {
  /** @param {Shown} stage @param {HTMLElement} root */
  constructor(stage, root) {
    this.stage = stage;
    this.root = root;
    this.on = false;
    this.view = "diagram";
    this.dark = false;
    this.resting = 0;
    this.fitting = 0;
    /** @type {BroadcastChannel | null} */
    this.channel = null;
    const written = stage.data.steps;
    this.steps = written?.length ? new Steps(written) : null;
    this.button = h("button", {
      type: "button", class: "to-project",
      click: (event) => this.begin(event.pointerType === "touch"),
    }, stage.words.say("stage-project"));
    stage.moves.append(this.button);
    // Without edges there are no moves to stand among.
    this.alone = h("div", { class: "alone row" });
    stage.moves.after(this.alone);
    this.when = h("p", { class: "when", "aria-hidden": "true" });
    this.bar = this.makeBar();
    this.key = (/** @type {KeyboardEvent} */ event) => this.pressed(event);
    this.moving = (/** @type {PointerEvent} */ event) => this.woken(event.pointerType === "touch");
    this.noted = () => this.told();
    this.resized = () => {
      cancelAnimationFrame(this.fitting);
      this.fitting = requestAnimationFrame(() => this.fit());
    };
    this.left = () => {
      if (this.on && !document.fullscreenElement) this.end();
    };
  }

  makeBar() {
    const say = (/** @type {string} */ name) => this.stage.words.say(name);
    const button = (/** @type {string} */ text, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, text);
    this.back = button(say("stage-back"), () => this.stage.step(-1));
    this.onward = button(say("stage-next-edge"), () => this.stage.step(1));
    this.turning = button("", () => this.turn());
    this.ink = button(say("stage-black"), () => this.invert());
    this.noting = button(say("stage-notes"), () => this.openNotes());
    this.ending = button(say("stage-end"), () => this.end());
    this.help = h("p", { class: "help" });
    return h("div", { class: "bar", focusin: () => this.woken(false) }, this.help,
      h("div", { class: "row" }, this.back, this.onward, this.turning, this.ink, this.noting, this.ending));
  }

  /** @param {boolean} touched  by a finger, which has no other way to end it than the bar */
  begin(touched) {
    if (this.on) return;
    this.on = true;
    this.stage.pause();
    const { element } = this.stage;
    element.classList.add("projected");
    element.classList.toggle("dark", this.dark);
    element.classList.toggle("touched", touched);
    element.setAttribute("role", "dialog");
    element.setAttribute("aria-modal", "true");
    element.tabIndex = -1;
    element.prepend(this.when);
    element.append(this.bar);
    document.addEventListener("keydown", this.key, true);
    document.addEventListener("fullscreenchange", this.left);
    element.addEventListener("pointermove", this.moving);
    element.addEventListener("pointerdown", this.moving);
    addEventListener("resize", this.resized);
    addEventListener("edgewise-notes", this.noted);
    // Where the whole screen is refused, the stage fills the window.
    element.requestFullscreen?.().catch(() => {});
    element.focus({ preventScroll: true });
    this.show(this.views().includes(this.view) ? this.view : "diagram");
    this.enter();
    this.woken(touched);
  }

  // ---------------------------------------------------------------- steps

  /** The lesson's steps, where they are followed. */
  get followed() {
    return this.on && this.stage.own ? this.steps : null;
  }

  /** Begins with the first step, or the one whose row is shown. */
  enter() {
    const { stage, followed } = this, { row } = stage;
    followed?.go(row ? followed.all.findIndex((step) => step[0] === row) : 0);
    stage.go(followed ? followed.go(followed.at) : row, false);
  }

  /** A row is about to be shown: what its step has to say of it. @param {number} row */
  arrive(row) {
    const { followed } = this;
    followed?.arrive(row);
    return followed;
  }

  /** Goes on or back by a step; false where steps are not followed. @param {number} way */
  step(way) {
    const { followed } = this;
    if (!followed) return false;
    this.stage.go(followed.go(way < 0 ? followed.before : followed.at + 1), true);
    return true;
  }

  end() {
    this.on = false;
    clearTimeout(this.resting);
    cancelAnimationFrame(this.fitting);
    const { element, table, timing } = this.stage;
    element.classList.remove("projected", "dark", "touched", "awake", "crowded");
    ["role", "aria-modal", "tabindex"].forEach((name) => element.removeAttribute(name));
    this.stage.told.removeAttribute("tabindex");
    this.when.remove();
    this.bar.remove();
    table.element.style.removeProperty("font-size");
    table.fold(Infinity);
    timing.element.style.removeProperty("zoom");
    document.removeEventListener("keydown", this.key, true);
    document.removeEventListener("fullscreenchange", this.left);
    element.removeEventListener("pointermove", this.moving);
    element.removeEventListener("pointerdown", this.moving);
    removeEventListener("resize", this.resized);
    removeEventListener("edgewise-notes", this.noted);
    if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
    this.channel?.close();
    this.channel = null;
    this.stage.go(this.stage.row, false);
    this.button.focus();
    this.follow();
  }

  // ---------------------------------------------------------------- keys and the bar

  /** Takes a key, wherever on the page it was pressed. @param {KeyboardEvent} event */
  pressed(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    // On a button these press it.
    const button = event.target instanceof HTMLButtonElement && this.bar.contains(event.target);
    if (button && (event.key === " " || event.key === "Enter")) return;
    if (event.key === "Tab") this.tab(event.shiftKey ? -1 : 1);
    else if (!this.take(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** @param {string} key @returns {boolean} whether it means something here */
  take(key) {
    const { stage } = this, { row, prediction: { open } } = stage;
    /** @type {Record<string, number>} */
    const rows = {
      ArrowLeft: row - 1, ArrowUp: row - 1, ArrowRight: row + 1, ArrowDown: row + 1,
      PageUp: row - 1, PageDown: row + 1, " ": row + 1, Home: 0, End: open,
    };
    if (key === "?") {
      if (stage.element.classList.contains("awake")) this.rest();
      else this.woken(false);
      return true;
    }
    const { followed } = this;
    if (key in rows && followed) {
      const ends = { Home: 0, End: followed.all.length - 1 };
      if (key in ends) stage.go(followed.go(ends[/** @type {"Home"} */ (key)]), true);
      else this.step(rows[key] < row ? -1 : 1);
    } else if (key in rows) stage.go(rows[key], true);
    else if (key === "Escape") this.end();
    else if (/^v$/i.test(key)) this.turn();
    else if (/^b$/i.test(key)) this.invert();
    else if (/^n$/i.test(key) && this.notes()) this.openNotes();
    else return false;
    this.rest();
    return true;
  }

  /** Moves the focus within the stage: what is behind it can't be seen. @param {number} way */
  tab(way) {
    const { element } = this.stage;
    /** @type {HTMLElement[]} */
    const places = [...element.querySelectorAll("button, [tabindex='0']")]
      .filter((place) => place instanceof HTMLElement && place.getClientRects().length > 0)
      .map((place) => /** @type {HTMLElement} */ (place));
    const at = places.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    const next = at < 0 ? (way > 0 ? 0 : places.length - 1) : (at + way + places.length) % places.length;
    places[next]?.focus();
  }

  /** The bar can be seen; a mouse that stays still sends it to rest. @param {boolean} touched */
  woken(touched) {
    const { element } = this.stage;
    if (!this.on) return;
    element.classList.add("awake");
    if (touched) element.classList.add("touched");
    clearTimeout(this.resting);
    this.resting = window.setTimeout(() => {
      // Not while it is being used.
      if (!this.bar.matches(":hover, :focus-within")) this.rest();
    }, RESTING);
  }

  rest() {
    clearTimeout(this.resting);
    this.stage.element.classList.remove("awake");
  }

  invert() {
    this.dark = this.stage.element.classList.toggle("dark");
    this.labels();
  }

  labels() {
    const views = this.views(), notes = this.notes() !== null, edges = this.stage.run.length > 1;
    const { words } = this.stage;
    const plain = (/** @type {string} */ view) => words.say(`${VIEWS[view]}-plain`);
    const next = views[(views.indexOf(this.view) + 1) % views.length];
    this.help?.replaceChildren([
      ...(edges ? [words.say("stage-keys-rows")] : []),
      words.say("stage-keys-views", { views: views.map(plain).join(", ") }), words.say("stage-keys-ink"),
      ...(notes ? [words.say("stage-keys-notes")] : []), words.say("stage-keys-help"), words.say("stage-keys-end"),
    ].join(" · "));
    this.turning?.replaceChildren(words.say(VIEWS[next]));
    this.turning?.setAttribute("aria-label", words.say("stage-show-view", { view: plain(next) }));
    this.ink?.replaceChildren(words.say(this.dark ? "stage-white" : "stage-black"));
    for (const [button, shown] of /** @type {[HTMLElement, boolean][]} */ (
      [[this.back, edges], [this.onward, edges], [this.noting, notes]])) {
      button.hidden = !shown;
    }
  }

  // ---------------------------------------------------------------- views

  /** Those that have something to show. */
  views() {
    return Object.keys(VIEWS).filter((view) => view !== "signals" || !this.stage.timing.element.hidden);
  }

  turn() {
    const views = this.views();
    this.show(views[(views.indexOf(this.view) + 1) % views.length]);
  }

  /** @param {string} view */
  show(view) {
    this.view = view;
    this.stage.element.dataset.view = view;
    this.labels();
    this.fit();
  }

  /** Lets the keyboard scroll a sentence that is longer than its place (WCAG 2.1.1). */
  reach() {
    const { told } = this.stage;
    if (this.on && told.scrollHeight > told.clientHeight) told.tabIndex = 0;
    else told.removeAttribute("tabindex");
  }

  /** Sets everything as large as the screen lets it be. */
  fit() {
    if (!this.on) return;
    fit(this.stage, this.view);
    this.reach();
    this.follow();
  }

  /** The present row, where table or signals are shown. */
  follow() {
    this.stage.table.follow();
    this.stage.timing.follow(this.stage.row);
  }

  // ---------------------------------------------------------------- notes

  /** What there is to say, in a page that was given such. @returns {Note[] | null} */
  notes() {
    return /** @type {any} */ (this.root).notes || null;
  }

  openNotes() {
    if (!this.channel) {
      this.channel = new BroadcastChannel("edgewise-notes");
      this.channel.onmessage = ({ data }) => {
        if (data.key) this.take(data.key);
        if (data.ask) this.told();
      };
    }
    window.open("notes", "edgewise-notes", "popup,width=560,height=640");
  }

  /** After every move: the line above the figure, and the notes. */
  moved() {
    const { stage } = this, edges = stage.run.length > 1;
    (edges ? stage.moves : this.alone).append(this.button);
    if (!this.on) return;
    const when = edges ? stage.moment(stage.row) : stage.size.title;
    this.when.textContent = when.slice(0, 1).toUpperCase() + when.slice(1);
    const { followed } = this;
    const first = followed ? followed.first : stage.row === 0;
    const last = followed ? followed.last : stage.row === stage.prediction.open;
    this.back?.setAttribute("aria-disabled", String(first));
    this.onward?.setAttribute("aria-disabled", String(last));
    this.reach();
    this.told();
  }

  /** Tells the window of the notes what is shown. */
  told() {
    const { stage } = this;
    const notes = (this.notes() || [])
      .filter(({ rows }) => !rows.length || rows.includes(stage.row)).map(({ text }) => text);
    this.channel?.postMessage({ showing: {
      title: stage.size.title, when: stage.run.length > 1 ? this.when.textContent : "",
      told: stage.told.textContent || "", notes,
    } });
  }
}
