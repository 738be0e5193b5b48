/**
 * From a sensor's bytes to the browser's data: a virtual sensor, the host library's own Bluetooth
 * stack in its own process, the record, the stream, the page.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { RadioSource } from '../../server/sources/radio/radio-source.ts';
import { serveController } from '../../simulators/sensor/serve-controller.ts';
import type { ServedController } from '../../simulators/sensor/serve-controller.ts';
import { StandardSensor } from '../../simulators/sensor/standard-sensor.ts';
import { VirtualAir } from '../../simulators/sensor/virtual-air.ts';
import { VirtualSensor, type SentReading } from '../../simulators/sensor/virtual-sensor.ts';
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

interface Roof {
  readonly sensor: VirtualSensor;
  readonly air: VirtualAir;
  readonly bridge: RunningBridge;
  readonly remove: () => Promise<void>;
}

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** @param bufferDepth how many readings the sensor keeps for a bridge that has missed them */
async function roof(bufferDepth: number): Promise<Roof> {
  const air = new VirtualAir();
  const sensor = new VirtualSensor(air, {
    name: 'Roof sensor',
    batteryPercent: 84,
    capabilities: { bufferDepth },
  });
  const adapter: ServedController = await serveController(air.createController());
  const sensors = new RadioSource({
    childEnvironment: adapter.environment,
    childExecArguments: adapter.execArguments,
  });
  const bridge = await runBridge({ sensors });
  const remove = async (): Promise<void> => {
    await bridge.remove();
    await adapter.close();
    air.close();
  };
  return { sensor, air, bridge, remove };
}

/** No two alike, to the millipascal, so that a lost, doubled or swapped reading shows. */
const series = (first: number): number[] =>
  Array.from(
    { length: 60 },
    (_, step) => Math.round(90_000 * Math.exp(-(first + step) / 40) + step * 7) / 1000,
  );

/** Sixty readings, as many out of reach, and sixty more. */
async function playWithOutage({ sensor }: Roof, page: Page): Promise<SentReading[]> {
  await sensor.whenSubscribed();
  const before = await sensor.play(series(0), 50);
  await untilShown(page, 'freshness', 'live');
  await untilReadings(page, 60);
  const lost = untilShown(page, 'freshness', 'stale');
  sensor.vanish();
  const away = await sensor.play(series(60), 50);
  await lost;
  const heardAgain = sensor.nextSubscription();
  sensor.comeBack();
  await heardAgain;
  return [...before, ...away, ...(await sensor.play(series(120), 50))];
}

test(
  'what was measured out of reach is fetched: the curve is whole',
  { timeout: 120_000 },
  async () => {
    const setting = await roof(3600);
    const { page, complaints } = await openDashboard(browser, setting.bridge.url);
    const sent = await playWithOutage(setting, page);
    await untilReadings(page, 180);

    const readings = await pageReadings(page);
    expect(readings.map(({ sequence }) => sequence)).toEqual(sent.map(({ sequence }) => sequence));
    expect(readings.map(({ pressurePa }) => pressurePa)).toEqual([0, 60, 120].flatMap(series));
    await expect
      .poll(async () => (await drawnPressures(page)).filter((pressurePa) => pressurePa === null))
      .toEqual([]);
    const answer = await fetch(new URL(`api/recordings/1`, setting.bridge.url));
    expect(await answer.json()).toMatchObject({ readingCount: 180 });
    await picture(page, 'radio-fetched');
    expect(complaints).toEqual([]);
    await page.context().close();
    await setting.remove();
  },
);

test(
  'of a sensor that keeps nothing, an outage is shown as a gap',
  { timeout: 120_000 },
  async () => {
    const setting = await roof(0);
    const { page, complaints } = await openDashboard(browser, setting.bridge.url);
    const sent = await playWithOutage(setting, page);
    await untilReadings(page, 120);

    const readings = await pageReadings(page);
    const delivered = sent.filter((reading) => reading.delivered);
    expect(delivered).toHaveLength(120);
    expect(readings.map(({ sequence }) => sequence)).toEqual(
      delivered.map(({ sequence }) => sequence),
    );
    await expect.poll(() => drawnPressures(page)).toEqual([...series(0), null, ...series(120)]);
    await expect.poll(() => page.getByTestId('battery').innerText()).toMatch(/84\s%/u);
    await picture(page, 'radio-gap');
    expect(complaints).toEqual([]);
    await page.context().close();
    await setting.remove();
  },
);

test(
  'a sensor without the profile is offered, and heard once it has a name',
  { timeout: 120_000 },
  async () => {
    const setting = await roof(3600);
    const standard = new StandardSensor(setting.air, { name: 'General sensor' });
    const { page, complaints } = await openDashboard(browser, setting.bridge.url);
    await page.getByTestId('choose-sensor').click();
    const form = page.getByTestId(`sensor-${standard.id}`);
    await form.getByLabel('Name').fill('Pump side');
    await picture(page, 'radio-offered');
    await form.getByRole('button', { name: 'Save' }).click();
    await standard.whenSubscribed();
    standard.measure(123.4);
    await expect
      .poll(() => page.getByTestId('in-reach').innerText())
      .toContain('General sensor: live');
    await picture(page, 'radio-chosen');
    expect(complaints).toEqual([]);
    await page.context().close();
    await setting.remove();
  },
);
