// @ts-check
/** Fitting: a projected table or timing diagram as large as the screen lets it be. */

/** @typedef {import("./project.js").Shown} Shown */

/** Px of the type of a table; below the least, long words are written as numbers. */
const LARGEST = 26, READABLE = 9, LONG = 12;
/** Part of the screen that a view has at least, if there is a way. */
const CROWDED = 0.4;
/** How much a timing diagram is enlarged. */
const ZOOM = 2, LEAST_ZOOM = 0.6, SCROLLED_ZOOM = 1.2;

/** @param {Shown} stage @param {string} view  the one shown */
export function fit({ element: stage, table, timing }, view) {
  stage.classList.remove("crowded");
  /** @type {Record<string, Element | null>} */
  const parts = {
    diagram: stage.querySelector(".picture"), signals: timing.element, table: table.element,
  };
  const high = parts[view]?.clientHeight || 0;
  // A long ruler on a small screen gives way; what it says stands above.
  stage.classList.toggle("crowded", high < CROWDED * stage.clientHeight);
  if (view === "signals") zoom(timing, stage);
  if (view !== "table") return;
  table.fold(Infinity);
  if (set(table.element, stage) < READABLE) {
    table.fold(LONG);
    set(table.element, stage);
  }
}

/** Enlarges a timing diagram. @param {Shown["timing"]} timing @param {HTMLElement} stage */
function zoom(timing, stage) {
  const { element } = timing, names = timing.names.clientWidth;
  element.style.zoom = "1";
  const wide = room(stage) / (timing.width() + names), high = element.clientHeight / (timing.height + 16);
  // A long run scrolls with the rows.
  const least = wide >= LEAST_ZOOM ? Math.min(wide, high) : Math.min(SCROLLED_ZOOM, high);
  element.style.zoom = String(Math.max(LEAST_ZOOM, Math.min(ZOOM, least)));
}

/**
 * Sets the type of a table so that its width fits; gives its px.
 * @param {HTMLElement} table @param {HTMLElement} stage
 */
function set(table, stage) {
  table.style.fontSize = `${LARGEST}px`;
  const needed = table.firstElementChild?.scrollWidth || 1;
  // All its measures but the hair lines are in ems.
  const px = Math.floor(Math.min(1, room(stage) / needed) * LARGEST * 10) / 10;
  table.style.fontSize = `${px}px`;
  return px;
}

/** Px that a part of the stage may be wide. @param {HTMLElement} stage */
function room(stage) {
  const { paddingLeft, paddingRight } = getComputedStyle(stage);
  return stage.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight) - 2;
}
