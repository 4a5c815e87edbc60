// @ts-check
import { all, ask, beyond, button, byId, first, keyOf, make, on, onClick, say, shown, wordsOf } from "./page.js";
import { keep, setState, state, stateOf, stateText } from "./keep.js";
import { onChoice, apply } from "./choose.js";

/** Ticks that count: cuts, steps, sittings and blocks made; how far it is, and how long is left. */

const KINDS = ["cut", "step", "sitting", "task"];
const LONGEST = 14400; // s between two blocks of one sitting
let last = 0;

/** Make the boxes of the page boxes to tick, and the numbers of blocks counters. */
export function enliven() {
  for (const [n, task] of all("ul.ticks > li").entries()) if (!task.dataset.of) task.dataset.of = `tick/task/${n}/${wordsOf(task).slice(0, 60)}`;
  for (const spot of all('[data-of^="tick/"]')) if (!spot.matches(".ours")) boxed(spot);
  for (const row of all("tr:has(.tick)")) if (shown(row)) first(".tick", row)?.setAttribute("aria-label", say("done", { what: wordsOf(row).slice(0, 90) }));
  for (const spot of all('[data-of^="count/"]')) if (!spot.querySelector(".counter")) spot.append(counter(keyOf(spot, "count")));
}

/** @param {HTMLElement} spot */
function boxed(spot) {
  const key = keyOf(spot, "tick");
  const name = spot.getAttribute("aria-label") || wordsOf(spot);
  const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", class: "tick ours", "aria-label": name, "data-tick": key }));
  box.checked = key in state.done;
  on(box, "change", () => {
    if (box.checked) state.done[key] = true;
    else delete state.done[key];
    keep();
    reckon();
  });
  if (spot.matches(".box")) spot.replaceWith(box);
  else { spot.classList.add("ours"); spot.prepend(box, " "); }
}

/** A counter of blocks made. @param {string} key */
function counter(key) {
  const figure = make("output", { "data-made": key });
  const by = (/** @type {number} */ n) => () => {
    const [made, most] = count(key);
    if (n < 0 ? !made : made === most) return;
    state.made[key] = made + n;
    if (n > 0) time();
    keep();
    reckon();
  };
  return make("span", { class: "counter ours" }, button("−", by(-1), { "aria-label": say("oneLess") }), figure, button("+", by(1), { "aria-label": say("oneMore") }));
}

/** Note how long a block took, if the reader wants that measured. */
function time() {
  const now = Math.round(Date.now() / 1000);
  if (state.pace && last && now - last <= LONGEST) state.gaps = [...state.gaps, now - last].slice(-40);
  last = now;
}

/** Count all that is shown. */
export function reckon() {
  const lines = [];
  for (const kind of KINDS) {
    const keys = beyond.ticks?.(kind) || all(`[data-tick^="tick/${kind}/"]`).filter(seen).map((box) => box.dataset.tick || "");
    const done = keys.filter((key) => key in state.done).length;
    if (keys.length) lines.push(line(say(kind, { n: done, m: keys.length }), done, keys.length));
  }
  for (const figure of all("[data-made]")) {
    const [made, most] = count(figure.dataset.made || "");
    figure.textContent = say("made", { n: made, m: most });
  }
  let left = 0;
  for (const [key, what] of beyond.counts?.() || all("[data-made]").filter(seen).map((figure) => [figure.dataset.made || "", wordsOf(figure.closest(".block-head")?.querySelector(".depth-1") || figure)])) {
    const [made, most] = count(key);
    left += most - made;
    lines.push(line(say("block", { what, made: say("made", { n: made, m: most }) }), made, most));
  }
  byId("progress").replaceChildren(...lines);
  byId("left").textContent = toGo(left);
}

/** Whether what is ticked or counted is among what is chosen. @param {Element} box */
const seen = (box) => shown(/** @type {Element} */ (box.parentElement));

/** How many blocks are made, of how many. @param {string} key */
function count(key) {
  const most = Number(key.split("/").pop());
  return [Math.min(state.made[key] || 0, most), most];
}

/** @param {string} words @param {number} n @param {number} most */
const line = (words, n, most) => make("li", {}, words, make("progress", { value: n, max: most, "aria-label": words }));

/** About how long is left for so many blocks at the reader's own pace. @param {number} blocks */
function toGo(blocks) {
  if (!state.pace) return "";
  const gaps = [...state.gaps].sort((a, b) => a - b);
  if (gaps.length < 2) return say("counting");
  const minutes = Math.round((gaps[gaps.length >> 1] * blocks) / 60);
  return say("left", { n: Math.floor(minutes / 60), m: minutes % 60 });
}

/** Show a state that came from elsewhere. */
export async function renew() {
  for (const box of all("[data-tick]")) /** @type {HTMLInputElement} */ (box).checked = (box.dataset.tick || "") in state.done;
  /** @type {HTMLInputElement} */ (byId("pace")).checked = state.pace;
  await apply();
}

/** Listen to the buttons beneath the count. */
export function hearTicks() {
  const pace = /** @type {HTMLInputElement} */ (byId("pace"));
  pace.checked = state.pace;
  on(pace, "change", () => { state.pace = pace.checked; keep(); reckon(); });
  onClick("save", () => {
    const address = URL.createObjectURL(new Blob([stateText()], { type: "application/json" }));
    make("a", { href: address, download: "booklet-ticks.json" }).click();
    setTimeout(() => URL.revokeObjectURL(address), 1000);
  });
  on(byId("load"), "change", async (event) => {
    const box = event.target;
    const file = box.files?.[0];
    const found = file && file.size <= 400000 ? stateOf(await file.text()) : null;
    box.value = "";
    if (!found) return ask(say("notOurs"), [[say("good"), () => {}]]);
    setState(found);
    await renew();
  });
  onClick("clear", () => ask(say("clear"), [
    [say("keep"), () => {}],
    [say("clearNow"), () => { setState({ ...state, done: {}, made: {}, gaps: [] }); renew(); }],
  ]));
  onChoice.push(enliven, reckon);
}
