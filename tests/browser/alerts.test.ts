/** What has to reach whoever works, from the sensor's reading to the page that calls it out, once. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import { alertedJobs } from '../support/alerted-jobs.ts';
import {
  heardOn,
  openListening,
  putForward,
  shownAlert,
  touch,
  untilAlert,
  untilFirstJudged,
  untilRings,
} from '../support/called-out.ts';
import { picture, untilReadings, untilShown } from '../support/dashboard.ts';

const jobs = alertedJobs();

test('the target that is reached and held; a spike is not', async () => {
  const page = await jobs.begin();
  jobs.job.pullDown(300, 700_000, 700, 25);
  jobs.job.play(1, () => 90);
  jobs.job.play(30, () => 700);
  await jobs.untilJudged(page);
  await expect.poll(() => page.getByTestId('alert').count()).toBe(0);
  expect((await heardOn(page)).rings).toBe(0);
  jobs.job.pullDown(120, 700, 420, 30);
  await untilAlert(page, 'target');
  await expect
    .poll(() => shownAlert(page))
    .toEqual({
      kind: 'target',
      tone: 'good',
      title: '500 micron reached',
    });
  await expect.poll(() => page.title()).toBe('● 500 micron reached');
  await picture(page, 'alert-target');
  await expectAccessible(page);
  jobs.job.play(60, () => 420);
  await jobs.untilJudged(page);
  await untilRings(page, 1);
});

/** Down to 200 micron and valved off, then held for so long. */
async function holdAt(page: Page, micronAt: (sinceS: number) => number): Promise<void> {
  jobs.job.pullDown(400, 700_000, 200, 25);
  await untilAlert(page, 'depth');
  await jobs.job.mark('isolated');
  jobs.job.play(900, micronAt);
}

const tight = (s: number) => 205 + 15 * (1 - Math.exp(-s / 60));

test('the verdict when it is ready, its withdrawal, and what it says then', async () => {
  const page = await jobs.begin();
  await holdAt(page, tight);
  await untilAlert(page, 'verdict');
  await expect
    .poll(() => shownAlert(page))
    .toEqual({
      kind: 'verdict',
      tone: 'good',
      title: 'Verdict: tight and dry',
    });
  await picture(page, 'alert-verdict');
  // A pipe that begins to leak by fifteen micron a minute: no jump, and no pass either.
  const shown: Awaited<ReturnType<typeof shownAlert>>[] = [];
  for (let part = 0; part < 15; part += 1) {
    jobs.job.play(60, (s) => tight(900) + (part * 60 + s) / 4);
    await jobs.untilJudged(page);
    await page.evaluate('new Promise(requestAnimationFrame)');
    shown.push(await shownAlert(page));
  }
  // Before another verdict has stood for long enough to be called out, the pass is no longer shown as one.
  expect(shown).toContainEqual({
    kind: 'verdict',
    tone: 'warning',
    title: 'Verdict: tight and dry, now in doubt',
  });
  await untilAlert(page, 'verdict_changed');
  await expect.poll(async () => (await shownAlert(page)).tone).toBe('warning');
  await expect
    .poll(async () => (await shownAlert(page)).title)
    .toMatch(/^Verdict (withdrawn: undecided|now: leak)/u);
  await picture(page, 'alert-withdrawn');
});

test('the vacuum that is lost while closing up', async () => {
  const page = await jobs.begin();
  await holdAt(page, tight);
  await untilAlert(page, 'verdict');
  await page.getByTestId('seen').click();
  jobs.job.play(60, () => tight(900));
  await jobs.untilJudged(page);
  jobs.job.play(40, () => 640);
  await untilAlert(page, 'vacuum_lost');
  await expect.poll(async () => (await shownAlert(page)).tone).toBe('warning');
  await picture(page, 'alert-vacuum-lost');
});

test('a sensor that falls silent, and that it is back', async () => {
  const page = await jobs.begin('Roof sensor');
  await untilShown(page, 'freshness', 'live');
  await page.waitForTimeout(1500);
  jobs.job.sensors.enter(jobs.job.sensor, 'lost');
  await page.waitForTimeout(1500);
  await putForward(page, 25_000);
  await page.waitForTimeout(1500);
  await expect.poll(() => page.getByTestId('alert').count()).toBe(0);
  await putForward(page, 5000);
  await untilAlert(page, 'sensor_lost');
  await expect.poll(async () => (await shownAlert(page)).title).toBe('Roof sensor is silent');
  await picture(page, 'alert-sensor-lost');
  jobs.job.sensors.enter(jobs.job.sensor, 'live');
  await untilAlert(page, 'sensor_back');
  await expect.poll(() => page.getByTestId('alerts-before').count()).toBe(0);
  await untilRings(page, 2);
});

test('the bridge that answers no more, and does again', async () => {
  await jobs.newJob();
  const wire = `
    const Real = WebSocket;
    const sockets = [];
    let cut = false;
    window.WebSocket = class extends Real {
      constructor(address) {
        super(address);
        sockets.push(this);
        if (cut) this.close();
      }
    };
    window.cutWire = () => { cut = true; for (const socket of sockets) socket.close(); };
    window.mendWire = () => (cut = false);`;
  const { page } = await openListening(jobs.browser, jobs.job.bridge.url, wire);
  await touch(page);
  jobs.job.play(5, () => 700_000);
  await untilReadings(page, 5);
  await untilFirstJudged(page);
  await page.waitForTimeout(1500);
  await page.evaluate('window.cutWire()');
  await page.waitForTimeout(1500);
  await putForward(page, 25_000);
  await page.waitForTimeout(1500);
  await expect.poll(() => page.getByTestId('alert').count()).toBe(0);
  await putForward(page, 5000);
  await untilAlert(page, 'bridge_lost');
  await expect.poll(async () => (await shownAlert(page)).title).toBe('This screen hears nothing');
  await picture(page, 'alert-bridge-lost');
  await page.evaluate('window.mendWire()');
  await untilAlert(page, 'bridge_back');
  await untilRings(page, 2);
});
