/** Flags and the names of levels in one chart: no pole runs through a name, in any look. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { openBrowser, openDashboard, picture, untilReadings } from '../support/dashboard.ts';
import { type Drawn, drawnOnCanvas, keepAccountOfDrawing } from '../support/drawn-lines.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const NAMES = /^(target|valve off at) /u;
/** So few that each finds a row for its words, and has a long pole. */
const MARKS = 3;

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

const namesIn = ({ words }: Drawn) => words.filter(({ text }) => NAMES.test(text));

/** Poles that come from above a name, right over it: else there is nothing to see. */
const passing = (drawn: Drawn) =>
  drawn.uprights.filter(({ x, top }) =>
    namesIn(drawn).some(({ left, right, middle }) => left <= x && x <= right && top < middle),
  );

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
      body: JSON.stringify({ kind: 'note', elapsedS: toS * (0.985 - 0.015 * at), text: `${at}` }),
    });
  }
  await expect
    .poll(async () => passing(await drawnOnCanvas(page)).length, { timeout: 15_000 })
    .toBeGreaterThanOrEqual(MARKS);
  const drawn = await drawnOnCanvas(page);
  const crossing = drawn.uprights.filter(({ x, top, bottom }) =>
    namesIn(drawn).some(
      ({ left, right, middle }) => left <= x && x <= right && top < middle && bottom > middle,
    ),
  );
  expect(crossing).toEqual([]);
  await picture(page, `flags-${look}`);
  await page.context().close();
});
