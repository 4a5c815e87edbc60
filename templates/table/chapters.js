// @ts-check
import { all, beyond, byId, first, make, on, root, said, say } from "./page.js";
import { recall } from "./keep.js";
import { onChoice, view } from "./choose.js";
import { renew } from "./ticks.js";
import { open, steps } from "./step.js";
import { offer, show, waysTo } from "./enlarge.js";
import { find } from "./find.js";

/** A booklet of several pages: what leads from one chapter to another, and how all of them are kept on the device. It is only in sites,
 * after all other modules. */

/** @typedef {{titles: [string, string][], ticks: string[][][], views: number[], pieces: Record<string, [number, string][]>, words: [number, string, string][]}} Places */

const places = /** @type {Places} */ (/** @type {any} */ (globalThis).booklet);

/** Whether what is told for some sizes is among what is chosen. @param {string} sizes */
const chosen = (sizes) => !sizes || sizes.split(" ").includes(root.dataset.s || "0");

/** The ticks or counts of a kind in all chapters. @param {string} kind */
const marks = (kind) => places.ticks[places.views[view()]].filter(([key, sizes]) => key.startsWith(kind + "/") && chosen(sizes));

/** The other chapters among some places, each once. @param {[number, string, ...any[]][]} spots */
const others = (spots) => [...new Set(spots.filter(([chapter, sizes]) => chapter !== said.chapter && chosen(sizes)).map(([chapter]) => places.titles[chapter]))];

Object.assign(beyond, said.ways);
beyond.ticks = (kind) => (kind === "task" ? null : marks("tick/" + kind).map(([key]) => key));
beyond.counts = () => marks("count").map(([key, , title]) => [key, title]);
beyond.leads = (letter) => others(places.pieces[letter] || []).map(([file, title]) => [title, () => location.assign(file + "#piece=" + encodeURIComponent(letter))]);

/** Add the chapters in which words stand to those found in this one. */
function findOn() {
  const asked = /** @type {HTMLInputElement} */ (byId("find")).value.toLocaleLowerCase().trim();
  const spots = asked.length > 1 ? others(places.words.filter(([, , text]) => text.includes(asked))) : [];
  if (spots.length && !first("button", byId("found"))) byId("found").replaceChildren();
  byId("found").append(...spots.map(([file, title]) => make("li", {}, make("a", { href: file + "#find=" + encodeURIComponent(asked) }, title))));
}

/** Do what the address asks for: the table, a piece, or words. */
function arrive() {
  const [, kind, value] = /^#(at-table|at-table-end|piece|find)(?:=(.*))?$/.exec(location.hash) || [];
  if (!kind) return;
  history.replaceState(null, "", location.pathname + location.search); // so that it is done once
  if (kind.startsWith("at")) return open(kind === "at-table" ? steps()[0] : steps().pop());
  const asked = decodeURIComponent(value || "");
  if (kind === "find") {
    const box = /** @type {HTMLInputElement} */ (byId("find"));
    box.value = asked;
    find(asked);
    findOn();
    box.closest("details")?.setAttribute("open", "");
    return;
  }
  const ways = [...waysTo(asked)];
  if (ways.length === 1) show(ways[0][1]);
  else offer(asked, ways.map(([words, spot]) => [words, () => show(spot)]));
}

/** Show what was ticked and chosen in another chapter meanwhile. */
function refresh() {
  recall();
  renew();
}

/** Keep the booklet on the device, and say so when it was renewed under the reader's eyes. */
function keepAll() {
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  const { serviceWorker } = navigator;
  const before = serviceWorker.controller;
  on(serviceWorker, "controllerchange", () => {
    if (before && !first(".renewed")) document.body.append(make("p", { class: "renewed", role: "status" }, make("a", { href: location.href.split("#")[0] }, said.says.renewed)));
  });
  serviceWorker.register("worker.js", { updateViaCache: "none" }).catch(() => {}); // without one it works while there is a network
}

on(byId("find"), "input", findOn);
on(window, "storage", refresh);
on(window, "pageshow", (event) => event.persisted && refresh());
if (byId("at-table").hidden && said.ways.first) {
  byId("at-table").hidden = false;
  on(byId("at-table"), "click", () => location.assign(said.ways.first));
}
if (said.chapter) first("details")?.removeAttribute("open"); // the title page asks for the size, the others do not
let come = false;
onChoice.push(() => { if (!come) arrive(); come = true; });
on(window, "hashchange", arrive);
for (const link of all(`#chapters a[href="${places.titles[said.chapter][0]}"]`)) link.setAttribute("aria-current", "page");
keepAll();
