// @ts-check
/**
 * Keeps a page up to date while its lesson is written: parts that changed are replaced, the
 * others stay as they are, with the row that they show and the place to which one has scrolled.
 */
import { h } from "./elements.js";

/** @typedef {{line: number, key: string, html?: string, said?: string, rows?: number[]}} Told */
/** @typedef {Told & {nodes: ChildNode[]}} Part */
/** @typedef {{line: number, where: string, message: string, details: string}} Fault */
/** @typedef {{line: number, kind: string, where: string, message: string}} Remark */
/** @typedef {{version: number, title: string, head: string, parts: Told[], faults: Fault[], remarks: Remark[]}} State */

const MARK = "part";
/** Milliseconds without a sign of life after which the server counts as lost; it gives one every 2 s. */
const SILENCE = 7000;

/**
 * The nodes behind each mark of a part.
 * @param {Element} main @returns {ChildNode[][]}
 */
function marked(main) {
  /** @type {ChildNode[][]} */
  const found = [];
  for (const node of [...main.childNodes]) {
    if (node.nodeType === Node.COMMENT_NODE && node.nodeValue === MARK) {
      found.push([]);
      node.remove();
    } else if (found.length) found[found.length - 1].push(node);
  }
  return found;
}

/** @param {string} text @returns {ChildNode[]} */
function nodesOf(text) {
  const holder = document.createElement("template");
  holder.innerHTML = text;
  return [...document.importNode(holder.content, true).childNodes];
}

/**
 * Which old part stays for each new one; -1 for one that must be made.
 * @param {{key: string}[]} old @param {{key: string}[]} parts
 */
export function kept(old, parts) {
  const most = Math.min(old.length, parts.length);
  let top = 0, below = 0;
  while (top < most && old[top].key === parts[top].key) top++;
  while (below < most - top && old[old.length - 1 - below].key === parts[parts.length - 1 - below].key) below++;
  let from = top;
  return parts.map((part, i) => {
    if (i < top) return i;
    if (i >= parts.length - below) return old.length - (parts.length - i);
    // In order, so that nothing that stays has to move.
    for (let j = from; j < old.length - below; j++) {
      if (old[j].key !== part.key) continue;
      from = j + 1;
      return j;
    }
    return -1;
  });
}

class Preview {
  constructor() {
    /** @type {HTMLElement} */
    this.main = document.querySelector("main") || document.body;
    const own = /** @type {HTMLElement | null} */ (document.querySelector("script[data-version]"));
    this.version = Number(own?.dataset.version);
    this.first = marked(this.main);
    /** The HTML of every part told so far, by its key. @type {Map<string, string>} */
    this.htmls = new Map();
    /** @type {Part[] | null} */
    this.parts = null;
    /** The last state. @type {State | null} */
    this.state = null;
    /** Seconds that a build has been going on; null if what is shown is up to date. @type {number | null} */
    this.building = null;
    /** Why what is shown may be old, whatever the server said last. */
    this.lost = "";
    /** Why the last state could not be taken in. */
    this.refused = "";
    this.heard = Date.now();
    this.told = h("span");
    this.jump = h("button", { type: "button", click: () => this.toFault() }, "Show");
    this.standing = h("div", { class: "standing", role: "status", hidden: true }, this.told, this.jump);
    this.spoken = h("div", { class: "spoken", role: "status" });
    document.body.append(this.standing, this.spoken);
    this.source = new EventSource("events");
    this.source.onmessage = (event) => {
      this.refused = "";
      try {
        this.take(JSON.parse(event.data));
      } catch (wrong) {
        this.refused = `This page could not take in the last save (${wrong}); reload it.`;
      }
      this.hear();
    };
    this.source.addEventListener("alive", (event) => {
      this.building = JSON.parse(event.data);
      this.hear();
    });
    this.source.onerror = () => this.lose("The preview has ended, or lost its server: is edgewise watch still running?");
    setInterval(() => {
      if (Date.now() - this.heard > SILENCE) this.lose("The preview does not answer: this page may be old. Is edgewise watch still running?");
    }, 1000);
  }

  /** The server lives. */
  hear() {
    this.heard = Date.now();
    this.lost = "";
    this.stand();
  }

  /** @param {string} why */
  lose(why) {
    this.lost = why;
    this.stand();
  }

  /** @param {State} state */
  take(state) {
    for (const { key, html } of state.parts) {
      if (html !== undefined) this.htmls.set(key, html);
    }
    const now = new Set(state.parts.map(({ key }) => key));
    for (const key of this.htmls.keys()) if (!now.has(key)) this.htmls.delete(key);
    if (!this.parts) this.adopt(state);
    this.show(state);
    this.notes();
    this.state = state;
    document.documentElement.dataset.version = String(state.version);
  }

  /** Takes the parts that came with the page as they stand. @param {State} state */
  adopt(state) {
    const same = state.version === this.version && this.first.length === state.parts.length;
    if (same) {
      this.parts = state.parts.map((part, i) => ({ ...part, nodes: this.first[i] }));
      return;
    }
    this.parts = this.first.map((nodes) => ({ line: 0, key: "", nodes }));
  }

  /** @param {State} state */
  show(state) {
    const old = this.parts || [], stays = kept(old, state.parts);
    const held = this.hold(stays);
    this.main.querySelectorAll(":scope > .fault, :scope > .remark").forEach((told) => told.remove());
    const still = new Set(stays);
    old.forEach((part, i) => {
      if (!still.has(i)) part.nodes.forEach((node) => node.remove());
    });
    /** @type {ChildNode | null} */
    let next = null;
    /** @type {Part[]} */
    const parts = state.parts.map((part, i) => ({
      ...part, nodes: stays[i] < 0 ? nodesOf(this.htmls.get(part.key) || "") : old[stays[i]].nodes,
    }));
    for (let i = parts.length - 1; i >= 0; i--) {
      const { nodes } = parts[i];
      if (stays[i] < 0) {
        const holder = document.createDocumentFragment();
        holder.append(...nodes);
        this.main.insertBefore(holder, next);
        if (old.length) nodes.forEach((node) => node instanceof HTMLElement && node.classList.add("fresh"));
      }
      next = nodes[0] || next;
    }
    this.parts = parts;
    this.head(state);
    this.remark(state.remarks);
    this.blame(state.faults);
    held();
  }

  /**
   * Remembers where something that stays is on the screen, to put it back there.
   * @param {number[]} stays
   */
  hold(stays) {
    const still = new Set(stays);
    const seen = (this.parts || []).filter((_, i) => still.has(i)).flatMap((part) => part.nodes)
      .find((node) => node instanceof Element && node.getBoundingClientRect().bottom > 0);
    if (!(seen instanceof Element)) return () => {};
    const before = seen.getBoundingClientRect().top;
    return () => {
      const moved = seen.getBoundingClientRect().top - before;
      if (Math.abs(moved) > 1 && scrollY > 0) scrollBy({ top: moved, behavior: "instant" });
    };
  }

  /** @param {State} state */
  head(state) {
    document.title = state.title;
    const header = document.querySelector("header");
    const title = header?.querySelector("h1");
    if (title && title.textContent !== state.title) title.textContent = state.title;
    const facts = header?.querySelector(".facts");
    if (!facts) header?.append(...nodesOf(state.head));
    else if (facts.outerHTML !== state.head) facts.replaceWith(...nodesOf(state.head));
  }

  /**
   * Puts what is said of a line before the part in which that line is; of line 0, before `top`.
   * @param {number} line @param {HTMLElement} told @param {ChildNode | null} [top]
   */
  put(line, told, top = null) {
    /** @type {Part[]} */
    const parts = this.parts || [];
    let at = 0;
    if (line) while (at + 1 < parts.length && parts[at + 1].line <= line) at++;
    const next = parts.slice(at).flatMap((part) => part.nodes)[0] || null;
    this.main.insertBefore(told, line ? next : top);
  }

  /** Puts each remark at its line; they are read aloud only when they have changed. @param {Remark[]} remarks */
  remark(remarks) {
    for (const { line, kind, where, message } of remarks) {
      const [first, ...rest] = kind;
      this.put(line, h("div", { class: `remark ${kind}`, role: "note" },
        h("b", {}, `${first.toUpperCase()}${rest.join("")}: `), message, where && h("span", {}, ` ${where}`)));
    }
    const aloud = remarks.map(({ kind, message }) => `${kind}: ${message}`).join(" ");
    if (this.spoken.textContent !== aloud) this.spoken.textContent = aloud;
  }

  /** Puts each error at its line, what there is to look at below it. @param {Fault[]} faults */
  blame(faults) {
    const top = this.main.firstChild;
    for (const { line, where, message, details } of faults) {
      const told = h("div", { role: "alert" });
      if (where) told.append(h("b", {}, `${where}: `));
      told.append(message);
      const fault = h("div", { class: "fault" }, told);
      if (details) fault.append(h("pre", { class: "box", role: "group", tabindex: 0, "aria-label": "The rows to look at" }, details));
      this.put(line, fault, top);
    }
  }

  /** Says at the foot of the page why it does not show the last save, if it does not. */
  stand() {
    const faults = this.state?.faults.length || 0;
    const many = faults === 1 ? "An error" : `${faults} errors`;
    const last = this.parts?.length ? "; the page shows the last version that was right." : ".";
    const wrong = faults ? `${many}${last}` : "";
    const seconds = this.building === null ? "" : this.building < 2 ? "…" : `, ${Math.floor(this.building)} s so far`;
    const busy = this.building === null ? "" : `Building the last save${seconds}`;
    const told = this.lost || this.refused || [wrong, busy].filter(Boolean).join(" ");
    if (this.told.textContent !== told) this.told.textContent = told;
    this.jump.hidden = !faults || Boolean(this.lost || this.refused);
    this.standing.classList.toggle("busy", !this.lost && !this.refused && !faults);
    this.standing.hidden = !told;
  }

  toFault() {
    this.main.querySelector(".fault")?.scrollIntoView({ block: "center" });
  }

  /** Gives each stage what is said from it on, up to the next one. */
  notes() {
    /** @type {any} */
    let stage = null;
    /** @type {{text: string, rows: number[]}[]} */
    let early = [];
    for (const part of this.parts || []) {
      for (const node of part.nodes) {
        if (!(node instanceof Element) || node.localName !== "edgewise-stage") continue;
        stage = node;
        stage.notes = early;
        early = [];
      }
      if (part.said) (stage ? stage.notes : early).push({ text: part.said, rows: part.rows || [] });
    }
    dispatchEvent(new Event("edgewise-notes"));
  }
}

if (document.querySelector("script[data-version]")) new Preview();
