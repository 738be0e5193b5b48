/**
 * Keeps the page's own files, so that it opens without a network, and even while the bridge is off: it then
 * says that it has lost the bridge. Readings, conclusions and all else that the bridge says are never kept:
 * what is old must not look live.
 *
 * Written out rather than taken from a library: what there is for it brings some hundred packages to a
 * fresh machine, for these three rules.
 */
// A module of its own, so that its `self` may be narrower than the library's.
export {};
declare const self: ServiceWorkerGlobalScope;

const CACHE = 'page';
const PAGE = new URL('./', self.registration.scope).href;
/** Written when the page is built: the addresses of all its files. */
const LIST = new URL('kept-files.json', self.registration.scope).href;

self.addEventListener('install', (event) => {
  event.waitUntil(keepFiles().then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  if (request.mode === 'navigate') {
    // Only the page itself: a report is made anew each time.
    if (request.url === PAGE) event.respondWith(freshPage(event));
    return;
  }
  // Their names change with their contents, so what is kept under one is never old.
  if (request.url.startsWith(`${PAGE}assets/`)) event.respondWith(keptFile(request));
});

/** From the bridge while there is one, so that a newer page is seen at once. */
async function freshPage(event: FetchEvent): Promise<Response> {
  try {
    const page = await fetch(event.request);
    if (page.ok) event.waitUntil(keepFiles());
    return page;
  } catch (error) {
    const kept = await (await caches.open(CACHE)).match(PAGE);
    if (kept === undefined) throw error;
    return kept;
  }
}

async function keptFile(request: Request): Promise<Response> {
  return (await (await caches.open(CACHE)).match(request)) ?? fetch(request);
}

/** All files of the present page, and no others. */
async function keepFiles(): Promise<void> {
  const listed = await fetch(LIST, { cache: 'no-store' });
  if (!listed.ok) return;
  const names: unknown = await listed.json();
  if (!Array.isArray(names)) return;
  const wanted = new Set(names.map((name) => new URL(String(name), PAGE).href));
  const cache = await caches.open(CACHE);
  const known = await cache.keys();
  const missing = [...wanted].filter((url) => known.every((request) => request.url !== url));
  // The page's own name stays the same, so it is always fetched anew.
  await cache.addAll([...missing, ...(missing.includes(PAGE) ? [] : [PAGE])]);
  for (const request of known) if (!wanted.has(request.url)) await cache.delete(request);
}
