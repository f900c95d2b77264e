// @ts-check
/** What a learner has reached; kept in the browser's own storage and nowhere else. */

/** @typedef {{level: number, done: number, bits: number, right: number}} Reached */

/** @returns {Reached} */
const nothing = () => ({ level: 1, done: 0, bits: 0, right: 0 });

export class Progress {
  /** @param {string} key  the page and the stage on it; nothing is kept for an empty one */
  constructor(key) {
    this.key = key && `edgewise ${key}`;
    this.reached = this.read();
  }

  /** @returns {Reached} */
  read() {
    try {
      const kept = JSON.parse(localStorage.getItem(this.key) || "null");
      if (kept && ["level", "done", "bits", "right"].every((name) => Number.isInteger(kept[name]))) {
        return kept;
      }
    } catch {
      // No storage here, or something else in it: begin anew.
    }
    return nothing();
  }

  /** @param {Partial<Reached>} more */
  note(more) {
    Object.assign(this.reached, more);
    try {
      if (this.key) localStorage.setItem(this.key, JSON.stringify(this.reached));
    } catch {
      // A browser that keeps nothing: the page works without.
    }
  }

  forget() {
    this.reached = nothing();
    try {
      localStorage.removeItem(this.key);
    } catch {
      // Nothing was kept.
    }
  }
}
