// Keeps the files of the page, and answers with them: after the first visit no network is asked.
// VERSION and FILES are written by build.sh; another version is fetched whole, beside the old one.
const VERSION = "@VERSION@";
const FILES = ["@FILES@"];

self.addEventListener("install", (event) => {
  const fetched = caches.open(VERSION).then((kept) =>
    kept.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" }))));
  event.waitUntil(fetched);
});

self.addEventListener("activate", (event) => {
  const old = (name) => name !== VERSION;
  const gone = caches.keys().then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))));
  event.waitUntil(gone.then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const here = new URL(event.request.url);
  if (event.request.method !== "GET" || here.origin !== location.origin) return;
  const kept = caches.open(VERSION).then((files) => files.match(event.request, { ignoreSearch: true }));
  event.respondWith(kept.then((file) => file ?? fetch(event.request)));
});
