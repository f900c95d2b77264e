// @ts-check
/** Making elements of a page: texts are always set as text, never read as markup. */

/** @typedef {Record<string, string | number | boolean | ((event: any) => void)>} Attributes */

/** The namespace of SVG. */
export const SVG = "http://www.w3.org/2000/svg";

/**
 * @template {Element} T
 * @param {T} element @param {Attributes} attributes @param {(Node | string)[]} children
 */
function filled(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (typeof value === "boolean") element.toggleAttribute(name, value);
    else element.setAttribute(name, String(value));
  }
  element.append(...children);
  return element;
}

/**
 * An element of HTML; a function among the attributes listens to the event of its name.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {Attributes} [attributes] @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, attributes = {}, ...children) {
  return filled(document.createElement(tag), attributes, children);
}

/**
 * An element of SVG.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag @param {Attributes} [attributes] @param {...(Node | string)} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function s(tag, attributes = {}, ...children) {
  return filled(document.createElementNS(SVG, tag), attributes, children);
}

/**
 * Sets an attribute, unless it is so already.
 * @param {Element} element @param {string} name @param {string} value
 */
export function set(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

/** What bits are called in class names. */
export const KINDS = ["zero", "one", "unknown"];
