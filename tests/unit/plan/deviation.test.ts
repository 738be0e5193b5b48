/** How a pull-down departs from what the rig should manage: by formula, and on simulated jobs. */
import { describe, expect, test } from 'vitest';
import { type DeviationFacts, deviationsFrom } from '../../../web/plan/deviation.ts';
import { expectedPullDown, pressureAtPa } from '../../../web/plan/expected-pull-down.ts';
import { deviationTrial } from '../../support/deviation-trial.ts';
import { rigWith } from '../../support/planned-rigs.ts';

const curve = expectedPullDown(rigWith({ volumeM3: 0.04, pumpUltimatePa: 3 }));
const VOLUME = { low: 0.75, high: 1.25 };

/** Begun at 100 s, and so many times as slow as expected, until it is held up. */
function slowedBy(factor: number, lengthS: number, heldAtPa = 0): DeviationFacts['points'] {
  return Array.from({ length: Math.floor(lengthS / 5) }, (_, at) => ({
    elapsedS: 105 + 5 * at,
    pressurePa: Math.max(pressureAtPa(curve, (5 + 5 * at) / factor), heldAtPa),
  }));
}

function deviations(points: DeviationFacts['points'], forecast: DeviationFacts['forecast'] = null) {
  const nowS = points.at(-1)?.elapsedS ?? 0;
  return deviationsFrom({ points, nowS, startS: 100, curve, volume: VOLUME, forecast });
}

const BOILS: NonNullable<DeviationFacts['forecast']> = {
  outcome: 'reaches',
  floorPa: null,
  causes: [{ cause: 'boil_off', weight: 0.9 }],
};
const kindsOf = (...facts: Parameters<typeof deviations>) =>
  deviations(...facts).map(({ kind }) => kind);
const floorAt = (estimate: number, share: number): DeviationFacts['forecast'] => ({
  outcome: 'levels_off',
  floorPa: { estimate, low: estimate * (1 - share), high: estimate * (1 + share) },
  causes: [{ cause: 'floor', weight: 0.8 }],
});

describe('slower from the start', () => {
  test('is silent where it goes as expected, or where the volume explains it', () => {
    expect(deviations(slowedBy(1, 600))).toEqual([]);
    expect(deviations(slowedBy(1.5, 600))).toEqual([]);
  });

  test('has an interval that holds the factor', () => {
    const [said] = deviations(slowedBy(4, 900));
    if (said?.kind !== 'slower') throw new Error('it is slow');
    expect(said.factor.low).toBeGreaterThan(1.3);
    expect(said.factor.low).toBeLessThan(4);
    expect(said.factor.high).toBeGreaterThan(4);
    expect(said.factor.estimate).toBeCloseTo(4, 0);
  });

  test('is told below 5000 Pa as well, which is where many a sensor’s range begins', () => {
    const seen = slowedBy(4, 1200).filter(({ pressurePa }) => pressurePa < 4000);
    expect(kindsOf(seen)).toEqual(['slower']);
    // What came down late, and then as fast as it should, was held up by water.
    const late = slowedBy(1, 1200)
      .map(({ elapsedS, pressurePa }) => ({ elapsedS: elapsedS + 900, pressurePa }))
      .filter(({ pressurePa }) => pressurePa < 4000);
    expect(kindsOf(late)).not.toContain('slower');
  });

  test('is not what a pump does that has stopped', () => {
    expect(deviations(slowedBy(1, 900, 20_000))).toEqual([]);
  });
});

describe('a plateau', () => {
  test('is named once it has stayed, with its level and since when', () => {
    const points = slowedBy(1, 600, 700);
    const [said] = deviations(points, BOILS);
    if (said?.kind !== 'plateau') throw new Error('water boils');
    expect(said.pressurePa).toBe(700);
    expect(said.sinceS).toBe(points.find(({ pressurePa }) => pressurePa < 910)?.elapsedS);
    expect(deviations(points.slice(0, 30), BOILS)).toEqual([]);
  });

  test('is none without boiling water, below where it boils, and where the pressure rises', () => {
    expect(deviations(slowedBy(1, 600, 700))).toEqual([]);
    expect(kindsOf(slowedBy(1, 600, 300), BOILS)).not.toContain('plateau');
    const rising = slowedBy(1, 900, 700).map(({ elapsedS, pressurePa }) => ({
      elapsedS,
      pressurePa: pressurePa + (elapsedS > 800 ? 2 * (elapsedS - 800) : 0),
    }));
    expect(deviations(rising, BOILS)).toEqual([]);
  });
});

describe('a floor that is too high', () => {
  test('is named where it is well known, and far above what is expected', () => {
    const [said] = deviations(slowedBy(1, 900, 150), floorAt(150, 0.1));
    expect(said).toEqual({ kind: 'floor', floorPa: floorAt(150, 0.1)?.floorPa });
  });

  test('is not where it might be anywhere, is low, or comes of moist walls', () => {
    const points = slowedBy(1, 900, 150);
    expect(kindsOf(points, floorAt(150, 0.1))).toContain('floor');
    expect(kindsOf(points, floorAt(150, 0.3))).not.toContain('floor');
    expect(kindsOf(points, floorAt(15, 0.1))).not.toContain('floor');
    const tail = floorAt(150, 0.1);
    if (tail === null) throw new Error('there is one');
    const moist = { ...tail, causes: [{ cause: 'slow_tail', weight: 0.8 }] } as const;
    expect(kindsOf(points, moist)).not.toContain('floor');
    expect(kindsOf(points, { ...tail, outcome: 'reaches' })).not.toContain('floor');
  });
});

describe('a standstill', () => {
  const falls = (share: number, lengthS = 900) =>
    slowedBy(1, lengthS).map(({ elapsedS, pressurePa }) => ({
      elapsedS,
      pressurePa: Math.max(pressurePa, 300 * (1 - share * ((elapsedS - 100) / 900))),
    }));

  test('is named where nothing has moved for half of the time, whatever holds it', () => {
    const [said] = deviations(falls(0), BOILS);
    if (said?.kind !== 'standstill') throw new Error('it stands still');
    expect(said.pressurePa).toBe(300);
    expect(said.sinceS - 100).toBeCloseTo(450, -1);
    expect(kindsOf(falls(0.1), BOILS)).toEqual(['standstill']);
  });

  test('is none early, while it still falls or rises, in a silence, or where gas is pumped', () => {
    expect(kindsOf(falls(0, 450), BOILS)).toEqual([]);
    expect(kindsOf(falls(0.4), BOILS)).toEqual([]);
    expect(kindsOf(falls(-0.2), BOILS)).toEqual([]);
    expect(kindsOf(falls(0), { ...BOILS, causes: [{ cause: 'gas', weight: 1 }] })).toEqual([]);
    expect(kindsOf(falls(0), null)).toEqual([]);
    const facts = { points: falls(0), startS: 100, curve, volume: VOLUME, forecast: BOILS };
    const at = (nowS: number) => deviationsFrom({ ...facts, nowS }).map(({ kind }) => kind);
    expect(at(1010)).toEqual(['standstill']);
    expect(at(1040)).toEqual([]);
  });

  test('is none where a dry system would stand there as well', () => {
    expect(kindsOf(slowedBy(1, 20_000), BOILS)).toEqual([]);
  });
});

/** Held-out seeds; all two hundred: tests/bench/deviations.ts. */
describe('on simulated jobs', () => {
  test.each([1002, 1005])('job %d: nothing is said that is not so', (seed) => {
    const { said, so, log } = deviationTrial(seed, 'mixed');
    expect(
      [...said].filter((kind) => !so.has(kind)),
      log.join('\n'),
    ).toEqual([]);
  });
});
