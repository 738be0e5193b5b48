/** Two sensors on the page: named, both drawn, compared, and none at the pump passes the system. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectAccessible } from '../support/accessible.ts';
import { PlayedSensors } from '../support/played-sensors.ts';
import { openBrowser, openDashboard, picture, untilReadings } from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;
let sensors: PlayedSensors;

beforeAll(async () => {
  sensors = new PlayedSensors();
  [bridge, browser] = await Promise.all([runBridge({ sensors }), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
});

/** A pull-down, the pump's side deeper by a tenth, from one second to another. */
function pump(fromS: number, toS: number): void {
  for (let s = fromS; s < toS; s += 1) {
    const pressurePa = 30 + 90_000 * Math.exp(-s / 40);
    sensors.measure('aa:01', s, pressurePa);
    sensors.measure('aa:02', s + 0.4, pressurePa * 0.9);
  }
}

async function nameSensor(page: Page, id: string, name: string, place: string): Promise<void> {
  const form = page.getByTestId(`sensor-${id}`);
  await form.getByLabel('Name').fill(name);
  await form.getByRole('radio', { name: place }).check();
  await form.getByRole('button').click();
  await form.getByText('Saved.').waitFor();
}

test(
  'sensors are named from the header, on every page, and the one at the system is watched',
  { timeout: 90_000 },
  async () => {
    const { page, complaints } = await openDashboard(browser, bridge.url);
    const other = await openDashboard(browser, bridge.url);
    sensors.meet('aa:01', 'VS-2 0417');
    sensors.meet('aa:02', 'VS-2 0552');
    pump(1, 400);
    await untilReadings(page, 399);
    await page.getByTestId('name-sensor').click();
    await picture(page, 'naming-sensors');
    await expectAccessible(page);
    // By keyboard alone: the name, then the place with the arrows, then Enter.
    await page.getByTestId('sensor-aa:01').getByLabel('Name').focus();
    await page.keyboard.type('pump side');
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.getByTestId('sensor-aa:01').getByText('Saved.').waitFor();
    await nameSensor(page, 'aa:02', 'roof', 'at the system');
    await page.getByTestId('close-panel').click();

    for (const shown of [page, other.page]) {
      await expect
        .poll(() => shown.getByTestId('connection-state').innerText())
        .toMatch(/^roof, live$/u);
      const beside = shown.getByTestId('beside');
      await expect.poll(() => beside.innerText()).toMatch(/pump side \d+ micron: /u);
      await expect
        .poll(() => shown.getByTestId('apart-aa:01').innerText())
        .toMatch(/^[\d.]+ micron above roof, give or take [\d.]+$/u);
    }
    await picture(page, 'two-sensors');
    await expectAccessible(page);
    await other.page.setViewportSize({ width: 390, height: 844 });
    await picture(other.page, 'two-sensors-phone');
    await other.page.context().close();

    await page.getByTestId('work-hook_up').waitFor();
    await expect
      .poll(() => page.getByTestId('work-hook_up').innerText())
      .toMatch(/whole connected system/u);
    await page.getByRole('combobox').selectOption({ label: 'pump side' });
    await expect.poll(() => page.getByTestId('work-hook_up').innerText()).toMatch(/pump’s side/u);
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);

test('a place said on an earlier visit is asked about until it is said again', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.getByTestId('apart-aa:01').waitFor();
  await expect.poll(() => page.getByTestId('still-there').count()).toBe(0);
  await page.context().close();
  await bridge.stop();
  // Half a day of silence is another visit.
  sensors = new PlayedSensors();
  const later = Date.now() + 13 * 3_600_000;
  bridge = await runBridge({ sensors, dataFolder: bridge.dataFolder, wallClock: () => later });
  sensors.meet('aa:01', 'VS-2 0417');
  sensors.meet('aa:02', 'VS-2 0552');
  pump(1, 400);
  const again = await openDashboard(browser, bridge.url);
  const asked = again.page.getByTestId('still-there');
  await asked.waitFor();
  await expect
    .poll(() => asked.innerText())
    .toMatch(/^Taken to sit at the system, as was said .*\. Still so\?/u);
  await asked.click();
  await again.page.getByTestId('sensor-aa:02').getByRole('button').click();
  await again.page.getByTestId('close-panel').click();
  await asked.waitFor({ state: 'detached' });
  await again.page.context().close();
});

test('a sensor that is lost or over range is not compared', async () => {
  const { page } = await openDashboard(browser, bridge.url);
  await page.getByTestId('apart-aa:01').waitFor();
  sensors.enter('aa:01', 'lost');
  const beside = page.getByTestId('beside');
  await expect.poll(() => beside.innerText()).toMatch(/pump side not live since \d\d:\d\d/u);
  await expect.poll(() => page.getByTestId('apart-aa:01').count()).toBe(0);
  sensors.enter('aa:01', 'live');
  await page.getByTestId('apart-aa:01').waitFor();
  sensors.measure('aa:01', 400, null);
  await expect.poll(() => beside.innerText()).toMatch(/pump side above the sensor’s range/u);
  await expect.poll(() => page.getByTestId('apart-aa:01').count()).toBe(0);
  await page.context().close();
});
