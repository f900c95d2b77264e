// @ts-check
/**
 * Slow motion: the events inside clock periods, one by one.
 *
 * Nothing is computed here: when what happens and what is said of it stands in the page
 * (`slow_motion.py`). What is still to come is veiled in the figure.
 */
import { h, s } from "./elements.js";

/**
 * What `slow_motion.py` writes.
 * @typedef {object} Opened
 * @property {number} first  edge
 * @property {number} last
 * @property {number[]} low  nets that are 0 while the clock is
 * @property {[number, number, number, number, number, number][]} lines  of the figure: first tick,
 *   tick after the last, x of the first, px of a tick, y of top and bottom
 * @property {string} start
 * @property {[number, string, [number, number][]][]} events  tick, what is said, nets with their bits
 * @property {Record<string, string>} words
 */

/** Steps through the events of opened clock periods. */
export class SlowMotion {
  /**
   * @param {Opened} data @param {(at: number) => void} arrive  is told how many events have happened
   */
  constructor(data, arrive) {
    this.data = data;
    this.arrive = arrive;
    this.at = 0;
    const { words, events } = data;
    const button = (/** @type {string} */ text, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, text);
    this.back = button(words.back, () => this.go(this.at - 1));
    this.next = button(words.next, () => this.go(this.at + 1));
    this.slider = h("input", {
      type: "range", min: 0, max: events.length, step: 1, value: 0, "aria-label": words.events,
      input: () => this.go(Number(this.slider.value)),
    });
    this.count = h("span", { class: "count" });
    this.told = h("p", { class: "told", "aria-live": "polite" });
    this.element = h("div", { class: "slow", keydown: (event) => this.key(event) },
      h("div", { class: "moves row" }, this.back, this.next, this.slider, this.count), this.told);
  }

  /** @param {number} wanted  how many events have happened */
  go(wanted) {
    const { events, start } = this.data;
    this.at = Math.max(0, Math.min(events.length, wanted));
    const said = this.at ? events[this.at - 1][1] : start;
    this.slider.value = String(this.at);
    this.slider.setAttribute("aria-valuetext", said);
    this.count.textContent = `${this.at} / ${events.length}`;
    if (this.told.textContent !== said) this.told.textContent = said;
    // A disabled button would lose the focus of who has just pressed it.
    this.back.setAttribute("aria-disabled", String(this.at === 0));
    this.next.setAttribute("aria-disabled", String(this.at === events.length));
    this.arrive(this.at);
  }

  /** @param {any} event */
  key(event) {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.target === this.slider) return;
    /** @type {Record<string, number>} */
    const keys = { ArrowRight: this.at + 1, ArrowLeft: this.at - 1, Home: 0, End: this.data.events.length };
    const wanted = keys[event.key];
    if (wanted === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    this.go(wanted);
  }

  /** The nets that have changed so far, with what they hold. @returns {Map<number, number>} */
  get held() {
    const held = new Map();
    this.data.events.slice(0, this.at).forEach(([, , nets]) => nets.forEach(([net, bit]) => held.set(net, bit)));
    return held;
  }
}

/** A veil over what is still to come, and a line where one is. */
class Veil {
  /** @param {SVGSVGElement} svg @param {Opened} data */
  constructor(svg, data) {
    this.data = data;
    this.element = s("g", { class: "veil", "aria-hidden": "true" });
    const width = svg.viewBox.baseVal.width;
    this.lines = data.lines.map(([, , , , top, bottom]) => {
      const cover = s("rect", { y: top, width, height: bottom - top + 22 });
      const now = s("path", { class: "now" });
      this.element.append(cover, now);
      return { cover, now };
    });
    svg.append(this.element);
  }

  /** A figure that scrolls is scrolled to where one is. @param {SVGSVGElement | null} svg @param {number} x */
  follow(svg, x) {
    const box = svg?.closest(".box");
    if (!svg || !box || box.scrollWidth <= box.clientWidth) return;
    const at = x * svg.clientWidth / svg.viewBox.baseVal.width - box.scrollLeft;
    if (at > 0.8 * box.clientWidth || at < 0.2 * box.clientWidth) box.scrollLeft += at - 0.5 * box.clientWidth;
  }

  /** @param {number} at  how many events have happened */
  show(at) {
    const time = at ? this.data.events[at - 1][0] : -1;
    this.data.lines.forEach(([begin, end, left, pitch, top, bottom], i) => {
      const { cover, now } = this.lines[i];
      const here = begin <= Math.max(time, 0) && Math.max(time, 0) < end;
      // A change takes some px to the right of its time.
      const x = time >= end ? 1e5 : time < begin ? left : left + (time - begin) * pitch + 6;
      cover.setAttribute("x", String(x));
      if (here) this.follow(now.ownerSVGElement, x);
      now.setAttribute("d", here ? `M${time < begin ? left : left + (time - begin) * pitch} ${top + 16}V${bottom + 4}` : "");
    });
  }
}

/** @type {WeakMap<Element, Opened>} */
const READ = new WeakMap();

/** What an element holds. @param {Element} element @returns {Opened | null} */
function opened(element) {
  const known = READ.get(element), written = element.querySelector("script");
  if (known || !written) return known || null;
  const data = JSON.parse(written.textContent || "");
  READ.set(element, data);
  return data;
}

/** The first opened period of the page behind an edge. @param {number} edge @returns {Opened | null} */
export function openedBehind(edge) {
  const all = [...document.querySelectorAll("edgewise-inside")].map(opened);
  return all.find((one) => one && one.first <= edge && edge <= one.last) || null;
}

/** The element of a page: its script has the data, the rest is what stands without scripts. */
export class InsideElement extends HTMLElement {
  connectedCallback() {
    const box = this.querySelector(".box"), svg = this.querySelector("svg");
    if (!box || !svg || this.querySelector(".slow")) return;
    const data = opened(this);
    if (!data) return;
    const { words } = data, veil = new Veil(svg, data);
    const motion = new SlowMotion(data, (at) => veil.show(at));
    motion.element.hidden = true;
    veil.element.setAttribute("visibility", "hidden");
    const open = h("button", {
      type: "button", class: "open", "aria-expanded": "false",
      click: () => {
        const closed = motion.element.hidden;
        motion.element.hidden = !closed;
        veil.element.setAttribute("visibility", closed ? "visible" : "hidden");
        open.setAttribute("aria-expanded", String(closed));
        open.textContent = closed ? words.close : words.open;
        if (closed) motion.go(0);
      },
    }, words.open);
    box.after(h("div", { class: "stage opening" }, open, motion.element));
  }
}

if (!customElements.get("edgewise-inside")) customElements.define("edgewise-inside", InsideElement);
