/** The three rehearsals, played at speed to their end on the page: alert at the target, verdict. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, picture, shown, untilShown } from '../support/dashboard.ts';
import { rehearse } from '../support/rehearsing.ts';
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

describe.each([
  ['lindens-dental-practice', 'moisture', 'Moisture'],
  ['quarry-road-bakery', 'tight_dry', 'Tight and dry'],
  ['weir-street-archive', 'leak_and_moisture', 'Leak'],
])('the rehearsal %s', (name, verdict, words) => {
  test(`calls out the target and comes to "${verdict}"`, { timeout: 180_000 }, async () => {
    const { page, complaints } = await rehearse(browser, bridge.url, name);
    await page.getByTestId('rehearsal-badge').waitFor();
    await untilShown(page, 'stage', 'pull_down');
    await picture(page, `${name}-pull-down`);

    const alert = page.getByTestId('alert').first();
    await alert.waitFor({ timeout: 120_000 });
    await expect.poll(() => alert.innerText()).toMatch(/500 micron/u);
    await expect.poll(() => page.title()).toMatch(/500/u);
    // A pull-down alone does not tell what the hold will come to, and nobody is told so.
    const chance = page.getByTestId('hold-chance');
    await chance.waitFor();
    await expect.poll(() => chance.innerText()).toContain('the curve alone can’t tell');
    await alert.getByTestId('seen').click();

    await untilShown(page, 'stage', 'rise');
    await expect.poll(() => chance.count()).toBe(0);
    await untilShown(page, 'verdict', verdict);
    await page.getByTestId('alert').first().waitFor();
    await expect.poll(() => page.locator('main').innerText()).toContain(words);
    // To the end of the hold: the verdict stands.
    await page.waitForFunction(
      () => document.documentElement.dataset['freshness'] === 'ended',
      undefined,
      { timeout: 120_000 },
    );
    await expect.poll(() => shown(page, 'verdict')).toBe(verdict);
    await picture(page, `${name}-rise`);

    // Nobody has made a call, so there is nothing to reveal but at one's own wish.
    await expect.poll(() => page.getByTestId('reveal').count()).toBe(0);
    await page.getByTestId('call').click();
    await page.getByTestId('without-call').click();
    await page.getByTestId('truth').waitFor();
    await page.getByTestId('close-panel').click();
    await page.getByTestId('revealed').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

test(
  'what was announced of one rehearsal does not stand over the next',
  { timeout: 180_000 },
  async () => {
    const { page } = await rehearse(browser, bridge.url, 'quarry-road-bakery');
    await page.getByTestId('alert').first().waitFor({ timeout: 120_000 });
    await page.waitForFunction(
      () => document.documentElement.dataset['freshness'] === 'ended',
      undefined,
      { timeout: 120_000 },
    );
    await expect.poll(() => page.getByTestId('alert').count()).toBe(1);
    await page.getByTestId('another').click();
    await page.getByRole('radio', { name: '×120', exact: true }).check();
    await page.getByTestId('rehearsal-mill-street-barber').locator('summary').click();
    await page.getByTestId('start-mill-street-barber').click();
    await untilShown(page, 'stage', 'pull_down');
    await expect.poll(() => page.getByTestId('alert').count()).toBe(0);
    await page.context().close();
  },
);
