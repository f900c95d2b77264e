// @ts-check
/** The steps of a lesson: while its own run is projected, they take the place of the rows. */

/** A row, what is pointed at, what is said: nothing of its own, or "" where the last text goes on.
 * @typedef {[number, string[], string | null]} Step */

export class Steps {
  /** @param {Step[]} all */
  constructor(all) {
    this.all = all;
    this.at = 0;
    this.here = false;
  }

  /** Goes to a step; gives its row. @param {number} place */
  go(place) {
    this.at = Math.max(0, Math.min(this.all.length - 1, place));
    return this.all[this.at][0];
  }

  /** The step behind the present one, or that from which one has gone to another row. */
  get before() {
    return this.here ? this.at - 1 : this.at;
  }

  /** A row is shown, by a step or otherwise: the next step that shows it is the present one. @param {number} row */
  arrive(row) {
    const shows = (/** @type {Step} */ step) => step[0] === row;
    if (!shows(this.all[this.at])) {
      const onward = this.all.findIndex((step, i) => i > this.at && shows(step));
      const found = onward < 0 ? this.all.findIndex(shows) : onward;
      if (found >= 0) this.at = found;
    }
    this.here = shows(this.all[this.at]);
  }

  /** What is pointed at. */
  get points() {
    return this.here ? this.all[this.at][1] : [];
  }

  /** What is said; nothing where the row's own sentence is. @returns {string | null} */
  get said() {
    if (!this.here) return null;
    let at = this.at;
    while (at > 0 && this.all[at][2] === "") at -= 1;
    return this.all[at][2] || null;
  }

  get first() {
    return this.here && !this.at;
  }

  get last() {
    return this.at === this.all.length - 1;
  }
}
