// @ts-check
/**
 * What is said of each row of a run, for who tells it elsewhere than in a page: `edgewise` runs
 * this script by itself, and gives it the words (`telling.py`).
 */
import { Meaningless, evaluate, number } from "./formulas.js";
import { acts, results } from "./sentences.js";

/**
 * @param {string} given  JSON: a design, the digits of its rows, which of them, its operands
 * @param {(name: string, facts: string) => string} say  a message, by its name and facts as JSON
 */
function sentences(given, say) {
  const { design, rows: digits, which, operands: texts } = JSON.parse(given);
  const words = /** @type {any} */ ({
    say: (/** @type {string} */ name, /** @type {object} */ facts = {}) => say(name, JSON.stringify(facts)),
  });
  const rows = digits.map((/** @type {string} */ row) => Uint8Array.from(row, Number));
  const operands = Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, BigInt(/** @type {string} */ (text))]));
  const value = (/** @type {any[]} */ formula) => {
    try {
      const found = evaluate(formula, { design, rows, operands });
      return typeof found === "boolean" ? BigInt(found) : number(found);
    } catch (wrong) {
      if (wrong instanceof Meaningless) return null;
      throw wrong;
    }
  };
  return JSON.stringify(which.map((/** @type {number} */ k) =>
    [acts(words, design, rows, k), results(words, design, rows, k, value)].filter(Boolean).join(" ")));
}

/** @type {any} */ (globalThis).sentences = sentences;
