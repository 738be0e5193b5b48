/** A rehearsal worked by the trainee: the cure shows on the curve, the debrief tells what was left out. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import {
  openBrowser,
  openDashboard,
  pageReadings,
  shown,
  untilOtherRecording,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;

beforeAll(async () => {
  [bridge, browser] = await Promise.all([runBridge(), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

test('fresh oil lets a pump with fouled oil get deep', { timeout: 240_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('rehearse-now').click();
  await page.getByRole('radio', { name: 'My own hands' }).check();
  await page.getByRole('radio', { name: '×120', exact: true }).check();
  await page.getByTestId('rehearsal-station-road-florist').locator('summary').click();
  await expectAccessible(page);
  await page.getByTestId('start-station-road-florist').click();

  await page.getByTestId('mark-pump_on').click();
  await untilShown(page, 'stage', 'pull_down');
  await page.getByTestId('mark-ballast_closed').click();
  await page.getByTestId('jump').click();
  const latest = async () => (await pageReadings(page)).at(-1);
  await expect
    .poll(async () => (await latest())?.elapsedS ?? 0, { timeout: 60_000 })
    .toBeGreaterThan(600);
  // 800 micron are 107 Pa: no further with this oil.
  expect((await latest())?.pressurePa).toBeGreaterThan(90);
  await page.getByTestId('more-marks').click();
  await expectAccessible(page);
  await page.getByTestId('mark-oil_changed').click();
  await expect
    .poll(async () => (await latest())?.pressurePa ?? Infinity, { timeout: 120_000 })
    .toBeLessThan(60);

  await closePanel(page);
  await page.getByTestId('call').click();
  await page.locator('input[name="trainee"]').fill('R. Sample');
  await page.getByTestId('pick-cause').getByRole('radio', { name: 'Pump or its oil' }).check();
  await page.locator('input[name="sure"]').fill('80');
  await expectAccessible(page);
  await page.getByTestId('make-call').click();
  await page.getByTestId('reveal-now').click();
  await page.getByTestId('truth').waitFor();
  for (const found of ['right_call', 'cure_tried', 'never_held']) {
    const count = await page.getByTestId('debrief').locator(`[data-finding=${found}]`).count();
    expect(count, found).toBe(1);
  }
  await expectAccessible(page);
  await page.getByTestId('reveal-panel').getByTestId('open-results').click();
  await page.getByTestId('score').waitFor();
  await expectAccessible(page);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('begun again it is the same, reading by reading', { timeout: 120_000 }, async () => {
  const { page, complaints } = await openDashboard(browser, bridge.url);
  await page.getByTestId('menu').click();
  await page.getByTestId('open-rehearse').click();
  await page.getByRole('radio', { name: '×120', exact: true }).check();
  await page.getByTestId('rehearsal-drawn').locator('summary').click();
  await untilShown(page, 'connection', 'live');
  const earlier = await shown(page, 'recording');
  await page.getByTestId('start-drawn').click();
  await untilOtherRecording(page, earlier);
  const first90 = async () => {
    await untilReadings(page, 90);
    return (await pageReadings(page)).slice(0, 90).map(({ pressurePa }) => pressurePa);
  };
  const before = await first90();
  const old = await shown(page, 'recording');
  await page.getByTestId('again').click();
  await page.getByTestId('again-now').click();
  await untilOtherRecording(page, old);
  expect(await first90()).toEqual(before);
  expect(complaints).toEqual([]);
  await page.context().close();
});

async function closePanel(page: Page): Promise<void> {
  const close = page.getByTestId('close-panel');
  if (await close.isVisible()) await close.click();
}
