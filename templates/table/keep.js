// @ts-check
import { said } from "./page.js";

/** What a reader chose and ticked: kept on this device, saved to a file and read from one, which may be anyone's. */

/** @typedef {{choice: Record<string, number>, done: Record<string, true>, made: Record<string, number>, pace: boolean, gaps: number[]}} State */

const PLACE = "booklet " + said.key;
const MOST = 4000;

/** @returns {State} */
const empty = () => ({ choice: {}, done: {}, made: {}, pace: false, gaps: [] });

/** @type {State} */
export let state = empty();

/** A whole number within bounds. @param {unknown} value @param {number} most */
const whole = (value, most) => typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= most;

/** The sound entries of a table. @param {unknown} table @param {(value: unknown) => boolean} sound @returns {[string, any][]} */
function entries(table, sound) {
  return Object.entries(Object(table)).filter(([key, value]) => key.length <= 200 && key !== "__proto__" && sound(value)).slice(0, MOST);
}

/** A state of what was read, or null where it is none; what is not sound is left out. @param {string} text @returns {State | null} */
export function stateOf(text) {
  if (text.length > 400000) return null;
  let read;
  try { read = JSON.parse(text); } catch { return null; }
  if (read?.booklet !== said.key) return null;
  return {
    choice: Object.fromEntries(entries(read.choice, (value) => whole(value, 99))),
    done: Object.fromEntries(entries(read.done, (value) => value === true)),
    made: Object.fromEntries(entries(read.made, (value) => whole(value, 99999))),
    pace: read.pace === true,
    gaps: Array.isArray(read.gaps) ? read.gaps.filter((/** @type {unknown} */ gap) => whole(gap, 14400)).slice(-40) : [],
  };
}

/** The state as text. */
export const stateText = () => JSON.stringify({ booklet: said.key, ...state });

/** Keep the state on this device, where the browser lets us. */
export function keep() {
  try { localStorage.setItem(PLACE, stateText()); } catch { /* a page opened from a stick may have no store: it works without */ }
}

/** Begin with what was kept. */
export function recall() {
  try { state = stateOf(localStorage.getItem(PLACE) || "") || empty(); } catch { /* as above */ }
}

/** Put another state in the place of this one. @param {State} [other] */
export function setState(other = empty()) {
  state = other;
  keep();
}
