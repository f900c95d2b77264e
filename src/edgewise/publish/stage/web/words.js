// @ts-check
/** Messages: what is said to learners, by name; the page holds those of its language. */
import { FluentBundle, FluentNumber, FluentResource } from "@fluent/bundle";

/** @typedef {Record<string, number | string>} Facts */

/** The messages of one language, as `edgewise.words.messages` has them. */
export class Words {
  /** @param {{language: string, messages: string}} told */
  constructor({ language, messages }) {
    this.bundle = new FluentBundle(language, { useIsolating: false });
    this.bundle.addResource(new FluentResource(messages));
  }

  /**
   * Say a message; one that is not there, or lacks a fact, is a mistake of ours.
   * @param {string} name
   * @param {Facts} [facts]
   */
  say(name, facts = {}) {
    const pattern = this.bundle.getMessage(name)?.value;
    if (!pattern) throw new Error(`no message ${name}`);
    /** @type {Record<string, FluentNumber | string>} */
    const plain = {};
    for (const [fact, value] of Object.entries(facts)) {
      // 1024, not 1,024: as it stands in a run.
      plain[fact] = typeof value === "number" ? new FluentNumber(value, { useGrouping: false }) : value;
    }
    return this.bundle.formatPattern(pattern, plain);
  }
}
