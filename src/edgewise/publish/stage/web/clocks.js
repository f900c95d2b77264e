// @ts-check
/** Gated clocks: which nets gate them, hence change at the falling edge; which edges arrive. */

/** @typedef {import("./simulator.js").Flat} Flat */
/** @typedef {import("./simulator.js").Row} Row */

const CLOCK = 3, GATE = 4;

/** The gated clocks: nets that are high in the first half of a row only. @param {Flat} design */
export function gatedClocks(design) {
  return new Set(design.flipFlops.map((flipFlop) => flipFlop[GATE]).filter((net) => net >= 0));
}

/**
 * The nets that change at the falling edge: inputs that a gating net follows, and what follows
 * those only; as `falling` in `circuit/clocks.py`.
 * @param {Flat} design
 */
export function falling({ gates, inputs, flipFlops }) {
  const clocks = new Set(flipFlops.map((flipFlop) => flipFlop[GATE]));
  /** @type {Set<number>} */
  const followed = new Set();
  // Gates stand in the order of evaluation, so backwards each is met before what it reads.
  for (let i = gates.length - 1; i >= 0; i--) {
    const [, output, ...read] = gates[i];
    if (clocks.has(output) || followed.has(output)) read.forEach((net) => followed.add(net));
  }
  const late = new Set(inputs.flatMap(([, nets]) => nets).filter((net) => followed.has(net)));
  if (!late.size) return late;
  for (const [, output, ...read] of gates) {
    const varying = read.filter((net) => net >= CLOCK);
    if (varying.length && varying.every((net) => late.has(net))) late.add(output);
  }
  return late;
}

/**
 * Whether an edge arrives at something of what is shown, or, if nothing shown stores, at anything;
 * as the arrows of `views/timing/timing_diagram.py` tell.
 * @param {Flat} design @param {number[]} shown  nets
 * @returns {(before: Row) => boolean}
 */
export function arrivals({ flipFlops }, shown) {
  const nets = new Set(shown);
  const some = flipFlops.filter((flipFlop) => nets.has(flipFlop[1]));
  const gates = new Set((some.length ? some : flipFlops).map((flipFlop) => flipFlop[GATE]));
  return (before) => [...gates].some((gate) => gate < 0 || before[gate] === 1);
}
