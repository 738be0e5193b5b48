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
/** A bridge on this very computer answers within milliseconds; whoever waits longer gives up. A setting of ours. */
const PAGE_LIMIT_MS = 4000;
/** For one file of the page, all fetched at once. A setting of ours. */
const FILE_LIMIT_MS = 10_000;

self.addEventListener('install', (event) => {
  event.waitUntil(keepFiles().then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  if (request.mode === 'navigate') {
    // Only the page itself: a report is made anew each time.
    if (request.url !== PAGE) return;
    const fetched = wholePage(request);
    const shown = freshPage(fetched);
    event.respondWith(shown);
    event.waitUntil(keepPage(fetched, shown, event.resultingClientId));
    return;
  }
  // Their names change with their contents, so what is kept under one is never old.
  if (request.url.startsWith(`${PAGE}assets/`)) event.respondWith(keptFile(request));
});

/** From the bridge while there is one, so that a newer page is seen at once. */
async function freshPage(fetched: Promise<Response>): Promise<Response> {
  const kept = await (await caches.open(CACHE)).match(PAGE);
  if (kept === undefined) return fetched;
  const late = new Promise<Response>((show) => setTimeout(() => show(kept), PAGE_LIMIT_MS));
  return Promise.race([fetched.catch(() => kept), late]);
}

/** Read to its end: a page that stops half-way would be no answer either. */
async function wholePage(request: Request): Promise<Response> {
  const page = await fetch(request);
  await page.clone().arrayBuffer();
  return page;
}

/** @param opening the window that is opening */
async function keepPage(
  fetched: Promise<Response>,
  shown: Promise<Response>,
  opening: string,
): Promise<void> {
  const page = await fetched.catch(() => null);
  if (page === null || !page.ok) return;
  await keepFiles();
  if ((await shown) === page) await letGoOfOthers(opening);
}

async function keptFile(request: Request): Promise<Response> {
  return (await (await caches.open(CACHE)).match(request)) ?? fetch(request);
}

/**
 * Keeps all files of the present page. The page itself comes last and only after all others, so that what
 * opens without a network is always whole; a file that can't be had now is asked for at the next opening.
 */
async function keepFiles(): Promise<void> {
  const names = await listedFiles();
  const cache = await caches.open(CACHE);
  const known = new Set((await cache.keys()).map(({ url }) => url));
  const missing = names.filter((url) => url !== PAGE && !known.has(url));
  const kept = await Promise.all(missing.map((url) => keepFile(cache, url)));
  if (names.length > 0 && kept.every(Boolean)) await keepFile(cache, PAGE);
}

/** Addresses of the present page's files; none where the bridge does not say. */
async function listedFiles(): Promise<string[]> {
  try {
    const listed = await fetch(LIST, { cache: 'no-store', signal: limit() });
    const names: unknown = listed.ok ? await listed.json() : [];
    return Array.isArray(names) ? names.map((name) => new URL(String(name), PAGE).href) : [];
  } catch {
    return [];
  }
}

async function keepFile(cache: Cache, url: string): Promise<boolean> {
  try {
    const file = await fetch(url, { cache: 'no-cache', signal: limit() });
    // Resolves once the whole of it is there.
    if (file.ok) await cache.put(url, file);
    return file.ok;
  } catch {
    return false;
  }
}

function limit(): AbortSignal {
  return AbortSignal.timeout(FILE_LIMIT_MS);
}

/**
 * Deletes what belongs to earlier pages, once no window shows one: it may yet ask for a part of its own, such
 * as another language.
 * @param opening the window that shows the present page
 */
async function letGoOfOthers(opening: string): Promise<void> {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const others = windows.filter(({ id, url }) => id !== opening && url.split(/[?#]/u)[0] === PAGE);
  if (others.length > 0) return;
  const wanted = new Set(await listedFiles());
  if (wanted.size === 0) return;
  const cache = await caches.open(CACHE);
  for (const request of await cache.keys()) {
    if (!wanted.has(request.url)) await cache.delete(request);
  }
}
