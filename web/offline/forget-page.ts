/** Takes the page itself out of what the browser keeps; its files stay, for windows that still show it. */
export async function forgetPage(): Promise<void> {
  // Only where a worker could keep it at all (a secure context).
  if (!('caches' in window)) return;
  const page = new URL('./', document.baseURI);
  try {
    for (const name of await caches.keys()) await (await caches.open(name)).delete(page);
  } catch {
    // A browser that forbids its store has kept nothing in it either.
  }
}
