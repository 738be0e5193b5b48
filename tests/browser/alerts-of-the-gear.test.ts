/** What the depth to valve off at, a level, the ballast and the batteries call out, each once. */
import { expect, test } from 'vitest';
import { alertedJobs } from '../support/alerted-jobs.ts';
import {
  heardOn,
  openListening,
  shownAlert,
  touch,
  untilAlert,
  untilFirstJudged,
  untilRings,
} from '../support/called-out.ts';
import { picture, untilReadings } from '../support/dashboard.ts';

const jobs = alertedJobs();

test('the depth to valve off at, with the mark in it, and no longer once that is marked', async () => {
  const page = await jobs.begin();
  jobs.job.pullDown(400, 700_000, 200, 25);
  await untilAlert(page, 'depth');
  await expect.poll(async () => (await shownAlert(page)).title).toBe('Valve off: 250 micron held');
  await page.getByTestId('alerts-before').waitFor();
  await picture(page, 'alert-depth');
  await page.getByTestId('alert-isolated').click();
  jobs.job.play(20, () => 210);
  // The target still waits to be seen.
  await untilAlert(page, 'target');
});

test('levelling off above the target, once it has stood', async () => {
  const page = await jobs.begin();
  await jobs.job.mark('ballast_closed');
  jobs.job.pullDown(200, 700_000, 900, 25);
  await jobs.untilJudged(page);
  await jobs.inParts(page, 20, () => jobs.job.play(120, () => 900));
  await untilAlert(page, 'levels_off');
  await expect
    .poll(async () => (await shownAlert(page)).title)
    .toBe('Levelling off above 500 micron');
  await picture(page, 'alert-levels-off');
  await untilRings(page, 1);
});

test('the gas ballast that stands open, with the mark in it', async () => {
  const page = await jobs.begin();
  await jobs.job.mark('ballast_opened');
  jobs.job.pullDown(250, 700_000, 2200, 25);
  await jobs.inParts(page, 8, () => jobs.job.play(15, () => 2200));
  await untilAlert(page, 'ballast_open');
  await picture(page, 'alert-ballast');
  await page.getByTestId('alert-ballast_closed').click();
  await page.getByTestId('alert').waitFor({ state: 'detached' });
});

test('the pump’s battery, where the sheet knows of it', async () => {
  const page = await jobs.begin();
  await jobs.job.enter({ pumpBatteryS: 600 });
  await jobs.inParts(page, 14, (part) =>
    jobs.job.play(30, (s) => 700_000 / (1 + ((part * 30 + s) / 20) ** 1.5)),
  );
  await untilAlert(page, 'pump_battery');
  await expect.poll(async () => (await shownAlert(page)).tone).toBe('act');
  await picture(page, 'alert-pump-battery');
});

test('a sensor’s battery that runs low', async () => {
  const page = await jobs.begin('Roof sensor');
  jobs.job.sensors.hasBattery(jobs.job.sensor, 40);
  jobs.job.sensors.hasBattery(jobs.job.sensor, 12);
  await untilAlert(page, 'sensor_battery');
  await expect
    .poll(async () => (await shownAlert(page)).title)
    .toMatch(/^Sensor’s battery at 12\s%$/u);
  jobs.job.sensors.hasBattery(jobs.job.sensor, 11);
  await picture(page, 'alert-sensor-battery');
  await untilRings(page, 1);
});

test('the battery of this very screen, where its browser tells', async () => {
  await jobs.newJob();
  const battery = `
    const battery = new EventTarget();
    Object.assign(battery, { level: 0.5, charging: false });
    navigator.getBattery = () => Promise.resolve(battery);
    window.drain = () => {
      battery.level = 0.09;
      battery.dispatchEvent(new Event('levelchange'));
    };
    window.plugIn = () => {
      battery.charging = true;
      battery.dispatchEvent(new Event('chargingchange'));
    };`;
  const { page, complaints } = await openListening(jobs.browser, jobs.job.bridge.url, battery);
  await touch(page);
  jobs.job.play(5, () => 700_000);
  await untilReadings(page, 5);
  await untilFirstJudged(page);
  await expect.poll(() => page.getByTestId('alert').count()).toBe(0);
  await page.evaluate('window.drain()');
  await untilAlert(page, 'device_battery');
  await picture(page, 'alert-device-battery');
  await page.evaluate('window.plugIn()');
  await page.getByTestId('alert').waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
});

test('a sensor’s battery that was low before the page was opened rings on it no more', async () => {
  const page = await jobs.begin();
  jobs.job.play(200, () => 700_000);
  jobs.job.sensors.hasBattery(jobs.job.sensor, 12);
  await untilAlert(page, 'sensor_battery');
  const { page: later } = await openListening(jobs.browser, jobs.job.bridge.url);
  await untilReadings(later, 205);
  await touch(later);
  await untilAlert(later, 'sensor_battery');
  expect((await heardOn(later)).rings).toBe(0);
  await page.getByTestId('seen').click();
  await later.getByTestId('alert').waitFor({ state: 'detached' });
});
