/** A bridge of another version: the page asks for a newer one once, and then says what is wrong. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { STREAM_VERSION } from '../../protocol/stream.ts';
import { english } from '../../web/words/english.ts';
import { spanish } from '../../web/words/spanish.ts';
import { openBrowser, openDashboard, picture } from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const GREETING = JSON.stringify({ type: 'hello', streamVersion: STREAM_VERSION + 1, weather: [] });

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test.each([
  ['en-US', english],
  ['es-MX', spanish],
] as const)('in %s', async (locale, { connection: words }) => {
  let loads = 0;
  let greetings = 0;
  const { page } = await openDashboard(browser, bridge.url, {
    // With the worker's hands bound, what the page itself does with what was kept can be seen.
    context: { locale, serviceWorkers: 'block' },
    prepare: async (opening) => {
      opening.on('load', () => (loads += 1));
      await opening.routeWebSocket(/\/stream$/u, (stream) => {
        greetings += 1;
        if (greetings === 1) return;
        stream.send(GREETING);
      });
    },
  });
  await page.evaluate(async () => {
    const kept = await window.caches.open('page');
    await kept.put('./', new Response('an old page'));
    await kept.put('./assets/part.js', new Response('a part of it'));
  });
  // The first call was never answered, so that there was time to keep something.
  await page.getByRole('heading', { name: words.otherVersion }).waitFor({ timeout: 25_000 });
  await page.getByText(words.otherVersionRemedy).waitFor();
  await expect
    .poll(() => page.getByTestId('connection-state').innerText())
    .toBe(words.otherVersion);
  // It asks the bridge again and again, and loads the page no more for that.
  await expect.poll(() => greetings, { timeout: 20_000 }).toBeGreaterThanOrEqual(4);
  expect(loads).toBe(2);
  const paths = await page.evaluate(async () =>
    (await (await window.caches.open('page')).keys()).map(({ url }) => new URL(url).pathname),
  );
  expect(paths).toEqual(['/assets/part.js']);
  await picture(page, `other-version-${locale}`);
  await page.context().close();
});
