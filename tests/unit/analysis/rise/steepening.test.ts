import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { inflowOf } from '../../../../web/analysis/hunt/hunt-hold.ts';
import type { RisePoint } from '../../../../web/analysis/rise/rise-points.ts';
import type { Warming } from '../../../../web/analysis/rise/rise-warming.ts';
import {
  mayBecomePaPerS,
  openedBy,
  steepeningOf,
} from '../../../../web/analysis/rise/steepening.ts';
import { assessRise } from '../../../../web/analysis/verdict/rise.ts';
import {
  normal,
  historyOf,
  readingsOf,
  seeded,
  type InventedSensor,
} from '../../../support/invented-curves.ts';
import { expect, test } from 'vitest';

const SENSOR: InventedSensor = {
  ratePerS: 1,
  noisePa: 0.05,
  relativeNoise: 0.002,
  quantumPa: 0.001,
  lagS: 0.5,
  spikeShare: 0,
  gap: null,
  topPa: 1e5,
};

function judged(
  curve: (heldS: number) => number,
  heldS: number,
  seed: number,
  temperatureAt: (heldS: number) => number | null = () => null,
) {
  const readings = readingsOf(curve, SENSOR, seeded(seed), 0, heldS).map((reading) => ({
    ...reading,
    temperatureC: temperatureAt(reading.elapsedS),
  }));
  const hold = { isolatedS: 0, isMarked: true, isolationSure: true };
  return assessRise(historyOf(readings), hold, DEFAULT_SHEET, heldS);
}

/** A point a length of ten seconds, each of ten readings. */
function pointsOf(pressureAt: (heldS: number) => number, untilS: number): RisePoint[] {
  return Array.from({ length: untilS / 10 }, (_, i) => {
    const heldS = 5 + 10 * i;
    const pressurePa = pressureAt(heldS);
    return { heldS, pressurePa, widthS: 10, count: 10, stepPa: 0, dwellS: 0 };
  });
}

const NO_WARMING = (points: readonly RisePoint[]): Warming => ({
  meanPa: new Float64Array(points.length),
  shapesPa: [],
});

function steepening(points: readonly RisePoint[], noisePa: number, warming = NO_WARMING(points)) {
  return steepeningOf(points, { startS: 0, noisePa, warming });
}

/**
 * An inflow above the limit near the sensor, which goes on to the larger rest of a system through a narrow
 * passage: the rest stood lower, and what flows over there is missed here, as e^(−t/τ) less and less.
 */
const spreading = (heldS: number) => 32 + 0.0119 * heldS - 8 * -Math.expm1(-heldS / 900);

test('a leak that still spreads to the rest of the system is no pass, however little has risen', () => {
  for (const seed of [1, 2, 3, 4, 5]) {
    const { verdict, reservations, moreS, leakPaPerS } = judged(spreading, 600, seed);
    expect(verdict).toBe('undecided');
    expect(leakPaPerS.high).toBeGreaterThan(0.0119);
    expect(reservations).toContain('steepening');
    expect(moreS).toBe(300);
  }
});

test('a part that is hunted is not excluded while its rise grows steeper', () => {
  const hunted = (curve: (heldS: number) => number) => {
    const history = historyOf(readingsOf(curve, SENSOR, seeded(1), 0, 600));
    const toldBy = { recognisedBy: 'mark', isolationSure: true } as const;
    const hold = { fromS: 0, toS: 600, ...toldBy, pumpedS: 300, repeats: false };
    const seen = { part: { kind: 'system' }, volumeM3: null } as const;
    return inflowOf(history, hold, seen, DEFAULT_SHEET, { systemM3: null });
  };
  const steepening = hunted(spreading);
  expect(steepening).toMatchObject({ verdict: 'undecided' });
  expect(steepening.leakPaPerS?.high).toBeGreaterThan(0.0119);
  expect(hunted((heldS) => 32 + 0.002 * heldS)).toMatchObject({ verdict: 'no_leak' });
});

test('a straight rise as small as that, and one that levels off, are passed as before', () => {
  for (const curve of [
    (heldS: number) => 32 + 0.002 * heldS,
    (heldS: number) => 32 + 0.001 * heldS - 4 * Math.expm1(-heldS / 300),
  ])
    expect(judged(curve, 900, 1)).toMatchObject({ verdict: 'tight_dry', reservations: [] });
});

test('metal that is seen to warm ever faster explains a rise that grows steeper so', () => {
  const warmerK = (heldS: number) => 6 * (heldS / 900) ** 2;
  // Of the pressure some seventh follows as water does, 6.4 % a kelvin (rise-warming.ts).
  const curve = (heldS: number) => 40 * (1 + 0.15 * 0.064 * warmerK(heldS));
  expect(judged(curve, 900, 1, (heldS) => 20 + warmerK(heldS)).reservations).toEqual([
    'temperature',
  ]);
  expect(judged(curve, 900, 1).reservations).toContain('steepening');
});

test('what a step did is no steepening: the hold began anew there', () => {
  const stepped = (heldS: number) => 32 + 0.001 * heldS + (heldS > 640 ? 6 : 0);
  const { steps, verdict, reservations } = judged(stepped, 1070, 1);
  expect(steps).toHaveLength(1);
  expect({ verdict, reservations }).toEqual({ verdict: 'tight_dry', reservations: ['step'] });
});

test('of a parabola the slope at its end and how much it has grown', () => {
  const found = steepening(
    pointsOf((heldS) => 30 + 0.002 * heldS + 3e-6 * heldS ** 2, 600),
    0.01,
  );
  // Seen from 65 s to 595 s: dP/dt = 0.002 + 6e-6·t.
  expect(found?.presentPaPerS).toBeCloseTo(0.002 + 6e-6 * 595, 9);
  expect(found?.grownPaPerS).toBeCloseTo(6e-6 * 530, 9);
});

test('its standard error is what the noise makes of it', () => {
  const random = seeded(7);
  const trials = Array.from({ length: 400 }, () =>
    steepening(
      pointsOf((heldS) => 30 + 0.004 * heldS + normal(random) * 0.05, 900),
      0.01,
    ),
  );
  const scores = trials.map((found) => (found ? found.grownPaPerS / found.sigmaPaPerS : Infinity));
  const rms = Math.sqrt(scores.reduce((sum, score) => sum + score ** 2, 0) / scores.length);
  // Counting the noise's memory in, where there is none, can only widen the error.
  expect(rms).toBeGreaterThan(0.75);
  expect(rms).toBeLessThan(1.1);
});

test('noise that no reading stands above makes no curve', () => {
  const quiet = steepening(
    pointsOf((heldS) => 30 + 1e-9 * heldS ** 2, 600),
    0.1,
  );
  expect(quiet?.sigmaPaPerS).toBeGreaterThan(quiet?.grownPaPerS ?? Infinity);
});

test('too few readings tell nothing of it', () => {
  expect(
    steepening(
      pointsOf((heldS) => 30 + heldS, 110),
      0.1,
    ),
  ).toBeNull();
  expect(steepening([], 0.1)).toBeNull();
});

test('what warming is expected to add is no steepening, and what it may add makes it less sure', () => {
  const points = pointsOf((heldS) => 30 + 0.002 * heldS + 3e-6 * heldS ** 2, 600);
  const bent = Float64Array.from(points, ({ heldS }) => 3e-6 * heldS ** 2);
  const explained = steepening(points, 0.01, { meanPa: bent, shapesPa: [] });
  expect(explained?.grownPaPerS).toBeCloseTo(0, 12);
  expect(explained?.presentPaPerS).toBeCloseTo(0.002, 9);
  const unsure = steepening(points, 0.01, { ...NO_WARMING(points), shapesPa: [bent] });
  expect(unsure?.grownPaPerS).toBeCloseTo(6e-6 * 530, 9);
  expect(unsure?.sigmaPaPerS).toBeGreaterThan(6e-6 * 530);
  expect(unsure?.sigmaPaPerS).toBeLessThan(1.1 * 6e-6 * 530);
});

test('only what follows the last step is looked at', () => {
  const points = pointsOf((heldS) => (heldS < 300 ? 30 - 0.1 * heldS : 20 + 0.002 * heldS), 900);
  const found = steepeningOf(points, { startS: 300, noisePa: 0.01, warming: NO_WARMING(points) });
  expect(found?.presentPaPerS).toBeCloseTo(0.002, 9);
  expect(found?.grownPaPerS).toBeCloseTo(0, 9);
});

test('what it may come to is what an exponential has before it that takes twice as long as was seen', () => {
  // L − h·e^(−t/τ), seen from 0 to T = τ/2: the slope then still lacks e^(−1/2)·h/τ of L.
  const [inflow, slowest] = [0.012, 0.006];
  const seen = { presentPaPerS: inflow - slowest * Math.exp(-0.5), sigmaPaPerS: 0 };
  const found = { ...seen, grownPaPerS: slowest * (1 - Math.exp(-0.5)) };
  expect(mayBecomePaPerS(found)).toBeCloseTo(inflow, 12);
  const leak = { estimate: 0.004, low: 0.003, high: 0.005 };
  expect(openedBy(found, leak)).toEqual({ ...leak, high: mayBecomePaPerS(found) });
});

test('an interval is never narrowed by it, and only by what stands above its error opened', () => {
  const leak = { estimate: 0.004, low: 0.003, high: 0.05 };
  const grows = { presentPaPerS: 0.008, grownPaPerS: 0.0016, sigmaPaPerS: 0.001 };
  expect(openedBy(grows, leak)).toEqual(leak);
  expect(openedBy({ ...grows, grownPaPerS: 0.0014 }, { ...leak, high: 0.005 }).high).toBe(0.005);
  expect(openedBy(grows, { ...leak, high: 0.005 }).high).toBeGreaterThan(0.008 + 0.0016);
  expect(openedBy(null, leak)).toEqual(leak);
});
