// @ts-check
/** A larger figure: one that is drawn too small to be read can be enlarged, and scrolls then. */
import { h } from "./elements.js";
import { NARROW } from "./looks.js";

/** Below this scale the letters of a figure are hard to read. */
const LEGIBLE = 0.85;
/** At this share of its size, letters of 12 px have 9. */
export const LEAST = 0.75;

export class Larger {
  /**
   * @param {import("./words.js").Words} words
   * @param {HTMLElement} picture  what holds the figure
   * @param {() => number} width  px that the figure was drawn for
   */
  constructor(words, picture, width) {
    this.words = words;
    this.picture = picture;
    this.width = width;
    this.button = h("button", {
      type: "button", class: "larger", "aria-pressed": "false", click: () => this.turn(),
    }, words.say("stage-larger"));
  }

  /** Shows the button where there is need of it. */
  offer() {
    const wide = this.width(), large = this.picture.classList.contains("large");
    this.button.hidden = !large && this.picture.clientWidth >= LEGIBLE * wide;
    this.reach(large || (NARROW.matches && LEAST * wide > this.picture.clientWidth));
  }

  turn() {
    const large = this.picture.classList.toggle("large");
    this.button.setAttribute("aria-pressed", String(large));
    this.offer();
  }

  /** A figure that scrolls can be reached by keys. @param {boolean} scrolls */
  reach(scrolls) {
    if (scrolls) {
      this.picture.setAttribute("tabindex", "0");
      this.picture.setAttribute("role", "region");
      this.picture.setAttribute("aria-label", this.words.say("stage-scrolls"));
    } else {
      ["tabindex", "role", "aria-label"].forEach((name) => this.picture.removeAttribute(name));
    }
  }
}
