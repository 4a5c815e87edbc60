// @ts-check
import { all, button, byId, first, make, on, onClick, say, shown, wordsOf } from "./page.js";
import { onChoice } from "./choose.js";
import { show } from "./enlarge.js";

/** Finding: contents that follow the reader, and a search through what is shown. */

/** What can be a place: sections, and in them sizes. */
const sections = () => all("main > .page, main .sized").filter(shown);

/** The list of places: sections, and in them blocks. */
export function listPlaces() {
  byId("places").replaceChildren(...sections().flatMap((section) => {
    const head = first(":scope > h2, :scope > .size-name", section);
    if (!head || !section.id) return [];
    return [make("li", section.matches(".sized") ? { class: "inner" } : {}, make("a", { href: "#" + section.id }, wordsOf(head)))];
  }));
}

/** The address of the place where the reader is. */
const here = () => "#" + (sections().filter((section) => section.id && section.getBoundingClientRect().top < 140).pop()?.id || "");

/** Mark the place where the reader is. */
function mark() {
  for (const link of all("a", byId("places"))) link.ariaCurrent = link.getAttribute("href") === here() ? "true" : null;
}

/** Find words in what is shown. @param {string} asked */
export function find(asked) {
  const words = asked.toLocaleLowerCase().trim();
  /** @type {HTMLElement[]} */
  const found = [];
  if (words.length > 1) {
    for (const spot of all("main :is(h2, h3, h4, h5, p, li, tr, figcaption, .glossary div)")) {
      if (found.length >= 20) break;
      if ((spot.textContent || "").toLocaleLowerCase().includes(words) && shown(spot) && wordsOf(spot).toLocaleLowerCase().includes(words)) found.push(spot);
    }
  }
  byId("found").replaceChildren(...found.map((spot) => {
    const link = button(wordsOf(spot).slice(0, 110), () => { shut(); show(spot); });
    link.append(make("span", { class: "small" }, where(spot)));
    return make("li", {}, link);
  }));
  if (words.length > 1 && !found.length) byId("found").append(make("li", {}, say("nothing")));
}

/** @param {HTMLElement} spot */
function where(spot) {
  const page = spot.closest(".page");
  const head = page && first(":scope > h2", page);
  return head ? wordsOf(head) : "";
}

/** Close what hangs from the bar. */
export function shut() {
  for (const menu of all("details.menu[open]")) menu.removeAttribute("open");
}

/** Listen to the bar. */
export function hearFind() {
  const box = /** @type {HTMLInputElement} */ (byId("find"));
  on(box, "input", () => find(box.value));
  for (const menu of all("details.menu")) {
    on(menu, "toggle", () => {
      if (!(/** @type {HTMLDetailsElement} */ (menu).open)) return;
      mark();
      if (menu.contains(box)) box.focus();
    });
  }
  for (const link of all(".languages a")) on(link, "click", () => /** @type {HTMLAnchorElement} */ (link).hash = here());
  onClick("places", (event) => { if (event.target.closest("a")) shut(); });
  on(document, "keydown", (event) => {
    const menu = first("details.menu[open]");
    if (event.key === "Escape" && menu) { shut(); /** @type {HTMLElement} */ (first("summary", menu)).focus(); }
  });
  on(document, "pointerdown", (event) => { if (!event.target.closest(".bar, dialog")) shut(); });
  on(document, "scroll", () => { if (!first(".menu :focus")) shut(); }); // who reads on is not in need of it
  onChoice.push(listPlaces);
}
