// @ts-check
import { all, held, root, said, shown } from "./page.js";
import { keep, state } from "./keep.js";

/** Choosing: size, units, width of cloth. A size is there already and only shown; what other views say is unpacked and put in
 * the place of what differs. */

/** @type {(() => void)[]} */
export const afterChoice = [];
/** @type {(string | number | null)[][] | null} */
let pack = null;
/** @type {Map<number, string>} */
const own = new Map();
let view = 0;

/** What differs in other views, by number and view. */
async function unpacked() {
  if (!pack) {
    const packed = Uint8Array.from(atob(held("pack")), (letter) => letter.charCodeAt(0));
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate"));
    pack = await new Response(stream).json();
  }
  return /** @type {(string | number | null)[][]} */ (pack);
}

/** What stands at a place in a view, null where it is as in the first. @param {(string | number | null)[]} place @param {number} of */
function source(place, of) {
  const found = of ? place[of - 1] : null;
  return typeof found === "number" ? /** @type {string} */ (place[found]) : found;
}

/** Show another view. @param {number} next */
async function see(next) {
  if (next === view) return;
  const places = await unpacked();
  const before = view;
  view = next;
  const spots = new Map(all("[data-a]").map((spot) => [Number(spot.dataset.a), spot]));
  const mould = document.createElement("template");
  places.forEach((place, number) => {
    const spot = spots.get(number);
    const text = source(place, next);
    if (!spot || text === source(place, before)) return;
    if (!own.has(number)) own.set(number, spot.outerHTML);
    const within = spot instanceof SVGElement && spot.localName !== "svg";
    const markup = text === null ? /** @type {string} */ (own.get(number)) : text;
    mould.innerHTML = within ? `<svg>${markup}</svg>` : markup;
    const fresh = /** @type {HTMLElement} */ (within ? mould.content.firstElementChild?.firstElementChild : mould.content.firstElementChild);
    fresh.dataset.a = String(number);
    spot.replaceWith(fresh);
  });
}

/** Show what is chosen. */
export async function apply() {
  for (const select of all("[data-axis]")) {
    const box = /** @type {HTMLSelectElement} */ (select);
    const value = state.choice[box.dataset.axis || ""] || 0;
    box.value = String(value < box.options.length ? value : 0);
    if (box.dataset.axis === "s") root.dataset.s = box.value;
  }
  const chosen = ["u", "w"].map((axis) => /** @type {HTMLSelectElement | null} */ (document.querySelector(`[data-axis="${axis}"]`))?.value || "0");
  await see(said.views[chosen.join(" ")] || 0);
  for (const act of afterChoice) act();
}

/** Choose, keeping the eye where it was. @param {string} axis @param {number} value */
export async function choose(axis, value) {
  state.choice[axis] = value;
  keep();
  const seen = all("main h2, main h3, main .card, main tr").find((spot) => shown(spot) && spot.getBoundingClientRect().bottom > 60);
  const top = seen ? seen.getBoundingClientRect().top : 0;
  await apply();
  if (seen && seen.isConnected && shown(seen)) scrollBy({ top: seen.getBoundingClientRect().top - top, behavior: "instant" });
}

/** Follow the address to what it names, in whichever size that is. */
export async function follow() {
  const spot = location.hash.length > 1 ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
  if (!spot) return;
  const sized = /** @type {HTMLElement | null} */ (spot.closest("[data-s]:not(html)"));
  if (sized && !shown(sized)) await choose("s", Number((sized.dataset.s || "0").split(" ").pop()));
  spot.scrollIntoView();
}

/** Listen to the choices. */
export function listenToChoices() {
  for (const select of all("[data-axis]")) {
    const box = /** @type {HTMLSelectElement} */ (select);
    if (box.dataset.axis !== "s" && !("DecompressionStream" in window)) /** @type {HTMLElement} */ (box.parentElement).hidden = true;
    box.addEventListener("change", () => choose(box.dataset.axis || "", Number(box.value)));
  }
  addEventListener("hashchange", follow);
}
