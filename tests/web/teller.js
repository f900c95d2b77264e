// @ts-check
/** Tells runs, one line of JSON in, one out: what the stage says of each of their rows. */
import { createInterface } from "node:readline";
import { Meaningless, evaluate, number } from "./formulas.js";
import { acts, results } from "./sentences.js";
import { Words } from "./words.js";

createInterface({ input: process.stdin }).on("line", (line) => {
  const { design, rows: given, operands: texts, words: told } = JSON.parse(line);
  const words = new Words(told);
  const rows = given.map((/** @type {string} */ row) => Uint8Array.from(row, Number));
  const operands = Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, BigInt(/** @type {string} */ (text))]));
  const said = rows.map((/** @type {Uint8Array} */ _, /** @type {number} */ k) => {
    const value = (/** @type {any[]} */ formula) => {
      try {
        const found = evaluate(formula, { design, rows, operands });
        return typeof found === "boolean" ? BigInt(found) : number(found);
      } catch (wrong) {
        if (wrong instanceof Meaningless) return null;
        throw wrong;
      }
    };
    return [acts(words, design, rows, k), results(words, design, rows, k, value)].filter(Boolean).join(" ");
  });
  console.log(JSON.stringify(said));
});
