/** Two pages on one job: both call out, one acknowledgement clears both, and none calls what is old. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import {
  heardOn,
  openListening,
  touch,
  untilAlert,
  untilFirstJudged,
} from '../support/called-out.ts';
import { expectAccessible } from '../support/accessible.ts';
import { openBrowser, picture, untilReadings } from '../support/dashboard.ts';
import { PlayedJob } from '../support/played-job.ts';

let browser: Browser;
let job: PlayedJob;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());
beforeEach(async () => {
  job = await PlayedJob.begin();
  job.play(5, () => 700_000);
});
afterEach(() => job.bridge.remove());

/** A touched page of a browser of its own. */
async function open(): Promise<Page> {
  const { page } = await openListening(browser, job.bridge.url);
  await untilReadings(page, 5);
  await untilFirstJudged(page);
  await touch(page);
  return page;
}

async function reachTarget(): Promise<void> {
  await job.mark('pump_on');
  job.pullDown(300, 700_000, 400, 25);
}

const gone = (page: Page) => page.getByTestId('alert').waitFor({ state: 'detached' });

test('both ring, and what one has seen is seen on both', async () => {
  const [laptop, phone] = [await open(), await open()];
  await reachTarget();
  for (const page of [laptop, phone]) await untilAlert(page, 'target');
  for (const page of [laptop, phone]) expect((await heardOn(page)).rings).toBe(1);
  await phone.getByTestId('seen').click();
  await gone(phone);
  await gone(laptop);
  await expect.poll(() => laptop.title()).toBe('Ebbline');
  // Loaded anew, neither says it again.
  await laptop.reload();
  await untilReadings(laptop, 300);
  job.play(20, () => 400);
  await untilReadings(laptop, 320);
  await expect.poll(() => laptop.getByTestId('alert').count()).toBe(0);
});

test('two that press at once tread on nobody', async () => {
  const [laptop, phone] = [await open(), await open()];
  await reachTarget();
  for (const page of [laptop, phone]) {
    await untilAlert(page, 'target');
    // Both have pressed before either is heard.
    await page.route('**/api/recordings/**', async (route) => {
      await page.waitForTimeout(1000);
      await route.continue();
    });
  }
  await Promise.all([laptop, phone].map((page) => page.getByTestId('seen').click()));
  await Promise.all([gone(laptop), gone(phone)]);
  await Promise.all([laptop, phone].map((page) => page.getByTestId('mark-isolated').click()));
  for (const page of [laptop, phone]) await page.getByTestId('mark-reopened').waitFor();
  await laptop.waitForTimeout(1500);
  const answer = await fetch(new URL('api/recordings/1', job.bridge.url));
  expect(await answer.json()).toMatchObject({ marks: [{ kind: 'pump_on' }, { kind: 'isolated' }] });
  await expect.poll(() => laptop.getByTestId('notice').count()).toBe(0);
});

test('a page that opens later shows what nobody has seen, and rings for none of it', async () => {
  const laptop = await open();
  await reachTarget();
  await untilAlert(laptop, 'target');
  const later = await open();
  await untilAlert(later, 'target');
  job.play(20, () => 400);
  await untilReadings(later, 325);
  expect((await heardOn(later)).rings).toBe(0);
  await laptop.getByTestId('seen').click();
  await gone(later);
  // What comes after it was opened it calls out.
  job.pullDown(200, 400, 150, 25);
  await untilAlert(later, 'depth');
  expect((await heardOn(later)).rings).toBe(1);
});

test('what was seen before a page opens it doesn’t even show', async () => {
  const laptop = await open();
  await reachTarget();
  await untilAlert(laptop, 'target');
  await laptop.getByTestId('seen').click();
  await gone(laptop);
  const later = await open();
  job.play(20, () => 400);
  await untilReadings(later, 325);
  await later.getByTestId('menu').click();
  await later.getByTestId('open-alerts').click();
  await later.locator('[data-kind="target"][data-state="seen"]').waitFor();
  await expect.poll(() => later.getByTestId('alert').count()).toBe(0);
});

test('unseen it survives a reload without ringing again, and is listed', async () => {
  const laptop = await open();
  await reachTarget();
  await untilAlert(laptop, 'target');
  job.pullDown(200, 400, 150, 25);
  await untilAlert(laptop, 'depth');
  await laptop.reload();
  await untilAlert(laptop, 'depth');
  await touch(laptop);
  job.play(20, () => 150);
  await untilReadings(laptop, 525);
  expect((await heardOn(laptop)).rings).toBe(0);
  await laptop.getByTestId('alerts-before').click();
  const entries = laptop.getByTestId('alert-log').locator('li');
  await entries.nth(1).waitFor();
  await expect
    .poll(() => entries.first().innerText())
    .toMatch(/Valve off: 250 micron held[^]*\d:\d\d, at \d\d:\d\d:\d\d; not seen yet/u);
  await picture(laptop, 'alert-list');
  await expectAccessible(laptop);
  await laptop.getByTestId('all-seen').click();
  await expect.poll(() => entries.first().innerText()).toMatch(/; seen at \d\d:\d\d/u);
  await laptop.getByTestId('close-panel').click();
  await gone(laptop);
});

test('seen while the bridge was away, it is told once that is back', async () => {
  const [laptop, phone] = [await open(), await open()];
  await reachTarget();
  for (const page of [laptop, phone]) await untilAlert(page, 'target');
  // As out of reach: requests fail, and the stream is cut.
  await laptop.route('**/api/recordings/*/seen-alerts', (route) => route.abort());
  await laptop.getByTestId('seen').click();
  await gone(laptop);
  await expect.poll(() => phone.getByTestId('alert').count()).toBe(1);
  await laptop.unroute('**/api/recordings/*/seen-alerts');
  job.pullDown(200, 400, 150, 25);
  await untilAlert(laptop, 'depth');
  await laptop.getByTestId('seen').click();
  await gone(phone);
});
