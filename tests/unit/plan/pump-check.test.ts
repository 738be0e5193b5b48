/** The verdict on a pump that is alone with the sensor. */
import { describe, expect, test } from 'vitest';
import { paFromMicron } from '../../../protocol/units.ts';
import { checkPump, type PumpCheckFacts } from '../../../web/plan/pump-check.ts';

/** Switched on at 100 s; a reading each five seconds. */
function factsWith(
  micronAt: (sinceS: number) => number,
  ranS: number,
  change: Partial<PumpCheckFacts> = {},
): PumpCheckFacts {
  const readings = Array.from({ length: Math.floor(ranS / 5) + 1 }, (_, at) => ({
    elapsedS: 100 + 5 * at,
    pressurePa: paFromMicron(micronAt(5 * at)),
  }));
  return { readings, pumpOnS: 100, nowS: 100 + ranS, seesPump: true, ultimatePa: null, ...change };
}

const verdictOf = (...facts: Parameters<typeof factsWith>) =>
  checkPump(factsWith(...facts)).verdict;
const falling =
  (floor: number, tauS = 20) =>
  (s: number) =>
    floor + 100_000 * Math.exp(-s / tauS);

describe('a pump alone with the sensor', () => {
  test('is good below what is usual, and below twice its own figure', () => {
    expect(verdictOf(falling(60), 300)).toBe('good');
    expect(verdictOf(falling(60), 300, { ultimatePa: paFromMicron(40) })).toBe('good');
    expect(verdictOf(falling(60), 400, { ultimatePa: paFromMicron(15) })).toBe('high_floor');
  });

  test('is given five minutes', () => {
    expect(verdictOf(falling(400), 200)).toBe('too_early');
    expect(verdictOf(falling(400), 400)).toBe('high_floor');
    expect(verdictOf(falling(60), 200)).toBe('good');
  });

  test('still falls, stays far too high, or rises', () => {
    expect(verdictOf((s) => 4000 * Math.exp(-s / 300), 400)).toBe('still_falling');
    expect(verdictOf(falling(3000), 400)).toBe('far_too_high');
    expect(verdictOf((s) => 80 + 2 * s, 400)).toBe('rising');
  });

  test('is not judged from a sensor on the system, before it runs, or from no reading', () => {
    expect(verdictOf(falling(60), 300, { seesPump: false })).toBe('wrong_view');
    expect(verdictOf(falling(60), 300, { pumpOnS: null })).toBe('not_on');
    expect(verdictOf(falling(60), 300, { readings: [] })).toBe('sensor');
  });

  test('readings from before it was switched on say nothing', () => {
    const before = [{ elapsedS: 90, pressurePa: paFromMicron(10) }];
    expect(verdictOf(falling(60), 30, { readings: before })).toBe('too_early');
  });
});
