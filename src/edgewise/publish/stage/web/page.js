// @ts-check
/** A page with a stage: the element knows by itself what to do. */
import "./inside.js";
import "./stage.js";
