// @ts-check
/** Codes: which number a word stands for, and which word a number has; as `edgewise.codes`. */

/** @typedef {"unsigned" | "twos-complement" | "ones-complement" | "sign-magnitude" | "bcd" | "gray"} Code */

const SIGNED = ["twos-complement", "ones-complement", "sign-magnitude"];

/**
 * The code of a word, if it is not unsigned.
 * @param {{coded?: [number[], Code][]}} design @param {number[]} nets  LSB first
 */
export function codeOf(design, nets) {
  const same = (/** @type {number[]} */ of) => of.length === nets.length && of.every((net, i) => net === nets[i]);
  return (design.coded || []).find(([of]) => same(of))?.[1];
}

/**
 * The number that bits stand for, as it is written; the bits where it is that of none.
 * @param {string} bits  MSB left, all known @param {Code} [code]
 */
export function written(bits, code) {
  const number = numberOf(BigInt(`0b${bits}`), bits.length, code);
  return number === null ? bits : String(number);
}

/** Whether a code has numbers below 0. @param {Code} [code] */
export function signed(code) {
  return SIGNED.includes(code || "unsigned");
}

/**
 * The least and the largest number in a word.
 * @param {number} width @param {Code} [code]
 * @returns {[bigint, bigint]}
 */
export function range(width, code) {
  const all = 1n << BigInt(width), half = all / 2n;
  if (code === "bcd") return [0n, 10n ** BigInt(width / 4) - 1n];
  if (!signed(code)) return [0n, all - 1n];
  return [code === "twos-complement" ? -half : 1n - half, half - 1n];
}

/**
 * The word of a number, as bits of weight 1, 2, 4 and so on.
 * @param {bigint} number @param {number} width @param {Code} [code]
 */
export function pattern(number, width, code) {
  switch (code) {
    case "ones-complement": return BigInt.asUintN(width, number < 0n ? number - 1n : number);
    case "sign-magnitude": return number < 0n ? (1n << BigInt(width - 1)) - number : number;
    case "bcd": return BigInt(`0x${number}`);
    case "gray": return number ^ (number >> 1n);
    default: return BigInt.asUintN(width, number);
  }
}

/**
 * The number of a word; nothing for one with a BCD digit above 9.
 * @param {bigint} word @param {number} width @param {Code} [code]
 * @returns {bigint | null}
 */
export function numberOf(word, width, code) {
  const two = width ? BigInt.asIntN(width, word) : 0n;
  switch (code) {
    case "twos-complement": return two;
    case "ones-complement": return two < 0n ? two + 1n : two;
    case "sign-magnitude": return two < 0n ? -BigInt.asUintN(width - 1, word) : word;
    case "bcd": return /[a-f]/.test(word.toString(16)) ? null : BigInt(word.toString(16));
    case "gray": {
      let number = word;
      for (let rest = word >> 1n; rest; rest >>= 1n) number ^= rest;
      return number;
    }
    default: return word;
  }
}
