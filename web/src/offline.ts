// The service worker: keeps the whole page, a version at a time. A new version
// waits until the page asks for it. What a served folder answers is never kept.
declare const KEEP: string[];
declare const VERSION: string;
const sw = self as unknown as ServiceWorkerGlobalScope;
const cacheName = "loomwright-" + VERSION;

sw.addEventListener("install", (e) => {
  e.waitUntil(
    caches.open(cacheName).then((c) => c.addAll(KEEP.map((u) => new Request(u, { cache: "no-cache" })))),
  );
});

sw.addEventListener("activate", (e) => {
  e.waitUntil(
    caches.keys().then(async (names) => {
      for (const n of names) if (n.startsWith("loomwright-") && n !== cacheName) await caches.delete(n);
      await sw.clients.claim();
    }),
  );
});

sw.addEventListener("message", (e) => {
  if (e.data === "now") void sw.skipWaiting();
});

sw.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  const scope = new URL(sw.registration.scope);
  const path = url.pathname.slice(scope.pathname.length);
  if (e.request.method !== "GET" || url.origin !== scope.origin || path.startsWith("api/")) return;
  e.respondWith(answer(e.request, path));
});

async function answer(request: Request, path: string): Promise<Response> {
  const cache = await caches.open(cacheName);
  const kept = await cache.match(path === "" ? "./" : request, { ignoreSearch: true });
  if (kept) return kept;
  const fresh = await fetch(request);
  if (fresh.ok && path === "paper.wasm") await cache.put(request, fresh.clone());
  return fresh;
}
