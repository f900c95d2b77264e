// @ts-check
/** Playing: edge after edge by itself, at a speed to be chosen. */
import { h } from "./elements.js";

/** @type {[string, number][]} */
const SPEEDS = [["stage-speed-slow", 2400], ["stage-speed-steady", 1200], ["stage-speed-quick", 500]];
/** Milliseconds before the first edge. */
const FIRST = 300;

export class Player {
  /**
   * @param {import("./words.js").Words} words
   * @param {() => boolean} step  goes one edge on; whether there are more
   * @param {(playing: boolean) => void} changed
   */
  constructor(words, step, changed) {
    this.words = words;
    this.step = step;
    this.changed = changed;
    this.timer = 0;
    this.button = h("button", {
      type: "button", click: () => (this.timer ? this.pause() : this.start()),
    }, words.say("stage-play"));
    this.speed = h("select", { "aria-label": words.say("stage-speed") },
      ...SPEEDS.map(([name, ms]) => h("option", { value: ms }, words.say(name))));
    this.speed.value = String(SPEEDS[1][1]);
  }

  start() {
    this.changed(true);
    this.button.replaceChildren(this.words.say("stage-pause"));
    const step = () => {
      if (!this.step()) return this.pause();
      this.timer = window.setTimeout(step, Number(this.speed.value));
    };
    this.timer = window.setTimeout(step, FIRST);
  }

  pause() {
    clearTimeout(this.timer);
    this.timer = 0;
    this.button.replaceChildren(this.words.say("stage-play"));
    this.changed(false);
  }
}
