// @ts-check
/** What is said of rows of a run that is there as text. */
import { Meaningless, evaluate, number } from "./formulas.js";
import { acts, results } from "./sentences.js";

/**
 * @param {any} words
 * @param {any} design
 * @param {string[]} digits  a digit for each net, row by row
 * @param {number[]} which  the rows that are told
 * @param {Record<string, string>} texts  the operands
 */
export function runSentences(words, design, digits, which, texts) {
  const rows = digits.map((row) => Uint8Array.from(row, Number));
  const operands = Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, BigInt(text)]));
  const value = (/** @type {any[]} */ formula) => {
    try {
      const found = evaluate(formula, { design, rows, operands });
      return typeof found === "boolean" ? BigInt(found) : number(found);
    } catch (wrong) {
      if (wrong instanceof Meaningless) return null;
      throw wrong;
    }
  };
  return which.map((k) =>
    [acts(words, design, rows, k), results(words, design, rows, k, value)].filter(Boolean).join(" "));
}
