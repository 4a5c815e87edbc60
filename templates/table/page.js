// @ts-check
/** The page: its elements, its words, and small helpers that all modules use. */

/** @typedef {{key: string, say: Record<string, string>, views: Record<string, number>, chapter: number, ways: {before: string, after: string, first: string}, says: Record<string, string>}} Said */
/** @typedef {{before?: string, after?: string, ticks?: (kind: string) => string[] | null, counts?: () => string[][], leads?: (letter: string) => [string, () => void][]}} Beyond */

/** The element of an id, which the page always has. @template {HTMLElement} [T=HTMLElement] @param {string} id @returns {T} */
export const byId = (id) => /** @type {T} */ (document.getElementById(id));

/** Elements by a selector. @template {Element} [T=HTMLElement] @param {string} selector @param {ParentNode} [within] @returns {T[]} */
export const all = (selector, within = document) => /** @type {T[]} */ ([...within.querySelectorAll(selector)]);

/** The first element of a selector. @param {string} selector @param {ParentNode} [within] @returns {HTMLElement | null} */
export const first = (selector, within = document) => within.querySelector(selector);

/** What the page holds for us beside its text. @param {string} name */
export function held(name) {
  return document.querySelector(`body > script#${name}`)?.textContent || "";
}

/** The picture that an element holds, if any. @param {ParentNode} within @param {string} [selector] @returns {SVGSVGElement | null} */
export const svgIn = (within, selector = "svg") => within.querySelector(selector);

/** @type {Said} */
export const said = JSON.parse(held("said"));
export const root = document.documentElement;
/** What other pages of the booklet hold, where it has several (`chapters.js`). @type {Beyond} */
export const beyond = {};

/** What the page says, with its values. @param {string} name @param {Record<string, string | number>} [values] */
export const say = (name, values = {}) => said.say[name].replace(/\{(\w+)\}/g, (_, key) => "" + values[key]);

/** A new element with attributes and what is in it. @param {string} tag @param {Record<string, any>} [attributes] @param {(Node | string)[]} inner */
export function make(tag, attributes = {}, ...inner) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...inner);
  return made;
}

/** Whether an element is among what is chosen. @param {Element} element */
export const shown = (element) => element.checkVisibility();

/** Where a finger or a pointer is. @param {{clientX: number, clientY: number}} event */
export const spotOf = (event) => [event.clientX, event.clientY];

/** Listen. @param {EventTarget} to @param {string} what @param {(event: any) => void} act @param {AddEventListenerOptions} [how] */
export const on = (to, what, act, how) => to.addEventListener(what, act, how);

/** Act when an element of the page is clicked. @param {string} id @param {(event: any) => void} act */
export const onClick = (id, act) => on(byId(id), "click", act);

/** The key of a kind that an element bears, or "". @param {HTMLElement} element @param {string} kind */
export const keyOf = (element, kind) => (element.dataset.of || "").split(" ").find((key) => key.startsWith(kind + "/")) || "";

/** A button. @param {string} words @param {() => void} act @param {Record<string, string>} [attributes] @returns {HTMLElement} */
export function button(words, act, attributes) {
  const made = make("button", { type: "button", ...attributes }, words);
  on(made, "click", act);
  return made;
}

/** The words of an element, in one line, as they are seen. @param {Element} element */
export const wordsOf = (element) => {
  const copy = /** @type {Element} */ (element.cloneNode(true));
  for (const unseen of all("[data-s]", copy)) if (!unseen.matches(`[data-s~="${root.dataset.s}"]`)) unseen.remove();
  for (const mark of all(".sr, .ours, svg, button", copy)) mark.remove();
  for (const cell of all(":is(td, th) + :not(.tick-cell)", copy)) cell.prepend(" · "); // or 1, 1 and 6 in were read as 116 in
  return (copy.textContent || "").replace(/\s+/g, " ").trim();
};

/** Ask, with an answer for each choice. @param {string} question @param {[string, () => void][]} answers */
export function ask(question, answers) {
  const box = /** @type {HTMLDialogElement} */ (byId("ask"));
  byId("question").textContent = question;
  byId("answers").replaceChildren(...answers.map(([words, act]) => button(words, () => { box.close(); act(); })));
  box.showModal();
}

/** A copy of a picture in which nothing refers to what other pictures have alike. @param {SVGElement} picture */
export function spread(picture) {
  const copy = /** @type {SVGSVGElement} */ (picture.cloneNode(true));
  for (const use of all('use[href^="#_p"]', copy)) {
    const kept = document.getElementById((use.getAttribute("href") || "").slice(1));
    if (kept) use.replaceWith(...kept.cloneNode(true).childNodes);
  }
  return copy;
}
