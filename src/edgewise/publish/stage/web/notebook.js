// @ts-check
/** The stage in a notebook: the same module, with its row known to Python. */
import { Stage } from "./stage.js";

/**
 * What a notebook hands over.
 * @typedef {object} Model
 * @property {(name: string) => any} get
 * @property {(name: string, value: any) => void} set
 * @property {() => void} save_changes
 * @property {(event: string, act: () => void) => void} on
 * @property {(event: string, act: () => void) => void} off
 */

/**
 * Draws a widget; gives what takes it away again.
 * @param {{model: Model, el: HTMLElement}} given
 */
function render({ model, el }) {
  el.classList.add("edgewise-stage");
  const data = JSON.parse(model.get("stage"));
  data.own.row = model.get("row");
  const stage = new Stage(el, data, { address: "", page: "" });
  const moved = () => {
    if (model.get("row") === stage.row) return;
    model.set("row", stage.row);
    model.save_changes();
  };
  const asked = () => stage.go(model.get("row"), false);
  stage.element.addEventListener("row", moved);
  model.on("change:row", asked);
  return () => {
    model.off("change:row", asked);
    stage.close();
  };
}

export default { render };
