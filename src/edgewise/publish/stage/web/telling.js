// @ts-check
/**
 * What is said of each row of a run, for who tells it elsewhere than in a page: `edgewise` runs
 * this script by itself, and gives it the words (`telling.py`).
 */
import { runSentences } from "./run_sentences.js";

/**
 * @param {string} given  JSON: a design, the digits of its rows, which of them, its operands
 * @param {(name: string, facts: string) => string} say  a message, by its name and facts as JSON
 */
function sentences(given, say) {
  const { design, rows, which, operands } = JSON.parse(given);
  const words = {
    say: (/** @type {string} */ name, /** @type {object} */ facts = {}) => say(name, JSON.stringify(facts)),
  };
  return JSON.stringify(runSentences(words, design, rows, which, operands));
}

/** @type {any} */ (globalThis).sentences = sentences;
