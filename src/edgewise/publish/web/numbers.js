// @ts-check
/** Trying other numbers: operands, sizes and the start, and the lesson's claims checked for them. */
import { h } from "./elements.js";
import { check } from "./formulas.js";
import { and } from "./sentences.js";
import { AS_DESIGNED, X } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./sizes.js").Sizes} Sizes */
/** @typedef {import("./formulas.js").Claim} Claim */
/** @typedef {import("./formulas.js").Played} Played */
/** @typedef {Record<string, bigint>} Operands */
/** @typedef {{name: string, width: number, input: HTMLInputElement, bits: HTMLElement}} Field */

const MARKS = { holds: "✓", fails: "✗", silent: "–" };
const TOLD = {
  holds: "holds for these numbers", fails: "does not hold for these numbers",
  silent: "says nothing about these numbers",
};
/** @type {[number, string][]} */
const STARTS = [[AS_DESIGNED, "as the circuit says"], [X, "unknown (X)"], [0, "all 0"], [1, "all 1"]];
let count = 0;

export class Numbers {
  /**
   * @param {Sizes} sizes @param {{size: number, operands: Operands}} own  the lesson's
   * @param {boolean} carries  whether the design adds
   * @param {(size: number, operands: Operands, start: number) => void} play
   */
  constructor(sizes, own, carries, play) {
    this.sizes = sizes;
    this.own = own;
    this.play = play;
    this.id = `numbers-${++count}`;
    this.size = own.size;
    /** @type {Field[]} */
    this.fields = [];
    /** @type {[string, HTMLSelectElement][]} */
    this.choices = sizes.choices().map(([name, values]) => {
      const select = h("select", { id: `${this.id}-${name}`, change: () => this.resized(name) },
        ...values.map((value) => h("option", { value }, String(value))));
      return [name, select];
    });
    this.start = h("select", { id: `${this.id}-start`, change: () => this.changed() },
      ...STARTS.map(([value, text]) => h("option", { value }, text)));
    this.places = h("div", { class: "fields" });
    this.also = h("p", { class: "also", role: "status" });
    this.wrong = h("p", { class: "wrong", role: "alert" });
    const design = sizes.at(own.size);
    const chosen = h("div", { class: "fields" },
      ...this.choices.map(([name, select]) => h("div", { class: "field" },
        h("label", { for: select.id }, h("code", {}, name)), select)),
      ...(design.flipFlops.length ? [h("div", { class: "field" },
        h("label", { for: this.start.id }, "At power-up"), this.start)] : []));
    const buttons = h("div", { class: "row" });
    if (carries && this.pair(design)) {
      buttons.append(h("button", { type: "button", click: () => this.longest() }, "Longest carry"));
    }
    if (design.operands.length) {
      buttons.append(h("button", { type: "button", click: () => this.random() }, "At random"));
    }
    buttons.append(h("button", { type: "button", click: () => this.back() }, "The lesson's numbers"));
    this.form = h("form", { submit: (event) => event.preventDefault() },
      ...(chosen.firstChild ? [chosen] : []), this.also, this.places, this.wrong, buttons);
    this.claims = h("ul", { class: "rechecked" });
    this.element = h("details", { class: "try" },
      h("summary", {}, "Try other numbers"), this.form, this.claims);
    this.fill(own.operands);
  }

  /** The fields of the chosen size. @param {Operands} values */
  fill(values) {
    const design = this.sizes.at(this.size);
    for (const [name, select] of this.choices) select.value = String(design.parameters[name]);
    const kept = Object.fromEntries(this.fields.map(({ name, input }) => [name, input.value]));
    this.fields = design.operands.map(([name, width], i) => {
      const id = `${this.id}-${i}`;
      const given = values[name] === undefined ? kept[name] ?? "0" : String(values[name]);
      const input = h("input", {
        id, type: "text", inputmode: "numeric", autocomplete: "off", value: given,
        "aria-describedby": `${id}-range`, input: () => this.changed(),
      });
      return { name, width, input, bits: h("output", { for: id }) };
    });
    this.places.replaceChildren(...this.fields.map(({ name, width, input, bits }) => h(
      "div", { class: "field" },
      h("label", { for: input.id }, h("code", {}, name)), input,
      h("span", { class: "range", id: `${input.id}-range` }, `0..${(1n << BigInt(width)) - 1n}`),
      bits)));
    this.spell();
  }

  /** Reads the fields and plays them, or says what is wrong with them. */
  changed() {
    const errors = [];
    /** @type {Operands} */
    const operands = {};
    for (const { name, width, input } of this.fields) {
      const [value, wrong] = read(name, width, input.value);
      input.toggleAttribute("aria-invalid", false);
      if (wrong) {
        errors.push(wrong);
        input.setAttribute("aria-invalid", "true");
      }
      operands[name] = value;
    }
    this.wrong.textContent = errors.join(" ");
    this.spell();
    if (!errors.length) this.play(this.size, operands, Number(this.start.value));
  }

  /** Writes each operand in bits beside its field. */
  spell() {
    for (const { name, width, input, bits } of this.fields) {
      const [value, wrong] = read(name, width, input.value);
      bits.textContent = wrong ? "" : value.toString(2).padStart(width, "0");
    }
  }

  /** Takes the size with a new value of one parameter, and says what else is new. @param {string} name */
  resized(name) {
    const before = this.sizes.parameters[this.size];
    const wanted = Number(this.choices.find(([one]) => one === name)?.[1].value);
    this.size = this.sizes.nearest(before, name, wanted);
    const after = this.sizes.parameters[this.size];
    const others = Object.keys(after).filter((one) => one !== name && after[one] !== before[one]);
    this.also.textContent = others.length
      ? `With ${name} = ${wanted} this page has ${and(others.map((one) => `${one} = ${after[one]}`))}.` : "";
    this.fill({});
    this.changed();
  }

  /** Two operands of the same width, if there are such. @param {Compiled} design */
  pair(design) {
    const [first, ...rest] = design.operands;
    const other = rest.find(([, width]) => width === first[1]);
    return other ? [first[0], other[0]] : null;
  }

  /** The carry of the lowest place runs through all others. */
  longest() {
    const two = this.pair(this.sizes.at(this.size));
    if (!two) return;
    this.put((name, width) => name === two[0] ? (1n << width) - 1n : name === two[1] ? 1n : 0n);
  }

  random() {
    this.put((_, width) => {
      let bits = 0n;
      for (let i = 0n; i < width; i++) bits = bits * 2n + BigInt(Math.random() < 0.5 ? 0 : 1);
      return bits;
    });
  }

  back() {
    this.size = this.own.size;
    this.start.value = String(AS_DESIGNED);
    this.also.textContent = "";
    this.fill(this.own.operands);
    this.changed();
  }

  /** @param {(name: string, width: bigint) => bigint} value */
  put(value) {
    for (const { name, width, input } of this.fields) {
      input.value = String(value(name, BigInt(width)));
    }
    this.changed();
  }

  /** Checks the lesson's claims for the numbers of a run. @param {Claim[]} claims @param {Played} played */
  recheck(claims, played) {
    this.claims.hidden = !claims.length;
    this.claims.replaceChildren(...claims.map((claim) => {
      const { state, why } = check(claim, played);
      return h("li", { class: state },
        h("span", { class: "sign", "aria-hidden": "true" }, MARKS[state]),
        h("code", {}, claim.text),
        h("span", { class: "how" }, `${TOLD[state]}${why ? `: ${why}` : ""}`));
    }));
  }
}

/**
 * An operand as it was written: its value, and what is wrong with it.
 * @param {string} name @param {number} width @param {string} written
 * @returns {[bigint, string]}
 */
export function read(name, width, written) {
  const text = written.trim().replace("−", "-");
  const most = (1n << BigInt(width)) - 1n;
  const range = `the range is 0..${most} in ${width} bit${width === 1 ? "" : "s"}`;
  if (!text) return [0n, `operand ${name} is missing; give a number in 0..${most}.`];
  if (!/^-?(0b[01]+|[0-9]+)$/.test(text) || text.length > 80) {
    return [0n, `operand ${name}: “${text.slice(0, 20)}” is not a whole number; ${range}.`];
  }
  const value = text.startsWith("-") ? -BigInt(text.slice(1)) : BigInt(text);
  if (value >= 0n && value <= most) return [value, ""];
  const sign = value < 0n ? "negative" : "too large";
  return [0n, `operand ${name} is ${value}, which is ${sign}; ${range}.`];
}
