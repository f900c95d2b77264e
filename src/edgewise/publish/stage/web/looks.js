// @ts-check
/** How a stage is shown: symbols of the gates, parts open or closed, words with their numbers. */
import { h } from "./elements.js";

/** @typedef {import("./sizes.js").Drawn} Drawn */

const SYMBOLS = { distinctive: "stage-distinctive", rectangular: "stage-rectangular" };
/** A page as narrow as a phone's. */
export const NARROW = matchMedia("(max-width: 480px)");
let count = 0;

export class Looks {
  /**
   * @param {import("./words.js").Words} say
   * @param {Drawn[]} figures  the ways in which a figure is there; the first is the lesson's
   * @param {boolean} words  whether there are words of more than one bit
   * @param {() => void} changed
   */
  constructor(say, figures, words, changed) {
    const [{ symbols, opened }] = figures;
    this.id = `looks-${++count}`;
    this.symbols = h("select", { id: `${this.id}-symbols`, change: changed },
      ...Object.entries(SYMBOLS).map(([value, text]) => h("option", { value }, say.say(text))));
    this.symbols.value = symbols;
    this.inside = h("select", { id: `${this.id}-inside`, change: changed },
      h("option", { value: "open" }, say.say("stage-open")), h("option", { value: "closed" }, say.say("stage-closed")));
    this.words = h("select", { id: `${this.id}-words`, change: changed },
      h("option", { value: "bits" }, say.say("stage-bits")),
      h("option", { value: "numbers" }, say.say("stage-bits-numbers")));
    const several = figures.some((one) => one.symbols !== symbols);
    this.element = h("details", { class: "looks" },
      h("summary", {}, say.say("stage-change-looks")),
      h("div", { class: "fields" },
        ...(several ? field(say.say("stage-symbols"), this.symbols) : []),
        ...(opened.length ? field(opened.join(", "), this.inside) : []),
        ...(words ? field(say.say("stage-words-in-table"), this.words) : [])));
    this.element.hidden = !several && !opened.length && !words;
  }

  /** The figure in the chosen way, or the nearest to it. @param {Drawn[]} figures */
  pick(figures) {
    const open = this.inside.value === "open", small = NARROW.matches;
    const usable = figures.filter(({ narrow }) => small || !narrow);
    const fitting = usable.filter(({ opened }) => opened.length > 0 === open);
    const wanted = fitting.length ? fitting : usable;
    const styled = wanted.filter(({ symbols }) => symbols === this.symbols.value);
    const best = styled.length ? styled : wanted;
    return best.find(({ narrow }) => Boolean(narrow) === small) || best[0];
  }

  get numbers() {
    return this.words.value === "numbers";
  }
}

/** @param {string} text @param {HTMLSelectElement} select */
function field(text, select) {
  return [h("div", { class: "field" }, h("label", { for: select.id }, text), select)];
}
