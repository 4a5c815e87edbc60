// @ts-check
import { all, first, held, on, root, said, shown } from "./page.js";
import { keep, state } from "./keep.js";

/** Choosing: size, units, width of cloth, colourway. A size is there already and only shown; what other views say is unpacked and put in
 * the place of what differs. */

/** What stands at one place in each other view: markup, the number of an earlier one that says the same, or null where it is as in the
 * first. @typedef {(string | number | null)[]} Row */

/** @type {(() => void)[]} */
export const onChoice = [];
/** @type {Row[] | null} */
let pack = null;
/** What stands at each place in the first view, and what is shown there. @type {string[]} */
const own = [];
/** @type {string[]} */
let now = [];

/** What differs in other views, by number and view. */
async function unpacked() {
  if (!pack) {
    const packed = Uint8Array.from(atob(held("pack")), (letter) => letter.charCodeAt(0));
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
    pack = await new Response(stream).json();
  }
  return /** @type {Row[]} */ (pack);
}

/** The number of the view that is chosen. */
export const view = (at = root.dataset) => said.views[`${at.u} ${at.w} ${at.c}`] || 0;

/** Show the view that is chosen, also if that was while it was unpacked; what lies in a size that is not shown waits until it is. */
async function see() {
  if (!view() && !pack) return;
  const places = await unpacked();
  const mould = document.createElement("template");
  const hidden = new Set(all(".sized").filter((size) => !shown(size)));
  for (const spot of all("[data-a]")) {
    const n = +/** @type {string} */ (spot.dataset.a);
    const row = places[n];
    const there = row[view() - 1]; // markup, or the number of the view that says the same
    const markup = /** @type {string} */ (row[/** @type {number} */ (there)] || there || own[n]);
    if (now[n] === markup || hidden.has(/** @type {HTMLElement} */ (spot.closest(".sized")))) continue;
    now[n] = markup;
    const within = spot.parentElement?.closest("svg");
    mould.innerHTML = within ? `<svg>${markup}</svg>` : markup;
    const fresh = /** @type {HTMLElement} */ (first(within ? "svg>*" : "*", mould.content));
    fresh.dataset.a = "" + n;
    if (spot.dataset.l) spot.ariaLabel = fresh.ariaLabel; // it is only called otherwise
    else spot.replaceWith(fresh);
  }
}

/** Show what is chosen. */
export async function apply() {
  for (const box of /** @type {HTMLSelectElement[]} */ (all("[data-axis]"))) {
    const axis = box.dataset.axis || "";
    const value = state.choice[axis] || 0;
    box.selectedIndex = value < box.length ? value : 0;
    root.dataset[axis] = box.value;
  }
  await see();
  for (const act of onChoice) act();
}

/** Choose, keeping the eye where it was. @param {string} axis @param {number} value */
export async function choose(axis, value) {
  state.choice[axis] = value;
  keep();
  const seen = all("main h2, main h3, main .card, main tr").find((spot) => shown(spot) && spot.getBoundingClientRect().bottom > 60);
  const top = seen?.getBoundingClientRect().top || 0;
  await apply();
  if (seen && shown(seen)) scrollBy({ top: seen.getBoundingClientRect().top - top, behavior: "instant" });
}

/** Follow the address to what it names, in whichever size that is. */
export async function follow() {
  const spot = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!spot) return;
  const sized = /** @type {HTMLElement | null} */ (spot.closest("[data-s]:not(html)"));
  if (sized && !shown(sized)) await choose("s", +/** @type {any} */ (sized.dataset.s).split(" ").pop());
  spot.scrollIntoView();
}

/** Listen to the choices. */
export function hearChoices() {
  for (const spot of all("[data-a]")) own[+/** @type {string} */ (spot.dataset.a)] = spot.outerHTML; // as it is before anything is made of it
  now = [...own];
  for (const box of /** @type {HTMLSelectElement[]} */ (all("[data-axis]"))) {
    const axis = box.dataset.axis || "";
    if ("uwc".includes(axis) && !("DecompressionStream" in window)) /** @type {HTMLElement} */ (box.parentElement).hidden = true;
    on(box, "change", () => choose(axis, +box.value));
  }
  addEventListener("hashchange", follow);
}
