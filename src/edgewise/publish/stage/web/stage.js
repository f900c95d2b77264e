// @ts-check
/**
 * The stage: diagram, edge ruler, edge table and timing diagram in step.
 *
 * Everything is computed here, from the compiled design; nothing is asked of any server.
 */
import { actionOf } from "./actions.js";
import { Address } from "./address.js";
import { Attempts } from "./attempts.js";
import { pattern } from "./codes.js";
import { Prediction } from "./prediction.js";
import { EdgeTable } from "./edges.js";
import { h } from "./elements.js";
import { Figure } from "./figure.js";
import { Meaningless, evaluate, number } from "./formulas.js";
import { SlowMotion, openedBehind } from "./inside.js";
import { LEAST, Larger } from "./larger.js";
import { Looks, NARROW } from "./looks.js";
import { Numbers } from "./numbers.js";
import { Paper } from "./paper.js";
import { Player } from "./player.js";
import { Progress } from "./progress.js";
import { Projection } from "./project.js";
import { reachAll } from "./reach.js";
import { Ruler, swipes } from "./ruler.js";
import { acts, results, stands } from "./sentences.js";
import { AS_DESIGNED, operandBits, run, startedWith, stretches, wordText } from "./simulator.js";
import { Sizes } from "./sizes.js";
import { markState } from "./states.js";
import { Timing } from "./timing.js";
import { Words } from "./words.js";

/** @typedef {import("./simulator.js").Row} Row */
/**
 * What `stage.py` writes.
 * @typedef {object} Lesson
 * @property {string} id
 * @property {{size: number, operands: Record<string, string>, row: number}} own  the lesson's run
 * @property {import("./formulas.js").Claim[]} claims
 * @property {number} fade
 * @property {string} lesson  by which a code of attempts knows it
 * @property {import("./steps.js").Step[]} [steps]  those that the lesson writes out
 * @property {{language: string, messages: string}} words
 * @typedef {import("./sizes.js").Packed & Lesson} StageData
 */

/**
 * The ports whose bits a store takes, by what it does.
 * @type {Record<string, string[]>}
 */
const PORTS = { shift: ["in"], left: ["left-in"], load: ["d"], take: ["d", "in"] };
/** Milliseconds after which what can wait is done. */
const SOON = 80;
/** Cells of an edge table that are drawn at once. */
const MANY = 2500;

export class Stage {
  /**
   * @param {HTMLElement} root @param {StageData} data
   * @param {{address: string, page: string}} where  name of the row in the page's address, and
   *   of the page in the browser's storage; empty: neither
   */
  constructor(root, data, where) {
    this.data = data;
    this.where = where;
    this.row = 0;
    this.words = new Words(data.words);
    this.sizes = new Sizes(data);
    this.size = this.sizes.at(data.own.size);
    this.powerUp = AS_DESIGNED;
    /** @type {Record<string, bigint>} */
    this.operands = Object.fromEntries(
      Object.entries(data.own.operands).map(([name, value]) => [name, BigInt(value)]));
    /** @type {Row[]} */
    this.run = [];
    /** @type {Figure | null} */
    this.figure = null;
    this.waiting = 0;
    this.looking = 0;
    this.calm = matchMedia("(prefers-reduced-motion: reduce)");
    const go = (/** @type {number} */ row) => this.move(row);
    this.ruler = new Ruler(this.words, go);
    this.timing = new Timing(this.words, go);
    this.table = new EdgeTable(this.words);
    const own = { size: data.own.size, operands: { ...this.operands } };
    this.numbers = new Numbers(this.words, this.sizes, own, (size, operands, start) => {
      this.play(size, operands, start);
    });
    const wide = this.size.columns.some(([, nets]) => nets.length > 1);
    this.looks = new Looks(this.words, this.size.figures, wide, () => {
      this.draw();
      this.redraw();
      this.go(this.row, false);
    });
    const page = where.page && `${where.page} ${data.id}`;
    const attempts = new Attempts(page, data.lesson), progress = new Progress(page);
    this.prediction = new Prediction(this.words, progress, attempts, data.fade, () => this.row, (row) => {
      this.pause();
      this.redraw();
      this.go(row, false);
    });
    this.picture = h("div", { class: "picture" });
    this.larger = new Larger(this.words, this.picture, () => this.figure?.skeleton.width || 0);
    this.told = h("p", { class: "told", "aria-live": "polite" });
    this.player = new Player(this.words, () => {
      this.go(this.row + 1, true);
      return this.row < this.prediction.open;
    }, (playing) => this.played(playing));
    this.moves = this.makeMoves();
    this.slowly = h("div", { class: "slowly" });
    this.slow = false;
    this.element = h("section", {
      class: "stage", "aria-label": this.words.say("stage-step-through", { title: this.size.title }),
      keydown: (event) => this.key(event),
    }, this.picture, this.larger.button, this.ruler.element, this.moves, this.slowly, this.told,
    this.numbers.element, this.prediction.element, this.looks.element, this.timing.element,
      this.table.element);
    swipes(this.picture, (way) => {
      if (!this.picture.classList.contains("large")) this.step(way);
    });
    swipes(this.told, (way) => this.step(way));
    root.replaceChildren(this.element);
    this.turned = () => {
      this.draw();
      this.go(this.row, false);
    };
    NARROW.addEventListener("change", this.turned);
    this.watching = new ResizeObserver(() => this.larger.offer());
    this.watching.observe(this.picture);
    this.projection = new Projection(this, root);
    this.paper = new Paper(this.element, this.table, this.timing);
    this.address = new Address(where.address, () => this.row);
    this.hash = () => this.fromAddress();
    if (where.address) addEventListener("hashchange", this.hash);
    const linked = this.address.row;
    this.play(data.own.size, this.operands, AS_DESIGNED, linked ?? data.own.row);
    this.mendAddress(linked);
    // A link to a row leads to the stage; a preview that is made anew leaves the page where it is.
    if (linked !== null && document.readyState !== "complete") this.element.scrollIntoView();
  }

  makeMoves() {
    const button = (/** @type {string} */ text, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, text);
    this.back = button(this.words.say("stage-back"), () => this.move(this.row - 1));
    this.onward = button(this.words.say("stage-next-edge"), () => this.move(this.row + 1));
    const { button: playing, speed } = this.player;
    return h("div", { class: "moves row" }, this.back, this.onward, playing, speed);
  }

  /**
   * Runs a size with these operands and shows it.
   * @param {number} size @param {Record<string, bigint>} operands
   * @param {number} [start]  what every flip-flop holds at power-up
   * @param {number} [row]
   */
  play(size, operands, start = AS_DESIGNED, row = this.row) {
    this.pause();
    if (this.size !== this.sizes.at(size) || !this.figure) {
      this.size = this.sizes.at(size);
      this.draw();
    }
    this.operands = operands;
    this.powerUp = start;
    this.run = run(startedWith(this.size, start), operands);
    const edges = this.run.length - 1;
    [this.ruler.element, this.moves, this.timing.element].forEach((part) => { part.hidden = !edges; });
    this.ruler.measure(this.size, edges);
    this.numbers.recheck(this.data.claims, { design: this.size, rows: this.run, operands });
    this.prediction.set({
      design: this.size, stores: this.size.stores, misconceptions: this.size.misconceptions,
      rows: this.run, bits: operandBits(this.size.operands, operands), start,
      numbers: [...Object.values(this.size.parameters), ...this.size.operands.map(([name, width, code]) => pattern(operands[name], width, code))],
    });
    this.redraw();
    this.go(row, false);
  }

  /** Makes the figure in the chosen way; its values come with the row. */
  draw() {
    this.figure = new Figure(this.words, this.looks.pick(this.size.figures), this.size);
    this.picture.replaceChildren(this.figure.svg);
    // On a phone no letter gets smaller than 9 px: what is still wider is scrolled.
    this.figure.svg.style.minWidth = NARROW.matches ? `${LEAST * this.figure.skeleton.width}px` : "";
    this.larger.offer();
  }

  /** Draws what does not depend on the row shown. */
  redraw() {
    const { size, prediction } = this, rows = prediction.rows;
    const numbers = [...Object.entries(size.parameters), ...Object.entries(this.operands)]
      .map(([name, value]) => `${name}\u00a0=\u00a0${value}`);
    if (this.powerUp !== AS_DESIGNED) numbers.push(this.words.say("stage-power-up-all", { bit: "01X"[this.powerUp] }));
    const given = numbers.join(", ");
    this.table.numbers = this.looks.numbers;
    const draw = () => this.table.draw(size, size.columns, rows, prediction.open, given);
    clearTimeout(this.waiting);
    const cells = rows.length * size.columns.reduce((sum, [, nets]) => sum + nets.length, 0);
    if (cells < MANY) draw();
    else {
      // The rest must not wait for it while numbers are typed.
      this.waiting = window.setTimeout(() => {
        draw();
        this.table.show(this.row);
        this.table.follow();
      }, SOON);
    }
    if (rows.length > 1) this.timing.draw(size, size.columns, rows);
  }

  /** Moves to a row for the reader, who then has the lead. @param {number} row */
  move(row) {
    this.pause();
    this.go(row, true);
  }

  /** Moves on or back by one. @param {number} way */
  step(way) {
    if (!this.projection.step(way)) this.move(this.row + way);
  }

  /** Whether the run shown is the lesson's own: of that alone its steps speak. */
  get own() {
    const { own } = this.data;
    return this.size === this.sizes.at(own.size) && this.powerUp === AS_DESIGNED && !this.prediction.active
      && Object.entries(own.operands).every(([name, value]) => this.operands[name] === BigInt(value));
  }

  /**
   * Moves everything to a row.
   * @param {number} wanted @param {boolean} moved  by the reader, so that the address follows
   */
  go(wanted, moved) {
    const { rows, open } = this.prediction;
    const row = Math.max(0, Math.min(open, wanted));
    const before = row ? rows[row - 1] : null;
    const onward = row === this.row + 1;
    this.row = row;
    if (!this.figure) return;
    // What stands above it of the start alone is not to be read beside another row.
    this.element.toggleAttribute("data-moved", row > 0);
    this.figure.draw(rows[row], before);
    this.offerSlow();
    if (before && onward && moved && !this.calm.matches) this.travel(before);
    else this.figure.still();
    this.figure.tell(this.spoken(rows[row]));
    const steps = this.projection.arrive(row);
    this.figure.point(steps?.points || []);
    const text = steps?.said ?? this.sentence(rows, row);
    if (this.told.textContent !== text) this.told.textContent = text;
    this.ruler.show(row, open, this.moment(row));
    this.timing.show(row, open);
    this.table.show(row);
    markState(this.size, rows, row, this.size === this.sizes.at(this.data.own.size));
    // A disabled button would lose the focus of who has just pressed it.
    this.back?.setAttribute("aria-disabled", String(row === 0));
    this.onward?.setAttribute("aria-disabled", String(row === open));
    if (moved) this.address.follow();
    // Looking where things are makes the browser lay the page out: once, when it does so anyway.
    cancelAnimationFrame(this.looking);
    this.looking = requestAnimationFrame(() => {
      this.timing.follow(row);
      this.table.follow();
    });
    this.element.dispatchEvent(new CustomEvent("row", { detail: row }));
    this.projection.moved();
  }

  /** Behind an edge that the lesson opens up its events can be gone through; ends doing so. */
  offerSlow() {
    const opened = this.row ? openedBehind(this.row) : null;
    this.slow = false;
    this.told.hidden = false;
    if (!opened) return this.slowly.replaceChildren();
    const { words } = opened;
    this.slowly.replaceChildren(this.own
      ? h("button", { type: "button", class: "open", "aria-expanded": "false", click: () => this.slowDown(opened) }, words.open)
      : h("p", { class: "about" }, words.own));
  }

  /** Shows the events behind an edge one by one in the diagram. @param {import("./inside.js").Opened} opened */
  slowDown(opened) {
    this.pause();
    if (this.slow) {
      this.go(this.row, false);
      this.slowly.querySelector("button")?.focus();
      return;
    }
    const start = this.run[opened.first - 1].slice();
    opened.low.forEach((net) => { start[net] = 0; });
    let shown = start;
    const motion = new SlowMotion(opened, () => {
      const row = start.slice(), before = shown;
      motion.held.forEach((bit, net) => { row[net] = bit; });
      this.figure?.draw(row, motion.at ? before : null);
      this.figure?.tell(this.spoken(row));
      shown = row;
    });
    this.slow = true;
    this.told.hidden = true;
    this.figure?.still();
    this.slowly.append(motion.element);
    const button = this.slowly.querySelector("button");
    button?.setAttribute("aria-expanded", "true");
    button?.replaceChildren(opened.words.close);
    motion.go(0);
  }

  /** @param {Row} before */
  travel(before) {
    const { stores, flipFlops } = this.size;
    const controls = new Map(flipFlops.map((flipFlop) => [flipFlop[1], flipFlop]));
    this.figure?.travel(before, (net, port) => {
      const store = stores.find(([, , q]) => q.includes(net));
      if (store) return PORTS[actionOf(store, before)]?.includes(port) || false;
      // It is inside a part that is drawn open.
      const [, , enable, clear, gate] = controls.get(net) || [0, 0, -1, -1, -1];
      const is = (/** @type {number} */ control, /** @type {number} */ bit) =>
        control >= 0 && before[control] === bit;
      return !is(enable, 0) && !is(gate, 0) && !is(clear, 1);
    });
  }

  /** @param {Row[]} rows @param {number} row */
  sentence(rows, row) {
    const { size, operands, words } = this;
    const value = (/** @type {any[]} */ formula) => {
      try {
        const found = evaluate(formula, { design: size, rows, operands });
        return typeof found === "boolean" ? BigInt(found) : number(found);
      } catch (wrong) {
        if (wrong instanceof Meaningless) return null;
        throw wrong;
      }
    };
    const own = this.prediction.active && [...this.prediction.own].some((k) => k <= row);
    const stood = own ? stands(words, size, size.stores, rows, row) : "";
    const said = [
      own && !stood ? words.say("stage-own-rows") : "", stood || acts(words, size, rows, row),
      results(words, size, rows, row, value),
    ];
    return said.filter(Boolean).join(" ");
  }

  /** @param {number} row */
  moment(row) {
    const phase = stretches(this.size).find(([, first, last]) => first <= row && row <= last);
    const when = row ? this.words.say("figure-heading-after", { edge: row }) : this.words.say("figure-heading-start");
    return phase ? this.words.say("stage-moment-with", { when, phase: phase[0] }) : when;
  }

  /** @param {Row} row */
  spoken(row) {
    const words = (this.figure?.skeleton.words || []).map(([name, nets]) => `${name} = ${wordText(row, nets)}`);
    const facts = { title: this.size.title, values: words.join(", ") };
    return this.run.length > 1 ? this.words.say("stage-spoken-when", { ...facts, when: this.moment(this.row) })
      : this.words.say("stage-spoken", facts);
  }

  // ---------------------------------------------------------------- moving by itself

  /** What begins at the last row begins anew. @param {boolean} playing */
  played(playing) {
    if (playing && this.row >= this.prediction.open) this.go(0, true);
    // A reader can't follow a voice that starts anew at every edge.
    this.told.setAttribute("aria-live", playing ? "off" : "polite");
  }

  pause() {
    this.player.pause();
  }

  /** @param {any} event */
  key(event) {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (event.target.closest("input, select, textarea, details, .box")) return;
    const rows = {
      ArrowLeft: this.row - 1, ArrowDown: this.row - 1, ArrowRight: this.row + 1,
      ArrowUp: this.row + 1, Home: 0, End: this.prediction.open, PageDown: this.row - 4,
      PageUp: this.row + 4,
    };
    const slider = event.target === this.ruler.element;
    if (!slider && !/^(ArrowLeft|ArrowRight|Home|End)$/.test(event.key)) return;
    const wanted = rows[/** @type {"Home"} */ (event.key)];
    if (wanted === undefined || this.run.length < 2) return;
    event.preventDefault();
    this.move(wanted);
  }

  // ---------------------------------------------------------------- the page's address

  fromAddress() {
    const { row } = this.address;
    if (row !== null && row !== this.row) this.go(row, false);
    this.mendAddress(row);
  }

  /** An address of a row that is not there tells the one shown. @param {number | null} row */
  mendAddress(row) {
    if (row !== null && row !== this.row) this.address.write();
  }

  close() {
    this.pause();
    this.watching.disconnect();
    NARROW.removeEventListener("change", this.turned);
    this.paper.close();
    clearTimeout(this.waiting);
    this.address.close();
    if (this.projection.on) this.projection.end();
    this.figure?.still();
    removeEventListener("hashchange", this.hash);
  }
}

/** The element of a page: its first script has the data, the rest is what stands without scripts. */
export class StageElement extends HTMLElement {
  connectedCallback() {
    const written = this.querySelector("script");
    if (!written) return;
    const data = JSON.parse(written.textContent || "");
    const first = document.querySelector("edgewise-stage") === this;
    const address = first ? "row" : `${data.id}-row`;
    this.stage = new Stage(this, data, { address, page: location.pathname });
  }

  disconnectedCallback() {
    this.stage?.close();
  }
}

if (!customElements.get("edgewise-stage")) customElements.define("edgewise-stage", StageElement);
reachAll();
