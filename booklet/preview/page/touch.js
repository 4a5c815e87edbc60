// @ts-check
/* The table: a block is sewn by touching its pieces, and the fabric of a piece is chosen. Every rule is asked of the server;
   here stands what is in hand, and how it is shown and read out. It uses `by`, `el`, `named` and `chosen` of desk.js. */
"use strict";

/** @typedef {{join: string[], leave: string | null, finish: boolean}} Touch */
/** @typedef {{n: number, make: string, join: string[], by: string, turns: number, kind: string, card: number, times: number, leave: string | null, finish: boolean}} Made */
/** @typedef {{name: string, pieces: string[], words: string}} Lying */
/** @typedef {[number, number][]} Points */
/** @typedef {{stop?: string, done?: string, seen: string, undo: string, block: string, size: string, steps: Touch[], made: Made[], units: Lying[], sewn: Record<string, number>, whole: boolean,
     open: (Touch & {words: string, ready: boolean})[], sums: {words: string}, source: string[], hand: string[], near: string[], said?: string[], can?: boolean, by?: string, alike?: number, seams?: string[],
     corners?: Points, stops?: Points, turned?: Points, leaves?: string[], leave?: string | null, piece?: string, scopes?: {words: string, pieces: string[]}[], drawn?: Drawn}} Answer */
/** @typedef {{picture: string, room: [number, number], title: string, pieces: {id: string, points: Points, words: string, fabric: string}[], seams: Record<string, Points>, blocks: [string, string][], sizes: [string, string][], fabrics: [string, string, string][], declared: boolean}} Drawn */

const table = {
  open: false, /** whether the picture is of the source as it is now */ fresh: false, mode: "order", block: "", at: "", wanted: 0, late: 0, /** what was said last of a change */ wrote: "",
  /** @type {Touch[]} */ steps: [], /** @type {string[]} */ hand: [], /** @type {string | null} */ leave: null,
  /** @type {Answer | null} */ told: null, /** @type {Drawn | null} */ drawn: null,
  /** @type {Promise<unknown>} */ queue: Promise.resolve(),
};
const NS = "http://www.w3.org/2000/svg";

/* ---- asking ---- */

/** Send something; what is told. @param {"touch" | "write"} where @param {object} what @returns {Promise<any>} */
async function send(where, what) {
  try {
    const got = await fetch(where, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(what) });
    return got.status === 404 ? { stop: "This page is of a preview that has ended; open the new one." } : await got.json();
  } catch {
    return { stop: "The preview has ended; start it again with booklet preview." };
  }
}

/** Ask the table to do something, one thing after the other. @param {string} act @param {object} [more] @param {boolean} [picture] */
function ask(act, more = {}, picture = false) {
  if (picture) table.fresh = false;
  return next(async () => {
    if (!picture) table.wrote = "";
    const anew = !table.fresh;
    const size = /** @type {HTMLSelectElement} */ (by("size")).value || chosen.size;
    table.late = window.setTimeout(() => { by("table").classList.add("late"); status(act === "on" ? "planning the rest" : "working", true); }, 250);
    const told = await send("touch", {
      do: act, size, block: table.block, steps: table.steps, hand: table.hand, leave: table.leave, picture: anew, ...more,
    });
    clearTimeout(table.late);
    if (by("table").classList.contains("late")) status("up to date");
    by("table").classList.remove("late");
    take(told);
  });
}

/** Do something when all before it is done, however that ended. @param {() => unknown} does */
function next(does) {
  table.queue = table.queue.then(does, does);
  return table.queue;
}

/** Take an answer: what it says, and where things stand now. @param {Answer} told */
function take(told) {
  undoable(told.undo);
  document.documentElement.dataset.touched = String(++table.wanted);
  by("laid").classList.toggle("bare", !table.drawn && !told.drawn);
  if (told.stop !== undefined) { say([told.stop], true); return; }
  if (told.drawn) {
    Object.assign(table, { drawn: told.drawn, fresh: true });
    draw(told.drawn, told.block);
  }
  Object.assign(table, { told, block: told.block, steps: told.steps, hand: told.hand, leave: told.leave ?? null });
  show(told);
}

/* ---- the picture ---- */

/** An element of a drawing. @param {string} name @param {Record<string, string | number>} [has] */
function shape(name, has = {}) {
  const made = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(has)) made.setAttribute(key, String(value));
  return made;
}

/** A line through points. @param {Points} points @param {boolean} [closed] */
const path = (points, closed = false) => "M" + points.map((p) => p.join(" ")).join("L") + (closed ? "Z" : "");

/** The middle of points. @param {Points} points @returns {[number, number]} */
function middle(points) {
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}

/** Put the block on the table. @param {Drawn} drawn @param {string} block */
function draw(drawn, block) {
  const made = document.importNode(new DOMParser().parseFromString(drawn.picture, "image/svg+xml").documentElement, true);
  for (const key of ["width", "height", "role", "aria-labelledby"]) made.removeAttribute(key);
  made.setAttribute("aria-hidden", "true");
  by("block-drawn").replaceChildren(made);
  fill("block", drawn.blocks, block);
  const cloths = drawn.fabrics.map(([id, name, colour], n) => {
    const label = el("label", "", "cloth");
    const input = Object.assign(document.createElement("input"), { type: "radio", name: "cloth", value: id });
    const swatch = shape("svg", { viewBox: "0 0 20 20", "aria-hidden": "true" });
    swatch.append(shape("rect", { width: 20, height: 20, fill: colour }));
    label.append(input, swatch, name);
    input.addEventListener("change", ready);
    if (!n) label.dataset.first = "yes";
    return label;
  });
  const chosenCloth = cloth();
  exchange(by("cloths"), cloths);
  const same = by("cloths").querySelector(`input[value="${CSS.escape(chosenCloth)}"]`);
  if (same) /** @type {HTMLInputElement} */ (same).checked = true;
}

/** Show the units on the table, each one thing to be touched. @param {Answer} told */
function lay(told) {
  const drawn = table.drawn;
  if (!drawn) return;
  const pieces = Object.fromEntries(drawn.pieces.map((piece) => [piece.id, piece]));
  const units = table.mode === "order" ? told.units : drawn.pieces.map(({ id, words }) => ({ name: id, pieces: [id], words }));
  const focused = document.activeElement?.closest("#pieces [data-unit]") !== null && document.activeElement !== document.body;
  const svg = by("pieces");
  svg.setAttribute("viewBox", `0 0 ${drawn.room[0]} ${drawn.room[1]}`);
  const held = table.mode === "order" ? told.hand : told.piece ? [told.piece] : [];
  const groups = units.map((unit) => touchable(unit, pieces, held, new Set(table.mode === "order" ? told.near : [])));
  svg.replaceChildren(...groups, seams(told, drawn), marks(told, held, pieces));
  if (focused) here()?.focus();
}

/** What lies where the keyboard was last, or the first of what lies there. @returns {SVGGElement | null} */
const here = () => by("pieces").querySelector(`[data-pieces~="${CSS.escape(slug(table.at))}"]`) ?? by("pieces").querySelector("[data-unit]");

/** A name without blanks, for a list of names. @param {string} name */
const slug = (name) => encodeURIComponent(name);

/** One unit that can be touched. @param {Lying} unit @param {Record<string, {points: Points}>} pieces @param {string[]} held @param {Set<string>} near */
function touchable(unit, pieces, held, near) {
  const place = held.findIndex((piece) => unit.pieces.includes(piece));
  const beside = unit.pieces.some((piece) => near.has(piece));
  const group = /** @type {SVGGElement} */ (shape("g", { role: "button", tabindex: 0, "aria-pressed": String(place >= 0), "data-unit": unit.name,
    "data-pieces": unit.pieces.map(slug).join(" ") }));
  group.setAttribute("aria-label", unit.words + (place >= 0 && table.mode === "order" ? `, number ${place + 1} in hand` : beside ? ", touches what is in hand" : ""));
  group.setAttribute("class", place >= 0 ? "held" : beside ? "near" : held.length && table.mode === "order" ? "far" : "");
  for (const piece of unit.pieces) {
    const one = shape("path", { d: path(pieces[piece].points, true) });
    one.addEventListener("click", () => { table.at = piece; touch(piece); });
    group.append(one);
  }
  group.addEventListener("focus", () => { if (!unit.pieces.includes(table.at)) table.at = unit.pieces[0]; });
  return group;
}

/** The seams: sewn, to come, and those of the join in hand. @param {Answer} told @param {Drawn} drawn */
function seams(told, drawn) {
  const group = shape("g", { class: "seams", "aria-hidden": "true" });
  const now = new Set(told.seams ?? []);
  for (const [id, points] of Object.entries(drawn.seams)) {
    if (!(id in told.sewn) && table.mode === "order") group.append(shape("path", { d: path(points), class: "gap" }));
  }
  for (const id of now) group.append(shape("path", { d: path(drawn.seams[id]), class: "under" }), shape("path", { d: path(drawn.seams[id]), class: told.by === "hand" ? "hand" : "machine" }));
  return group;
}

/** Numbers on what is in hand, and the points of the join. @param {Answer} told @param {string[]} held @param {Record<string, {points: Points}>} pieces */
function marks(told, held, pieces) {
  const group = shape("g", { class: "marks", "aria-hidden": "true" });
  for (const [x, y] of told.stops ?? []) group.append(shape("circle", { cx: x, cy: y, r: 0.9, class: "stop" }));
  for (const [x, y] of told.corners ?? []) group.append(shape("circle", { cx: x, cy: y, r: 1.9, class: "open" }));
  for (const [x, y] of told.turned ?? []) group.append(shape("path", { d: `M${x} ${y - 2.1}l2.1 2.1l-2.1 2.1l-2.1-2.1Z`, class: "turn" }));
  if (table.mode !== "order") return group;
  held.forEach((piece, n) => {
    const [x, y] = middle(pieces[piece].points);
    const text = shape("text", { x, y: y + 1.45 });
    text.textContent = String(n + 1);
    group.append(shape("circle", { cx: x, cy: y, r: 2.9, class: "badge" }), text);
  });
  return group;
}

/* ---- touching ---- */

/** A piece is touched: taken in hand with its unit, or laid down again. @param {string} piece */
function touch(piece) {
  void next(() => {
    const told = table.told;
    if (!told) return;
    if (table.mode === "cloth") { void ask("cloth", { pieces: [piece], hand: [] }); return; }
    const unit = told.units.find((one) => one.pieces.includes(piece))?.pieces ?? [piece];
    const held = table.hand.filter((one) => !unit.includes(one));
    table.hand = held.length < table.hand.length ? held : [...table.hand, piece];
    table.leave = null;
    void ask("look");
  });
}

/** The nearest piece of another unit in a direction. @param {number} dx @param {number} dy */
function beyond(dx, dy) {
  const drawn = table.drawn, told = table.told;
  if (!drawn || !told) return;
  const here = drawn.pieces.find((piece) => piece.id === table.at) ?? drawn.pieces[0];
  const own = table.mode === "order" ? told.units.find((unit) => unit.pieces.includes(here.id))?.pieces ?? [] : [here.id];
  const [x, y] = middle(here.points);
  let best = "", least = Infinity;
  for (const piece of drawn.pieces) {
    if (own.includes(piece.id)) continue;
    const [a, b] = middle(piece.points);
    const [on, off] = [(a - x) * dx + (b - y) * dy, Math.abs((a - x) * dy) + Math.abs((b - y) * dx)];
    if (on > 0.01 && off <= on * 2 && on + 2 * off < least) [best, least] = [piece.id, on + 2 * off];
  }
  if (!best) return;
  table.at = best;
  /** @type {SVGGElement | null} */ (by("pieces").querySelector(`[data-pieces~="${CSS.escape(slug(best))}"]`))?.focus();
}

const ARROWS = /** @type {Record<string, [number, number]>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] });

by("pieces").addEventListener("keydown", (event) => {
  const on = /** @type {Element} */ (event.target).closest("[data-unit]");
  if (!on) return;
  if (event.key in ARROWS) { event.preventDefault(); beyond(...ARROWS[event.key]); }
  else if (event.key === "Enter" && (event.shiftKey || event.ctrlKey)) { event.preventDefault(); join(event.ctrlKey ? "alike" : "join"); }
  else if (event.key === "Enter" || event.key === " ") { event.preventDefault(); touch(table.at); }
  else if (event.key === "Escape" && table.mode === "order") { event.preventDefault(); down(); }
});

/** Join what is in hand. @param {"join" | "alike"} how */
function join(how) {
  if (!table.told?.can) return;
  void ask(how);
}

/** Lay down what is in hand. */
function down() {
  table.hand = [];
  table.leave = null;
  void ask("look");
}

/** Take the steps back after so many. @param {number} count */
function back(count) {
  table.steps = table.steps.slice(0, count);
  down();
}

/* ---- what is told ---- */

/** Say something, which is read out. @param {string[]} words @param {boolean} [stop] */
function say(words, stop = false) {
  by("said").replaceChildren(...words.filter(Boolean).map((one, n) => named("p", one, stop ? "stop" : n ? "" : "first")));
}

/** Show where things stand. @param {Answer} told */
function show(told) {
  by("table-title").textContent = table.drawn?.title ?? "";
  lay(told);
  const order = table.mode === "order";
  if (told.said) say(told.said, told.can === false);
  else if (order) say([told.steps.length ? told.sums.words : "Touch a piece, then one that it is to be joined to."]);
  else say(["Touch a piece, then choose its cloth."]);
  const last = told.made[told.made.length - 1];
  if (order && !told.said && last) say([`${last.make} is made, ${last.by === "hand" ? "by hand" : "by machine"}. ${told.sums.words}`]);
  button("join", Boolean(told.can));
  button("alike", Boolean(told.can && told.alike));
  by("alike").textContent = told.alike ? `Join, and the ${told.alike} alike too` : "Join, and alike ones too";
  button("down", told.hand.length > 0);
  button("back", told.steps.length > 0);
  button("on", !told.whole);
  button("anew", told.steps.length > 0);
  button("written", Boolean(table.drawn?.declared));
  button("write-order", told.whole && told.steps.length > 0);
  leaving(told);
  exchange(by("closing"), told.open.filter((gap) => gap.ready).map(closing), here());
  exchange(by("made"), told.made.map(step), here());
  by("sums").textContent = told.sums.words;
  by("as-written").textContent = told.source.map((line) => `- ${line}`).join("\n");
  by("as-written-box").hidden = !told.source.length;
  choosing(told);
  if (table.wrote) say([table.wrote]);
  for (const one of document.querySelectorAll("[data-mode]")) /** @type {HTMLElement} */ (one).hidden = /** @type {HTMLElement} */ (one).dataset.mode !== table.mode;
}

/** Let a button be pressed, or not. @param {string} id @param {boolean} may */
function button(id, may) {
  if (!may) leave(by(id));
  /** @type {HTMLButtonElement} */ (by(id)).disabled = !may;
}

/** Take the keyboard from something that can no more be used, to the pieces: where it cannot be it would be nowhere.
    @param {HTMLElement} gone */
function leave(gone) {
  if (gone.contains(document.activeElement) && document.activeElement?.matches(":focus-visible")) here()?.focus();
}

/** For what the seam in hand may be left open. @param {Answer} told */
function leaving(told) {
  const rows = /** @type {[string, string][]} */ ([["", "nothing: sew to the end"], ...(told.leaves ?? []).map((id) => [id, id])]);
  by("leaving").hidden = rows.length < 2;
  fill("leave", rows, told.leave ?? "");
}

/** A button that closes a seam. @param {Answer["open"][0]} gap */
function closing(gap) {
  const made = /** @type {HTMLButtonElement} */ (el("button", gap.words));
  made.type = "button";
  made.addEventListener("click", () => { table.steps = [...table.steps, { join: gap.join, leave: null, finish: true }]; down(); });
  return made;
}

/** One step done, with the way back to it. @param {Made} one @param {number} n */
function step(one, n) {
  const item = el("li");
  const turns = one.turns ? `, ${one.turns} turn${one.turns === 1 ? "" : "s"}` : "";
  const what = one.finish ? `seam of ${one.join.join(" and ")} closed` : `${one.make} = ${one.join.join(" + ")}`;
  const more = `${one.kind}, ${one.by}${turns}${one.leave ? `, open for ${one.leave}` : ""}; card ${one.card}${one.times > 1 ? `, make ${one.times}` : ""}`;
  item.append(el("span", what, "what"), " ", el("span", more, "how"));
  if (table.told && n + 1 < table.told.made.length) {
    const made = /** @type {HTMLButtonElement} */ (el("button", "back to here", "small"));
    made.type = "button";
    made.setAttribute("aria-label", `Take back all after step ${one.n}, ${one.make}`);
    made.addEventListener("click", () => back(n + 1));
    item.append(" ", made);
  }
  return item;
}

/* ---- cloth ---- */

const cloth = () => /** @type {HTMLInputElement | null} */ (by("cloths").querySelector("input:checked"))?.value ?? "";
/** @type {{words: string, pieces: string[]}[]} */
let scopesNow = [];

/** Which pieces a cloth may be chosen for. @param {Answer} told */
function choosing(told) {
  scopesNow = told.scopes ?? [];
  exchange(by("scopes"), scopesNow.map((scope, n) => {
    const label = el("label");
    const input = Object.assign(document.createElement("input"), { type: "radio", name: "scope", value: String(n), checked: n === 0 });
    input.addEventListener("change", scoped);
    label.append(input, scope.words);
    return label;
  }), here());
  if (!scopesNow.length) leave(by("choosing"));
  by("choosing").hidden = !scopesNow.length;
  scoped();
}

/** Mark the pieces that are chosen. */
function scoped() {
  const pieces = new Set(scope()?.pieces ?? []);
  for (const group of by("pieces").querySelectorAll("[data-unit]")) group.classList.toggle("scoped", pieces.has(group.getAttribute("data-unit") ?? ""));
  ready();
}

const scope = () => scopesNow[Number(/** @type {HTMLInputElement | null} */ (by("scopes").querySelector("input:checked"))?.value ?? -1)];
function ready() { button("write-cloth", Boolean(scope() && cloth())); }

/* ---- writing ---- */

/** Write something into the source, or undo it. @param {object} what */
function write(what) {
  void next(async () => {
    const size = /** @type {HTMLSelectElement} */ (by("size")).value || chosen.size;
    const told = await send("write", { size, block: table.block, source: table.told?.seen ?? "", ...what });
    undoable(told.undo);
    say([told.stop ?? told.done], told.stop !== undefined);
    table.wrote = told.done ?? "";
    document.documentElement.dataset.wrote = told.stop === undefined ? "yes" : "no";
    document.documentElement.dataset.touched = String(++table.wanted);
  });
}

/** What can be undone. @param {string | undefined} what */
function undoable(what) {
  button("undo", Boolean(what));
  by("undo").textContent = what ? `Undo: ${what.replaceAll("`", "")}` : "Undo";
}

/* ---- what is pressed ---- */

/** Show the table, or the booklet. @param {boolean} open */
function turn(open) {
  table.open = open;
  by("table").hidden = !open;
  document.body.classList.toggle("at-table", open);
  by("to-table").setAttribute("aria-pressed", String(open));
  if (open) void ask("look", {}, true);
}

by("to-table").addEventListener("click", () => turn(!table.open));
for (const [id, does] of /** @type {[string, () => void][]} */ ([
  ["join", () => join("join")], ["alike", () => join("alike")], ["down", down], ["back", () => back(table.steps.length - 1)],
  ["on", () => void ask("on")], ["anew", () => back(0)], ["written", () => void ask("written")],
  ["write-order", () => write({ do: "order", steps: table.steps })],
  ["write-cloth", () => write({ do: "cloth", pieces: scope()?.pieces ?? [], fabric: cloth() })],
  ["undo", () => write({ do: "undo" })]])) by(id).addEventListener("click", does);
by("leave").addEventListener("change", (event) => { table.leave = /** @type {HTMLSelectElement} */ (event.target).value || null; void ask("look"); });
by("block").addEventListener("change", (event) => {
  Object.assign(table, { block: /** @type {HTMLSelectElement} */ (event.target).value, steps: [], hand: [], leave: null, at: "" });
  void ask("look", {}, true);
});
for (const radio of document.querySelectorAll("input[name=touch]")) {
  radio.addEventListener("change", (event) => { table.mode = /** @type {HTMLInputElement} */ (event.target).value; table.hand = []; void ask("look"); });
}
by("size").addEventListener("change", () => { if (table.open) void ask("look", {}, true); });
document.addEventListener("looked", () => { if (table.open) void ask("look", {}, true); });
