/**
 * From a sensor's bytes to the browser's data: a virtual sensor, the host library's own Bluetooth
 * stack in its own process, the record, the stream, the page.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { RadioSource } from '../../server/sources/radio/radio-source.ts';
import { serveController } from '../../simulators/sensor/serve-controller.ts';
import type { ServedController } from '../../simulators/sensor/serve-controller.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import {
  drawnPressures,
  openBrowser,
  openDashboard,
  pageReadings,
  picture,
  untilReadings,
  untilShown,
} from '../support/dashboard.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';

let bridge: RunningBridge;
let browser: Browser;
let adapter: ServedController;
let sensor: VirtualSensor;

beforeAll(async () => {
  const air = new VirtualAir();
  sensor = new VirtualSensor(air, { name: 'Roof sensor', batteryPercent: 84 });
  adapter = await serveController(air.createController());
  const sensors = new RadioSource({
    childEnvironment: adapter.environment,
    childExecArguments: adapter.execArguments,
  });
  [bridge, browser] = await Promise.all([runBridge({ sensors }), openBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await bridge.remove();
  await adapter.close();
});

/** No two alike, to the millipascal, so that a lost, doubled or swapped reading shows. */
const series = (first: number): number[] =>
  Array.from(
    { length: 60 },
    (_, step) => Math.round(90_000 * Math.exp(-(first + step) / 40) + step * 7) / 1000,
  );

test(
  'a distinctive series arrives unchanged, and an outage is shown as a gap',
  { timeout: 120_000 },
  async () => {
    const { page, complaints } = await openDashboard(browser, bridge.url);
    await sensor.whenSubscribed();
    const before = await sensor.play(series(0), 50);
    await untilShown(page, 'freshness', 'live');
    await untilReadings(page, 60);

    sensor.vanish();
    await untilShown(page, 'freshness', 'stale');
    // What it measures out of reach is lost in this version; the running number tells.
    for (const pressurePa of [1, 2, 3]) sensor.measure(pressurePa);
    sensor.comeBack();
    await sensor.whenSubscribed();
    const after = await sensor.play(series(60), 50);
    await untilReadings(page, 120);

    const readings = await pageReadings(page);
    const delivered = [...before, ...after].filter((sent) => sent.delivered);
    expect(delivered).toHaveLength(120);
    expect(readings.map(({ pressurePa }) => pressurePa)).toEqual([...series(0), ...series(60)]);
    expect(readings.map(({ sequence }) => sequence)).toEqual(
      delivered.map(({ sequence }) => sequence),
    );

    expect(await drawnPressures(page)).toEqual([...series(0), null, ...series(60)]);

    const answer = await fetch(new URL(`api/recordings/1`, bridge.url));
    expect(await answer.json()).toMatchObject({ readingCount: delivered.length });
    expect(await page.locator('header').innerText()).toContain('84 %');
    await picture(page, 'radio-gap');
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);
