// @ts-check
/** The sizes that a page holds, each put together when it is first asked for. */

/** @typedef {import("./simulator.js").Compiled} Compiled */
/** @typedef {import("./simulator.js").Flat} Flat */
/** @typedef {Record<string, number>} Parameters */
/**
 * A figure in one way of drawing.
 * @typedef {import("./figure.js").Skeleton & {symbols: string, opened: string[], narrow?: boolean}} Drawn
 */
/**
 * @typedef {Compiled & {columns: import("./edges.js").Columns,
 *   stores: import("./actions.js").Store[], adders: import("./additions.js").AdderRow[],
 *   feedback: import("./sentences.js").Feedback[], selectors: import("./selection.js").Selector[],
 *   figures: Drawn[], misconceptions: import("./prediction.js").Misconception[]}} Size
 */
/**
 * What `bundle.py` writes: a size tells which circuit it has, and of each wrong idea its
 * thought, which netlist, feeds, schedule, and order of the flip-flops.
 * @typedef {object} Packed
 * @property {any[]} circuits
 * @property {any[]} flats
 * @property {({circuit: number, parameters: Parameters,
 *   misconceptions: [string, number, number[][], number[], number[]][]}
 *   & Record<string, any>)[]} sizes
 */

export class Sizes {
  /** @param {Packed} packed */
  constructor(packed) {
    this.packed = packed;
    /** @type {Size[]} */
    this.made = [];
    this.parameters = packed.sizes.map(({ parameters }) => parameters);
  }

  /** @param {number} place @returns {Size} */
  at(place) {
    const { circuits, flats, sizes } = this.packed;
    const { circuit, misconceptions, ...rest } = sizes[place];
    return this.made[place] ||= /** @type {any} */ ({
      ...circuits[circuit],
      ...rest,
      misconceptions: misconceptions.map(([thought, flat, feeds, schedule, order]) =>
        [thought, { ...flats[flat], feeds, schedule }, order]),
    });
  }

  /** The parameters that can be chosen, with their values. @returns {[string, number[]][]} */
  choices() {
    return Object.keys(this.parameters[0]).map((name) => {
      const values = new Set(this.parameters.map((one) => one[name]));
      return /** @type {[string, number[]]} */ ([name, [...values].sort((a, b) => a - b)]);
    }).filter(([, values]) => values.length > 1);
  }

  /**
   * The place of the size in which one parameter has a value and the most others stay.
   * @param {Parameters} from @param {string} name @param {number} value
   */
  nearest(from, name, value) {
    const kept = this.parameters.map((one) =>
      (one[name] === value ? Object.keys(from).filter((key) => one[key] === from[key]).length : -1));
    return kept.indexOf(Math.max(...kept));
  }

  /**
   * Whether another parameter has a single value in all sizes in which one has this value.
   * @param {string} name @param {number} value @param {string} other
   */
  only(name, value, other) {
    return new Set(this.parameters.filter((one) => one[name] === value).map((one) => one[other])).size === 1;
  }
}
