/** How alerts reach somebody beyond the page: chosen, tried, and done as it was chosen. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import {
  heardOn,
  openListening,
  touch,
  untilAlert,
  untilFirstJudged,
} from '../support/called-out.ts';
import { openBrowser, picture, untilReadings } from '../support/dashboard.ts';
import { PlayedJob } from '../support/played-job.ts';

let browser: Browser;
let job: PlayedJob;
let page: Page;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
beforeEach(async () => {
  job = await PlayedJob.begin();
  job.play(5, () => 700_000);
  ({ page } = await openListening(browser, job.bridge.url));
  await untilReadings(page, 5);
  await untilFirstJudged(page);
});
afterEach(async () => {
  await page.context().close();
  await job.bridge.remove();
});

async function reachTarget(): Promise<void> {
  await job.mark('pump_on');
  job.pullDown(300, 700_000, 400, 25);
  await untilAlert(page, 'target');
}

async function settings(): Promise<void> {
  await page.getByTestId('menu').click();
  await page.getByTestId('open-alert-reach').click();
}
const close = () => page.getByTestId('close-panel').click();

describe('sound that the browser blocks', () => {
  test('is said before an alert is missed, and one touch is enough', async () => {
    await page.getByTestId('blocked-sound').waitFor();
    await picture(page, 'sound-blocked');
    await expectAccessible(page);
    await touch(page);
    await page.getByTestId('blocked-sound').waitFor({ state: 'detached' });
    await reachTarget();
    expect((await heardOn(page)).rings).toBe(1);
  });

  test('makes of an alert one that says that nobody heard it', async () => {
    await reachTarget();
    await page.getByText('Not heard: the browser waits for a first touch.').waitFor();
    expect((await heardOn(page)).oscillators).toBe(0);
  });

  test('is no matter to who wants none', async () => {
    await settings();
    await page.getByTestId('pick-alert-sound').getByRole('radio', { name: 'none' }).check();
    await close();
    await page.reload();
    await untilReadings(page, 5);
    await untilFirstJudged(page);
    await expect.poll(() => page.getByTestId('blocked-sound').count()).toBe(0);
    await touch(page);
    await reachTarget();
    expect((await heardOn(page)).oscillators).toBe(0);
  });
});

test('the sound is chosen and checked at its loudness, and asks whether it reached', async () => {
  await settings();
  await picture(page, 'alert-reach');
  await expectAccessible(page);
  const sounds = page.getByTestId('pick-alert-sound');
  const counts = new Set<number>();
  for (const name of ['Bell buoy', 'Call pipe', 'Rivet hammer', 'Two terns']) {
    await sounds.getByRole('radio', { name }).check();
    const before = (await heardOn(page)).oscillators;
    await page.getByTestId('check-sound').click();
    await expect.poll(async () => (await heardOn(page)).oscillators).toBeGreaterThan(before);
    counts.add((await heardOn(page)).oscillators - before);
  }
  // No two of them are the same.
  expect(counts.size).toBe(4);
  await page.getByTestId('sound-not-heard').click();
  await page.getByText('Make it louder').waitFor();
  const loudest = async () => Math.max(...(await heardOn(page)).gains);
  const quieter = await loudest();
  const slider = page.locator('input[name="volume"]');
  await slider.fill('1');
  await page.getByTestId('check-sound').click();
  await expect.poll(loudest).toBeGreaterThan(quieter);
  await page.getByTestId('sound-heard').click();
  await page.getByText('Then it calls you like that.').waitFor();
});

test('once, or again and again until it is seen', { timeout: 60_000 }, async () => {
  await settings();
  await page.getByRole('radio', { name: 'every 15 s until seen' }).check();
  await close();
  await reachTarget();
  expect((await heardOn(page)).rings).toBe(1);
  await expect.poll(async () => (await heardOn(page)).rings, { timeout: 20_000 }).toBe(2);
  expect((await heardOn(page)).vibrated).toHaveLength(2);
  await page.getByTestId('seen').click();
  await page.waitForTimeout(16_000);
  expect((await heardOn(page)).rings).toBe(2);
});

test('notifications are asked for on a press alone, and go when the alert is seen', async () => {
  await settings();
  await page.getByText('Not asked yet.').waitFor();
  await page.getByTestId('ask-notifications').click();
  await page.getByText('Allowed.').waitFor();
  await close();
  await reachTarget();
  const { notified, vibrated, spoken } = await heardOn(page);
  expect(notified.map(([title]) => title)).toEqual(['500 micron reached']);
  expect(vibrated).toHaveLength(1);
  // Off until somebody wants it.
  expect(spoken).toEqual([]);
  await page.getByTestId('seen').click();
  await expect.poll(async () => (await heardOn(page)).closed).toBe(1);
});

test('spoken in the page’s language where that is wished, and nothing buzzes where it is not', async () => {
  await settings();
  await page.getByLabel('Say it aloud as well').check();
  await page.getByLabel('Vibrate, on a phone that can').uncheck();
  await close();
  await reachTarget();
  const { spoken, vibrated } = await heardOn(page);
  expect(spoken).toHaveLength(1);
  expect(spoken[0]?.[0]).toBe('en');
  expect(spoken[0]?.[1]).toMatch(/^500 micron reached\. The pressure went below/u);
  expect(vibrated).toEqual([]);
});

test('title and icon say that something waits, until it is seen', async () => {
  const icon = () => page.locator('link[rel="icon"]').getAttribute('href');
  const before = await icon();
  await reachTarget();
  await expect.poll(() => page.title()).toBe('● 500 micron reached');
  expect(await icon()).toMatch(/mark-dot/u);
  await page.getByTestId('seen').click();
  await expect.poll(() => page.title()).toBe('Ebbline');
  expect(new URL((await icon()) ?? '', page.url()).href).toBe(
    new URL(before ?? '', page.url()).href,
  );
});

test.each(['day', 'night', 'sun'])(
  'is legible in the look "%s", from near and from afar',
  async (look) => {
    await page.evaluate((chosen) => {
      const choices = { pressure: 'micron', temperature: '°C', look: chosen };
      localStorage.setItem('ebbline.choices', JSON.stringify(choices));
    }, look);
    await page.reload();
    await untilReadings(page, 5);
    await untilFirstJudged(page);
    await touch(page);
    await job.mark('pump_on');
    job.pullDown(400, 700_000, 200, 25);
    await untilAlert(page, 'depth');
    const size = await page
      .getByTestId('alert-title')
      .evaluate((title) => parseFloat(getComputedStyle(title).fontSize));
    expect(size).toBeGreaterThanOrEqual(34);
    await picture(page, `alert-${look}`);
    await expectAccessible(page);
    await page.setViewportSize({ width: 390, height: 844 });
    await picture(page, `alert-${look}-phone`);
    for (const button of await page.locator('.alert button').all()) {
      const box = await button.boundingBox();
      expect(Math.min(box?.height ?? 0, box?.width ?? 0)).toBeGreaterThanOrEqual(44);
    }
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBeLessThanOrEqual(390);
  },
);
