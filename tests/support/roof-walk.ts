/**
 * A sensor on a roof for an hour and a half at 10 Hz, out of reach twenty times for one second to five
 * minutes, on a clock of its own that runs as fast as the radio can take the readings.
 */
import { VirtualSensor, type SentReading } from '../../simulators/sensor/virtual-sensor.ts';
import { between, logBetween, seeded } from './invented-curves.ts';
import type { RadioRig } from './radio-rig.ts';
import type { RecordedRig } from './recorded-by-radio.ts';

export interface Walk {
  readonly minutes: number;
  readonly hertz: number;
  readonly drops: number;
  /** 0: the sensor keeps none. */
  readonly bufferDepth: number;
  readonly seed: number;
  /** Called once, in the middle of it. */
  readonly halfWay?: () => void;
}

export interface Walked {
  readonly sensor: VirtualSensor;
  readonly sent: readonly SentReading[];
  /** Numbers of the readings that were measured while the sensor was out of reach. */
  readonly away: ReadonlySet<number>;
  /** From the sensor's return to its first reading heard, real time, ms. */
  readonly returnedMs: readonly number[];
}

const SHORTEST_S = 1;
const LONGEST_S = 300;
/** A pressure that says which reading it is. */
const pressureOf = (step: number) => 1000 + (step % 50_000) / 10;

export async function walk({ rig, arriveAtOnce }: RecordedRig, options: Walk): Promise<Walked> {
  const { minutes, hertz, drops, bufferDepth, seed, halfWay } = options;
  const random = seeded(seed);
  const steps = minutes * 60 * hertz;
  let nowMs = 0;
  arriveAtOnce();
  const sensor = new VirtualSensor(rig.air, {
    name: 'Roof',
    clock: () => nowMs,
    capabilities: { bufferDepth, intervalMs: 4000 },
  });
  const startsAt = dropSteps(steps, drops, random);
  const sent: SentReading[] = [];
  const away = new Set<number>();
  const returnedMs: number[] = [];
  const measure = (): SentReading => {
    nowMs += 1000 / hertz;
    const reading = sensor.measure(pressureOf(sent.length));
    sent.push(reading);
    return reading;
  };
  await sensor.whenSubscribed();
  while (sent.length < steps) {
    if (sent.length % 50 === 0) await sensor.drained();
    if (sent.length === Math.floor(steps / 2)) halfWay?.();
    if (!sensor.subscribed) {
      await sensor.whenSubscribed();
    }
    if (sent.length < (startsAt[0] ?? Infinity)) {
      measure();
      continue;
    }
    startsAt.shift();
    await sensor.drained();
    sensor.vanish();
    const missed = Math.round(logBetween(random, SHORTEST_S, LONGEST_S) * hertz);
    for (let i = 0; i < missed && sent.length < steps; i += 1) away.add(measure().sequence);
    const heardAgain = sensor.nextSubscription();
    const beganMs = performance.now();
    sensor.comeBack();
    await heardAgain;
    const first = measure();
    const before = rig.ear.readings.length;
    await rig.ear.until('a reading', () =>
      rig.ear.readings
        .slice(before)
        .some(({ bytes, fetched }) => fetched !== true && isSame(bytes, first)),
    );
    returnedMs.push(performance.now() - beganMs);
    await untilWhole(rig, sensor);
  }
  await sensor.drained();
  return { sensor, sent, away, returnedMs };
}

/** Nothing that can be fetched is missing any more. */
function untilWhole({ ear }: RadioRig, { id }: VirtualSensor): Promise<void> {
  return ear.until(
    'whole curve',
    () => {
      const own = ear.states.at(-1)?.sensors.find(({ sensorId }) => sensorId === id);
      return own?.phase === 'live' && own.missedReadings === undefined;
    },
    60_000,
  );
}

/** One in each part of the walk; where the one before lasts longer, right after that. */
function dropSteps(steps: number, drops: number, random: () => number): number[] {
  const each = steps / (drops + 1);
  return Array.from({ length: drops }, (_, i) =>
    Math.floor(each * (i + between(random, 0.2, 0.8))),
  );
}

function isSame(bytes: Uint8Array, { bytes: sent }: SentReading): boolean {
  return Buffer.from(bytes).equals(sent);
}
