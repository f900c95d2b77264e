// @ts-check
/** Tells runs, one line of JSON in, one out: what the stage says of each of their rows. */
import { createInterface } from "node:readline";
import { runSentences } from "./run_sentences.js";
import { Words } from "./words.js";

createInterface({ input: process.stdin }).on("line", (line) => {
  const { design, rows, operands, words } = JSON.parse(line);
  console.log(JSON.stringify(runSentences(new Words(words), design, rows, [...rows.keys()], operands)));
});
