// @ts-check
import { all, ask, beyond, button, byId, first, keyOf, make, on, onClick, svgIn, say, shown, spotOf, spread, wordsOf } from "./page.js";
import { choose, follow } from "./choose.js";

/** Pictures: enlarged to the whole screen, moved and brought nearer; and from a piece to all that is told of it. */

let scale = 1;
let place = [0, 0];
/** @type {Map<number, number[]>} */
const fingers = new Map();

/** Lay the picture as it is to be seen. */
function lay() {
  const picture = svgIn(byId("pane"));
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
  const copy = spread(picture);
  byId("pane").replaceChildren(copy);
  [scale, place] = [1, [0, 0]];
  lay();
  /** @type {HTMLDialogElement} */ (byId("large")).showModal();
  byId("pane").focus();
}

/** A button at each picture that has something to look at. */
export function offerLarge() {
  for (const figure of all("main figure")) {
    const picture = svgIn(figure, ":scope > svg");
    if (!picture || figure.matches(".thumb")) continue;
    let opener = first(":scope > .enlarge", figure);
    if (!opener) figure.append((opener = button("", () => enlarge(svgIn(figure)), { class: "enlarge ours" })));
    const caption = first(".fig-n", figure);
    opener.ariaLabel = say("enlarge", { what: caption ? wordsOf(caption) : (picture.getAttribute("aria-label") || "").slice(0, 60) });
  }
  for (const figure of all(".block-picture")) {
    if (first(".pieces", figure)) continue;
    const letters = Object.fromEntries(all(".places [data-of]", figure).map((spot) => [keyOf(spot, "patch"), spot]));
    const links = Object.entries(letters).sort().map(([key, spot]) => button(key.slice(6), () => lead(figure, spot), { "aria-label": say("piece", { what: key.slice(6) }) }));
    if (links.length) figure.append(make("p", { class: "pieces ours" }, say("pieces") + " ", ...links));
    on(figure, "click", (event) => {
      const spot = event.target.closest(".places [data-of]");
      if (spot) lead(figure, spot);
    });
  }
}

/** Show where a piece is told of. @param {HTMLElement} figure @param {HTMLElement} piece */
function lead(figure, piece) {
  const letter = keyOf(piece, "patch").slice(6);
  offer(letter, [...[...waysTo(letter, figure)].map(([words, spot]) => /** @type {[string, () => void]} */ ([words, () => show(spot, figure)])), ...(beyond.leads?.(letter) || [])]);
}

/** Ask which way to go. @param {string} letter @param {[string, () => void][]} ways */
export const offer = (letter, ways) => ask(say("piece", { what: letter }), [...ways, [say("close"), () => {}]]);

/** Where a piece is told of: its template, its rows of cutting, the step that begins with it. @param {string} letter @param {HTMLElement} [figure] */
export function waysTo(letter, figure) {
  const size = figure?.closest(".sized");
  /** @type {Map<string, HTMLElement>} */
  const ways = new Map();
  for (const spot of all(`.sheet[data-of~="patch/${letter}"], tr[data-of^="cut/"][data-of$="/${letter}"], .card figure[data-of~="patch/${letter}"]`)) {
    if (!shown(spot) || (size && size.getAttribute("data-s") !== spot.closest(".sized")?.getAttribute("data-s"))) continue;
    const card = /** @type {HTMLElement | null} */ (spot.closest(".card"));
    const head = first(".card-n, .depth-1", card || spot.closest(".cloth") || spot);
    const way = card ? "toStep" : head ? "toCutting" : "toTemplate";
    const words = say(way, { what: head ? wordsOf(head) : "" });
    if (card && ((figure && card.closest(".block") !== figure.closest(".block")) || [...ways.values()].some((one) => one.matches(".card")))) continue;
    if (!ways.has(words)) ways.set(words, card || spot);
  }
  return ways;
}

/** Bring a place into view, marked, with a way back. @param {HTMLElement} spot @param {HTMLElement} [from] */
export function show(spot, from) {
  for (const marked of all(".told")) marked.classList.remove("told");
  for (const back of all(".way-back")) back.remove();
  spot.classList.add("told");
  if (!spot.matches("a, button, input")) spot.tabIndex = -1;
  spot.scrollIntoView({ block: "center" });
  spot.focus({ preventScroll: true });
  if (from) document.body.append(button(say("back"), () => show(from), { class: "way-back" }));
}

/** Listen in the enlarged picture. */
export function hearLarge() {
  const pane = byId("pane");
  onClick("nearer", () => zoom(1.5));
  onClick("farther", () => zoom(1 / 1.5));
  on(pane, "wheel", (event) => { event.preventDefault(); zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, event.offsetX, event.offsetY); });
  on(pane, "keydown", (event) => {
    const way = ["ArrowLeft", "ArrowUp", "ArrowRight", "ArrowDown"].indexOf(event.key);
    const by = way < 2 ? 60 : -60;
    if (way >= 0) { event.preventDefault(); place[way % 2] += by; lay(); }
    if (event.key === "+" || event.key === "=") zoom(1.5);
    if (event.key === "-") zoom(1 / 1.5);
  });
  on(pane, "pointerdown", (event) => { pane.setPointerCapture(event.pointerId); fingers.set(event.pointerId, spotOf(event)); });
  on(pane, "pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = spotOf(event);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (other) zoom(Math.hypot(now[0] - other[0], now[1] - other[1]) / (Math.hypot(before[0] - other[0], before[1] - other[1]) || 1), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2 - pane.getBoundingClientRect().top);
    else { place = [place[0] + now[0] - before[0], place[1] + now[1] - before[1]]; lay(); }
    fingers.set(event.pointerId, now);
  });
  for (const end of ["pointerup", "pointercancel"]) on(pane, end, (event) => fingers.delete(event.pointerId));
}
