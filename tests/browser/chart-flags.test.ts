/** Flags, the names of levels and the present reading in one chart: none runs through a name. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import {
  openBrowser,
  openDashboard,
  picture,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { type Drawn, drawnOnCanvas, keepAccountOfDrawing } from '../support/drawn-lines.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

const NAMES = /^(target|valve off at) /u;
const RULE = /^rule: /u;
/** Half the height of a name's letters, px. */
const HALF_LETTERS = 8;
/** So few that each finds a row for its words, and has a long pole. */
const MARKS = 3;

let bridge: RunningBridge;
let browser: Browser;
let sensors: PlayedSensors;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
// A recording for each look: where too many flags stand, poles are short and pass no name.
beforeEach(async () => {
  sensors = new PlayedSensors();
  bridge = await runBridge({ sensors });
  sensors.meet('aa:01', 'roof');
  for (let s = 1; s < 600; s += 1) sensors.measure('aa:01', s, 40 + 90_000 * Math.exp(-s / 40));
});
afterEach(() => bridge.remove());

function mark(what: { kind: string; elapsedS: number; text: string }): Promise<Response> {
  return fetch(new URL('api/recordings/1/marks', bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(what),
  });
}

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
    await mark({ kind: 'note', elapsedS: toS * (0.985 - 0.015 * at), text: `${at}` });
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

test('on a phone the name of the rule makes room for the present reading', async () => {
  // Half of the hold on, a little above the limit of 500 micron (66.7 Pa): there the name would stand.
  for (let s = 600; s < 1020; s += 1) sensors.measure('aa:01', s, 41 + ((s - 600) * 34) / 420);
  const { page } = await openDashboard(browser, bridge.url, {
    context: { locale: 'en-US', viewport: { width: 390, height: 844 } },
    prepare: keepAccountOfDrawing,
  });
  await untilReadings(page, 1000);
  await mark({ kind: 'isolated', elapsedS: 600, text: '' });
  await untilShown(page, 'stage', 'rise');
  const seen = async () => {
    const { words, dots } = await drawnOnCanvas(page);
    const [name, dot] = [words.find(({ text }) => RULE.test(text)), dots.at(-1)];
    return name === undefined || dot === undefined ? null : { name, dot };
  };
  await expect.poll(async () => (await seen()) !== null, { timeout: 15_000 }).toBe(true);
  const { name, dot } = (await seen()) ?? { name: { left: 0, right: 0, middle: 0 }, dot: null };
  await picture(page, 'name-and-present');
  if (dot === null) throw new Error('there is no present reading');
  const isBeside = dot.x + dot.radius < name.left || dot.x - dot.radius > name.right;
  const apart = Math.abs(dot.y - name.middle);
  expect(isBeside || apart > dot.radius + HALF_LETTERS, `${apart} px`).toBe(true);
  await page.context().close();
});
