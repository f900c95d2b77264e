// @ts-check
/**
 * Rehearsing: the stage is projected, the script runs under it at its pace, and each press of a key
 * goes on to the next step. When it was pressed, from the first press on, is the cue of that step.
 *
 * The stage is used as a reader uses it, by its button and its keys: its steps are those of the
 * script, one for one.
 */
import "./stage.js";
import { h } from "./elements.js";

/** What is said in a step, for how long, and whether it is said anew or goes on.
 * @typedef {{said: string, seconds: number}} Line
 * @typedef {{lines: Line[], words: Record<string, string>}} Script */

const ONWARD = [" ", "ArrowRight", "ArrowDown", "PageDown", "Enter"], BACK = ["ArrowLeft", "ArrowUp", "PageUp"];
/** Milliseconds between two looks at the clock, and between two presses that are meant. */
const TICK = 100, SOON = 200;

/** A time as people read it. @param {number} seconds */
export function clock(seconds) {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

class Rehearsal {
  /** @param {Script} script @param {HTMLElement} main */
  constructor({ lines, words }, main) {
    this.lines = lines;
    this.words = words;
    /** When each step began, in milliseconds of the page's own clock. @type {number[]} */
    this.starts = [];
    this.ticking = 0;
    this.said = h("p", { class: "said" });
    this.done = h("span", { class: "done" });
    this.rest = h("span");
    this.said.append(this.done, this.rest);
    this.next = h("p", { class: "next" });
    this.pace = h("progress", { max: 1, "aria-hidden": "true" });
    this.times = h("p", { class: "times" });
    this.strip = h("div", { class: "script" }, this.times, this.pace, this.said, this.next);
    this.told = h("p", { class: "result", role: "status" });
    main.append(this.told);
    addEventListener("keydown", (event) => this.pressed(event), true);
    // Esc leaves the whole screen without a word to the page.
    document.addEventListener("fullscreenchange", () => {
      if (this.starts.length && !document.fullscreenElement) this.stop(words.begin);
    });
    this.tell(words.begin);
  }

  /** @param {string} text */
  tell(text) {
    this.told.textContent = text;
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    // What we press ourselves is for the stage.
    if (!event.isTrusted || event.altKey || event.ctrlKey || event.metaKey) return;
    const on = ONWARD.includes(event.key), running = this.starts.length > 0;
    if (!on && !(running && (BACK.includes(event.key) || ["Home", "End", "Escape"].includes(event.key)))) return;
    event.preventDefault();
    event.stopPropagation();
    // A key that is held down is pressed once.
    if (event.repeat) return;
    const soon = running && event.timeStamp - this.starts[this.starts.length - 1] < SOON;
    if (on && !soon) this.onward(event.timeStamp);
    else if (BACK.includes(event.key)) this.undo();
    else if (event.key === "Escape") this.stop(this.words.begin);
  }

  /** @param {number} now */
  onward(now) {
    if (this.starts.length === this.lines.length) {
      this.finish(now);
      return;
    }
    this.starts.push(now);
    if (this.starts.length > 1) this.press("ArrowRight");
    else this.begin();
    this.show();
  }

  begin() {
    this.tell("");
    /** @type {HTMLElement | null} */ (document.querySelector(".to-project"))?.click();
    this.press("Home");
    document.querySelector(".stage")?.append(this.strip);
    this.ticking = window.setInterval(() => this.tick(), TICK);
  }

  /** The last press came too early: its step begins at the next one. */
  undo() {
    if (this.starts.length < 2) return;
    this.starts.pop();
    this.press("ArrowLeft");
    this.show();
  }

  /** Gives the stage a key. @param {string} key */
  press(key) {
    document.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
  }

  show() {
    const now = this.starts.length - 1, spoken = this.lines[now + 1]?.said;
    this.next.textContent = now + 1 < this.lines.length
      ? `${this.words.next} ${spoken || "…"}` : this.words.last;
    this.tick();
  }

  /** The line that is being said, and where its step stands in it: one line may go on over several. */
  line() {
    const now = this.starts.length - 1;
    let first = now, end = now + 1;
    while (first > 0 && !this.lines[first].said) first -= 1;
    while (end < this.lines.length && !this.lines[end].said) end += 1;
    return { first, end, said: this.lines[first].said };
  }

  tick() {
    const { first, end, said } = this.line(), at = performance.now();
    const length = this.lines.slice(first, end).reduce((sum, { seconds }) => sum + seconds, 0);
    const share = Math.min(1, (at - this.starts[first]) / 1000 / length);
    // Whole words only: they are read, not watched.
    const reached = Math.floor(share * said.length), cut = said.lastIndexOf(" ", reached) + 1;
    const spoken = share < 1 ? cut : said.length;
    if (this.done.textContent !== said.slice(0, spoken) || this.rest.textContent !== said.slice(spoken)) {
      this.done.textContent = said.slice(0, spoken);
      this.rest.textContent = said.slice(spoken);
    }
    const now = this.starts.length - 1, own = (at - this.starts[now]) / 1000;
    this.pace.value = Math.min(1, own / this.lines[now].seconds);
    const planned = this.lines.slice(0, now).reduce((sum, { seconds }) => sum + seconds, 0);
    const total = this.lines.reduce((sum, { seconds }) => sum + seconds, 0);
    const { clock: mine, script: theirs } = this.words;
    this.times.textContent = `${now + 1}/${this.lines.length} · ${mine} ${clock((at - this.starts[0]) / 1000)}`
      + ` · ${theirs} ${clock(planned + Math.min(own, this.lines[now].seconds))} / ${clock(total)}`;
  }

  /** Ends the projection without cues. @param {string} text */
  stop(text) {
    clearInterval(this.ticking);
    this.starts = [];
    this.strip.remove();
    this.press("Escape");
    this.tell(text);
  }

  /** @param {number} now */
  async finish(now) {
    const [began] = this.starts;
    const body = JSON.stringify({
      starts: this.starts.map((start) => Math.round(start - began)), end: Math.round(now - began),
    });
    this.stop(this.words.saving);
    try {
      const answer = await fetch("cues", { method: "POST", body });
      this.tell(await answer.text());
    } catch {
      this.tell(this.words.lost);
    }
  }
}

const written = document.querySelector("script[data-rehearsal]");
if (written) new Rehearsal(JSON.parse(written.textContent || ""), document.querySelector("main") || document.body);
