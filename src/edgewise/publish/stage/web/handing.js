// @ts-check
/** Handing in: a learner's attempts copied as a code, or saved as a file, by whoever wants to. */
import { h } from "./elements.js";

/** @typedef {import("./attempts.js").Attempts} Attempts */

const FILE = "edgewise-attempts.txt";

export class Handing {
  /** @param {import("./words.js").Words} words @param {Attempts} attempts */
  constructor(words, attempts) {
    this.words = words;
    this.attempts = attempts;
    const button = (/** @type {string} */ message, /** @type {() => void} */ click) =>
      h("button", { type: "button", click }, words.say(message));
    this.field = h("textarea", {
      readonly: true, rows: 3, spellcheck: "false", "aria-label": words.say("stage-hand-in-code"),
    });
    this.field.hidden = true;
    this.done = h("p", { class: "handed", role: "status" });
    this.element = h("div", { class: "handing" },
      h("p", { class: "about" }, words.say("stage-hand-in-about")),
      h("div", { class: "row" }, button("stage-hand-in-copy", () => this.copy()),
        button("stage-hand-in-save", () => this.save())),
      this.field, this.done);
    this.update();
  }

  /** Something was tried, or forgotten. */
  update() {
    this.element.hidden = !this.attempts.fields.length;
    this.field.hidden = true;
    this.done.textContent = "";
  }

  async copy() {
    const { field } = this;
    field.value = this.attempts.code;
    field.hidden = false;
    try {
      await navigator.clipboard.writeText(field.value);
      this.done.textContent = this.words.say("stage-hand-in-copied", { count: field.value.length });
    } catch {
      // Not everywhere may a page write there: then it is one key more.
      field.focus();
      field.select();
      this.done.textContent = this.words.say("stage-hand-in-not-copied");
    }
  }

  save() {
    const address = URL.createObjectURL(new Blob([`${this.attempts.code}\n`], { type: "text/plain" }));
    h("a", { href: address, download: FILE }).click();
    setTimeout(() => URL.revokeObjectURL(address), 1000);
    this.done.textContent = this.words.say("stage-hand-in-saved", { file: FILE });
  }
}
