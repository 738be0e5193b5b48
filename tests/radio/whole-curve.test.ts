/** The curve is whole again after whatever the radio went through; what can't be had stays a gap. */
import { describe, expect, test } from 'vitest';
import { startBridge } from '../../server/main.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReceivedReading } from '../../protocol/reading.ts';
import { Recorder } from '../../server/record/recorder.ts';
import { VirtualSensor, type SentReading } from '../../simulators/sensor/virtual-sensor.ts';
import { RadioRig } from '../support/radio-rig.ts';
import { recordedRig } from '../support/recorded-by-radio.ts';
import { walk } from '../support/roof-walk.ts';
import { signal } from './radio-day.ts';

const WALK = { minutes: 90, hertz: 10, drops: 20, seed: 3 };

describe('ninety minutes at 10 Hz, out of reach twenty times', () => {
  test('all that was measured is recorded, in order, nothing twice, though the radio’s process was killed', async () => {
    const setting = await recordedRig();
    const { rig, recorded, until } = setting;
    try {
      let killed = 0;
      const halfWay = (): void => {
        killed = rig.source.pid ?? 0;
        signal(killed, 'SIGKILL');
      };
      const { sent, away } = await walk(setting, { ...WALK, bufferDepth: 3600, halfWay });
      await until(sent.length, 60_000);
      expect(rig.source.pid).not.toBe(killed);
      expect(away.size).toBeGreaterThan(5000);
      expect(numbersOf(recorded)).toEqual(sent.map(({ sequence }) => sequence));
      expectOnSensorClock(recorded);
    } finally {
      await rig.close();
    }
  }, 180_000);

  test('of a sensor that keeps nothing, the gaps are where it was away, and nowhere else', async () => {
    const setting = await recordedRig();
    const { rig, recorded, until } = setting;
    try {
      const { sent, away } = await walk(setting, { ...WALK, bufferDepth: 0 });
      await until(sent.length - away.size, 60_000);
      const heard = sent.filter(({ sequence }) => !away.has(sequence));
      expect(numbersOf(recorded)).toEqual(heard.map(({ sequence }) => sequence));
      expectOnSensorClock(recorded);
    } finally {
      await rig.close();
    }
  }, 180_000);
});

test('eight sensors at once, each out of reach in its turn: all that each measured, once', async () => {
  const { rig, recorded, until } = await recordedRig();
  try {
    const sensors = Array.from(
      { length: 8 },
      (_, i) => new VirtualSensor(rig.air, { name: `S${i}`, capabilities: { intervalMs: 4000 } }),
    );
    await Promise.all(sensors.map((sensor) => sensor.whenSubscribed()));
    const sent = await Promise.all(sensors.map((sensor, i) => playWithAbsence(sensor, i)));
    await until(sent.flat().length);
    for (const [i, { id }] of sensors.entries()) {
      const own = rig.ear.readings.filter(({ sensorId }) => sensorId === id);
      expect(new Set(own.map(({ bytes }) => Buffer.from(bytes).toString('hex')))).toEqual(
        new Set(sent[i]?.map(({ bytes }) => Buffer.from(bytes).toString('hex'))),
      );
    }
    expect(recorded).toHaveLength(sent.flat().length);
    for (let channel = 0; channel < 8; channel += 1) {
      const own = recorded.filter((reading) => reading.channel === channel);
      expect(own).toHaveLength(200);
      expectOnSensorClock(own);
    }
  } finally {
    await rig.close();
  }
}, 60_000);

test('what two sensors measured while the bridge itself was off is recorded when it is back', async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'ebbline-off-'));
  const rig = await RadioRig.create();
  const sensors = ['One', 'Two'].map(
    (name) => new VirtualSensor(rig.air, { name, capabilities: { intervalMs: 4000 } }),
  );
  /** One after the other: the second is connected only once the first has been heard. */
  const playInTurn = async (first: number, intervalMs: number): Promise<void> => {
    const pressuresPa = pressures(50).map((pressurePa) => pressurePa + first);
    for (const sensor of sensors) {
      if (!sensor.subscribed) sensor.comeBack();
      await sensor.whenSubscribed();
      await sensor.play(pressuresPa, intervalMs);
    }
  };
  try {
    const first = await startBridge({ port: 0, dataFolder }, { sensors: rig.source });
    await Promise.all(sensors.map((sensor) => sensor.whenSubscribed()));
    await playInTurn(500, 5);
    await first.close();
    for (const sensor of sensors) sensor.vanish();
    for (let i = 0; i < 300; i += 1) for (const sensor of sensors) sensor.measure(400 - i);
    const second = await startBridge({ port: 0, dataFolder }, { sensors: rig.again() });
    await playInTurn(10, 20);
    await second.close();
    const recorder = await Recorder.open(dataFolder, {
      durable: () => undefined,
      held: () => undefined,
    });
    const [recording, ...others] = recorder.reader.recordings(9);
    const stamps = recorder.reader.latestStamps(recording?.id ?? 0);
    await recorder.close();
    expect(others).toEqual([]);
    for (const channel of [0, 1]) {
      const own = stamps.filter((stamp) => stamp.channel === channel);
      expect(own.map(({ sequence }) => sequence).sort((a, b) => a - b)).toEqual(
        Array.from({ length: 400 }, (_, sequence) => sequence),
      );
      const zeroS = own.map(({ elapsedS, uptimeMs }) => elapsedS - uptimeMs / 1000);
      expect(Math.max(...zeroS) - Math.min(...zeroS)).toBeLessThan(1e-6);
    }
  } finally {
    await rig.close();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}, 60_000);

test('readings that are heard after the computer has slept arrive later by as much', async () => {
  let sleptMs = 0;
  const rig = await RadioRig.create({ wallClock: () => Date.now() + sleptMs });
  const sensor = new VirtualSensor(rig.air, { capabilities: { intervalMs: 4000 } });
  const { ear } = rig;
  try {
    rig.start();
    await sensor.whenSubscribed();
    sensor.measure(9);
    await ear.until('a reading', () => ear.readings.length >= 1);
    sleptMs = 3_600_000;
    sensor.measure(8);
    await ear.until('two readings', () => ear.readings.length >= 2);
    const [before, after] = ear.readings.map(({ arrivedMs }) => arrivedMs);
    expect((after ?? 0) - (before ?? 0)).toBeGreaterThanOrEqual(3_600_000);
    expect((after ?? 0) - (before ?? 0)).toBeLessThan(3_660_000);
  } finally {
    await rig.close();
  }
}, 60_000);

/** Two hundred readings, the middle of them out of reach. */
async function playWithAbsence(sensor: VirtualSensor, place: number): Promise<SentReading[]> {
  const sent = await sensor.play(pressures(60 + 5 * place), 10);
  sensor.vanish();
  for (const pressurePa of pressures(80)) sent.push(sensor.measure(pressurePa));
  const heardAgain = sensor.nextSubscription();
  sensor.comeBack();
  await heardAgain;
  return [...sent, ...(await sensor.play(pressures(60 - 5 * place), 10))];
}

function pressures(count: number): number[] {
  return Array.from({ length: count }, (_, i) => 300 - i);
}

/** In order of data time. */
function numbersOf(readings: readonly ReceivedReading[]): number[] {
  const ordered = readings.toSorted((a, b) => a.elapsedS - b.elapsedS);
  return ordered.map(({ sequence }) => sequence);
}

/** Fetched or heard, every reading lies where the sensor's clock says. */
function expectOnSensorClock(readings: readonly ReceivedReading[]): void {
  const zeroS = readings.map(({ elapsedS, uptimeMs }) => elapsedS - uptimeMs / 1000);
  const first = zeroS[0] ?? 0;
  expect(zeroS.every((zero) => Math.abs(zero - first) < 1e-6)).toBe(true);
}
