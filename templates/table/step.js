// @ts-check
import { all, beyond, byId, first, on, onClick, root, svgIn, say, shown, spotOf, spread, wordsOf } from "./page.js";
import { halt, take } from "./walk.js";

/** At the table: one step at a time, large, with its picture. The card itself is lent to the table and goes back. */

/** @type {HTMLElement[]} */
let slides = [];
let at = 0;
/** @type {Comment | null} */
let home = null;
/** @type {WakeLockSentinel | null} */
let lock = null;

const table = () => /** @type {HTMLDialogElement} */ (byId("table"));

/** What is shown at the table, in the order of sewing. */
export const steps = () => all(":is(.page-piecing, .page-quilt) :is(.card, .route), .press-block, figure[data-v]").filter(shown);

/** Keep the screen awake, where the browser allows it. */
async function awake() {
  try { lock = await navigator.wakeLock.request("screen"); } catch { lock = null; }
}

/** Put the card back in its place. */
function putBack() {
  if (home) home.replaceWith(...byId("slide").childNodes);
  home = null;
}

/** Show one step. @param {number} to */
function seat(to) {
  if (!slides[to]) {
    const away = to < 0 ? beyond.before : beyond.after;
    if (away) location.assign(away);
    return;
  }
  putBack();
  at = to;
  const card = slides[at];
  home = document.createComment("");
  card.before(home);
  byId("slide").replaceChildren(card);
  byId("slide").scrollTop = 0;
  const heads = [".block", ".sized"].map((part) => home?.parentElement?.closest(part)?.querySelector(".depth-1, .size-name"));
  byId("table-title").textContent = [say("slide", { n: at + 1, m: slides.length }), ...heads.filter((head) => head).map((head) => wordsOf(/** @type {Element} */ (head)))].join(" · ");
  /** @type {HTMLButtonElement} */ (byId("step-back")).disabled = !at && !beyond.before;
  /** @type {HTMLButtonElement} */ (byId("step-on")).disabled = !slides[at + 1] && !beyond.after;
  ready(card);
  byId("slide").focus();
}

/** Let the picture of a route or of pressing go on. @param {HTMLElement} card */
function ready(card) {
  const picture = card.matches(".card") ? null : svgIn(card);
  if (!picture) return take(null);
  const whole = spread(picture);
  picture.replaceWith(whole);
  take(whole);
}

/** Open the table at a step. @param {HTMLElement | null} [from] */
export function open(from = null) {
  slides = steps();
  if (!slides.length) return;
  const near = from || slides.find((slide) => slide.getBoundingClientRect().bottom > 80) || slides[0];
  table().showModal();
  root.classList.add("seated");
  seat(Math.max(0, slides.indexOf(near)));
  awake();
}

/** Leave it. */
function leave() {
  halt();
  const card = slides[at];
  putBack();
  root.classList.remove("seated");
  lock?.release();
  lock = null;
  card?.scrollIntoView({ block: "center", behavior: "instant" });
}

/** Listen to keys, buttons and swipes. */
export function hearTable() {
  onClick("at-table", () => open());
  /** @type {HTMLElement} */ (byId("at-table")).hidden = !first(".card, figure.route, .press-block");
  onClick("step-back", () => seat(at - 1));
  onClick("step-on", () => seat(at + 1));
  on(table(), "close", leave);
  on(table(), "keydown", (event) => {
    const by = ["ArrowRight", "PageDown"].includes(event.key) ? 1 : ["ArrowLeft", "PageUp"].includes(event.key) ? -1 : 0;
    if (by) { event.preventDefault(); seat(at + by); }
  });
  let from = [0, 0];
  on(table(), "touchstart", (event) => { from = spotOf(event.changedTouches[0]); }, { passive: true });
  on(table(), "touchend", (event) => {
    const to = spotOf(event.changedTouches[0]);
    const across = to[0] - from[0];
    const down = to[1] - from[1];
    if (Math.abs(across) > 60 && Math.abs(across) > 2 * Math.abs(down)) seat(at + (across < 0 ? 1 : -1));
  }, { passive: true });
  on(document, "visibilitychange", () => { if (table().open && !document.hidden) awake(); });
}
