// @ts-check
/** The teacher's second window: what to say at the row that is projected. It moves rows too. */
import { h } from "./elements.js";

/** @typedef {{title: string, when: string, told: string, notes: string[]}} Showing */

const channel = new BroadcastChannel("edgewise-notes");
const main = document.querySelector("main") || document.body;

/** @param {Showing} showing */
function show({ title, when, told, notes }) {
  document.title = `Notes: ${when || title}`;
  main.replaceChildren(
    h("h1", {}, title),
    ...(when ? [h("p", { class: "when" }, when)] : []),
    ...(notes.length ? notes.map((text) => h("p", { class: "note" }, text))
      : [h("p", { class: "note" }, "No notes for this row.")]),
    h("p", { class: "told" }, told),
    h("p", { class: "keys" }, "← → Home End move the row here too."),
  );
}

channel.onmessage = (/** @type {MessageEvent} */ { data }) => data.showing && show(data.showing);
addEventListener("keydown", (event) => {
  if (!/^(Arrow(Left|Right|Up|Down)|Home|End)$/.test(event.key)) return;
  event.preventDefault();
  channel.postMessage({ key: event.key });
});
main.replaceChildren(h("p", { class: "note" }, "Project a stage; the notes follow it."));
channel.postMessage({ ask: true });
