// @ts-check
/** A page in its preview: the stage, and what keeps the page up to date. */
import "./stage.js";
import "./preview.js";
