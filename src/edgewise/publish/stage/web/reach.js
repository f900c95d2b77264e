// @ts-check
/** Boxes that are wider than the page: the answer is in view first. */

/** Scrolls a table sideways, if it must be, to the first column of an answer. @param {Element} box */
export function reach(box) {
  const answer = /** @type {HTMLElement | null} */ (box.querySelector("th.answer"));
  if (!answer || box.scrollWidth <= box.clientWidth || box.scrollLeft) return;
  const head = /** @type {HTMLElement | null} */ (box.querySelector('th[scope="row"]'));
  const left = answer.getBoundingClientRect().left - box.getBoundingClientRect().left;
  const shown = left + answer.offsetWidth <= box.clientWidth;
  if (!shown) box.scrollLeft = left - (head?.offsetWidth || 0);
}

/** The tables of a page, those of stages aside. */
export function reachAll() {
  for (const box of document.querySelectorAll(".box:has(> .edge-table)")) reach(box);
}
