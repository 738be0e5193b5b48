/** Installed, and without a network: the page opens while the bridge is off, and shows nothing as live. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { openBrowser, openDashboard, picture, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
import { runBridge } from '../support/running-bridge.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const manifestSchema = z.object({
  name: z.literal('Ebbline'),
  start_url: z.string(),
  display: z.literal('standalone'),
  icons: z.array(z.object({ src: z.string(), sizes: z.string(), type: z.string() })).min(2),
});

test('what a browser asks of a page that is to be installed', async () => {
  const bridge = await runBridge();
  const manifest = manifestSchema.parse(
    await (await fetch(`${bridge.url}manifest.webmanifest`)).json(),
  );
  for (const { src, type } of manifest.icons) {
    const icon = await fetch(bridge.url + src);
    expect([icon.status, icon.headers.get('content-type')]).toEqual([200, type]);
  }
  const { page } = await openDashboard(browser, bridge.url);
  const linked = await page.locator('link[rel=manifest]').getAttribute('href');
  expect(linked).toContain('manifest.webmanifest');
  await page.context().close();
  await bridge.remove();
});

test(
  'with the bridge off it opens, says so, and shows no number',
  { timeout: 120_000 },
  async () => {
    const bridge = await runBridge();
    const { page } = await rehearse(browser, bridge.url, 'quarry-road-bakery');
    await untilShown(page, 'stage', 'pull_down');
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await bridge.remove();
    await page.reload();
    const state = page.getByTestId('connection-state');
    await expect.poll(() => state.innerText()).toContain('Connection to the bridge lost');
    await expect.poll(() => page.getByTestId('number').count()).toBe(0);
    expect(
      await page.evaluate(() => document.fonts.check('600 20px "Barlow Semi Condensed"')),
    ).toBe(true);
    await picture(page, 'offline');
    await page.context().close();
  },
);

test('nothing but the page’s own files is kept', { timeout: 120_000 }, async () => {
  const bridge = await runBridge();
  // Slowly: its pull-down has to outlast a reload.
  const { page } = await rehearse(browser, bridge.url, 'quarry-road-bakery', {}, '×60');
  await untilShown(page, 'stage', 'pull_down');
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  await untilShown(page, 'stage', 'pull_down');
  // Something that the bridge answers, past the worker.
  await page.getByTestId('menu').click();
  await page.getByTestId('open-recordings').click();
  await page.getByTestId('recordings-panel').getByRole('listitem').first().waitFor();
  const kept = z.array(z.string()).parse(
    await page.evaluate(async () => {
      const caches = await window.caches.keys();
      const requests = await Promise.all(
        caches.map(async (name) => (await window.caches.open(name)).keys()),
      );
      return requests.flat().map(({ url }) => new URL(url).pathname);
    }),
  );
  expect(kept).toContain('/');
  for (const path of kept) expect(path).toMatch(/^\/($|assets\/|manifest\.webmanifest$)/u);
  await page.context().close();
  await bridge.remove();
});
