// @ts-check
import { all, button, byId, first, make, pictureIn, say, shown, unfolded, wordsOf } from "./page.js";
import { choose, follow } from "./choose.js";

/** Pictures: enlarged to the whole screen, moved and brought nearer; and from a piece to all that is told of it. */

let scale = 1;
let place = [0, 0];
/** @type {Map<number, number[]>} */
const fingers = new Map();

const large = () => /** @type {HTMLDialogElement} */ (byId("large"));

/** Lay the picture as it is to be seen. */
function lay() {
  const picture = pictureIn(byId("pane"));
  if (picture) picture.style.transform = `translate(${place[0]}px,${place[1]}px) scale(${scale})`;
}

/** Nearer or farther, about a point of the pane. @param {number} by @param {number} [x] @param {number} [y] */
function zoom(by, x = byId("pane").clientWidth / 2, y = byId("pane").clientHeight / 2) {
  const now = Math.max(1, Math.min(12, scale * by));
  const ratio = now / scale;
  place = now === 1 ? [0, 0] : [x - (x - place[0]) * ratio, y - (y - place[1]) * ratio];
  scale = now;
  lay();
}

/** Show a picture over the whole screen. @param {SVGSVGElement | null} picture */
function enlarge(picture) {
  if (!picture) return;
  const copy = unfolded(picture);
  copy.removeAttribute("width");
  copy.removeAttribute("height");
  byId("pane").replaceChildren(copy);
  [scale, place] = [1, [0, 0]];
  lay();
  large().showModal();
  byId("pane").focus();
}

/** A button at each picture that has something to look at. */
export function offerLarge() {
  for (const figure of all("main figure")) {
    const picture = pictureIn(figure, ":scope > svg");
    if (!picture || figure.matches(".thumb") || first(":scope > .enlarge", figure)) continue;
    const caption = first(".fig-n", figure);
    const name = caption ? wordsOf(caption) : (picture.getAttribute("aria-label") || "").slice(0, 60);
    figure.append(button("", () => enlarge(pictureIn(figure)), { class: "enlarge ours", "aria-label": say("enlarge", { what: name }) }));
  }
  for (const figure of all(".block-picture")) {
    if (first(".pieces", figure)) continue;
    const letters = Object.fromEntries(all(".places [data-of]", figure).map((spot) => [firstKey(spot, "patch/"), spot]));
    const links = Object.entries(letters).sort().map(([key, spot]) => button(key.slice(6), () => lead(figure, spot.dataset.of || ""), { "aria-label": say("piece", { what: key.slice(6) }) }));
    if (links.length) figure.append(make("p", { class: "pieces ours" }, say("pieces") + " ", ...links));
    figure.addEventListener("click", (event) => {
      const spot = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest(".places [data-of]"));
      if (spot) lead(figure, spot.dataset.of || "");
    });
  }
}

/** The first key of a kind. @param {HTMLElement} element @param {string} kind */
const firstKey = (element, kind) => (element.dataset.of || "").split(" ").find((key) => key.startsWith(kind)) || "";

/** Show where a piece is told of: its template, its rows of cutting, its steps. @param {HTMLElement} figure @param {string} keys */
function lead(figure, keys) {
  const box = /** @type {HTMLDialogElement} */ (byId("ask"));
  const said = keys.split(" ");
  const letter = (said.find((key) => key.startsWith("patch/")) || "").slice(6);
  const size = figure.closest(".sized");
  const within = (/** @type {HTMLElement} */ spot) => shown(spot) && (!size || /** @type {HTMLElement | null} */ (spot.closest(".sized"))?.dataset.s === /** @type {HTMLElement} */ (size).dataset.s);
  const of = (/** @type {string} */ key) => all(`[data-of~="${CSS.escape(key).replace(/\\\//g, "/")}"]`).filter(within);
  /** @type {[string, HTMLElement][]} */
  const ways = [];
  for (const spot of of("patch/" + letter)) if (spot.matches(".sheet")) ways.push([say("toTemplate"), spot]);
  for (const row of all('tr[data-of^="cut/"]').filter(within)) if ((row.dataset.of || "").endsWith("/" + letter)) ways.push([say("toCutting", { what: wordsOf(/** @type {Element} */ (first(".depth-1", row.closest(".cloth") || row))) }), row]);
  for (const figure of of(said[0])) { const card = /** @type {HTMLElement | null} */ (figure.closest(".card")); if (card) ways.push([say("toStep", { n: wordsOf(/** @type {Element} */ (first(".card-n", card))) }), card]); }
  byId("question").textContent = say("piece", { what: letter });
  byId("answers").replaceChildren(
    ...ways.map(([words, spot]) => button(words, () => { box.close(); show(spot, figure); })),
    button(say("close"), () => box.close()));
  box.showModal();
}

/** Bring a place into view, marked, with a way back. @param {HTMLElement} spot @param {HTMLElement} [from] */
export function show(spot, from) {
  for (const marked of all(".told")) marked.classList.remove("told");
  for (const back of all(".way-back")) back.remove();
  spot.classList.add("told");
  if (!spot.matches("a, button, input")) spot.tabIndex = -1;
  spot.scrollIntoView({ block: "center" });
  spot.focus({ preventScroll: true });
  if (from) document.body.append(button(say("back"), () => { for (const back of all(".way-back")) back.remove(); show(from); }, { class: "way-back" }));
}

/** Listen in the enlarged picture. */
export function listenToLarge() {
  const pane = byId("pane");
  byId("nearer").addEventListener("click", () => zoom(1.5));
  byId("farther").addEventListener("click", () => zoom(1 / 1.5));
  pane.addEventListener("wheel", (event) => { event.preventDefault(); zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, event.offsetX, event.offsetY); });
  pane.addEventListener("keydown", (event) => {
    const by = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[event.key];
    if (by) { event.preventDefault(); place = [place[0] + by[0], place[1] + by[1]]; lay(); }
    if (event.key === "+" || event.key === "=") zoom(1.5);
    if (event.key === "-") zoom(1 / 1.5);
  });
  pane.addEventListener("pointerdown", (event) => { pane.setPointerCapture(event.pointerId); fingers.set(event.pointerId, [event.clientX, event.clientY]); });
  pane.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = [event.clientX, event.clientY];
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (other) zoom(Math.hypot(now[0] - other[0], now[1] - other[1]) / (Math.hypot(before[0] - other[0], before[1] - other[1]) || 1), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2 - pane.getBoundingClientRect().top);
    else { place = [place[0] + now[0] - before[0], place[1] + now[1] - before[1]]; lay(); }
    fingers.set(event.pointerId, now);
  });
  for (const end of ["pointerup", "pointercancel"]) pane.addEventListener(end, (event) => fingers.delete(/** @type {PointerEvent} */ (event).pointerId));
}
