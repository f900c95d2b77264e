// @ts-check
/** The page's address: which row of a stage it names, and the row shown written into it. */

/** Milliseconds after which a row that is still shown is written. */
const SOON = 80;

export class Address {
  /**
   * @param {string} name  of the row in the address; empty: it is left alone
   * @param {() => number} shown  the row shown
   */
  constructor(name, shown) {
    this.name = name;
    this.shown = shown;
    this.waiting = 0;
  }

  /** The row that it names, if it names one. */
  get row() {
    const found = new RegExp(`(?:^#|&)${this.name}=(\\d{1,6})(?:&|$)`).exec(location.hash);
    return this.name && found ? Number(found[1]) : null;
  }

  /** The reader has moved on. */
  follow() {
    if (!this.name) return;
    clearTimeout(this.waiting);
    this.waiting = window.setTimeout(() => this.write(), SOON);
  }

  write() {
    const others = location.hash.slice(1).split("&")
      .filter((part) => /^[\w-]+=/.test(part) && !part.startsWith(`${this.name}=`));
    const hash = [...others, `${this.name}=${this.shown()}`].join("&");
    try {
      history.replaceState(history.state, "", `#${hash}`);
    } catch {
      // A frame that may not change its address: the stage works without.
    }
  }

  /** What takes the stage's place, in a preview, goes on from the row in the address. */
  close() {
    clearTimeout(this.waiting);
    if (this.waiting) this.write();
  }
}
