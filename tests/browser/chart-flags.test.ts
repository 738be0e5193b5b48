/** Flags and the names of levels in one chart: no pole runs through a name, in any look. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { openBrowser, openDashboard, picture, untilReadings } from '../support/dashboard.ts';
import { drawnOnCanvas, keepAccountOfDrawing } from '../support/drawn-lines.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const NAMES = /^(target|valve off at) /u;
const MARKS = 12;

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
// A recording for each look: where too many flags stand, poles are short and pass no name.
beforeEach(async () => {
  const sensors = new PlayedSensors();
  bridge = await runBridge({ sensors });
  sensors.meet('aa:01', 'roof');
  for (let s = 1; s < 600; s += 1) sensors.measure('aa:01', s, 40 + 90_000 * Math.exp(-s / 40));
});
afterEach(() => bridge.remove());

test.each(['day', 'night', 'sun'])('by %s', async (look) => {
  const { page } = await openDashboard(browser, bridge.url, {
    context: { locale: 'en-US' },
    prepare: keepAccountOfDrawing,
    script: `localStorage.setItem('ebbline.choices', '{"pressure":"micron","temperature":"°C","look":"${look}"}');`,
  });
  await untilReadings(page, 590);
  const chart = page.getByTestId('chart');
  await expect.poll(async () => Number(await chart.getAttribute('data-to-s'))).toBeGreaterThan(600);
  const toS = Number(await chart.getAttribute('data-to-s'));
  // All along the right end, where the names stand: some of the poles have to pass one.
  for (let at = 0; at < MARKS; at += 1) {
    await fetch(new URL('api/recordings/1/marks', bridge.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ kind: 'note', elapsedS: toS * (0.985 - 0.02 * at), text: `${at}` }),
    });
  }
  await expect
    .poll(async () => new Set((await drawnOnCanvas(page)).uprights.map(({ x }) => x)).size)
    .toBeGreaterThanOrEqual(MARKS);
  const { uprights, words } = await drawnOnCanvas(page);
  const names = words.filter(({ text }) => NAMES.test(text));
  expect(names.length).toBeGreaterThanOrEqual(2);
  const besideOne = uprights.filter(({ x }) =>
    names.some(({ left, right }) => left <= x && x <= right),
  );
  // Else there was nothing to see.
  expect(besideOne.length).toBeGreaterThan(0);
  const crossing = besideOne.filter(({ x, top, bottom }) =>
    names.some(
      ({ left, right, middle }) => left <= x && x <= right && top < middle && bottom > middle,
    ),
  );
  expect(crossing).toEqual([]);
  await picture(page, `flags-${look}`);
  await page.context().close();
});
