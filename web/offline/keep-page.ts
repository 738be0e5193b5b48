/** Lets the browser keep the page's files, where it can: then it opens without a network. */
export function keepPage(): void {
  if (!('serviceWorker' in navigator)) return;
  const worker = new URL('service-worker.js', document.baseURI);
  // Refused in a private window, say: the page works all the same, from the bridge.
  navigator.serviceWorker.register(worker, { updateViaCache: 'none' }).catch(() => undefined);
}
