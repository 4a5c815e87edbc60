// @ts-check
/** The service worker of a site: keeps all its files by what is in them, so that it works without a network after one visit, and
 * fetches only what has changed when the booklet changes. It answers from one state of the booklet: either all is new, or nothing. */

/** Each file with the digest of its bytes. @type {Record<string, string>} */
const files = {/* files */};
const worker = /** @type {any} */ (self);
const home = worker.registration.scope;
const store = "booklet " + home;

/** The address under which a file is kept: with another content it is another. @param {string} name */
const place = (name) => new URL(name + "?" + files[name], home).href;

/** The file of the booklet that is asked for, or none. @param {Request} request */
function named(request) {
  const address = request.url.split(/[?#]/)[0];
  if (request.method !== "GET" || !address.startsWith(home)) return "";
  const name = decodeURIComponent(address.slice(home.length)) || "index.html";
  return [name, name + ".html"].find((one) => Object.hasOwn(files, one)) || ""; // some hosts leave the ending out
}

/** Fetch a file and keep it, if it is the one that belongs to the others. @param {Cache} cache @param {string} name */
async function keep(cache, name) {
  if (await cache.match(place(name))) return;
  const answer = await fetch(new URL(name, home), { cache: "no-cache" });
  const bytes = await answer.arrayBuffer();
  const digest = [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!answer.ok || digest !== files[name]) throw new Error(name + " is of another state of the booklet");
  await cache.put(place(name), new Response(bytes, { headers: { "Content-Type": answer.headers.get("Content-Type") || "" } }));
}

worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil((async () => {
  const cache = await caches.open(store);
  await Promise.all(Object.keys(files).map((name) => keep(cache, name)));
  await worker.skipWaiting();
})()));

worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil((async () => {
  const cache = await caches.open(store);
  const kept = new Set(Object.keys(files).map(place));
  for (const request of await cache.keys()) if (!kept.has(request.url)) await cache.delete(request);
  await worker.clients.claim();
})()));

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const name = named(event.request);
  if (name) event.respondWith(caches.open(store).then((cache) => cache.match(place(name))).then((kept) => kept || fetch(event.request)));
});
