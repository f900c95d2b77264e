// @ts-check
/** A page in its preview: the stage, and what keeps the page up to date. */
import "./inside.js";
import "./stage.js";
import "./preview.js";
