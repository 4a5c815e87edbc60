// @ts-check
/* The page of the preview. It listens to the server, puts changed sections of the booklet in place, and leads
   from a place on the page to its line in the source and back. Types are told in comments; there is no build. */
"use strict";

/** @typedef {{severity: string, code: string, message: string, file: string, path: string, line: number, column: number, end: number, hint: string, picture?: string, following?: Fault[]}} Fault */
/** @typedef {{number: number, sound: boolean, faults: Fault[], names: string[], files: Record<string, string>, trouble: string}} Look */
/** @typedef {{number: number, title: string, language: string, size: string, edition: string, choices: Record<string, [string, string][]>, order: string[], parts: Record<string, string>, pieces: Record<string, string>, style: string | null, places: Record<string, [string, number, number]>, ways: Record<string, [string, string][]>, colourway: string, layout: string}} Page */

/** The element of an id. @template {HTMLElement} T @param {string} id @returns {T} */
const by = (id) => /** @type {T} */ (document.getElementById(id));

const frame = /** @type {HTMLIFrameElement} */ (by("sheet"));
const chosen = { size: "", edition: "", medium: "", colourway: "", layout: "" };
/** @type {Record<string, [string, number, number]>} */
let places = {};
/** @type {Record<string, string>} */
let files = {};
/** @type {Fault[]} */
let faults = [];
/** @type {EventSource | null} */
let listening = null;

/* ---- the booklet, in its frame ---- */

const OVER = `.places path { fill: transparent; stroke: none; pointer-events: all; cursor: pointer; }
.places path:is(.told, .shown) { fill: #fff; fill-opacity: .3; stroke: #1d2a38; stroke-width: 1.1;
  filter: drop-shadow(0 0 .4px #fff) drop-shadow(0 0 .4px #fff) drop-shadow(0 0 .4px #fff); }
[data-of] { cursor: pointer; }
:is(tr, p, h1, li, span, article, table)[data-of]:is(.told, .shown) { outline: 2.5px solid #1d2a38; outline-offset: 2px; background: #fbf3df; }
section[data-of].shown { outline: 2.5px solid #1d2a38; outline-offset: 6px; }
body > [data-part], [data-piece] { display: contents; }`;

/** The document of the frame, made ready when it is first asked for. */
function sheet() {
  const doc = /** @type {Document} */ (frame.contentDocument);
  if (!doc.getElementById("over")) {
    for (const id of ["style", "over"]) doc.head.append(Object.assign(doc.createElement("style"), { id }));
    doc.getElementById("over")?.append(OVER);
    doc.documentElement.className = "screen web";
    doc.addEventListener("mouseover", (event) => mark(keysAt(event.target)));
    doc.addEventListener("mouseleave", () => mark([]));
    doc.addEventListener("click", clicked);
  }
  return doc;
}

/** Put what is new of a page in its place. @param {Page} page */
function put(page) {
  const doc = sheet();
  const anchor = anchorIn(doc);
  doc.documentElement.lang = page.language;
  doc.title = document.title = page.title;
  by("title").textContent = page.title;
  const style = doc.getElementById("style");
  if (page.style !== null && style) style.textContent = page.style;
  for (const [name, markup] of Object.entries(page.pieces)) piece(doc, name, markup);
  let main = doc.querySelector("body > main");
  if (!main) doc.body.append((main = doc.createElement("main")));
  for (const name of page.order) {
    const markup = page.parts[name];
    if (markup !== undefined) part(doc, main, name, markup);
  }
  const wanted = new Set(page.order);
  for (const old of doc.querySelectorAll("[data-part]")) {
    if (!wanted.has(/** @type {HTMLElement} */ (old).dataset.part ?? "")) old.remove();
  }
  for (const [name, one] of pieces) if (!one.isConnected) pieces.delete(name);
  arrange(doc, main, page.order);
  places = page.places;
  frame.hidden = chosen.medium !== "";
  by("empty").hidden = true;
  older();
  keep(doc, anchor);
  listChoices(page);
  const first = !document.documentElement.dataset.page;
  document.documentElement.dataset.page = String(page.number);
  if (first) follow();
}

/** Put parts in place that are ready before the rest of their page. @param {Pick<Page, "parts" | "pieces">} ready */
function putEarly(ready) {
  const doc = sheet();
  const main = doc.querySelector("body > main");
  if (!main) return;
  const anchor = anchorIn(doc);
  for (const [name, markup] of Object.entries(ready.pieces)) piece(doc, name, markup);
  for (const [name, markup] of Object.entries(ready.parts)) part(doc, main, name, markup);
  keep(doc, anchor);
}

/** The pieces of parts, by name. @type {Map<string, Element>} */
const pieces = new Map();

/** Put one piece of a part in place, or keep it until its part has a place for it. @param {Document} doc @param {string} name @param {string} markup */
function piece(doc, name, markup) {
  const ready = doc.createElement("div");
  ready.dataset.piece = name;
  ready.innerHTML = markup;
  const old = pieces.get(name);
  if (old) morph(old, ready);
  else pieces.set(name, ready);
}

/** Put one part in place of the one of its name. @param {Document} doc @param {Element} main @param {string} name @param {string} markup */
function part(doc, main, name, markup) {
  const made = doc.createElement("template");
  made.innerHTML = markup;
  let fresh = made.content.firstElementChild;
  if (name === "opening" || name === "contents") {
    fresh = doc.createElement("div");
    fresh.append(made.content);
  }
  if (!(fresh && "dataset" in fresh)) return;
  const ready = /** @type {HTMLElement} */ (doc.adoptNode(fresh));
  ready.dataset.part = name;
  const old = doc.querySelector(`[data-part="${CSS.escape(name)}"]`);
  if (old) {
    for (const one of piecesIn(old)) one.replaceWith(one.cloneNode(false));
    morph(old, ready);
  } else (name === "opening" || name === "contents" ? doc.body : main).append(ready);
  for (const place of piecesIn(old ?? ready)) place.replaceWith(pieces.get(place.dataset.piece ?? "") ?? place);
}

/** The pieces of a part, or the empty elements that keep their places. @param {Element} part @returns {NodeListOf<HTMLElement>} */
const piecesIn = (part) => part.querySelectorAll("[data-piece]");

/** Put the parts in order. @param {Document} doc @param {Element} main @param {string[]} order */
function arrange(doc, main, order) {
  const found = order.map((name) => doc.querySelector(`[data-part="${CSS.escape(name)}"]`));
  for (const [home, these] of /** @type {[Element, (Element | null)[]][]} */ ([
    [doc.body, [...found.slice(0, 2), main]], [main, found.slice(2)]])) {
    these.forEach((one, place) => { if (one && home.children[place] !== one) home.insertBefore(one, home.children[place] ?? null); });
  }
}

/** Make an element like another, leaving alone what is alike already. @param {Node} old @param {Node} fresh */
function morph(old, fresh) {
  if (old.isEqualNode(fresh)) return;
  const whole = old.nodeType !== 1 || old.nodeName !== fresh.nodeName || old.nodeName.toLowerCase() === "svg";
  if (whole) { old.parentNode?.replaceChild(fresh, old); return; }
  const [one, other] = [/** @type {Element} */ (old), /** @type {Element} */ (fresh)];
  for (const { name } of [...one.attributes]) if (!other.hasAttribute(name)) one.removeAttribute(name);
  for (const { name, value } of [...other.attributes]) if (one.getAttribute(name) !== value) one.setAttribute(name, value);
  const [a, b] = [[...old.childNodes], [...fresh.childNodes]];
  let first = 0, last = 0;
  if (a.length !== b.length) {
    while (first < Math.min(a.length, b.length) && a[first].isEqualNode(b[first])) first++;
    while (last < Math.min(a.length, b.length) - first && a[a.length - 1 - last].isEqualNode(b[b.length - 1 - last])) last++;
  }
  const [ends, begins] = [a.slice(first, a.length - last), b.slice(first, b.length - last)];
  const after = a[a.length - last] ?? null;
  begins.forEach((node, n) => { if (n < ends.length) morph(ends[n], node); else old.insertBefore(node, after); });
  ends.slice(begins.length).forEach((node) => node.remove());
}

/** What stands at the top of the window, from the innermost out, with its place. @param {Document} doc */
function anchorIn(doc) {
  const chain = [];
  for (let at = doc.elementFromPoint(innerWidth / 3, 60); at && at !== doc.body && at !== doc.documentElement; at = at.parentElement) {
    if (!at.closest("svg") || at.nodeName === "svg") chain.push({ at, top: at.getBoundingClientRect().top });
  }
  return chain;
}

/** Scroll so that the first of those still there stands where it stood. @param {Document} doc @param {{at: Element, top: number}[]} chain */
function keep(doc, chain) {
  const still = chain.find((one) => one.at.isConnected);
  if (!still) return;
  const moved = still.at.getBoundingClientRect().top - still.top;
  if (Math.abs(moved) > 0.5) doc.defaultView?.scrollBy({ top: moved, behavior: "instant" });
}

/* ---- from the page to the source, and back ---- */

/** The keys of what lies under an event, the narrowest first. @param {EventTarget | null} target */
function keysAt(target) {
  const at = /** @type {Element | null} */ (target)?.closest?.("[data-of]");
  return at?.getAttribute("data-of")?.split(" ") ?? [];
}

/** Mark whatever shows the first of some keys, and what the others stand for. @param {string[]} keys */
function mark(keys) {
  const doc = frame.contentDocument;
  if (!doc) return;
  for (const old of doc.querySelectorAll(".told")) old.classList.remove("told");
  for (const line of document.querySelectorAll(".lines .told")) line.classList.remove("told");
  if (!keys.length) return;
  for (const one of doc.querySelectorAll("[data-of]")) {
    const its = (one.getAttribute("data-of") ?? "").split(" ");
    if ((its.includes(keys[0]) || keys.includes(its[0])) && !one.matches("section, table, article")) one.classList.add("told");
  }
  const place = keys.map((key) => places[key]).find(Boolean);
  if (place && place[0] === fileShown()) lineAt(place[1])?.classList.add("told");
}

/** A click on the page: show the line that what lies there comes from. @param {MouseEvent} event */
function clicked(event) {
  const target = /** @type {Element} */ (event.target);
  const link = target.closest("a[href]");
  if (link) {
    const to = link.getAttribute("href") ?? "";
    if (!to.startsWith("#")) { event.preventDefault(); window.open(to, "_blank", "noopener,noreferrer"); return; }
    event.preventDefault();
    frame.contentDocument?.getElementById(to.slice(1))?.scrollIntoView();
    return;
  }
  for (let at = /** @type {Element | null} */ (target); at; at = at.parentElement) {
    const keys = [...(at.getAttribute("data-of")?.split(" ") ?? [])];
    const name = /** @type {HTMLElement} */ (at).dataset?.part;
    if (name !== undefined) keys.push(name === "opening" ? "page/cover" : `page/${name}`);
    const found = keys.map((key) => places[key]).find(Boolean);
    if (found) { go(found[0], found[0].endsWith(".md") ? textLine(found[0], target) : found[1], found[2]); return; }
  }
}

/** The line of a text of the author's that begins like the paragraph clicked. @param {string} file @param {Element} target */
function textLine(file, target) {
  const words = (target.closest("p, li, h2, h3, h4, td, th")?.textContent ?? "").trim().split(/\s+/).slice(0, 4);
  const lines = (files[file] ?? "").split("\n");
  const at = lines.findIndex((line) => words.length && words.every((word) => line.includes(word)));
  return at < 0 ? 1 : at + 1;
}

/** Show a line of the source. @param {string} file @param {number} line @param {number} [column] */
function go(file, line, column = 1) {
  showFile(file);
  for (const old of document.querySelectorAll(".lines .here")) old.classList.remove("here");
  const at = fileShown() === file ? lineAt(line) : null; // of a file that cannot be read there is none
  at?.classList.add("here");
  at?.scrollIntoView({ block: "center" });
  by("place").textContent = `${file}:${line}:${column}`;
}

/** The shown line of a number. @param {number} number @returns {HTMLElement | null} */
const lineAt = (number) => /** @type {HTMLElement | null} */ (by("lines").children[number - 1] ?? null);
const fileShown = () => /** @type {HTMLSelectElement} */ (by("file")).value;

/** The address of a line. @param {string} file @param {number} line */
const addressOf = (file, line) => `#${file === "pattern.yaml" ? "" : `${encodeURIComponent(file)}/`}L${line}`;

/** Go where the address says: `#L31`, `#L31:7` with a column, or `#text/welcome.md/L3`. */
function follow() {
  const asked = /^#(?:(.+)\/)?L(\d+)(?::(\d+))?$/.exec(decodeURIComponent(location.hash));
  if (!asked) return;
  const [file, line] = [asked[1] ?? "pattern.yaml", Number(asked[2])];
  go(file, line, Number(asked[3] ?? 1));
  const near = Object.values(places).filter((p) => p[0] === file && p[1] <= line).reduce((most, p) => Math.max(most, p[1]), 0);
  const keys = Object.keys(places).filter((key) => places[key][0] === file && places[key][1] === near);
  const doc = frame.contentDocument;
  if (!doc || !keys.length) return;
  const shows = [...doc.querySelectorAll("[data-of]")].filter((one) => keys.includes((one.getAttribute("data-of") ?? "").split(" ")[0]));
  const page = keys.map((key) => doc.querySelector(`[data-part="${CSS.escape(key.replace("page/", "").replace("cover", "opening"))}"]`)).find(Boolean);
  for (const old of doc.querySelectorAll(".shown")) old.classList.remove("shown");
  for (const one of shows) one.classList.add("shown");
  (shows[0] ?? page)?.scrollIntoView({ block: "center", behavior: "instant" });
}

/* ---- faults and source ---- */

/** An element with text and a class. @param {string} name @param {string} [text] @param {string} [css] */
function el(name, text = "", css = "") {
  const made = document.createElement(name);
  made.textContent = text;
  if (css) made.className = css;
  return made;
}

/** An element with words in which names stand between backticks, as in the source. @param {string} name @param {string} words @param {string} [css] */
function named(name, words, css = "") {
  const made = el(name, "", css);
  words.split("`").forEach((part, n) => made.append(n % 2 ? el("code", part) : part));
  return made;
}

/** What the folder says now. @param {Look} look */
function tell(look) {
  files = Object.fromEntries(look.names.map((name) => [name, look.files[name] ?? files[name] ?? ""]));
  faults = look.faults;
  document.body.classList.toggle("stale", !look.sound);
  older();
  if (!look.sound) by("empty").textContent = "The booklet will stand here as soon as there are no errors.";
  const errors = faults.filter((fault) => fault.severity === "error").length;
  by("faults-title").textContent = look.trouble || (faults.length ? counted(errors, faults.length - errors) : "No faults found");
  by("faults").classList.toggle("none", !faults.length);
  listFaults();
  listFiles(look.names);
  const first = !document.documentElement.dataset.look;
  document.documentElement.dataset.look = String(look.number);
  if (first) follow();
  document.dispatchEvent(new Event("looked"));
}

/** Say so where what is shown is of an earlier state, on the web page or in print. */
function older() {
  by("old").hidden = !document.body.classList.contains("stale") || !by("empty").hidden;
}

/** The faults as they are listed, each by what it says. @type {Map<string, HTMLElement>} */
let listed = new Map();

/** List the faults; one that says what it said stays as it is, opened or not. */
function listFaults() {
  const made = new Map();
  for (const fault of faults) {
    const said = JSON.stringify(fault);
    made.set(said, listed.get(said) ?? told(fault));
  }
  listed = made;
  exchange(by("fault-list"), [...made.values()], by("faults-title"));
}

/** Put other children into an element. The keyboard stays with what it was at, or goes to what stands in its place, or,
    where nothing does, to another element. @param {HTMLElement} home @param {Element[]} made @param {HTMLElement | SVGElement | null} [otherwise] */
function exchange(home, made, otherwise = null) {
  const reached = () => /** @type {HTMLElement[]} */ ([...home.querySelectorAll("a[href], button, input, summary")]);
  const at = /** @type {HTMLElement} */ (document.activeElement);
  const place = reached().indexOf(at), seen = at?.matches(":focus-visible");
  home.replaceChildren(...made);
  if (place < 0) return;
  const now = reached();
  if (now.length) (home.contains(at) ? at : now[Math.min(place, now.length - 1)]).focus({ preventScroll: true });
  else if (seen) otherwise?.focus();
}

/** "2 errors and 1 warning". @param {number} errors @param {number} warnings */
function counted(errors, warnings) {
  const parts = [[errors, "error"], [warnings, "warning"]].filter(([n]) => n);
  return parts.map(([n, word]) => `${n} ${word}${n === 1 ? "" : "s"}`).join(" and ");
}

/** One fault of the list. @param {Fault} fault */
function told(fault) {
  const item = el("li", "", fault.severity);
  const where = el("p", "", "where");
  const link = /** @type {HTMLAnchorElement} */ (el("a", `${fault.file}:${fault.line}:${fault.column}`));
  link.href = `${addressOf(fault.file, fault.line)}:${fault.column}`;
  link.addEventListener("click", () => go(fault.file, fault.line, fault.column));
  const rule = /** @type {HTMLAnchorElement} */ (el("a", `[${fault.code}]`, "code"));
  rule.href = `help#rules-${fault.code}`;
  rule.target = "_blank";
  rule.title = "What this rule means, and how to put it right";
  where.append(link, ` ${fault.severity} `, rule);
  item.append(where, named("p", sentence(fault.message)));
  if (fault.hint) item.append(named("p", fault.hint, "try"));
  if (fault.picture) {
    const drawn = new DOMParser().parseFromString(fault.picture, "image/svg+xml").documentElement;
    drawn.classList.add("drawn");
    item.append(document.importNode(drawn, true));
  }
  if (fault.following?.length) {
    const more = el("details");
    more.append(el("summary", `${fault.following.length} more from the same cause`));
    const list = el("ol");
    list.append(...fault.following.map((one) => named("li", `line ${one.line}: ${one.message}`)));
    more.append(list);
    item.append(more);
  }
  return item;
}

/** A message as a sentence. @param {string} words */
const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1) + (/[.?!]$/.test(words) ? "" : ".");

/** List the files of the source; show the one shown before. @param {string[]} names */
function listFiles(names) {
  const select = /** @type {HTMLSelectElement} */ (by("file"));
  const shown = names.includes(select.value) ? select.value : names[0] ?? "";
  if (select.options.length !== names.length || names.some((name, n) => select.options[n].value !== name)) {
    select.replaceChildren(...names.map((name) => new Option(name, name)));
  }
  select.value = shown;
  showLines();
  markFaults();
}

/** Show a file. @param {string} file */
function showFile(file) {
  const select = /** @type {HTMLSelectElement} */ (by("file"));
  if (select.value === file || !(file in files)) return;
  select.value = file;
  showLines();
  markFaults();
}

/** Show the lines of the chosen file, leaving alone those that are as they were. */
function showLines() {
  const file = fileShown();
  const list = by("lines");
  const lines = file in files ? files[file].split(/\r\n|\r|\n/) : [];
  lines.forEach((text, n) => {
    const old = list.children[n];
    const href = addressOf(file, n + 1);
    if (old) {
      const code = /** @type {HTMLElement} */ (old.lastElementChild);
      if (code.textContent !== text) code.textContent = text;
      /** @type {HTMLAnchorElement} */ (old.firstElementChild).href = href;
      return;
    }
    const link = /** @type {HTMLAnchorElement} */ (el("a", String(n + 1)));
    link.href = href;
    const item = el("li");
    item.append(link, el("code", text));
    list.append(item);
  });
  while (list.children.length > lines.length) list.lastElementChild?.remove();
}

/** Underline the lines with a fault. */
function markFaults() {
  for (const old of document.querySelectorAll(".lines .fault")) old.classList.remove("fault");
  for (const fault of faults) if (fault.file === fileShown()) lineAt(fault.line)?.classList.add("fault");
}

/* ---- what is shown ---- */

/** List editions, sizes, colourways and layouts. @param {Page} page */
function listChoices(page) {
  fill("edition", Object.keys(page.choices).map((id) => [id, id]), page.edition);
  fill("size", page.choices[page.edition] ?? [], page.size);
  for (const kind of /** @type {const} */ (["colourway", "layout"])) {
    const rows = page.ways[kind] ?? [];
    const known = rows.some(([id]) => id === page[kind]);
    fill(kind, [["", "as in the edition"], ...rows], known ? page[kind] : "");
    const label = by(kind).closest("label");
    if (label) label.hidden = rows.length === 0;
  }
}

/** Fill a list of choices. @param {string} id @param {[string, string][]} rows @param {string} value */
function fill(id, rows, value) {
  const select = /** @type {HTMLSelectElement} */ (by(id));
  const before = [...select.options].map((option) => option.value + option.text).join();
  if (before !== rows.map(([name, title]) => name + title).join()) {
    select.replaceChildren(...rows.map(([name, title]) => new Option(title, name)));
  }
  select.value = value;
}

const query = () => {
  const { medium: _, ...asked } = chosen;
  return new URLSearchParams(asked);
};
let late = 0;

/** Listen to what is news for the page chosen. */
function listen() {
  listening?.close();
  listening = new EventSource(`events?${query()}`);
  /** @param {string} kind @param {(told: any) => void} does */
  const on = (kind, does) => listening?.addEventListener(kind, (event) => does(JSON.parse(event.data)));
  on("busy", ({ words }) => { clearTimeout(late); late = setTimeout(() => status(words || "working", true), 250); });
  on("idle", () => status("up to date"));
  on("look", tell);
  on("part", putEarly);
  on("page", (page) => { put(page); if (chosen.medium) renew(); });
  listening.onerror = () => status("the preview has ended; start it again with booklet preview");
  listening.onopen = () => status("up to date");
}

/** Say how things stand. @param {string} words @param {boolean} [busy] */
function status(words, busy = false) {
  clearTimeout(late);
  if (by("status").textContent !== words) by("status").textContent = words;
  by("status").classList.toggle("late", busy);
}

for (const id of ["edition", "size", "colourway", "layout", "medium"]) {
  by(id).addEventListener("change", (event) => {
    chosen[/** @type {"size"} */ (id)] = /** @type {HTMLSelectElement} */ (event.target).value;
    if (id === "medium") medium(); else listen();
  });
}
by("file").addEventListener("change", () => { showLines(); markFaults(); });
by("choice").addEventListener("submit", (event) => event.preventDefault());
window.addEventListener("hashchange", follow);

/* ---- on paper ---- */

/** @type {EventSource | null} */
let laying = null;

/** Show the web page, or lay the booklet out on the paper chosen. */
function medium() {
  laying?.close();
  by("print").hidden = chosen.medium === "";
  printed()?.remove();
  frame.hidden = chosen.medium !== "" || !frame.contentDocument?.querySelector("main");
  if (chosen.medium) layOut();
}

/** How often pages were laid out. */
let times = 0;
/** The pages in print that are shown. */
const printed = () => by("print").querySelector("iframe");

/** Lay the booklet out, saying how far it is; pages that are as they were stay, and stand where they stood. */
function layOut() {
  const asked = query();
  asked.set("paper", chosen.medium);
  laying = new EventSource(`printing?${asked}`);
  const source = laying;
  /** @param {string} words */
  const say = (words) => { by("printing").textContent = words; };
  say("asking for the pages");
  source.addEventListener("drawing", (event) => say(JSON.parse(event.data).words + " …"));
  source.addEventListener("stage", (event) => { printed()?.remove(); say(JSON.parse(event.data).words + " …"); });
  source.addEventListener("stop", (event) => { source.close(); printed()?.remove(); say(sentence(JSON.parse(event.data).words)); });
  source.addEventListener("done", (event) => {
    source.close();
    document.documentElement.dataset.printed = String(++times);
    const src = `printed/${JSON.parse(event.data).number}.pdf`;
    if (printed()?.getAttribute("src") === src) return;
    printed()?.remove();
    by("print").prepend(Object.assign(document.createElement("iframe"), { title: "The booklet in print", src }));
  });
  source.onerror = () => { source.close(); printed()?.remove(); say("The preview has ended; start it again with booklet preview."); };
}

/** The pattern has changed: the pages in print are of before. */
let renewing = 0;
function renew() {
  clearTimeout(renewing);
  renewing = setTimeout(() => { laying?.close(); layOut(); }, 800); // after the last of a row of saves
}

frame.addEventListener("load", listen, { once: true });
if (frame.contentDocument?.readyState === "complete" && frame.contentDocument.URL.endsWith("/sheet")) listen();
