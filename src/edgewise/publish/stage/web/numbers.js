// @ts-check
/** Trying other numbers: operands, sizes and the start, and the lesson's claims checked for them. */
import { numberOf, pattern, range, signed } from "./codes.js";
import { h } from "./elements.js";
import { addends, check } from "./formulas.js";
import { AS_DESIGNED, X } from "./simulator.js";

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./codes.js").Code} Code */
/** @typedef {import("./sizes.js").Sizes} Sizes */
/** @typedef {import("./formulas.js").Claim} Claim */
/** @typedef {import("./formulas.js").Played} Played */
/** @typedef {Record<string, bigint>} Operands */
/** @typedef {import("./words.js").Words} Words */
/** @typedef {{name: string, width: number, code?: Code, input: HTMLInputElement, bits: HTMLElement}} Field */

const MARKS = { holds: "✓", fails: "✗", silent: "–" };
/** @type {[number, string][]} */
const STARTS = [[AS_DESIGNED, "stage-start-designed"], [X, "stage-start-unknown"], [0, "stage-start-zero"], [1, "stage-start-one"]];
let count = 0;

export class Numbers {
  /**
   * @param {Words} words @param {Sizes} sizes @param {{size: number, operands: Operands}} own  the lesson's
   * @param {(size: number, operands: Operands, start: number) => void} play
   */
  constructor(words, sizes, own, play) {
    this.words = words;
    this.sizes = sizes;
    this.own = own;
    this.play = play;
    this.id = `numbers-${++count}`;
    this.size = own.size;
    /** @type {Field[]} */
    this.fields = [];
    /** @type {Record<string, string>} */
    this.written = {};
    /** @type {[string, HTMLSelectElement][]} */
    this.choices = sizes.choices().map(([name, values]) => {
      const select = h("select", { id: `${this.id}-${name}`, change: () => this.resized(name) },
        ...values.map((value) => h("option", { value }, String(value))));
      return [name, select];
    });
    this.start = h("select", { id: `${this.id}-start`, change: () => this.changed() },
      ...STARTS.map(([value, text]) => h("option", { value }, words.say(text))));
    this.places = h("div", { class: "fields" });
    this.also = h("p", { class: "also", role: "status" });
    this.wrong = h("p", { class: "wrong", role: "alert" });
    const design = sizes.at(own.size);
    const chosen = h("div", { class: "fields" },
      ...this.choices.map(([name, select]) => h("div", { class: "field" },
        h("label", { for: select.id }, h("code", {}, name)), select)),
      ...(design.flipFlops.length ? [h("div", { class: "field" },
        h("label", { for: this.start.id }, words.say("stage-at-power-up")), this.start)] : []));
    const buttons = h("div", { class: "row" });
    if (addends(design)) {
      buttons.append(h("button", { type: "button", click: () => this.longest() }, words.say("stage-longest-carry")));
    }
    if (design.operands.length) {
      buttons.append(h("button", { type: "button", click: () => this.random() }, words.say("stage-at-random")));
    }
    buttons.append(h("button", { type: "button", click: () => this.back() }, words.say("stage-lesson-numbers")));
    this.form = h("form", { submit: (event) => event.preventDefault() },
      ...(chosen.firstChild ? [chosen] : []), this.also, this.places, this.wrong, buttons);
    this.claims = h("ul", { class: "rechecked" });
    this.counted = h("p", { class: "counted", role: "status" });
    this.element = h("details", { class: "try" },
      h("summary", {}, words.say("stage-try-others")), this.form, this.counted, this.claims);
    this.fill(own.operands);
  }

  /** The fields of the chosen size. @param {Operands} values */
  fill(values) {
    const design = this.sizes.at(this.size);
    for (const [name, select] of this.choices) select.value = String(design.parameters[name]);
    for (const { name, input } of this.fields) this.written[name] = input.value;
    const kept = this.written;
    this.fields = design.operands.map(([name, width, code], i) => {
      const id = `${this.id}-${i}`;
      const given = values[name] === undefined ? kept[name] ?? "0" : String(values[name]);
      const input = h("input", {
        id, type: "text", inputmode: "numeric", autocomplete: "off", value: given,
        "aria-describedby": `${id}-range`, input: () => this.changed(),
      });
      return { name, width, code, input, bits: h("output", { for: id }) };
    });
    this.places.replaceChildren(...this.fields.map(({ name, width, code, input, bits }) => h(
      "div", { class: "field" },
      h("label", { for: input.id }, h("code", {}, name)), input,
      h("span", { class: "range", id: `${input.id}-range` }, range(width, code).join("..")),
      bits)));
    this.spell();
  }

  /** Reads the fields and plays them, or says what is wrong with them. */
  changed() {
    const errors = [];
    /** @type {Operands} */
    const operands = {};
    for (const { name, width, code, input } of this.fields) {
      const [value, wrong] = read(this.words, name, width, code, input.value);
      input.toggleAttribute("aria-invalid", false);
      if (wrong) {
        errors.push(wrong);
        input.setAttribute("aria-invalid", "true");
      }
      operands[name] = value;
    }
    this.wrong.textContent = errors.join(" ");
    this.spell();
    if (errors.length) this.uncheck();
    else this.play(this.size, operands, Number(this.start.value));
  }

  /** Writes each operand in bits beside its field. */
  spell() {
    for (const { name, width, code, input, bits } of this.fields) {
      const [value, wrong] = read(this.words, name, width, code, input.value);
      bits.textContent = wrong ? "" : pattern(value, width, code).toString(2).padStart(width, "0");
    }
  }

  /**
   * Takes the size with a new value of one parameter, and says what else is new.
   * @param {string} name
   */
  resized(name) {
    const before = this.sizes.parameters[this.size];
    const wanted = Number(this.choices.find(([one]) => one === name)?.[1].value);
    this.size = this.sizes.nearest(before, name, wanted);
    const after = this.sizes.parameters[this.size];
    const others = Object.keys(after).filter((one) => one !== name && after[one] !== before[one]);
    const told = others.map((one) => (this.sizes.only(name, wanted, one)
      ? this.words.say("stage-only-with", { name, wanted, other: one, value: after[one] })
      : this.words.say("stage-now-with", { name, wanted, other: one, before: before[one], value: after[one] })));
    this.fill({});
    told.push(...this.fit());
    this.also.textContent = told.join(" ");
    this.changed();
  }

  /** Keeps of each operand what its new width holds: the low bits. */
  fit() {
    /** @type {string[]} */
    const told = [];
    for (const { name, width, code, input } of this.fields) {
      const [, wrong, value] = read(this.words, name, width, code, input.value);
      if (!wrong || value === null || (value < 0n && !signed(code))) continue;
      const low = numberOf(BigInt.asUintN(width, value), width, code);
      if (low === null) continue;
      input.value = String(low);
      told.push(this.words.say("stage-does-not-fit", { name, value: String(value), width, low: String(low) }));
    }
    this.spell();
    return told;
  }

  /** The carry of the lowest place runs through all others; operands that are not added stay. */
  longest() {
    const added = addends(this.sizes.at(this.size));
    if (!added) return;
    this.put((name, width, code, kept) => (name === added[0]
      ? numberOf((1n << BigInt(width)) - 1n, width, code) ?? range(width, code)[1]
      : name === added[1] ? 1n : kept));
  }

  random() {
    this.put((_, width, code) => {
      const [low, high] = range(width, code);
      let bits = 0n;
      for (let i = 0; i < width; i++) bits = bits * 2n + BigInt(Math.random() < 0.5 ? 0 : 1);
      return low + bits % (high - low + 1n);
    });
  }

  back() {
    this.size = this.own.size;
    this.start.value = String(AS_DESIGNED);
    this.also.textContent = "";
    this.fill(this.own.operands);
    this.changed();
  }

  /** @param {(name: string, width: number, code: Code | undefined, kept: bigint) => bigint} value */
  put(value) {
    for (const { name, width, code, input } of this.fields) {
      const [kept] = read(this.words, name, width, code, input.value);
      input.value = String(value(name, width, code, kept));
    }
    this.changed();
  }

  /** Nothing is claimed of numbers that can't be run. */
  uncheck() {
    if (this.claims.hidden) return;
    this.counted.textContent = this.words.say("stage-recheck-later");
    this.claims.querySelectorAll("li").forEach((claim) => {
      claim.className = "unchecked";
      claim.querySelector(".sign")?.replaceChildren();
      claim.querySelector(".how")?.replaceChildren(this.words.say("stage-not-checked"));
    });
  }

  /** Checks the lesson's claims for the numbers of a run. @param {Claim[]} claims @param {Played} played */
  recheck(claims, played) {
    this.claims.hidden = !claims.length;
    const found = claims.map((claim) => check(this.words, claim, played));
    this.counted.textContent = tally(this.words, found.map(({ state }) => state));
    this.claims.replaceChildren(...claims.map((claim, i) => {
      const { state, why } = found[i];
      return h("li", { class: state },
        h("span", { class: "sign", "aria-hidden": "true" }, MARKS[state]),
        h("code", {}, claim.text),
        h("span", { class: "how" }, `${this.words.say(`stage-${state}`)}${why ? `: ${why}` : ""}`));
    }));
  }
}

/** How many claims hold. @param {Words} words @param {("holds" | "fails" | "silent")[]} states */
function tally(words, states) {
  const all = states.length, held = states.filter((state) => state === "holds").length;
  const failed = states.filter((state) => state === "fails").length;
  if (!all) return "";
  if (all === 1) return words.say(`stage-one-claim-${states[0]}`);
  const silent = all - held - failed;
  if (failed === all) return words.say("stage-none-holds", { all });
  if (silent === all) return words.say("stage-none-applies", { all });
  return words.say("stage-claims-tally", { all, held, failed, silent });
}

/**
 * An operand as it was written: its value in range, what is wrong with it, and the number
 * that was written, if it is one.
 * @param {Words} words @param {string} name @param {number} width @param {Code | undefined} code
 * @param {string} written
 * @returns {[bigint, string, bigint | null]}
 */
export function read(words, name, width, code, written) {
  const text = written.trim().replace("−", "-");
  const [least, most] = range(width, code);
  const facts = { name, width, least: String(least), most: String(most) };
  if (!text) return [0n, words.say("stage-operand-missing", facts), null];
  if (!/^-?(0b[01]+|[0-9]+)$/.test(text) || text.length > 80) {
    return [0n, words.say("stage-operand-not-whole", { ...facts, written: text.slice(0, 20) }), null];
  }
  const value = text.startsWith("-") ? -BigInt(text.slice(1)) : BigInt(text);
  if (value >= least && value <= most) return [value, "", value];
  const low = signed(code) ? "stage-operand-small" : "stage-operand-negative";
  const message = value < least ? low : "stage-operand-large";
  return [0n, words.say(message, { ...facts, written: String(value) }), value];
}
