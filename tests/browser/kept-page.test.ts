/** What the worker keeps of a page, where the bridge is silent, slow, or of another version than before. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { z } from 'zod';
import { openBrowser } from '../support/dashboard.ts';
import { PretendBridge } from '../support/pretend-bridge.ts';

let browser: Browser;
let bridge: PretendBridge;
let context: BrowserContext;
let url = '';

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
beforeEach(async () => {
  bridge = new PretendBridge();
  [url, context] = await Promise.all([bridge.listen(), browser.newContext()]);
});
afterEach(async () => {
  await context.close();
  await bridge.close();
});

/** A window with the page, whose worker has come to rule. */
async function openKept(): Promise<Page> {
  const page = await context.newPage();
  await page.goto(url);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  return page;
}

async function keptPaths(page: Page): Promise<string[]> {
  const kept = await page.evaluate(async () => {
    const requests = await (await window.caches.open('page')).keys();
    return requests.map(({ url: address }) => new URL(address).pathname);
  });
  return z.array(z.string()).parse(kept).sort();
}

test('a bridge that takes the call and never answers gets the kept page shown', async () => {
  const page = await openKept();
  bridge.silentOn.add('/');
  await page.goto(url);
  await expect.poll(() => page.innerText('h1')).toBe('Page 1');
  // It is the worker that answered, not a bridge that was late.
  bridge.turnTo(2);
  await page.goto(url);
  await expect.poll(() => page.innerText('h1')).toBe('Page 1');
});

test('a file that never comes leaves the page before it kept, and whole', async () => {
  const page = await openKept();
  bridge.turnTo(2);
  bridge.silentOn.add('/assets/part-2.js');
  await page.goto(url);
  await expect.poll(() => page.innerText('h1')).toBe('Page 2');
  await expect.poll(() => keptPaths(page)).toContain('/assets/page-2.js');
  bridge.silentOn.add('/');
  await page.goto(url);
  await expect.poll(() => page.innerText('h1')).toBe('Page 1');
  expect(await page.evaluate('window.askForPart()')).toBe('Part 1');
});

test('a file that never comes does not keep the worker from its work', async () => {
  bridge.silentOn.add('/assets/part-1.js');
  const page = await openKept();
  await expect.poll(() => keptPaths(page)).toEqual(['/assets/page-1.js']);
});

test('the parts of an earlier page are there while a window shows it, and no longer', async () => {
  const earlier = await openKept();
  bridge.turnTo(2);
  const later = await openKept();
  await expect.poll(() => later.innerText('h1')).toBe('Page 2');
  await later.goto(url);
  await expect.poll(() => keptPaths(later)).toContain('/assets/part-2.js');
  // Of the bridge it could not be had any more.
  expect(await earlier.evaluate('window.askForPart()')).toBe('Part 1');
  await earlier.close();
  // A worker hears of a window that was closed when it pleases.
  await expect
    .poll(async () => {
      await later.reload();
      return keptPaths(later);
    })
    .toEqual(['/', '/assets/page-2.js', '/assets/part-2.js']);
});

test('a single window that is loaded anew lets go of the page before', async () => {
  const page = await openKept();
  bridge.turnTo(2);
  await page.reload();
  await expect.poll(() => keptPaths(page)).toEqual(['/', '/assets/page-2.js', '/assets/part-2.js']);
});
