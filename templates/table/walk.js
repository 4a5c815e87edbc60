// @ts-check
import { all, byId, onClick, say } from "./page.js";

/** A route drawn as it is walked, and a block pressed as it is pressed: stage by stage, by itself or at a touch. */

/** @typedef {{stages: number, show: (stage: number) => void}} Walk */

const still = matchMedia("(prefers-reduced-motion: reduce)");
/** @type {Walk | null} */
let walk = null;
let stage = 0;
let timer = 0;

/** The corners of a line, path by path. @param {string} data */
const corners = (data) => data.split("M").filter(Boolean).map((part) => part.split("L").map((at) => at.trim().split(/\s+/).map(Number)));

/** The walk of a picture, or null where nothing in it goes on. @param {SVGElement} picture @returns {Walk | null} */
export function walkOf(picture) {
  const threads = /** @type {SVGPathElement[]} */ (/** @type {unknown} */ (all("path.walk", picture)));
  if (threads.length) return routeOf(threads);
  const flaps = /** @type {SVGElement[]} */ (/** @type {unknown} */ (all(".flap", picture)));
  return flaps.length ? pressingOf(flaps[0]) : null;
}

/** A thread, seam by seam. @param {SVGPathElement[]} threads @returns {Walk} */
function routeOf(threads) {
  const seams = threads.flatMap((thread) => corners(thread.getAttribute("d") || "").flatMap((line) => line.slice(1).map((to, n) => [line[n], to])));
  const pen = threads[threads.length - 1];
  const over = /** @type {SVGPathElement} */ (pen.cloneNode());
  over.classList.add("walked");
  for (const thread of threads) thread.style.opacity = "0.3";
  pen.after(over);
  return {
    stages: seams.length,
    show: (n) => {
      const gone = seams.slice(0, n).map(([from, to]) => `M${from.join(" ")}L${to.join(" ")}`);
      over.setAttribute("d", gone.join("") || "M0 0");
    },
  };
}

/** Allowances, step by step as they are pressed. @param {SVGElement} flap @returns {Walk} */
function pressingOf(flap) {
  /** @type {Element[][]} */
  const stages = [];
  let flat = false;
  for (let one = /** @type {Element | null} */ (flap); one; one = one.nextElementSibling) {
    const lies = one.classList.contains("flap");
    if (lies && !flat) stages.push([]);
    if (one.matches("path, use")) stages[stages.length - 1].push(one);
    flat = lies;
  }
  return {
    stages: stages.length,
    show: (n) => stages.forEach((parts, at) => parts.forEach((part) => part.classList.toggle("later", at >= n))),
  };
}

/** Stop by itself. */
export function halt() {
  clearInterval(timer);
  timer = 0;
  byId("play").textContent = say("play");
}

/** Show a stage. @param {number} to */
function go(to) {
  if (!walk) return;
  stage = to > walk.stages ? 0 : to;
  walk.show(stage);
  if (timer && stage === walk.stages) halt();
}

/** Take up a picture, drawn whole at first. @param {SVGElement | null} picture */
export function take(picture) {
  halt();
  walk = picture ? walkOf(picture) : null;
  const player = byId("player");
  player.hidden = !walk || walk.stages < 1;
  byId("play").hidden = still.matches;
  if (walk) go(walk.stages);
}

/** Listen to the buttons of the player. */
export function hearWalk() {
  onClick("on", () => { halt(); go(stage + 1); });
  onClick("play", () => {
    if (timer) return halt();
    if (!walk) return;
    if (stage >= walk.stages) go(0);
    byId("play").textContent = say("pause");
    timer = setInterval(() => go(stage + 1), 700);
  });
}
